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
  /** The line has words. */
  filled: boolean;
  /** Nothing is to be said of the line: what follows is as in `newBlock`. */
  plain: boolean;
  /** The line starts with the block-delete bar. */
  deleted: boolean;
  percent: boolean;
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
  filled: false,
  plain: true,
  deleted: false,
  percent: false,
  semicolon: false,
  strange: -1,
  rule: '',
  wrongAt: 0,
});

function makePlain(block: Block): void {
  block.plain = true;
  block.deleted = false;
  block.percent = false;
  block.semicolon = false;
  block.strange = -1;
  block.rule = '';
  block.wrongAt = 0;
}

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

const TEN = Float64Array.from({ length: 16 }, (_, n) => 10 ** n);
/** So many digits fit a whole number of 32 bits. */
const SHORT_DIGITS = 9;
/** A mantissa of so many digits is exact in a double, and its quotient by a power of ten is right to the last bit. */
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
 * Reads the line that starts at `from`; a line end must lie at or after it in `bytes`. Gives the place of the line's end.
 * Blanks have no meaning, not even inside a number (section 3.3). The hottest place of the program: what every word needs
 * stands here and not in functions of its own, and is kept in locals until the line is read.
 */
export function readBlock(bytes: Uint8Array, from: number, block: Block): number {
  if (!block.plain) makePlain(block);
  const { value } = block;
  let words = 0;
  let gGroups = 0;
  block.mGroups = 0;
  block.mCount = 0;
  let pos = from;
  for (;;) {
    const char = bytes[pos]!;
    const kind = kinds[char]!;
    if (kind === KIND.word) {
      const start = pos;
      let c = bytes[++pos]!;
      while (c === SPACE || c === TAB) c = bytes[++pos]!;
      const negative = c === MINUS;
      const signed = negative || c === PLUS;
      if (signed) c = bytes[++pos]!;
      let mantissa = 0;
      let digits = 0;
      let digitsBeforeDot = -1;
      for (;;) {
        let digit = c - ZERO;
        while (digit >= 0 && digit <= 9) {
          mantissa = (Math.imul(mantissa, 10) + digit) | 0;
          digits++;
          c = bytes[++pos]!;
          digit = c - ZERO;
        }
        if (c === DOT && digitsBeforeDot < 0) digitsBeforeDot = digits;
        else if (c !== SPACE && c !== TAB) break;
        c = bytes[++pos]!;
      }
      if (digits === 0) return wrong(block, wrongNumber(c), start, bytes, pos);
      if (c === DOT) return wrong(block, 'number-malformed', start, bytes, pos);
      const decimals = digitsBeforeDot < 0 ? -1 : digits - digitsBeforeDot;
      let number = mantissa;
      if (digits > SHORT_DIGITS) number = longNumber(bytes, start + 1, pos);
      else if (decimals > 0) number = mantissa / TEN[decimals]!;
      if (negative) number = -number;
      const letter = (char & 31) - 1;
      if (letter === G) {
        const tenfold = number * 10;
        const code = Math.round(tenfold);
        const group = code >= 0 && code < 1000 && Math.abs(tenfold - code) <= 10 * WHOLE ? G_GROUP[code]! : 0;
        if (group === 0) return wrong(block, 'code-unknown', start, bytes, pos);
        if (group === GROUP.refused) return wrong(block, 'code-not-supported', start, bytes, pos);
        if ((gGroups & (1 << group)) !== 0) return wrong(block, 'two-of-one-group', start, bytes, pos);
        gGroups |= 1 << group;
        block.g[group] = code;
      } else if (letter === M) {
        const code = Math.round(number);
        const group = code >= 0 && code < 100 && Math.abs(number - code) <= WHOLE ? M_GROUP[code]! : 0;
        if (group === 0) return wrong(block, 'code-unknown', start, bytes, pos);
        if (!admitM(block, code, group)) return wrong(block, 'two-of-one-group', start, bytes, pos);
      } else if (letter === N) {
        const first = words === 0 && gGroups === 0 && block.mGroups === 0;
        if (!first || signed || decimals >= 0 || digits > LINE_NUMBER_DIGITS)
          return wrong(block, 'line-number-malformed', start, bytes, pos);
        words |= N_BIT;
      } else {
        const mask = 1 << letter;
        if ((words & mask) !== 0) return wrong(block, 'word-twice', start, bytes, pos);
        words |= mask;
        value[letter] = number;
        if (!(number < 1e9 && number > -1e9)) return wrong(block, 'number-too-large', start, bytes, pos);
      }
      if (block.percent) return wrong(block, 'percent-not-alone', from, bytes, pos);
    } else if (kind === KIND.end) break;
    else if (kind === KIND.blank) pos++;
    else {
      const filled = words !== 0 || gGroups !== 0 || block.mGroups !== 0;
      pos = readRest(bytes, pos, filled, block);
      if (block.rule !== '') return pos;
    }
  }
  if (pos - from > LONGEST_LINE) return wrong(block, 'line-too-long', from, bytes, pos);
  block.words = words;
  block.gGroups = gGroups;
  block.filled = words !== 0 || gGroups !== 0 || block.mGroups !== 0;
  return pos;
}

/** What is neither word nor blank: comments, bar, percent, and what has no place in the language. */
function readRest(bytes: Uint8Array, from: number, filled: boolean, block: Block): number {
  const kind = kinds[bytes[from]!]!;
  let pos = from + 1;
  if (kind === KIND.comment) {
    for (; ; pos++) {
      const c = bytes[pos]!;
      if (c === 41) return pos + 1;
      if (c === LF || c === CR) return wrong(block, 'comment-open', from, bytes, pos);
      if (c === 40) return wrong(block, 'comment-nested', from, bytes, pos);
      if (c > 126 && block.strange < 0) {
        block.strange = from;
        block.plain = false;
      }
      if (c < SPACE && c !== TAB) return wrong(block, 'character-illegal', pos, bytes, pos);
    }
  }
  if (kind === KIND.semicolon) {
    block.plain = false;
    block.semicolon = true;
    for (; ; pos++) {
      const c = bytes[pos]!;
      if (c === LF || c === CR) return pos;
      if (c > 126) block.strange = from;
      if (c < SPACE && c !== TAB) return wrong(block, 'character-illegal', pos, bytes, pos);
    }
  }
  if (kind === KIND.bar && !filled && !block.deleted) {
    block.plain = false;
    block.deleted = true;
    return pos;
  }
  if (kind === KIND.percent && !filled && !block.percent) {
    block.plain = false;
    block.percent = true;
    return pos;
  }
  return wrong(block, wrongCharacter(kind), from, bytes, pos);
}

/** Notes the first broken rule and passes over the rest of the line. */
function wrong(block: Block, rule: RuleId, start: number, bytes: Uint8Array, pos: number): number {
  block.plain = false;
  block.rule = rule;
  block.wrongAt = start;
  let end = pos;
  while (bytes[end] !== LF && bytes[end] !== CR) end++;
  return end;
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

/** A number of many digits, rounded to the nearest double. */
function longNumber(bytes: Uint8Array, from: number, end: number): number {
  let mantissa = 0;
  let digits = 0;
  let decimals = 0;
  let afterDot = 0;
  let text = '';
  for (let p = from; p < end && text.length < 400; p++) {
    const c = bytes[p]!;
    if (c === DOT) afterDot = 1;
    else if (c < ZERO || c > ZERO + 9) continue;
    else {
      mantissa = mantissa * 10 + (c - ZERO);
      digits++;
      decimals += afterDot;
    }
    text += String.fromCharCode(c);
  }
  return digits <= EXACT_DIGITS ? mantissa / TEN[decimals]! : Number(text);
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
