/** The few distributions the accuracy budget and the readings need. Probabilities are fractions of 1. */

/** Sum of squares to its root. */
export const rootSumSquare = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, v) => sum + v * v, 0));

/** Standard deviation of an even spread over ± `half`: half / sqrt 3. */
export const uniformSigma = (half: number): number => half / Math.sqrt(3);

/** Below this argument the series of erf is used, above it the continued fraction of erfc. */
const SERIES_TO = 2.5;

/**
 * Error function, to about 14 digits: the series of Abramowitz and Stegun 7.1.6 near zero, beyond it one minus their
 * continued fraction 7.1.14.
 */
export function erf(x: number): number {
  if (Number.isNaN(x)) return Number.NaN;
  const a = Math.abs(x);
  const value = a < SERIES_TO ? erfSeries(a) : 1 - erfcFraction(a);
  return x < 0 ? -value : value;
}

/** 1 - erf(x), keeping its digits where erf is nearly one. */
export function erfc(x: number): number {
  if (x < 0) return 2 - erfc(-x);
  return x < SERIES_TO ? 1 - erfSeries(x) : erfcFraction(x);
}

function erfSeries(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * Number.EPSILON; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

function erfcFraction(x: number): number {
  let tail = 0;
  for (let n = 80; n > 0; n--) tail = n / 2 / (x + tail);
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * (x + tail));
}

/** Chance that a standard normal lies below `z`. */
export const normalBelow = (z: number): number => erfc(-z / Math.SQRT2) / 2;

/**
 * Chance that a point with independent normal errors `a` and `b` (standard deviations on two square axes) lies within
 * `reach` of its mean. Equal errors: 1 - exp(-reach^2 / (2 a^2)). Otherwise the radius is integrated in closed form and
 * the angle by the trapezoid rule, which converges faster than any power on a whole turn.
 */
export function withinCircle(reach: number, a: number, b: number): number {
  if (reach < 0) return 0;
  const big = Math.max(a, b);
  const small = Math.min(a, b);
  if (big === 0) return 1;
  // One axis all but exact: what is left is a normal on a line.
  if (small < big * ALL_BUT_EXACT) return erf(reach / (big * Math.SQRT2));
  if (a === b) return -Math.expm1((-reach * reach) / (2 * a * a));
  // The integrand narrows with the ratio of the axes, so the steps follow it.
  const steps = Math.ceil(64 + (16 * big) / small);
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const t = (Math.PI * (i + 0.5)) / steps;
    const c = Math.cos(t) / big;
    const s = Math.sin(t) / small;
    const q = c * c + s * s;
    sum += -Math.expm1((-reach * reach * q) / 2) / q;
  }
  return sum / (steps * big * small);
}

/** Axes of an error ellipse in this ratio are a line to six digits of the chance. */
const ALL_BUT_EXACT = 0.001;

/** The least x in [low, high] with `holds(x)`, for a condition that once true stays true; `high` when it never is. */
export function leastWhere(holds: (x: number) => boolean, low: number, high: number, within: number): number {
  if (holds(low)) return low;
  let no = low;
  let yes = high;
  while (yes - no > within) {
    const middle = (no + yes) / 2;
    if (middle <= no || middle >= yes) break;
    if (holds(middle)) yes = middle;
    else no = middle;
  }
  return yes;
}

/** The value below which the fraction `p` of the sorted samples lies (nearest rank, rounded up: never flatters). */
export function quantile(sorted: ArrayLike<number>, p: number): number {
  const rank = Math.ceil(p * sorted.length) - 1;
  return sorted[Math.min(sorted.length - 1, Math.max(0, rank))] ?? Number.NaN;
}

/** Standard error of a chance `p` seen in `samples` trials; never below that of one trial gone the other way. */
export function samplingError(p: number, samples: number): number {
  return Math.max(Math.sqrt((p * (1 - p)) / samples), 1 / samples);
}

/** Middle value; of an even number the mean of the two middle ones. NaN when there are none. */
export function median(values: readonly number[]): number {
  if (values.length === 0) return Number.NaN;
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
