/**
 * The words of the language, as NISTIR 6556 section 3.4 table 4 groups them: at most one word of a modal group stands
 * on a line. G codes are kept times ten, so that G59.1 is 591.
 */
export const GROUP = Object.freeze({
  none: 0,
  motion: 1,
  plane: 2,
  distance: 3,
  feedMode: 5,
  units: 6,
  cutter: 7,
  length: 8,
  cycleReturn: 10,
  system: 12,
  path: 13,
  /** Group 0 of the report: G4 G10 G28 G30 G53 G92, not modal. */
  single: 14,
  /** Of the language, but not of what drilling, boring and marking need: refused by name, never passed over. */
  refused: 15,
});

const G_MEMBERS: readonly (readonly [group: number, codes: readonly number[]])[] = [
  [GROUP.motion, [0, 10, 20, 30, 800, 810, 820, 830, 850, 860, 890]],
  [GROUP.plane, [170, 180, 190]],
  [GROUP.distance, [900, 910]],
  [GROUP.feedMode, [930, 940]],
  [GROUP.units, [200, 210]],
  [GROUP.cutter, [400]],
  [GROUP.length, [430, 490]],
  [GROUP.cycleReturn, [980, 990]],
  [GROUP.system, [540, 550, 560, 570, 580, 590, 591, 592, 593]],
  [GROUP.path, [610, 611, 640]],
  [GROUP.refused, [382, 410, 420, 840, 870, 880]],
  [GROUP.single, [40, 100, 280, 300, 530, 920, 921, 922, 923]],
];

/** Modal group by G code times ten; 0 = no word of the language. */
export const G_GROUP: Uint8Array = table(1000, G_MEMBERS);

export const M_GROUP_OF = Object.freeze({ stop: 4, change: 6, spindle: 7, coolant: 8, overrides: 9 });

/** Modal group by M code; 0 = no word of the language. */
export const M_GROUP: Uint8Array = table(100, [
  [M_GROUP_OF.stop, [0, 1, 2, 30, 60]],
  [M_GROUP_OF.change, [6]],
  [M_GROUP_OF.spindle, [3, 4, 5]],
  [M_GROUP_OF.coolant, [7, 8, 9]],
  [M_GROUP_OF.overrides, [48, 49]],
]);

function table(size: number, members: readonly (readonly [number, readonly number[]])[]): Uint8Array {
  const groups = new Uint8Array(size);
  for (const [group, codes] of members) for (const code of codes) groups[code] = group;
  return groups;
}

/** Bit of a letter in a block's mask of words: A is bit 0. */
export const bit = (letter: string): number => 1 << (letter.charCodeAt(0) - 65);
/** Place of a letter's value in a block: A is 0. */
export const at = (letter: string): number => letter.charCodeAt(0) - 65;

export const AXES = ['X', 'Y', 'Z', 'A', 'B', 'C'] as const;
/** Place in a block of each axis' value, in the order X Y Z A B C. */
export const AXIS_AT: readonly number[] = AXES.map(at);
export const AXIS_BITS: readonly number[] = AXES.map(bit);
/** Axis of a letter, by `at`. */
export const AXIS_OF: Uint8Array = new Uint8Array(26);
for (const [axis, letter] of AXIS_AT.entries()) AXIS_OF[letter] = axis;
export const ANY_AXIS: number = AXIS_BITS.reduce((all, one) => all | one, 0);

/** Letters that begin a word (section 3.3.2); E O U V W are no letters of the language. */
export const LETTERS = 'ABCDFGHIJKLMNPQRSTXYZ';
