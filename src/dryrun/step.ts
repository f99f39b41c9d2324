/**
 * What the program does next, for those who watch. ONE record is used for all steps: it holds only during the call, and
 * nobody but the interpreter writes to it. Lengths in mm and angles in degrees, absolute; NaN = no line has set it yet.
 */
export interface Step {
  kind: StepKind;
  line: number;
  /** X Y Z A B C before and after. */
  from: Float64Array;
  to: Float64Array;
  /** mm/min along X Y Z (deg/min when only rotary axes move), or 1/min when `inverse`; NaN = unset. Rapids: NaN. */
  feed: number;
  inverse: boolean;
  /** rev/min, 0 = not turning. */
  speed: number;
  direction: SpindleDirection;
  /** -1 = none known. */
  tool: number;
  /** Arc: the axes of the plane, and the normal. */
  axis0: number;
  axis1: number;
  axis2: number;
  center0: number;
  center1: number;
  /** Arc: signed degrees, + anticlockwise seen from the normal's + end. */
  sweep: number;
  /** Arc: radius at its start. */
  radius: number;
  /** Dwell. */
  seconds: number;
  /** Pause: only if the operator's switch says so (M1). */
  optional: boolean;
  /** G64: corners may be rounded. */
  blended: boolean;
  /** Motion that a drilling cycle made. */
  cycle: boolean;
}

export type StepKind = 'rapid' | 'feed' | 'arc' | 'dwell' | 'spindle' | 'tool' | 'pause' | 'end';
export type SpindleDirection = 'off' | 'cw' | 'ccw';

export const X = 0;
export const Y = 1;
export const Z = 2;
export const A = 3;
export const B = 4;
export const C = 5;

/** Where an axis stands, for those who must have a place: one that no line has set is taken to stand at 0. */
export const axisOr0 = (value: number): number => (Number.isNaN(value) ? 0 : value);

/** Does the step leave this axis where it is? One that no line ever moved has no place, and stays there. */
export const stays = (s: Step, axis: number): boolean =>
  Object.is(s.to[axis], s.from[axis]) || s.to[axis] === s.from[axis];

export const newStep = (): Step => ({
  kind: 'rapid',
  line: 0,
  from: new Float64Array(6).fill(Number.NaN),
  to: new Float64Array(6).fill(Number.NaN),
  feed: Number.NaN,
  inverse: false,
  speed: 0,
  direction: 'off',
  tool: -1,
  axis0: X,
  axis1: Y,
  axis2: Z,
  center0: 0,
  center1: 0,
  sweep: 0,
  radius: 0,
  seconds: 0,
  optional: false,
  blended: false,
  cycle: false,
});
