import type { Saying } from '../model/finding.ts';
import { DERIVED, PLAN, place, saying } from './dryrun-words.ts';
import { limit, measured, num, PRACTICE, word } from './saying.ts';

/** Holes and marks as drilled against those planned. */
export const drilledSayings: Readonly<Record<string, Saying>> = {
  'hole-missing': saying(
    (f) => `No hole is drilled at ${place(f)} (${limit(f, 2)} planned).`,
    () => 'Put the hole back into the program.',
    PLAN,
  ),
  'hole-extra': saying(
    (f) => `A hole of ${measured(f, 2)} is drilled at ${place(f)}, where none is planned.`,
    () => 'Take it out of the program.',
    PLAN,
  ),
  'hole-misplaced': saying(
    (f) => `It is drilled ${measured(f, 2)} from its place, at ${place(f)}.`,
    (f) => `Correct X ${num(f, 'x', 3)} and A ${num(f, 'a', 3)} in that line.`,
    PLAN,
  ),
  'hole-wrong-size': saying(
    (f) => `The hole comes out ${measured(f, 2)} wide, ${limit(f, 2)} is planned.`,
    () => 'Change to the right tool.',
    PLAN,
  ),
  'hole-only-piloted': saying(
    (f) => `Only the pilot of ${measured(f, 2)} is drilled; the hole of ${limit(f, 2)} is not.`,
    () => 'Drill the full hole after the pilot.',
    PLAN,
  ),
  'hole-only-marked': saying(
    (f) => `The bit only marks the skin (${measured(f, 2)} wide); the hole of ${limit(f, 2)} is not drilled.`,
    () => 'Drill the hole after its mark.',
    PLAN,
  ),
  'hole-not-through': saying(
    (f) =>
      `The tip stops at ${measured(f, 2)}; it must go to ${limit(f, 2)} before the full width is through the wall.`,
    (f) => `Drill ${num(f, 'short', 2)} mm deeper.`,
    'derived: the rim of a radial hole leaves the inner skin at R - sqrt(Ri^2 - r^2), and the point goes before it',
  ),
  'finish-from-inside': saying(
    (f) => `Only the point shows inside; the full width needs ${num(f, 'short', 2)} mm more.`,
    () => 'Finish the hole from inside, or clamp in a backing block and drill through.',
    DERIVED,
  ),
  'full-before-pilot': saying(
    (f) => `The pilot of ${measured(f, 2)} comes after the full hole of ${limit(f, 2)} (line ${num(f, 'full', 0)}).`,
    () => 'Drill the pilot first.',
    PLAN,
  ),
  'mark-wider-than-hole': saying(
    (f) =>
      `The centre mark is ${measured(f, 1)} wide at the skin, the hole only ${limit(f, 1)}: a crater is left round it.`,
    () => 'Check Z0 of the marking bit, and the depth of the mark.',
    'derived: width of a V bit at its depth',
  ),
  'spur-after-pilot': saying(
    (f) => `A ${word(f, 'kind')} bit follows a pilot hole: its spur has nothing to bite and it wanders.`,
    () => 'Give it a centre mark only, or use a twist drill after the pilot.',
    PRACTICE,
  ),
  'pilot-left-out': saying(
    (f) => `The full hole is drilled without its pilot of ${limit(f, 2)}.`,
    () => 'Drill the pilot first, or mark the centre.',
    PRACTICE,
  ),
  'pilot-shallow': saying(
    (f) => `The pilot stops at ${measured(f, 2)}, inside the wall of ${limit(f, 2)}.`,
    () => 'Drill the pilot through, or the full bit finishes without it.',
    PRACTICE,
  ),
  'depth-ignores-runout': saying(
    (f) =>
      `${num(f, 'count', 0)} ${Number(f.facts?.['count']) === 1 ? 'hole goes' : 'holes go'} only ${measured(f, 2)} past the least depth; where the skin runs low by ${limit(f, 1)} a rim stays.`,
    () => 'Drill deeper by the runout.',
    DERIVED,
  ),
  'depth-past-allowance': saying(
    (f) =>
      `${num(f, 'count', 0)} ${Number(f.facts?.['count']) === 1 ? 'hole goes' : 'holes go'} up to ${measured(f, 1)} past the depth that is needed; ${limit(f, 1)} is allowed for.`,
    (f) =>
      word(f, 'all') === 'yes'
        ? 'Check the zero of Z: every hole is too deep.'
        : 'Check Z: deeper than needed wears the backing and tears the grain.',
    PRACTICE,
  ),
  'mark-missing': saying(
    () => 'It gets no mark.',
    () => 'Put its mark back into the program.',
    PLAN,
  ),
  'mark-misplaced': saying(
    (f) => `Its mark is ${measured(f, 2)} from its place.`,
    () => 'Correct X and A in that line.',
    PLAN,
  ),
  'mark-left-out': saying(
    () => 'Its bit finds no centre mark, though most others do: it may wander.',
    () => 'Put its centre mark back into the program.',
    PRACTICE,
  ),
  'v-bit-as-drill': saying(
    (f) =>
      `The V bit (tool ${word(f, 'tool')}) is driven ${measured(f, 2)} deep; its point is only ${limit(f, 2)} high.`,
    () => 'Change to the drill first; a V bit only marks.',
    'derived: a V bit is a cone',
  ),
  'mark-after-hole': saying(
    (f) => `Its centre mark comes after the hole, drilled in line ${num(f, 'hole', 0)}: the bit meets air.`,
    () => 'Mark the centres first.',
    PRACTICE,
  ),
  'mark-extra': saying(
    (f) => `A mark is made at ${place(f)}, where no hole is planned.`,
    () => 'Leave it out if it means nothing.',
    PLAN,
  ),
};
