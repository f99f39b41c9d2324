import type { Vector } from '../geometry/rigid.ts';
import { erf, withinCircle } from '../geometry/statistics.ts';
import type { Mm } from '../units/scalar.ts';
import type { Spread } from './spread.ts';

/**
 * Chances in closed form for hardware with two holes. `reach` is half of hole less screw: how far a screw may sit from
 * its hole's middle.
 */

/** Covariance of (hole b - hole a) against the hardware, mm^2, for two holes apart by `span`. */
export interface PairSpread {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

export function pairSpread(span: Vector, s: Spread): PairSpread {
  // Stretch moves b from a by (sx x, sy y); a lean by (-w y, w x).
  const lean = s.lean * s.lean;
  return {
    xx: 2 * s.hole.around ** 2 + (s.stretch.around * span.x) ** 2 + lean * span.y ** 2,
    xy: -lean * span.x * span.y,
    yy: 2 * s.hole.along ** 2 + (s.stretch.along * span.y) ** 2 + lean * span.x ** 2,
  };
}

/** Standard deviation of the distance between the two holes. */
function spacingSigma(span: Vector, p: PairSpread): Mm {
  const length = Math.hypot(span.x, span.y);
  const x = span.x / length;
  const y = span.y / length;
  return Math.sqrt(Math.max(0, x * x * p.xx + 2 * x * y * p.xy + y * y * p.yy));
}

/**
 * Chance that a fitting with two screws goes on, crooked if need be: the distance between the holes may be out by twice
 * the reach. With equal errors sigma on every axis this is erf(reach / sigma).
 *
 * `walk`: parallel screws in holes bored to the shell's axis lose this much at the inner skin, at each hole, towards each
 * other; the distance may then be out by 2 reach one way and 2 reach - 2 walk the other (derived).
 */
export function pairGoesOn(reach: Mm, span: Vector, p: PairSpread, walk: Mm = 0): number {
  if (reach < walk / 2) return 0;
  const sigma = spacingSigma(span, p);
  const wide = 2 * reach;
  const narrow = 2 * (reach - walk);
  if (sigma === 0) return narrow >= 0 ? 1 : 0;
  const unit = sigma * Math.SQRT2;
  return Math.min(1, Math.max(0, (erf(wide / unit) + erf(narrow / unit)) / 2));
}

/**
 * Chance that it goes on held straight: the second hole lies within twice the reach of where the first puts it. With
 * equal errors this is 1 - exp(-(reach / sigma)^2).
 */
export function pairStraight(reach: Mm, p: PairSpread): number {
  if (reach < 0) return 0;
  // The ellipse of the errors on its own axes.
  const mean = (p.xx + p.yy) / 2;
  const half = Math.hypot((p.xx - p.yy) / 2, p.xy);
  return withinCircle(2 * reach, Math.sqrt(Math.max(0, mean + half)), Math.sqrt(Math.max(0, mean - half)));
}
