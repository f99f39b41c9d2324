import { bit, G_GROUP, GROUP, LETTERS, M_GROUP } from './codes.ts';
import type { RuleId } from './rules.ts';

/**
 * One line of a program, read but not yet executed. One block is used for all lines of a program, so that a line costs
 * no memory: `words` tells which of `value` count.
 */
export interface Block {
  /** Letters on the line, by `bit`; G and M have their own masks. */
  words: number;
  /** Value of each letter, by `at`. */
  readonly value: Float64Array;
  /** Modal groups with a G word on the line, by 1 << group. */
  gGroups: number;
  /** G code times ten of each group. */
  readonly g: Int32Array;
  mGroups: number;
  readonly m: Int32Array;
  /** M7 and M8 may stand together; `m` keeps the last. */
  mCount: number;
  /** The line starts with the block-delete bar. */
  deleted: boolean;
  percent: boolean;
  /** The line has something beside blanks and comments. */
  filled: boolean;
  semicolon: boolean;
  /** Where a comment with letters outside ASCII starts, or -1. */
  strange: number;
  /** First broken rule, or ''. */
  rule: RuleId | '';
  /** Where the broken word starts in the bytes. */
  wrongAt: number;
}

export const newBlock = (): Block => ({
  words: 0,
  value: new Float64Array(26),
  gGroups: 0,
  g: new Int32Array(16),
  mGroups: 0,
  m: new Int32Array(16),
  mCount: 0,
  deleted: false,
  percent: false,
  filled: false,
  semicolon: false,
  strange: -1,
  rule: '',
  wrongAt: 0,
});

const KIND = Object.freeze({
  illegal: 0,
  word: 1,
  blank: 2,
  end: 3,
  comment: 4,
  percent: 5,
  semicolon: 6,
  bar: 7,
  formula: 8,
  noWord: 9,
});

const kinds = new Uint8Array(256);
for (const letter of LETTERS) {
  kinds[letter.charCodeAt(0)] = KIND.word;
  kinds[letter.toLowerCase().charCodeAt(0)] = KIND.word;
}
for (const letter of 'EOUVWeouvw') kinds[letter.charCodeAt(0)] = KIND.noWord;
for (const [char, kind] of [
  [' ', KIND.blank],
  ['\t', KIND.blank],
  ['\n', KIND.end],
  ['\r', KIND.end],
  ['(', KIND.comment],
  ['%', KIND.percent],
  [';', KIND.semicolon],
  ['/', KIND.bar],
  ['#', KIND.formula],
  ['[', KIND.formula],
] as const)
  kinds[char.charCodeAt(0)] = kind;

const TEN = Float64Array.from({ length: 23 }, (_, n) => 10 ** n);
/** A mantissa of so many digits is exact in a double, and so is its quotient by a power of ten to the last bit. */
const EXACT_DIGITS = 15;
/** Longest line (section 3.3). */
export const LONGEST_LINE = 256;
/** Longest line number: five digits (section 3.3.1). */
const LINE_NUMBER_DIGITS = 5;
/** A field that must be whole may miss it by so much (section 3.3.2.1). */
export const WHOLE = 0.0001;

const N_BIT = bit('N');
const G = 6;
const M = 12;
const N = 13;

const SPACE = 32;
const TAB = 9;
const LF = 10;
const CR = 13;
const DOT = 46;
const PLUS = 43;
const MINUS = 45;
const ZERO = 48;

/**
 * Reads the line that starts at `from` and ends before `end` (a line end must lie at or before `end`, or the text ends
 * there). Gives the place of the line's end. Blanks have no meaning, not even inside a number (section 3.3).
 */
export function readBlock(bytes: Uint8Array, from: number, end: number, block: Block): number {
  block.words = 0;
  block.gGroups = 0;
  block.mGroups = 0;
  block.mCount = 0;
  block.deleted = false;
  block.percent = false;
  block.filled = false;
  block.semicolon = false;
  block.strange = -1;
  block.rule = '';
  let pos = from;
  while (pos < end) {
    const char = bytes[pos]!;
    const kind = kinds[char]!;
    if (kind === KIND.word) {
      const letter = (char & 31) - 1;
      const start = pos;
      block.filled = true;
      // The number, read here and not in a function of its own: this is the hottest place of the program.
      let p = pos + 1;
      let c = p < end ? bytes[p]! : LF;
      while (c === SPACE || c === TAB) c = ++p < end ? bytes[p]! : LF;
      let negative = false;
      let signed = false;
      if (c === MINUS || c === PLUS) {
        negative = c === MINUS;
        signed = true;
        c = ++p < end ? bytes[p]! : LF;
      }
      let mantissa = 0;
      let digits = 0;
      let digitsBeforeDot = -1;
      for (;;) {
        let digit = c - ZERO;
        while (digit >= 0 && digit <= 9) {
          mantissa = mantissa * 10 + digit;
          digits++;
          c = ++p < end ? bytes[p]! : LF;
          digit = c - ZERO;
        }
        if (c === DOT && digitsBeforeDot < 0) digitsBeforeDot = digits;
        else if (c !== SPACE && c !== TAB) break;
        c = ++p < end ? bytes[p]! : LF;
      }
      pos = p;
      if (digits === 0) return wrong(block, wrongNumber(c), start, bytes, pos, end);
      if (c === DOT) return wrong(block, 'number-malformed', start, bytes, pos, end);
      const decimals = digitsBeforeDot < 0 ? -1 : digits - digitsBeforeDot;
      let value = decimals > 0 ? mantissa / TEN[decimals < 23 ? decimals : 22]! : mantissa;
      if (digits > EXACT_DIGITS) value = longNumber(bytes, start + 1, pos);
      if (negative) value = -value;
      if (letter === G) {
        const tenfold = value * 10;
        const code = Math.round(tenfold);
        const group = code >= 0 && code < 1000 && Math.abs(tenfold - code) <= 10 * WHOLE ? G_GROUP[code]! : 0;
        if (group === 0) return wrong(block, 'code-unknown', start, bytes, pos, end);
        if (group === GROUP.refused) return wrong(block, 'code-not-supported', start, bytes, pos, end);
        if ((block.gGroups & (1 << group)) !== 0) return wrong(block, 'two-of-one-group', start, bytes, pos, end);
        block.gGroups |= 1 << group;
        block.g[group] = code;
      } else if (letter === M) {
        const code = Math.round(value);
        const group = code >= 0 && code < 100 && Math.abs(value - code) <= WHOLE ? M_GROUP[code]! : 0;
        if (group === 0) return wrong(block, 'code-unknown', start, bytes, pos, end);
        if (!admitM(block, code, group)) return wrong(block, 'two-of-one-group', start, bytes, pos, end);
      } else if (letter === N) {
        const first = block.words === 0 && block.gGroups === 0 && block.mGroups === 0;
        if (!first || signed || decimals >= 0 || digits > LINE_NUMBER_DIGITS)
          return wrong(block, 'line-number-malformed', start, bytes, pos, end);
        block.words |= N_BIT;
      } else {
        const mask = 1 << letter;
        if ((block.words & mask) !== 0) return wrong(block, 'word-twice', start, bytes, pos, end);
        block.words |= mask;
        block.value[letter] = value;
        if (!(value < 1e9 && value > -1e9)) return wrong(block, 'number-too-large', start, bytes, pos, end);
      }
    } else if (kind === KIND.blank) pos++;
    else if (kind === KIND.end) break;
    else if (kind === KIND.comment) {
      const start = pos;
      for (pos++; pos < end; pos++) {
        const c = bytes[pos]!;
        if (c === 41 || c === LF || c === CR) break;
        if (c === 40) return wrong(block, 'comment-nested', start, bytes, pos, end);
        if (c > 126 && block.strange < 0) block.strange = start;
        if (c < SPACE && c !== TAB) return wrong(block, 'character-illegal', pos, bytes, pos, end);
      }
      if (pos >= end || bytes[pos] !== 41) return wrong(block, 'comment-open', start, bytes, pos, end);
      pos++;
    } else if (kind === KIND.semicolon) {
      block.semicolon = true;
      const start = pos;
      pos = lineEnd(bytes, pos, end);
      for (let p = start; p < pos; p++) {
        const c = bytes[p]!;
        if (c > 126) block.strange = start;
        if (c < SPACE && c !== TAB) return wrong(block, 'character-illegal', p, bytes, pos, end);
      }
    } else if (kind === KIND.bar && !block.filled && !block.deleted) {
      block.deleted = true;
      pos++;
    } else if (kind === KIND.percent && !block.filled && !block.percent) {
      block.percent = true;
      pos++;
    } else return wrong(block, wrongCharacter(kind), pos, bytes, pos + 1, end);
    if (block.percent && block.filled) return wrong(block, 'percent-not-alone', from, bytes, pos, end);
  }
  if (pos - from > LONGEST_LINE) return wrong(block, 'line-too-long', from, bytes, pos, end);
  return pos;
}

/** Notes the first broken rule and passes over the rest of the line. */
function wrong(block: Block, rule: RuleId, start: number, bytes: Uint8Array, pos: number, end: number): number {
  block.rule = rule;
  block.wrongAt = start;
  return lineEnd(bytes, pos, end);
}

function lineEnd(bytes: Uint8Array, from: number, end: number): number {
  let pos = from;
  while (pos < end && bytes[pos] !== LF && bytes[pos] !== CR) pos++;
  return pos;
}

const wrongNumber = (char: number): RuleId => {
  if (kinds[char] === KIND.formula) return 'formula-not-supported';
  return kinds[char] === KIND.illegal ? 'character-illegal' : 'number-missing';
};

function wrongCharacter(kind: number): RuleId {
  if (kind === KIND.noWord) return 'letter-unknown';
  if (kind === KIND.formula) return 'formula-not-supported';
  if (kind === KIND.bar) return 'bar-not-first';
  if (kind === KIND.percent) return 'percent-not-alone';
  return 'character-illegal';
}

/** One M word a group, four in all; M7 and M8 may be on together (section 3.4). */
function admitM(block: Block, code: number, group: number): boolean {
  const taken = (block.mGroups & (1 << group)) !== 0;
  const bothCoolants = taken && group === 8 && code + block.m[group]! === 15;
  if ((taken && !bothCoolants) || ++block.mCount > 4) return false;
  block.mGroups |= 1 << group;
  block.m[group] = code;
  return true;
}

/** A number of more digits than a double holds, rounded to the nearest double. */
function longNumber(bytes: Uint8Array, from: number, end: number): number {
  let text = '';
  for (let p = from; p < end && text.length < 400; p++) {
    const c = bytes[p]!;
    if (c === DOT || (c >= ZERO && c <= ZERO + 9)) text += String.fromCharCode(c);
  }
  return Number(text);
}

/** The word that starts at `start`, as it can be shown: at most 24 printable characters. */
export function wordText(bytes: Uint8Array, start: number, end: number): string {
  let text = '';
  for (let p = start; p < end && text.length < 24; p++) {
    const c = bytes[p]!;
    if (c === LF || c === CR) break;
    if (p > start && text.length > 0 && kinds[c] === KIND.word && kinds[bytes[start]!] === KIND.word) break;
    text += c >= 32 && c < 127 ? String.fromCharCode(c) : `<${c.toString(16).padStart(2, '0')}>`;
  }
  return text.trim();
}
