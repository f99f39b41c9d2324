/**
 * What a program can do against the published language (NISTIR 6556), by stable id: the rule in words and its section.
 * A line that breaks one is refused whole: nothing of it is executed.
 */
const REFUSALS = {
  'character-illegal': ['is no character of the language', '3.3'],
  'letter-unknown': ['begins with a letter the language does not have', '3.3.2'],
  'number-missing': ['has no number after its letter', '3.3.2.1'],
  'number-malformed': ['has a number with two decimal points', '3.3.2.1'],
  'number-too-large': ['has a number too large to be meant', '3.3.2.1'],
  'formula-not-supported': ['uses a parameter or an expression, which this dry run does not read', '3.3.2.2'],
  'line-number-malformed': ['is no line number: N first on the line and one to five digits', '3.3.1'],
  'comment-open': ['opens a comment that the line does not close', '3.3.4'],
  'comment-nested': ['opens a comment inside a comment', '3.3.4'],
  'bar-not-first': ['stands inside the line: the block-delete bar comes first', '3.3'],
  'percent-not-alone': ['shares its line: % stands alone', '3.1'],
  'percent-stray': ['has no % at the start of the file to close', '3.1'],
  'percent-missing': ['opens the file, and no second % closes it', '3.1'],
  'line-too-long': ['is in a line of more than 256 characters', '3.3'],
  'code-unknown': ['is no word of the language', '3.4 table 4'],
  'code-not-supported': [
    'belongs to the language, but not to what drilling needs: this dry run does not follow it',
    '3.5',
  ],
  'two-of-one-group': ['is a second word of its group on one line', '3.4 table 4'],
  'word-twice': ['stands twice on the line', '3.3.6'],
  'word-unused': ['has nothing on this line that uses it', '3.3.6'],
  'axis-words-missing': ['needs axis words on its line', '3.5'],
  'axis-words-twice-used': ['and another word on the line both take the axis words', '3.4'],
  'axis-words-without-motion': ['is an axis word while G80 is in force', '3.5.15'],
  'motion-unset': ['moves before any G0, G1, G2, G3 or cycle was given', '3.4'],
  'number-negative': ['must not be negative', '3.5'],
  'number-not-whole': ['must be a whole number in its range', '3.5'],
  'dwell-missing': ['needs a P word, the dwell in seconds', '3.5.4'],
  'feed-missing': ['needs its own F on each line while G93 is in force', '3.5.19'],
  'feed-zero': ['is a feed of nothing: no feed move can run at it', '3.7.1'],
  'arc-words-missing': ['needs an axis word in its plane and an R or centre words', '3.5.3'],
  'arc-words-mixed': ['has both R and centre words, or a centre word outside its plane', '3.5.3'],
  'arc-ends-where-it-starts': ['ends where it starts: an R arc cannot be a full circle', '3.5.3.1'],
  'arc-radius-too-small': ['has a radius too small to reach its end', '3.5.3.1'],
  'arc-does-not-close': ['has start and end at different distances from its centre (more than 0.002 mm)', '3.5.3.2'],
  'machine-coordinates-need-a-line': ['needs G0 or G1 in force', '3.5.12'],
  'position-unknown': ['starts from a place that no line has set yet', '3.5'],
  'cycle-words-missing': ['needs its bottom and retract words when the cycle starts', '3.5.16'],
  'cycle-retract-below-bottom': ['has its retract plane R below its bottom', '3.5.16'],
  'cycle-peck-missing': ['needs a peck Q above nothing', '3.5.16.4'],
  'cycle-turns': ['would move a rotary axis: a drilling cycle never does', '3.5.16'],
  'cycle-in-inverse-time': ['cannot run while G93 is in force', '3.5.16'],
  'cycle-needs-spindle': ['needs the spindle turning', '3.5.16.7'],
  'cycle-endless': ['would peck or repeat more than 100 000 times', 'derived: kept finite'],
} as const satisfies Record<string, readonly [rule: string, section: string]>;

/** What a program leaves open or does oddly, though the language allows it. The line is executed. */
const REMARKS = {
  'units-unset': ['moves before G20 or G21 has said inches or millimetres', 'stop'],
  'feed-unset': ['cuts before any F was given', 'stop'],
  'distance-unset': ['moves before G90 or G91 was given: taken as G90', 'care'],
  'plane-unset': ['uses a plane before G17, G18 or G19 was given: taken as G17', 'care'],
  'cycle-return-unset': ['runs a cycle before G98 or G99 was given: taken as G98', 'care'],
  'feed-in-other-units': ['cuts with an F that was given before the units changed', 'care'],
  'tool-unset': ['changes to a tool that no T word has named', 'stop'],
  'speed-unset': ['starts the spindle before any S was given', 'stop'],
  'work-offset-unset': ['selects a work offset the program never sets: taken as nothing', 'care'],
  'machine-coordinates': ['moves in machine coordinates: taken as those of the shell', 'care'],
  'home-unknown': ["goes to the machine's home: taken as its zero", 'care'],
  'zero-taken-here': ['calls an unknown place by these coordinates: taken as true', 'care'],
  'length-of-other-tool': ['takes the length offset of another tool than the one in the spindle', 'stop'],
  'machine-lacks': ["is nothing this machine's controller understands", 'care'],
  'semicolon-comment': ['opens a comment the published language does not have, though many controllers do', 'note'],
  'comment-not-ascii': ['has letters outside ASCII, which many controllers cannot read', 'note'],
  'byte-order-mark': ['is a byte-order mark before the first line; it is passed over', 'note'],
  'lines-after-end': ['stands after the end of the program: it never runs', 'note'],
  'end-missing': ['no M2, M30 or closing % ends the program: it may be cut off', 'stop'],
} as const satisfies Record<string, readonly [rule: string, level: 'stop' | 'care' | 'note']>;

export type RuleId = keyof typeof REFUSALS;
export type RemarkId = keyof typeof REMARKS;

/** Something to say about a line. `executed` tells a remark from a refusal. */
export interface Problem {
  readonly kind: 'problem';
  readonly level: 'stop' | 'care' | 'note';
  readonly id: RuleId | RemarkId;
  /** 1-based line of the program. */
  readonly line: number;
  /** The word at fault, as it can be shown. */
  readonly word: string;
  /** What the word does wrong; reads on after it. */
  readonly rule: string;
  /** NISTIR 6556 section, '' for a remark. */
  readonly section: string;
  readonly executed: boolean;
}

export function refusal(id: RuleId, line: number, word: string): Problem {
  const [rule, section] = REFUSALS[id];
  return { kind: 'problem', level: 'stop', id, line, word, rule, section, executed: false };
}

export function remark(id: RemarkId, line: number, word: string): Problem {
  const [rule, level] = REMARKS[id];
  return { kind: 'problem', level, id, line, word, rule, section: '', executed: true };
}

export const REFUSAL_IDS = Object.keys(REFUSALS) as readonly RuleId[];
export const REMARK_IDS = Object.keys(REMARKS) as readonly RemarkId[];
