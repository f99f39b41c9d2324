import type { Saying } from '../model/finding.ts';
import { LANGUAGE } from './dryrun-words.ts';
import { capital, word } from './saying.ts';

/** Rules of the language; each breaks a line, which is then not executed. */
const REFUSALS = [
  'character-illegal',
  'letter-unknown',
  'number-missing',
  'number-malformed',
  'number-too-large',
  'formula-not-supported',
  'line-number-malformed',
  'comment-open',
  'comment-nested',
  'bar-not-first',
  'percent-not-alone',
  'percent-stray',
  'percent-missing',
  'line-too-long',
  'code-unknown',
  'code-not-supported',
  'two-of-one-group',
  'word-twice',
  'word-unused',
  'axis-words-missing',
  'axis-words-twice-used',
  'axis-words-without-motion',
  'motion-unset',
  'number-negative',
  'number-not-whole',
  'dwell-missing',
  'feed-missing',
  'feed-zero',
  'arc-words-missing',
  'arc-words-mixed',
  'arc-ends-where-it-starts',
  'arc-radius-too-small',
  'arc-does-not-close',
  'machine-coordinates-need-a-line',
  'position-unknown',
  'cycle-words-missing',
  'cycle-retract-below-bottom',
  'cycle-peck-missing',
  'cycle-turns',
  'cycle-in-inverse-time',
  'cycle-needs-spindle',
  'cycle-endless',
] as const;

const REMARKS: Readonly<Record<string, string>> = {
  'units-unset': 'Write G21 (millimetres) or G20 (inches) before the first move.',
  'feed-unset': 'Write an F word on the first G1, G2, G3 or cycle line.',
  'distance-unset': 'Write G90 in the first line.',
  'plane-unset': 'Write G17 in the first line.',
  'cycle-return-unset': 'Write G98 or G99 in the first line.',
  'feed-in-other-units': 'Write F again after G20 or G21.',
  'tool-unset': 'Write the tool: T1 M6.',
  'speed-unset': 'Write the speed with it: S1500 M3.',
  'work-offset-unset': 'Use G54, or set the offset with G10 L2.',
  'machine-coordinates': "Write the move in the shell's own coordinates, without G53.",
  'home-unknown': 'End with plain G0 moves to a safe place instead.',
  'zero-taken-here': 'Touch off on the machine instead, and leave G92 out.',
  'length-of-other-tool': 'Let H name the tool in the spindle.',
  'semicolon-comment': 'Put comments in brackets: ( … ).',
  'comment-not-ascii': 'Write the comment in plain letters.',
  'byte-order-mark': 'Save the file as plain text without a byte-order mark.',
  'lines-after-end': 'Leave the lines out, or move M2 to the end.',
  'end-missing': 'End the program with M2; if it ended with it before, the file has been cut off.',
};

const refused: Saying = {
  text: (f) =>
    `“${word(f, 'word')}” ${word(f, 'rule')} (section ${word(f, 'section')}). The line is not executed; what follows is judged as if it were not there.`,
  try: () => 'Write the line within the language, or leave it out.',
  source: LANGUAGE,
};

const remarked = (cure: string): Saying => ({
  text: (f) => (word(f, 'word') === '' ? `${capital(word(f, 'rule'))}.` : `“${word(f, 'word')}” ${word(f, 'rule')}.`),
  try: () => cure,
  source: LANGUAGE,
});

/** What breaks the rules of the language, and what it leaves to whoever stands at the machine. */
export const languageSayings: Readonly<Record<string, Saying>> = {
  ...Object.fromEntries(REFUSALS.map((id) => [id, refused])),
  ...Object.fromEntries(Object.entries(REMARKS).map(([id, cure]) => [id, remarked(cure)])),
};
