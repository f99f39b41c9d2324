import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { skinDepth } from './place.ts';
import { alongArc } from './sample.ts';
import { A, axisOr0, type Step, X, Y, Z } from './step.ts';

/** The undrilled shell as a tool from above meets it. */
export interface Skin {
  readonly radius: Mm;
  /** Length of the shell along X, from 0. */
  readonly depth: Mm;
}

/** A pen that is led along the skin is led within so much of Z0. */
export const ON_SKIN: Mm = 0.01;

/**
 * Deepest that the straight way from `from` to `to` takes the tip below the skin. The skin under the tool is a concave
 * function of y and z is straight, so that the greatest depth of a slanting way is found by closing in on it.
 */
export function deepestOnWay(from: Float64Array, to: Float64Array, r: Mm, skin: Skin): Mm {
  const z0 = Number.isNaN(from[Z]!) ? to[Z]! : from[Z]!;
  const z1 = to[Z]!;
  // The skin never stands above Z0.
  if (z0 > ON_SKIN && z1 > ON_SKIN) return -Infinity;
  let t0 = 0;
  let t1 = 1;
  const x0 = axisOr0(from[X]!);
  const x1 = axisOr0(to[X]!);
  if (x0 !== x1) {
    const a = (-r - x0) / (x1 - x0);
    const b = (skin.depth + r - x0) / (x1 - x0);
    t0 = Math.max(0, Math.min(a, b));
    t1 = Math.min(1, Math.max(a, b));
    if (t0 >= t1) return -Infinity;
  } else if (x0 <= -r || x0 >= skin.depth + r) return -Infinity;
  const y0 = axisOr0(from[Y]!);
  const y1 = axisOr0(to[Y]!);
  const zAt = (t: number): number => (z0 === z1 ? z0 : z0 + t * (z1 - z0));
  const depth = (t: number): number => -zAt(t) - skinDepth(Math.max(0, Math.abs(y0 + t * (y1 - y0)) - r), skin.radius);
  let best = Math.max(depth(t0), depth(t1));
  // Between the ends of a short way the skin bulges by less than dy^2 / 8R, which is nothing.
  if ((y1 - y0) ** 2 > 8 * skin.radius * tolerance.same) {
    let low = t0;
    let high = t1;
    for (let i = 0; i < 48; i++) {
      const a = low + (high - low) / 3;
      const b = high - (high - low) / 3;
      if (depth(a) >= depth(b)) high = b;
      else low = a;
    }
    best = Math.max(best, depth((low + high) / 2));
  }
  return best;
}

/** The same of a whole step: of an arc in the short ways it is walked in. */
export function deepestOf(step: Step, r: Mm, skin: Skin): Mm {
  if (step.kind !== 'arc') return deepestOnWay(step.from, step.to, r, skin);
  let deep = -Infinity;
  const p = Float64Array.from(step.from);
  const q = Float64Array.from(step.from);
  alongArc(step, (x, y, z) => {
    q[X] = x;
    q[Y] = y;
    q[Z] = z;
    deep = Math.max(deep, deepestOnWay(p, q, r, skin));
    p.set(q);
  });
  return deep;
}

/** Is a tip this far below the skin really in the wood? */
export const touches = (depth: Mm): boolean => depth > tolerance.same;

/** Which axes a way moves; from an unknown place it counts as no move, for that is told apart. */
const moves = (from: Float64Array, to: Float64Array, axis: number): boolean =>
  Math.abs(to[axis]! - from[axis]!) > tolerance.noise;
export const goesSideways = (from: Float64Array, to: Float64Array): boolean => moves(from, to, X) || moves(from, to, Y);
export const turns = (from: Float64Array, to: Float64Array): boolean => moves(from, to, A);
