import { LONGEST_LINE, newBlock, readBlock, wordText } from './block.ts';
import { execute } from './execute.ts';
import { type InterpretOptions, settingsOf } from './options.ts';
import { refusal, remark } from './rules.ts';
import type { Listener, Run } from './run.ts';
import { newState } from './state.ts';

/** A program being read, piece by piece. Memory does not grow with its length. */
export interface ProgramReader {
  /** Reads on; pieces may end anywhere. False once the program has ended: the rest need not be read. */
  readonly push: (piece: string | Uint8Array) => boolean;
  /** To be called once, after the last piece. */
  readonly finish: () => void;
  /** Lines seen so far. */
  readonly lines: () => number;
}

/** A line longer than this is kept only so far: it is refused anyway (the language allows 256 characters). */
const KEPT = 16 * LONGEST_LINE;
const PIECE = 1 << 16;
const LF = 10;
const CR = 13;
const PERCENT = 37;

/** Reads a program and tells `listener` each step and problem, in order. Never throws, never waits. */
export function readProgram(listener: Listener, options: InterpretOptions = {}): ProgramReader {
  const block = newBlock();
  const run: Run = {
    state: newState(options.start),
    block,
    settings: settingsOf(options),
    listener,
    said: new Set(),
    line: 0,
  };
  const deletes = options.blockDelete ?? false;
  let filledLines = 0;
  let percentOpen = false;
  let percentClosed = false;
  let sawCr = false;
  const kept = new Uint8Array(KEPT + 1);
  let keptLength = 0;
  let overlong = false;
  let first = true;
  const encoder = new TextEncoder();
  let encoded: Uint8Array | undefined;

  const ended = (): boolean => run.state.ended || percentClosed;

  /** The line in `block` has been read from `bytes`, and there is something to say of it. */
  function oddLineRead(bytes: Uint8Array, end: number): void {
    if (block.rule !== '') {
      filledLines++;
      if (block.deleted && deletes) return;
      listener.problem(refusal(block.rule, run.line, wordText(bytes, block.wrongAt, end)));
      return;
    }
    if (block.semicolon && !run.said.has('semicolon-comment')) {
      run.said.add('semicolon-comment');
      listener.problem(remark('semicolon-comment', run.line, ';'));
    }
    if (block.strange >= 0 && !run.said.has('comment-not-ascii')) {
      run.said.add('comment-not-ascii');
      listener.problem(remark('comment-not-ascii', run.line, wordText(bytes, block.strange, end)));
    }
    if (block.percent) {
      if (filledLines === 0) percentOpen = true;
      else if (percentOpen) percentClosed = true;
      else listener.problem(refusal('percent-stray', run.line, '%'));
      filledLines++;
      return;
    }
    if (!block.filled) return;
    filledLines++;
    if (block.deleted && deletes) return;
    execute(run);
  }

  function lineRead(bytes: Uint8Array, end: number): void {
    if (!block.plain) oddLineRead(bytes, end);
    else if (block.filled) {
      filledLines++;
      execute(run);
    }
  }

  /** Reads the whole lines of `bytes` up to `end`; gives where the unfinished last line starts. */
  function readLines(bytes: Uint8Array, from: number, end: number): number {
    let last = end - 1;
    while (last >= from && bytes[last] !== LF && bytes[last] !== CR) last--;
    let pos = from;
    while (pos <= last) {
      // A line's end may be CR, LF or both, and both may come in two pieces.
      if (sawCr && bytes[pos] === LF) {
        sawCr = false;
        pos++;
        continue;
      }
      run.line++;
      const lineEnd = readBlock(bytes, pos, block);
      sawCr = bytes[lineEnd] === CR;
      pos = lineEnd + 1;
      lineRead(bytes, lineEnd);
      if (ended()) break;
    }
    return pos;
  }

  function keep(bytes: Uint8Array, from: number, end: number): void {
    const room = Math.min(KEPT - keptLength, end - from);
    kept.set(bytes.subarray(from, from + room), keptLength);
    keptLength += room;
    if (room < end - from) overlong = true;
  }

  /** Ends the line that lies in `kept`. */
  function flushKept(): void {
    run.line++;
    kept[keptLength] = LF;
    readBlock(kept, 0, block);
    if (overlong) {
      block.plain = false;
      block.rule = 'line-too-long';
      block.wrongAt = 0;
    }
    lineRead(kept, keptLength);
    keptLength = 0;
    overlong = false;
  }

  function pushBytes(bytes: Uint8Array, length: number): void {
    let from = 0;
    if (keptLength > 0) {
      let end = 0;
      while (end < length && bytes[end] !== LF && bytes[end] !== CR) end++;
      keep(bytes, 0, end);
      if (end === length) return;
      flushKept();
      sawCr = bytes[end] === CR;
      from = end + 1;
      if (ended()) return;
    }
    const rest = readLines(bytes, from, length);
    if (!ended() && rest < length) keep(bytes, rest, length);
  }

  function skipMark(bytes: Uint8Array, length: number): number {
    first = false;
    if (length < 3 || bytes[0] !== 0xef || bytes[1] !== 0xbb || bytes[2] !== 0xbf) return 0;
    listener.problem(remark('byte-order-mark', 1, 'U+FEFF'));
    return 3;
  }

  function accept(bytes: Uint8Array, length: number): void {
    const mark = first ? skipMark(bytes, length) : 0;
    pushBytes(mark === 0 ? bytes : bytes.subarray(mark), length - mark);
  }

  function push(piece: string | Uint8Array): boolean {
    if (ended()) {
      afterEnd(piece);
      return false;
    }
    if (typeof piece !== 'string') accept(piece, piece.length);
    else {
      encoded ??= new Uint8Array(PIECE * 3);
      for (let from = 0; from < piece.length && !ended(); ) {
        // A pair of halves that stands for one character must not be cut.
        let to = Math.min(piece.length, from + PIECE);
        const last = piece.charCodeAt(to - 1);
        if (to < piece.length && last >= 0xd800 && last < 0xdc00) to--;
        const { written } = encoder.encodeInto(
          from === 0 && to === piece.length ? piece : piece.slice(from, to),
          encoded,
        );
        accept(encoded, written);
        from = to;
      }
    }
    return !ended();
  }

  function afterEnd(piece: string | Uint8Array): void {
    if (run.said.has('lines-after-end')) return;
    for (let p = 0; p < piece.length; p++) {
      const c = typeof piece === 'string' ? piece.charCodeAt(p) : piece[p]!;
      if (c > 32 && c !== PERCENT) {
        run.said.add('lines-after-end');
        listener.problem(remark('lines-after-end', run.line + 1, ''));
        return;
      }
    }
  }

  function finish(): void {
    if (!ended() && keptLength > 0) flushKept();
    if (ended()) return;
    if (percentOpen) listener.problem(refusal('percent-missing', run.line, '%'));
    else listener.problem(remark('end-missing', run.line, ''));
  }

  return { push, finish, lines: () => run.line };
}
