import type { FlatPoint, MachinePoint, ShellPoint } from '../model/frames.ts';
import { type Deg, type Mm, toDeg, toRad } from '../units/scalar.ts';

/**
 * The only doors between frames.
 *
 * Unroll: u = R theta (radians), v = height; seen from outside u runs to the right. A sheet of thickness t wrapped round
 * R keeps its length at the neutral line, a fraction k of t out from its inner face, so its flat radius is R + k t
 * (bend allowance: angle * (radius + k * thickness)).
 */
export const flatRadius = (radius: Mm, thickness: Mm, neutral: number): Mm => radius + neutral * thickness;

/** Shell to flat at flat radius `r` (use R itself for the outside skin). Not wrapped: 370 deg lies beyond one turn. */
export const unroll = (p: ShellPoint, r: Mm): FlatPoint => ({ x: r * toRad(p.angle), y: p.height });

/** Flat to shell, the inverse of `unroll`. */
export const roll = (p: FlatPoint, r: Mm): ShellPoint => ({ angle: toDeg(p.x / r), height: p.y });

/** Angle on the shell of a straight-across offset on the hardware: asin(x / R), degrees. |x| <= R. */
export const acrossAngle = (across: Mm, radius: Mm): Deg => toDeg(Math.asin(across / radius));

/** Chord between two points of one height, `deg` apart: 2 R sin(deg / 2). The caliper reads this. */
export const chord = (radius: Mm, deg: Deg): Mm => 2 * radius * Math.sin(toRad(Math.abs(deg)) / 2);

/** Arc along the outside: R theta. */
export const arc = (radius: Mm, deg: Deg): Mm => radius * toRad(deg);

export interface RotaryFrame {
  readonly datum: 'top' | 'bottom';
  readonly depth: Mm;
  /** Sign of A as the machine is wired: `reversed` turns the other way than ISO 841. */
  readonly a: 'iso' | 'reversed';
}

/** +1 when A equals the shell angle: X grows with height (datum bottom) on an ISO 841 machine. */
export const signOfA = (f: RotaryFrame): 1 | -1 => ((f.datum === 'bottom') === (f.a === 'iso') ? 1 : -1);

/**
 * Shell to machine, tool over the hole at Z `z` above the skin. X = height (datum bottom) or depth - height (datum top);
 * A = +-angle by ISO 841 for the datum edge, reversed where the machine is wired so. A is not wrapped.
 */
export const toMachine = (p: ShellPoint, z: Mm, f: RotaryFrame): MachinePoint => ({
  x: f.datum === 'bottom' ? p.height : f.depth - p.height,
  y: 0,
  z,
  a: signOfA(f) * p.angle,
});

/** Machine back to shell, for a tool over the axis (y = 0). */
export const fromMachine = (p: MachinePoint, f: RotaryFrame): ShellPoint => ({
  angle: signOfA(f) * p.a,
  height: f.datum === 'bottom' ? p.x : f.depth - p.x,
});
