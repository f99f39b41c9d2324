import type { FlatPoint, MachinePoint, ShellPoint } from '../model/frames.ts';
import { type Deg, type Mm, toDeg, toRad } from '../units/scalar.ts';

/**
 * The only doors between frames.
 *
 * Unroll: u = R theta (radians), v = height; seen from outside u runs to the right. A sheet of thickness t wrapped round
 * R keeps its length at the neutral line, a fraction k of t out from its inner face, so its flat radius is R + k t
 * (bend allowance: angle * (radius + k * thickness)).
 */

/**
 * Flat radius of a sheet wrapped round the shell: its length stays at the neutral line, a fraction `neutral` of the
 * thickness out from the inner face.
 * @param radius outside of the shell, mm
 * @param thickness of the sheet, mm, 0 or more
 * @param neutral 0 (inner face) to 1 (outer); 0.5 for card
 * @returns mm: R + k t
 * @throws never
 * @source bend allowance of sheet work, angle (radius + k thickness), machinery handbooks (from memory)
 */
export const flatRadius = (radius: Mm, thickness: Mm, neutral: number): Mm => radius + neutral * thickness;

/**
 * Shell to flat at flat radius `r` (the outside radius for the skin itself). Not wrapped: 370 deg lies beyond one turn.
 * @param p place on the shell, degrees and mm
 * @param r flat radius, mm
 * @returns x to the right seen from outside and y up, mm: x = r angle (radians)
 * @throws never
 * @source derived: the arc of a circle
 */
export const unroll = (p: ShellPoint, r: Mm): FlatPoint => ({ x: r * toRad(p.angle), y: p.height });

/**
 * Flat to shell, the inverse of `unroll`.
 * @param p place on the flat, mm
 * @param r flat radius, mm, more than 0
 * @returns angle in degrees, not wrapped, and height in mm
 * @throws never
 * @source derived: the arc of a circle
 */
export const roll = (p: FlatPoint, r: Mm): ShellPoint => ({ angle: toDeg(p.x / r), height: p.y });

/**
 * Angle on the shell of a straight-across offset on the hardware.
 * @param across offset as a caliper measures it, mm; to the right is positive
 * @param radius outside of the shell, mm; at least `across`
 * @returns degrees: asin(across / R); NaN when `across` is more than R
 * @throws never
 * @source derived: a chord from the radius through the origin
 */
export const acrossAngle = (across: Mm, radius: Mm): Deg => toDeg(Math.asin(across / radius));

/**
 * Straight distance between two points of one height; the caliper reads this.
 * @param radius mm
 * @param deg angle between them, degrees, either sign
 * @returns mm: 2 R sin(deg / 2)
 * @throws never
 * @source textbook, equal division of a circle
 */
export const chord = (radius: Mm, deg: Deg): Mm => 2 * radius * Math.sin(toRad(Math.abs(deg)) / 2);

/**
 * Distance along the outside; the tape reads this.
 * @param radius mm
 * @param deg degrees
 * @returns mm, signed like `deg`: R angle (radians)
 * @throws never
 * @source derived: the arc of a circle
 */
export const arc = (radius: Mm, deg: Deg): Mm => radius * toRad(deg);

/** How the shell hangs on the machine. */
export interface RotaryFrame {
  readonly datum: 'top' | 'bottom';
  readonly depth: Mm;
  /** Sign of A as the machine is wired: `reversed` turns the other way than ISO 841. */
  readonly a: 'iso' | 'reversed';
}

/**
 * Whether A grows with the shell's angle. X grows with height when the bottom edge is the datum.
 * @param f datum edge and wiring
 * @returns 1 when A is the angle, -1 when it is minus the angle
 * @throws never
 * @source ISO 841:2001, rotary axes (from memory)
 */
export const signOfA = (f: RotaryFrame): 1 | -1 => ((f.datum === 'bottom') === (f.a === 'iso') ? 1 : -1);

/**
 * Shell to machine, tool over the hole.
 * @param p place on the shell
 * @param z tip above the outside skin, mm; below is negative
 * @param f how the shell hangs
 * @returns X from the datum edge, Y = 0, Z in mm and A in degrees, not wrapped
 * @throws never
 * @source ISO 841:2001, rotary axes (from memory)
 */
export const toMachine = (p: ShellPoint, z: Mm, f: RotaryFrame): MachinePoint => ({
  x: f.datum === 'bottom' ? p.height : f.depth - p.height,
  y: 0,
  z,
  a: signOfA(f) * p.angle,
});

/**
 * Machine back to shell, the inverse of `toMachine`, for a tool over the axis (Y = 0).
 * @param p place of the tip, mm and degrees
 * @param f how the shell hangs
 * @returns angle in degrees, not wrapped, and height in mm
 * @throws never
 * @source ISO 841:2001, rotary axes (from memory)
 */
export const fromMachine = (p: MachinePoint, f: RotaryFrame): ShellPoint => ({
  angle: signOfA(f) * p.a,
  height: f.datum === 'bottom' ? p.x : f.depth - p.x,
});
