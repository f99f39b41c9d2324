import type { Fact, Saying } from '../model/finding.ts';
import { limit, measured, num, word } from './saying.ts';

const LANGUAGE = 'NISTIR 6556 (RS274/NGC)';
const DERIVED = 'derived: the tool’s way against the shell’s cylinders';
const MACHINE = 'the machine’s profile';
const PLAN = 'the plan of this jig file';
const PRACTICE = 'common practice, no source';

/** `2 times too large`, `1.0101 times too small`. */
const times = (f: Fact): string => {
  const factor = Number(f.measured);
  return factor < 1
    ? `${Number((1 / factor).toPrecision(5))} times too small`
    : `${Number(factor.toPrecision(5))} times too large`;
};

/** Other measures of a turn that programs are written in by mistake: what A in degrees becomes. */
const OTHER_ANGLES: readonly (readonly [number, string])[] = [
  [Math.PI / 180, ', as if in radians'],
  [1 / 360, ', as if in turns'],
  [400 / 360, ', as if in gon (400 to a turn)'],
];

/** A scale is told from found places, which are right to thousandths of a turn. */
const reason = (factor: number): string =>
  OTHER_ANGLES.find(([other]) => Math.abs(factor / other - 1) < 0.002)?.[1] ?? '';

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
  'machine-coordinates': 'Write the move in the shell’s own coordinates, without G53.',
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

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
const tool = (f: Fact): string => `tool ${word(f, 'tool')}`;
const place = (f: Fact): string => `${num(f, 'angle', 2)} deg, ${num(f, 'height', 2)} mm above the bottom edge`;

const WOOD: Readonly<Record<string, Saying>> = {
  'rapid-into-wood': say(
    (f) => `A rapid move takes ${tool(f)} ${measured(f, 2)} into the wood.`,
    () => 'Stop the rapid above the skin (Z 1 or more) and go in with G1.',
  ),
  'turned-in-wood': say(
    (f) => `The shell turns while ${tool(f)} stands ${measured(f, 2)} deep in the wood.`,
    () => 'Lift the tool above the skin before A moves.',
  ),
  'sideways-in-wood': say(
    (f) =>
      `A drill (${tool(f)}, ${word(f, 'kind')}) is dragged sideways ${measured(f, 2)} deep in the wood; it has no edges there and breaks.`,
    () => 'Lift it above the skin before X or Y moves, or use an end mill.',
  ),
  'spindle-off-in-wood': say(
    (f) => `${capital(tool(f))} is pushed into the wood without turning.`,
    () => 'Start the spindle first: S… M3, and G4 to let it come to speed.',
  ),
  'spindle-backwards': say(
    (f) => `${capital(tool(f))} turns backwards (M4) in the wood.`,
    () => 'Start the spindle with M3.',
  ),
  'spindle-stopped-in-wood': say(
    (f) => `The spindle stops while ${tool(f)} is in the wood.`,
    () => 'Lift the tool first, then M5.',
  ),
  'tool-change-in-shell': say(
    (f) => `The tool is changed ${measured(f, 1)} below the skin.`,
    () => 'Lift to a safe height before M6.',
  ),
  'no-tool': say(
    () => 'Wood is cut before any tool was changed to.',
    () => 'Begin with T… M6.',
  ),
  'place-unset': say(
    () => 'Wood is cut before the program has said where X and A are.',
    () => 'Go to X and A at a safe height first.',
  ),
  'tool-not-in-jig': {
    text: (f) => `T${word(f, 'tool')} is not in the jig file; its tools are ${word(f, 'tools')}.`,
    try: (f) => `Add tool ${word(f, 'tool')} to rotary.tools, or use one of ${word(f, 'tools')}.`,
    source: 'the jig file’s tools',
  },
  'hits-far-wall': say(
    (f) => `The tip goes ${measured(f, 1)} below the outside skin and reaches the far wall at ${limit(f, 1)}.`,
    () => 'Check the sign and the decimal point of Z.',
  ),
  'hits-mandrel': say(
    (f) => `The tip goes ${measured(f, 1)} below the skin and hits the shaft at ${limit(f, 1)}.`,
    () => 'Check the sign and the decimal point of Z.',
  ),
  'through-backing': say(
    (f) => `The tip goes ${measured(f, 1)} deep, right through wall and backing (${limit(f, 1)}).`,
    () => 'Drill less deep, or clamp in a thicker backing block.',
  ),
  'collet-hits-shell': say(
    (f) =>
      `The tip goes ${measured(f, 1)} deep, but ${tool(f)} stands out only ${limit(f, 1)}: the collet hits the shell.`,
    () => 'Set the bit further out, or drill less deep.',
  ),
  'shank-in-wall': say(
    (f) => `The tip goes ${measured(f, 1)} deep; beyond ${limit(f, 1)} the shank of ${tool(f)} is wider than its hole.`,
    () => 'Drill less deep, or use a longer bit.',
  ),
  'deeper-than-flutes': say(
    (f) => `The tip goes ${measured(f, 1)} deep, beyond the flutes of ${tool(f)} (${limit(f, 1)}): chips jam.`,
    () => 'Drill less deep, or use a longer bit.',
  ),
  'in-chuck': say(
    (f) =>
      `The edge of the tool comes ${measured(f, 1)} from X0, below the skin; the holding plate there takes ${limit(f, 1)}.`,
    () => 'Hold the shell by the other edge, or move the hole away from this one.',
    MACHINE,
  ),
  'in-tailstock': say(
    (f) =>
      `The edge of the tool comes ${measured(f, 1)} from the far edge, below the skin; the tailstock plate there takes ${limit(f, 1)}.`,
    () => 'Hold the shell by the other edge, or move the hole away from this one.',
    MACHINE,
  ),
  'in-keep-out': say(
    (f) => `The tool goes below the skin at X ${measured(f, 1)}, where nothing may: that ends at X ${limit(f, 1)}.`,
    () => 'Move what stands there (fixture.keep-out in the machine profile), or drill that hole another way.',
    MACHINE,
  ),
  'ends-in-shell': say(
    (f) => `The program ends with the tip ${measured(f, 1)} below the skin.`,
    () => 'Lift the tool before the end; the file may have been cut off.',
  ),
  'hole-doubled': say(
    (f) => `The hole first drilled in line ${num(f, 'before', 0)} is drilled again to the same depth by ${tool(f)}.`,
    () => 'Leave out the second visit.',
  ),
};

const LIMITS: Readonly<Record<string, Saying>> = {
  'z-unknown': say(
    () => 'The tool moves sideways or the shell turns before any line has set the height of the tool.',
    () => 'Begin with G0 Z to a safe height, alone on its line.',
    LANGUAGE,
  ),
  'outside-travel': say(
    (f) => `${word(f, 'axis')} goes to ${measured(f, 2)}; the machine ends at ${limit(f, 2)}.`,
    () => 'Check the number and its unit, or shift the work on the machine.',
    MACHINE,
  ),
  'axis-wound': say(
    (f) => `A goes to ${measured(f, 1)}; this rotary axis is wound and ends at ${limit(f, 1)}.`,
    () => 'Unwind A by whole turns, or order the holes so that it does not wind up.',
    MACHINE,
  ),
  'axis-not-there': say(
    (f) => `${word(f, 'axis')} is asked to go to ${measured(f, 2)}; this machine has no such axis.`,
    () => 'Leave the word out, or use a machine that has the axis.',
    MACHINE,
  ),
  'machine-lacks': say(
    (f) => `The program uses ${word(f, 'what')}, which ${word(f, 'machine')} does not understand.`,
    () => 'Write the program in plain G0 and G1 moves.',
    MACHINE,
  ),
  'hand-change-while-turning': say(
    (f) => `The program waits for a hand to fit tool ${word(f, 'tool')} while the spindle turns.`,
    () => 'Write M5 before the M0.',
    LANGUAGE,
  ),
  'change-not-awaited': say(
    (f) =>
      `Nothing but M6 waits for a hand to fit tool ${word(f, 'tool')}: on a controller that does not stop at M6 the old bit goes on.`,
    () => 'Write M0 after each M6, or make sure that yours stops.',
    'NISTIR 6556 (RS274/NGC), section 3.6.3: what a change of tool involves is the machine’s',
  ),
  'pause-while-turning': say(
    () => 'The program waits for the operator while the spindle turns.',
    () => 'Write M5 before the pause if hands come near.',
    LANGUAGE,
  ),
  'spindle-left-on': say(
    (f) => `The spindle, started in line ${num(f, 'started', 0)}, is never stopped by a word of its own.`,
    () => 'Write M5 before the end.',
    LANGUAGE,
  ),
  'speed-outside-spindle': say(
    (f) => `The program asks for ${measured(f, 0)}; the spindle’s limit is ${limit(f, 0)}.`,
    () => 'Choose a speed within the spindle’s range.',
    MACHINE,
  ),
  'speed-over-bit': say(
    (f) => `${capital(tool(f))} is turned at ${measured(f, 0)}; it may not turn faster than ${limit(f, 0)}.`,
    (f) => `Turn it at ${limit(f, 0)} or less.`,
    'the jig file’s tools',
  ),
  'feed-over-machine': say(
    (f) => `The program feeds at ${measured(f, 0)}; the machine’s greatest feed is ${limit(f, 0)}.`,
    () => 'Feed more slowly; check F’s decimal point and units.',
    MACHINE,
  ),
  'speed-high-for-bit': say(
    (f) =>
      `${capital(tool(f))} (${word(f, 'kind')} ${num(f, 'diameter', 2)} mm) turns at ${measured(f, 0)}; about ${limit(f, 0)} is advised: it burns the rim.`,
    (f) => `Turn it at about ${limit(f, 0)}.`,
    PRACTICE,
  ),
  'spin-up-short': say(
    (f) =>
      `${capital(tool(f))} cuts ${measured(f, 1)} after the spindle starts, which takes ${limit(f, 1)} to reach speed.`,
    (f) => `Write G4 P${num0(f.limit)} after M3.`,
    MACHINE,
  ),
  'dwell-long': say(
    (f) => `The program waits ${measured(f, 1)}: P counts seconds.`,
    () => 'If milliseconds were meant, divide P by 1000.',
    LANGUAGE,
  ),
  'low-over-shell': say(
    (f) =>
      `The tool goes from place to place only ${measured(f, 2)} above the high spot of the skin; ${limit(f, 2)} is the least.`,
    () => 'Lift higher before X or A moves.',
    PRACTICE,
  ),
  'approach-low': say(
    (f) => `A rapid move ends ${measured(f, 2)} above the skin; ${limit(f, 2)} is the least.`,
    () => 'Let feeding begin higher (R or Z 1), or check the zero of Z.',
    PRACTICE,
  ),
  'feed-breaks-bit': feedSaying('it breaks the bit or splits the wall'),
  'feed-high-for-bit': feedSaying('look twice'),
  'feed-low-for-bit': feedSaying('the edge rubs and burns'),
};

const HOLES: Readonly<Record<string, Saying>> = {
  'hole-missing': say(
    (f) => `No hole is drilled at ${place(f)} (${limit(f, 1)} planned).`,
    () => 'Put the hole back into the program.',
    PLAN,
  ),
  'hole-extra': say(
    (f) => `A hole of ${measured(f, 2)} is drilled at ${place(f)}, where none is planned.`,
    () => 'Take it out of the program.',
    PLAN,
  ),
  'hole-misplaced': say(
    (f) => `It is drilled ${measured(f, 2)} from its place, at ${place(f)}.`,
    (f) => `Correct X ${num(f, 'x', 3)} and A ${num(f, 'a', 3)} in that line.`,
    PLAN,
  ),
  'hole-wrong-size': say(
    (f) => `The hole comes out ${measured(f, 2)} wide, ${limit(f, 2)} is planned.`,
    () => 'Change to the right tool.',
    PLAN,
  ),
  'hole-only-piloted': say(
    (f) => `Only the pilot of ${measured(f, 2)} is drilled; the hole of ${limit(f, 2)} is not.`,
    () => 'Drill the full hole after the pilot.',
    PLAN,
  ),
  'hole-only-marked': say(
    (f) => `The bit only marks the skin (${measured(f, 2)} wide); the hole of ${limit(f, 2)} is not drilled.`,
    () => 'Drill the hole after its mark.',
    PLAN,
  ),
  'hole-not-through': say(
    (f) =>
      `The tip stops at ${measured(f, 2)}; it must go to ${limit(f, 2)} before the full width is through the wall.`,
    (f) => `Drill ${num(f, 'short', 2)} mm deeper.`,
    'derived: the rim of a radial hole leaves the inner skin at R - sqrt(Ri^2 - r^2), and the point goes before it',
  ),
  'finish-from-inside': say(
    (f) => `Only the point shows inside; the full width needs ${num(f, 'short', 2)} mm more.`,
    () => 'Finish the hole from inside, or clamp in a backing block and drill through.',
    DERIVED,
  ),
  'full-before-pilot': say(
    (f) => `The pilot of ${measured(f, 2)} comes after the full hole of ${limit(f, 2)} (line ${num(f, 'full', 0)}).`,
    () => 'Drill the pilot first.',
    PLAN,
  ),
  'mark-wider-than-hole': say(
    (f) =>
      `The centre mark is ${measured(f, 1)} wide at the skin, the hole only ${limit(f, 1)}: a crater is left round it.`,
    () => 'Check Z0 of the marking bit, and the depth of the mark.',
    'derived: width of a V bit at its depth',
  ),
  'spur-after-pilot': say(
    (f) => `A ${word(f, 'kind')} bit follows a pilot hole: its spur has nothing to bite and it wanders.`,
    () => 'Give it a centre mark only, or use a twist drill after the pilot.',
    PRACTICE,
  ),
  'pilot-left-out': say(
    (f) => `The full hole is drilled without its pilot of ${limit(f, 2)}.`,
    () => 'Drill the pilot first, or mark the centre.',
    PRACTICE,
  ),
  'pilot-shallow': say(
    (f) => `The pilot stops at ${measured(f, 2)}, inside the wall of ${limit(f, 2)}.`,
    () => 'Drill the pilot through, or the full bit finishes without it.',
    PRACTICE,
  ),
  'depth-ignores-runout': say(
    (f) =>
      `${num(f, 'count', 0)} ${Number(f.facts?.['count']) === 1 ? 'hole goes' : 'holes go'} only ${measured(f, 2)} past the least depth; where the skin runs low by ${limit(f, 1)} a rim stays.`,
    () => 'Drill deeper by the runout.',
    DERIVED,
  ),
  'depth-past-allowance': say(
    (f) =>
      `${num(f, 'count', 0)} ${Number(f.facts?.['count']) === 1 ? 'hole goes' : 'holes go'} up to ${measured(f, 1)} past the depth that is needed; ${limit(f, 1)} is allowed for.`,
    (f) =>
      word(f, 'all') === 'yes'
        ? 'Check the zero of Z: every hole is too deep.'
        : 'Check Z: deeper than needed wears the backing and tears the grain.',
    PRACTICE,
  ),
  'mark-missing': say(
    () => 'It gets no mark.',
    () => 'Put its mark back into the program.',
    PLAN,
  ),
  'mark-misplaced': say(
    (f) => `Its mark is ${measured(f, 2)} from its place.`,
    () => 'Correct X and A in that line.',
    PLAN,
  ),
  'mark-left-out': say(
    () => 'Its bit finds no centre mark, though most others do: it may wander.',
    () => 'Put its centre mark back into the program.',
    PRACTICE,
  ),
  'v-bit-as-drill': say(
    (f) =>
      `The V bit (tool ${word(f, 'tool')}) is driven ${measured(f, 2)} deep; its point is only ${limit(f, 2)} high.`,
    () => 'Change to the drill first; a V bit only marks.',
    'derived: a V bit is a cone',
  ),
  'mark-after-hole': say(
    (f) => `Its centre mark comes after the hole, drilled in line ${num(f, 'hole', 0)}: the bit meets air.`,
    () => 'Mark the centres first.',
    PRACTICE,
  ),
  'mark-extra': say(
    (f) => `A mark is made at ${place(f)}, where no hole is planned.`,
    () => 'Leave it out if it means nothing.',
    PLAN,
  ),
};

const JOB: Readonly<Record<string, Saying>> = {
  'job-mirrored': say(
    (f) =>
      f.facts?.['or'] === undefined
        ? 'All holes are there, but mirrored: check the sign of A.'
        : `All holes are there, but mirrored: check the sign of A. Or turned by ${num(f, 'or', 3)} deg, which looks the same on this drum: check where A0 is.`,
    () =>
      'Turn the sign of every A, or set the machine’s `a` to reversed, and do the witness move: A + 15 beside a taped arrow.',
    PLAN,
  ),
  'job-turned': say(
    (f) => `All holes are there, but turned by ${measured(f, 3)}: check where A0 is.`,
    () => 'Put the strainer line under the spindle at A0.',
    PLAN,
  ),
  'job-beside-axis': say(
    (f) =>
      `All holes are there, but ${measured(f, 3)} beside the axis, which turns them by ${num(f, 'turn', 3)} deg on the skin: check the zero of Y.`,
    () => 'Put Y0 over the axis of the shell.',
    PLAN,
  ),
  'job-not-deep': say(
    (f) => `Every hole ends short, by ${num(f, 'least', 2)} to ${measured(f, 2)}: check the zero of Z.`,
    () => 'Put Z0 on the high spot of the outside skin with every bit, and check the wall.',
    DERIVED,
  ),
  'job-shifted': say(
    (f) =>
      `All holes are there, but shifted by ${measured(f, 3)} along the shell${Number(f.facts?.['turn']) === 0 ? '' : ` and turned by ${num(f, 'turn', 3)} deg`}: check the zero of X.`,
    () => 'Put X0 on the datum edge.',
    PLAN,
  ),
  'job-from-other-edge': say(
    (f) =>
      `All holes are there, but counted from the other edge${word(f, 'over') === 'yes' ? ', as if the shell were turned end for end' : ''}: X0 must be the ${word(f, 'datum')} edge.`,
    (f) => `Turn the shell so that its ${word(f, 'datum')} edge is at X0, or make the program for the other datum.`,
    PLAN,
  ),
  'units-mistaken': say(
    (f) =>
      word(f, 'small') === 'yes'
        ? 'All positions are 25.4 times too small: inches are taken for millimetres.'
        : 'All positions are 25.4 times too large: millimetres are taken for inches.',
    (f) => (word(f, 'small') === 'yes' ? 'Write G20 at the start.' : 'Write G21 at the start.'),
    'exact: 25.4 mm to the inch',
  ),
  'angles-scaled': say(
    (f) => `All holes are there, but every A is ${times(f)}${reason(Number(f.measured))}.`,
    () => 'Write A in degrees of the shell, 360 to a turn.',
    PLAN,
  ),
  'lengths-scaled': say(
    (f) => `All holes are there, but every X is ${times(f)}: something scaled the program.`,
    () => 'Take the scale out and write X in millimetres from the datum edge.',
    PLAN,
  ),
  'several-shells': say(
    (f) => `The program drills ${num0(f.measured)} shells one after the other; each is judged by the same plan.`,
    () => 'Change the shell at each pause.',
    DERIVED,
  ),
  'job-doubled': say(
    (f) =>
      `From here on the program drills again what it has drilled: ${num0(f.measured)} of ${word(f, 'of')} cuts, with no stop for a new shell between.`,
    () => 'Leave out the second pass; for a second shell, put M0 before it.',
    DERIVED,
  ),
  'shell-misses-hole': say(
    (f) => `Tool ${word(f, 'tool')} drills it in ${num0(f.measured)} of ${num0(f.limit)} shells.`,
    () => 'Drill it in every shell of the batch.',
    DERIVED,
  ),
  'mirror-cannot-tell': say(
    () => 'This drum is its own mirror image: a wrong sign of A cannot be seen in the holes.',
    () => 'Do the witness move: spindle off, to A + 15 beside an arrow taped on the shell.',
    DERIVED,
  ),
  'marks-only': say(
    (f) => `The program only marks: ${num0(f.measured)} marks for ${num0(f.limit)} planned holes.`,
    () => 'Drill by the marks, or dry-run the drilling program.',
    DERIVED,
  ),
  'rehearsal-only': say(
    (f) => `A rehearsal: nothing touches the wood; ${num0(f.measured)} of ${num0(f.limit)} planned places are visited.`,
    () => 'Run the drilling program after it.',
    DERIVED,
  ),
  'rehearsal-misses': say(
    (f) => `The rehearsal does not come to ${place(f)}.`,
    () => 'Rehearse the whole program.',
    PLAN,
  ),
  'nothing-drilled': say(
    (f) =>
      `The tool goes down in ${num0(f.measured)} places and never reaches the wood; ${num0(f.limit)} holes are planned.`,
    () => 'Check the zero of Z and of X: Z0 is the outside skin.',
    PLAN,
  ),
  'too-many-places': say(
    (f) =>
      `The program works in more than ${num0(f.measured)} places; the rest were watched for clashes, but not compared with the plan.`,
    () => 'Dry-run the drilling alone.',
    DERIVED,
  ),
  'program-endless': say(
    (f) => `The program was read no further than line ${num(f, 'read', 0)}: ${word(f, 'why')}.`,
    () => 'Check what writes it; a longer program wants a higher --most-lines.',
    DERIVED,
  ),
  'more-of-the-same': say(
    (f) => `${num0(f.measured)} more findings of the kind “${word(f, 'id')}”.`,
    () => 'Cure the first ones; most of the rest follow.',
    DERIVED,
  ),
};

const num0 = (value: number | null): string => (value === null ? '?' : value.toFixed(0));

function say(text: Saying['text'], cure: Saying['try'], source: string = DERIVED): Saying {
  return { text, try: cure, source };
}

function feedSaying(what: string): Saying {
  return {
    text: (f) =>
      `${capital(tool(f))} (${word(f, 'kind')} ${num(f, 'diameter', 2)} mm) is fed ${num(f, 'feed', 0)} mm/min at ${num(f, 'speed', 0)} rev/min, ${measured(f, 3)} a turn; ${limit(f, 3)} is advised: ${what}.`,
    try: (f) =>
      `Feed about ${((f.limit ?? 0) * Number(f.facts?.['speed'] ?? 0)).toFixed(0)} mm/min; check F’s decimal point and units.`,
    source: PRACTICE,
  };
}

/** What the dry run finds. */
export const dryRunSayings: Readonly<Record<string, Saying>> = {
  ...Object.fromEntries(REFUSALS.map((id) => [id, refused])),
  ...Object.fromEntries(Object.entries(REMARKS).map(([id, cure]) => [id, remarked(cure)])),
  ...WOOD,
  ...LIMITS,
  ...HOLES,
  ...JOB,
};
