import { describe, expect, test } from 'vitest';
import {
  erf,
  erfc,
  leastWhere,
  median,
  normalBelow,
  quantile,
  rootSumSquare,
  samplingError,
  uniformSigma,
  withinCircle,
} from '../../src/geometry/statistics.ts';

describe('error function', () => {
  // Abramowitz and Stegun, Handbook of Mathematical Functions, table 7.1 (10 decimals).
  test.each([
    [0, 0],
    [0.1, 0.112462916],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [1.5, 0.9661051465],
    [2, 0.995322265],
  ])('erf(%d)', (x, value) => {
    expect(Math.abs(erf(x) - value)).toBeLessThan(5.1e-11);
    expect(erf(-x) + erf(x)).toBe(0);
  });

  // DLMF section 7: erfc(3) = 2.209049699858544e-5, erfc(5) = 1.537459794428035e-12 (from memory).
  test.each([
    [3, 2.209049699858544e-5],
    [5, 1.537459794428035e-12],
  ])('erfc(%d) keeps its digits', (x, value) => {
    expect(Math.abs(erfc(x) / value - 1)).toBeLessThan(1e-12);
  });

  test('erfc is 1 at nothing, 2 far below, and nothing far above; what is no number stays none', () => {
    expect(erfc(0)).toBe(1);
    expect(erfc(-6)).toBe(2);
    expect(erfc(-0.5)).toBeCloseTo(1.5204998778, 10);
    expect(erfc(Number.POSITIVE_INFINITY)).toBe(0);
    expect(erf(6)).toBe(1);
    expect(erf(-6)).toBe(-1);
    expect(erf(Number.NaN)).toBeNaN();
    // Between the bounds of Abramowitz and Stegun 7.1.13 where it is the smallest of numbers.
    const x = 26.5;
    const low = (2 / Math.sqrt(Math.PI)) * (Math.exp(-x * x) / (x + Math.sqrt(x * x + 2)));
    const high = (2 / Math.sqrt(Math.PI)) * (Math.exp(-x * x) / (x + Math.sqrt(x * x + 4 / Math.PI)));
    expect(erfc(x)).toBeGreaterThan(low * (1 - 1e-9));
    expect(erfc(x)).toBeLessThan(high);
  });

  test('series and fraction meet', () => {
    for (const x of [2.4, 2.499999, 2.5, 2.500001, 2.6]) expect(Math.abs(erf(x) + erfc(x) - 1)).toBeLessThan(1e-14);
    expect(Math.abs(erfc(2.5 - 1e-12) / erfc(2.5) - 1)).toBeLessThan(1e-10);
  });

  test('two-sided 95 % of a normal lies within 1.959964', () => {
    expect(normalBelow(1.959963984540054)).toBeCloseTo(0.975, 12);
    expect(normalBelow(-3)).toBeCloseTo(0.0013498980316301, 14);
  });
});

describe('chance within a circle', () => {
  test('equal errors: the Rayleigh law', () => {
    expect(withinCircle(2, 1, 1)).toBeCloseTo(1 - Math.exp(-2), 14);
    expect(withinCircle(1, 0.5, 0.5)).toBeCloseTo(1 - Math.exp(-2), 14);
    expect(withinCircle(2, 3, 3)).toBeCloseTo(1 - Math.exp(-2 / 9), 14);
    // The general sum against the closed form, as near as the axes may come.
    expect(withinCircle(2, 1, 1 + 1e-12)).toBeCloseTo(1 - Math.exp(-2), 10);
  });

  test('unequal errors: against a plain integration over the plane', () => {
    for (const [reach, a, b] of [
      [1, 1, 0.5],
      [2, 0.3, 1.7],
      [0.7, 1, 0.05],
    ] as const) {
      // Integrate erf over x: P = int phi(x/a)/a * erf(sqrt(r^2 - x^2) / (b sqrt 2)) dx, midpoint in an angle.
      let sum = 0;
      const n = 20000;
      for (let i = 0; i < n; i++) {
        const t = (Math.PI * (i + 0.5)) / n;
        const x = reach * Math.cos(t);
        const y = reach * Math.sin(t);
        sum +=
          ((Math.exp((-x * x) / (2 * a * a)) / (a * Math.sqrt(2 * Math.PI))) *
            erf(y / (b * Math.SQRT2)) *
            reach *
            Math.sin(t) *
            Math.PI) /
          n;
      }
      expect(Math.abs(withinCircle(reach, a, b) - sum)).toBeLessThan(1e-7);
    }
  });

  test('a chance knows no units: in thousandths and in thousands it is the same', () => {
    for (const unit of [1e-3, 1e3])
      expect(withinCircle(unit, unit, 0.04 * unit)).toBeCloseTo(withinCircle(1, 1, 0.04), 12);
  });

  test('one exact axis leaves a normal on a line; no error is sure; no room is none', () => {
    expect(withinCircle(1, 1, 0)).toBeCloseTo(erf(1 / Math.SQRT2), 12);
    expect(withinCircle(1, 0, 0)).toBe(1);
    expect(withinCircle(-0.1, 1, 1)).toBe(0);
    expect(withinCircle(-0.1, 0, 0)).toBe(0);
    expect(withinCircle(0, 0, 0)).toBe(1);
    expect(withinCircle(1, 0, 1)).toBeCloseTo(erf(1 / Math.SQRT2), 12);
    // Near the switch to the line both must agree.
    expect(Math.abs(withinCircle(1, 1, 0.00101) - withinCircle(1, 1, 0.00099))).toBeLessThan(1e-5);
  });
});

test('quantile never flatters, median splits evenly, leastWhere finds the border', () => {
  expect(quantile([1, 2, 3, 4], 0)).toBe(1);
  expect(quantile([1, 2, 3, 4], 1)).toBe(4);
  expect(quantile([1, 2, 3, 4], 1.5)).toBe(4);
  expect(quantile([], 0.5)).toBeNaN();
  expect(median([])).toBeNaN();
  expect(median([10, 9, 2])).toBe(9);
  const kept = [3, 1, 2];
  median(kept);
  expect(kept).toEqual([3, 1, 2]);
  expect(leastWhere(() => true, 3, 10, 1e-9)).toBe(3);
  expect(leastWhere(() => false, 3, 10, 1e-9)).toBeCloseTo(10, 8);
  // No finer than asked; asked for more than a double holds, the border itself.
  expect(leastWhere((x) => x >= 0.3, 0, 1, 1)).toBe(1);
  expect(leastWhere((x) => x >= 10.3, 10, 11, 1)).toBe(11);
  expect(leastWhere((x) => x >= Math.PI, 0, 10, 0)).toBe(Math.PI);
  // The last digit of pi's double is even, that of a third's odd: the middle of two neighbours rounds the other way.
  expect(leastWhere((x) => x >= 1 / 3, 0, 1, 0)).toBe(1 / 3);
  expect(quantile([1, 2, 3, 4], 0.75)).toBe(3);
  expect(quantile([1, 2, 3, 4], 0.76)).toBe(4);
  expect(median([3, 1, 2])).toBe(2);
  expect(median([4, 1, 2, 3])).toBe(2.5);
  expect(leastWhere((x) => x * x >= 2, 0, 10, 1e-9)).toBeCloseTo(Math.SQRT2, 8);
});

test('sums of squares, an even spread, the error of a count', () => {
  expect(rootSumSquare([3, -4, 12])).toBe(13);
  expect(rootSumSquare([])).toBe(0);
  // Variance of an even spread over +-6: 12^2 / 12.
  expect(uniformSigma(6)).toBeCloseTo(Math.sqrt(12), 12);
  // sqrt(0.2 0.8 / 10000); one of a hundred when none was seen.
  expect(samplingError(0.2, 10_000)).toBeCloseTo(0.004, 12);
  expect(samplingError(0, 100)).toBe(0.01);
  expect(samplingError(1, 100)).toBe(0.01);
});
