import type { Fact, Saying } from '../model/finding.ts';
import { DERIVED, PLAN, place, saying } from './dryrun-words.ts';
import { measured, num, whole, word } from './saying.ts';

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

/** What is wrong with the whole job, by one cause. */
export const jobSayings: Readonly<Record<string, Saying>> = {
  'job-mirrored': saying(
    (f) =>
      f.facts?.['or'] === undefined
        ? 'All holes are there, but mirrored: check the sign of A.'
        : `All holes are there, but mirrored: check the sign of A. Or turned by ${num(f, 'or', 3)} deg, which looks the same on this drum: check where A0 is.`,
    () =>
      "Turn the sign of every A, or set the machine's `a` to reversed, and do the witness move: A + 15 beside a taped arrow.",
    PLAN,
  ),
  'job-turned': saying(
    (f) => `All holes are there, but turned by ${measured(f, 3)}: check where A0 is.`,
    () => 'Put the strainer line under the spindle at A0.',
    PLAN,
  ),
  'job-beside-axis': saying(
    (f) =>
      `All holes are there, but ${measured(f, 3)} beside the axis, which turns them by ${num(f, 'turn', 3)} deg on the skin: check the zero of Y.`,
    () => 'Put Y0 over the axis of the shell.',
    PLAN,
  ),
  'job-not-deep': saying(
    (f) => `Every hole ends short, by ${num(f, 'least', 2)} to ${measured(f, 2)}: check the zero of Z.`,
    () => 'Put Z0 on the high spot of the outside skin with every bit, and check the wall.',
    DERIVED,
  ),
  'job-shifted': saying(
    (f) =>
      `All holes are there, but shifted by ${measured(f, 3)} along the shell${Number(f.facts?.['turn']) === 0 ? '' : ` and turned by ${num(f, 'turn', 3)} deg`}: check the zero of X.`,
    () => 'Put X0 on the datum edge.',
    PLAN,
  ),
  'job-from-other-edge': saying(
    (f) =>
      `All holes are there, but counted from the other edge${word(f, 'over') === 'yes' ? ', as if the shell were turned end for end' : ''}: X0 must be the ${word(f, 'datum')} edge.`,
    (f) => `Turn the shell so that its ${word(f, 'datum')} edge is at X0, or make the program for the other datum.`,
    PLAN,
  ),
  'units-mistaken': saying(
    (f) =>
      word(f, 'small') === 'yes'
        ? 'All positions are 25.4 times too small: inches are taken for millimetres.'
        : 'All positions are 25.4 times too large: millimetres are taken for inches.',
    (f) => (word(f, 'small') === 'yes' ? 'Write G20 at the start.' : 'Write G21 at the start.'),
    'exact: 25.4 mm to the inch',
  ),
  'angles-scaled': saying(
    (f) => `All holes are there, but every A is ${times(f)}${reason(Number(f.measured))}.`,
    () => 'Write A in degrees of the shell, 360 to a turn.',
    PLAN,
  ),
  'lengths-scaled': saying(
    (f) => `All holes are there, but every X is ${times(f)}: something scaled the program.`,
    () => 'Take the scale out and write X in millimetres from the datum edge.',
    PLAN,
  ),
  'several-shells': saying(
    (f) => `The program drills ${whole(f.measured)} shells one after the other; each is judged by the same plan.`,
    () => 'Change the shell at each pause.',
    DERIVED,
  ),
  'job-doubled': saying(
    (f) =>
      `From here on the program drills again what it has drilled: ${whole(f.measured)} of ${word(f, 'of')} cuts, with no stop for a new shell between.`,
    () => 'Leave out the second pass; for a second shell, put M0 before it.',
    DERIVED,
  ),
  'shell-misses-hole': saying(
    (f) => `Tool ${word(f, 'tool')} drills it in ${whole(f.measured)} of ${whole(f.limit)} shells.`,
    () => 'Drill it in every shell of the batch.',
    DERIVED,
  ),
  'mirror-cannot-tell': saying(
    () => 'This drum is its own mirror image: a wrong sign of A cannot be seen in the holes.',
    () => 'Do the witness move: spindle off, to A + 15 beside an arrow taped on the shell.',
    DERIVED,
  ),
  'marks-only': saying(
    (f) => `The program only marks: ${whole(f.measured)} marks for ${whole(f.limit)} planned holes.`,
    () => 'Drill by the marks, or dry-run the drilling program.',
    DERIVED,
  ),
  'rehearsal-only': saying(
    (f) =>
      `A rehearsal: nothing touches the wood; ${whole(f.measured)} of ${whole(f.limit)} planned places are visited.`,
    () => 'Run the drilling program after it.',
    DERIVED,
  ),
  'rehearsal-misses': saying(
    (f) => `The rehearsal does not come to ${place(f)}.`,
    () => 'Rehearse the whole program.',
    PLAN,
  ),
  'nothing-drilled': saying(
    (f) =>
      `The tool goes down in ${whole(f.measured)} places and never reaches the wood; ${whole(f.limit)} holes are planned.`,
    () => 'Check the zero of Z and of X: Z0 is the outside skin.',
    PLAN,
  ),
  'too-many-places': saying(
    (f) =>
      `The program works in more than ${whole(f.measured)} places; the rest were watched for clashes, but not compared with the plan.`,
    () => 'Dry-run the drilling alone.',
    DERIVED,
  ),
  'program-endless': saying(
    (f) => `The program was read no further than line ${num(f, 'read', 0)}: ${word(f, 'why')}.`,
    () => 'Check what writes it; a longer program wants a higher --most-lines.',
    DERIVED,
  ),
  'more-of-the-same': saying(
    (f) => `${whole(f.measured)} more findings of the kind “${word(f, 'id')}”.`,
    () => 'Cure the first ones; most of the rest follow.',
    DERIVED,
  ),
};
