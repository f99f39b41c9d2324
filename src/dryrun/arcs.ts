import { toDeg, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { AXIS_BITS, at, bit } from './codes.ts';
import { feedMove, target } from './moves.ts';
import { gWord, type Run, refuse, worded } from './run.ts';

/** Start and end of an arc may differ by so much in their distance from its centre (section 3.5.3.2). */
const RADIUS_MM = 0.002;
const RADIUS_INCH = 0.0002;
const CENTER = ['I', 'J', 'K'] as const;

/** In-plane axes and the normal, by the normal's index: G19 YZ, G18 ZX, G17 XY. The first turns towards the second. */
export const PLANES: readonly (readonly [number, number, number])[] = [
  [1, 2, 0],
  [2, 0, 1],
  [0, 1, 2],
];

/** G2 and G3 in centre and radius form, helices among them (section 3.5.3). */
export function arcTo(run: Run, clockwise: boolean): boolean {
  const { state, block } = run;
  const { step } = state;
  const word = gWord(state.motion);
  const [one, two, normal] = PLANES[state.plane]!;
  const inPlane = block.words & (AXIS_BITS[one]! | AXIS_BITS[two]!);
  const centered = block.words & (bit(CENTER[one]!) | bit(CENTER[two]!));
  const byRadius = (block.words & bit('R')) !== 0;
  if (inPlane === 0 || (centered === 0 && !byRadius)) return refuse(run, 'arc-words-missing', word);
  if ((centered !== 0 && byRadius) || (block.words & bit(CENTER[normal]!)) !== 0)
    return refuse(run, 'arc-words-mixed', word);
  if (!target(run, false)) return false;
  const start0 = state.position[one]!;
  const start1 = state.position[two]!;
  const end0 = step.to[one]!;
  const end1 = step.to[two]!;
  if (Number.isNaN(start0 + start1 + state.position[normal]! + step.to[normal]!))
    return refuse(run, 'position-unknown', word);
  const unit = state.unit === 0 ? 1 : state.unit;
  let center0: number;
  let center1: number;
  let full = false;
  if (byRadius) {
    const radius = block.value[at('R')]! * unit;
    const chord0 = end0 - start0;
    const chord1 = end1 - start1;
    const half = Math.hypot(chord0, chord1) / 2;
    if (half <= tolerance.noise) return refuse(run, 'arc-ends-where-it-starts', word);
    const size = Math.abs(radius);
    if (half > size + RADIUS_MM) return refuse(run, 'arc-radius-too-small', worded(block, 'R'));
    const rise = Math.sqrt(Math.max(0, size * size - half * half)) / (2 * half);
    // The centre lies left of the chord for the short anticlockwise arc, right for the short clockwise one.
    const side = clockwise === radius > 0 ? -1 : 1;
    center0 = (start0 + end0) / 2 - side * rise * chord1;
    center1 = (start1 + end1) / 2 + side * rise * chord0;
  } else {
    center0 = start0 + ((block.words & bit(CENTER[one]!)) === 0 ? 0 : block.value[at(CENTER[one]!)]! * unit);
    center1 = start1 + ((block.words & bit(CENTER[two]!)) === 0 ? 0 : block.value[at(CENTER[two]!)]! * unit);
    const before = Math.hypot(start0 - center0, start1 - center1);
    const after = Math.hypot(end0 - center0, end1 - center1);
    const allowed = unit === 1 ? RADIUS_MM : RADIUS_INCH * unit;
    if (Math.abs(before - after) > allowed) return refuse(run, 'arc-does-not-close', word);
    if (before <= tolerance.noise) return refuse(run, 'arc-radius-too-small', word);
    full = end0 === start0 && end1 === start1;
  }
  step.axis0 = one;
  step.axis1 = two;
  step.axis2 = normal;
  step.center0 = center0;
  step.center1 = center1;
  step.radius = Math.hypot(start0 - center0, start1 - center1);
  const angle = Math.atan2(end1 - center1, end0 - center0) - Math.atan2(start1 - center1, start0 - center0);
  const turn = 2 * Math.PI;
  const positive = ((angle % turn) + turn) % turn;
  step.sweep = full ? (clockwise ? -360 : 360) : toDeg(clockwise ? (positive === 0 ? 0 : positive - turn) : positive);
  return feedMove(run, 'arc');
}

/** Length of the arc or helix in `step`, mm (section 2.1.2.6: the feed runs along the helix). */
export const arcLength = (radius: number, sweep: number, rise: number): number =>
  Math.hypot(radius * toRad(sweep), rise);
