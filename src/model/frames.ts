import type { Deg, Mm } from '../units/scalar.ts';

/**
 * A place on the shell. A point never changes frame but through the one named function in `geometry/frames.ts`.
 * The angle grows left to right seen from outside, top up, from the strainer line; height above the bottom edge.
 */
export interface ShellPoint {
  readonly angle: Deg;
  readonly height: Mm;
}

/** Flat sheet, template or part: x to the right, y up. */
export interface FlatPoint {
  readonly x: Mm;
  readonly y: Mm;
}

/** Rotary machine: X along the shell from the datum edge, Y across over the axis, Z0 the outside skin, A in degrees. */
export interface MachinePoint {
  readonly x: Mm;
  readonly y: Mm;
  readonly z: Mm;
  readonly a: Deg;
}
