import type { Machine } from '../model/machine.ts';
import { type Deg, MM_PER_INCH, type Mm, toRad } from '../units/scalar.ts';

/**
 * How far from its place a hole can come to stand, and why it is never more: every position is absolute, so that what is
 * rounded away at one hole is not there at the next. The motor's steps are left to the controller, which counts them
 * from A0: an angle rounded to steps here and rounded again there could be a step off.
 */

/** Worst distance on the skin between a place and what is printed of it: half the last decimal of X and of A. */
export function printedWithin(machine: Machine, units: 'mm' | 'in', radius: Mm): Mm {
  const half = 0.5 * 10 ** -machine.understands.decimals;
  return Math.hypot(units === 'in' ? (half * MM_PER_INCH) / 10 : half, radius * toRad(half));
}

/** Worst distance along the skin between these angles and the motor's nearest steps, mm; at most pi R / steps. */
export function stepsWithin(angles: readonly Deg[], steps: number, radius: Mm): Mm {
  const perStep = 360 / steps;
  return angles.reduce((worst, a) => {
    const left = a / perStep;
    return Math.max(worst, Math.abs(left - Math.round(left)) * radius * toRad(perStep));
  }, 0);
}
