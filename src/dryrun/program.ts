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
/** Bytes of a text read at a time. */
const PIECE = 1 << 16;
const LF = 10;
const CR = 13;
const SPACE = 32;
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

  /** Reads the whole lines of `bytes` from `from`; gives where the unfinished last line starts, or what follows the end. */
  function readLines(bytes: Uint8Array, from: number): number {
    let last = bytes.length - 1;
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

  function pushBytes(bytes: Uint8Array): void {
    let from = skipMark(bytes);
    if (keptLength > 0) {
      while (from < bytes.length && bytes[from] !== LF && bytes[from] !== CR) from++;
      keep(bytes, 0, from);
      if (from === bytes.length) return;
      flushKept();
      sawCr = bytes[from++] === CR;
    }
    if (!ended()) from = readLines(bytes, from);
    if (ended()) afterEnd(bytes, from);
    else keep(bytes, from, bytes.length);
  }

  function skipMark(bytes: Uint8Array): number {
    const atStart = run.line === 0 && keptLength === 0 && !run.said.has('byte-order-mark');
    if (!atStart || bytes[0] !== 0xef || bytes[1] !== 0xbb || bytes[2] !== 0xbf) return 0;
    run.said.add('byte-order-mark');
    listener.problem(remark('byte-order-mark', 1, 'U+FEFF'));
    return 3;
  }

  function afterEnd(bytes: Uint8Array, from: number): void {
    if (run.said.has('lines-after-end') || !bytes.subarray(from).some((c) => c > SPACE && c !== PERCENT)) return;
    run.said.add('lines-after-end');
    listener.problem(remark('lines-after-end', run.line + 1, ''));
  }

  function push(piece: string | Uint8Array): boolean {
    if (typeof piece !== 'string') pushBytes(piece);
    else {
      encoded ??= new Uint8Array(PIECE);
      // What stands for one character is never cut: it is written whole or left for the next round.
      for (let from = 0; from < piece.length; ) {
        const { read, written } = encoder.encodeInto(piece.slice(from), encoded);
        pushBytes(encoded.subarray(0, written));
        from += read;
      }
    }
    return !ended();
  }

  function finish(): void {
    if (!ended() && keptLength > 0) flushKept();
    if (ended()) return;
    if (percentOpen) listener.problem(refusal('percent-missing', run.line, '%'));
    else listener.problem(remark('end-missing', run.line, ''));
  }

  return { push, finish, lines: () => run.line };
}
