import { describe, expect, test } from 'vitest';
import { seeded, xoshiro } from '../../src/geometry/random.ts';
import { fitRigid, type Reach } from '../../src/geometry/rigid.ts';
import { emptyCircle, QuickFit, smallestCircle } from '../../src/geometry/rigid-quick.ts';
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
  expect(leastWhere((x) => x >= Math.PI, 0, 10, 0)).toBe(Math.PI);
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

/** xoshiro128** filled by splitmix32, in whole numbers modulo 2^32: the published steps, another arithmetic. */
function* published(seed: bigint): Generator<bigint> {
  const word = (x: bigint): bigint => BigInt.asUintN(32, x);
  const left = (x: bigint, by: bigint): bigint => word((x << by) | (x >> (32n - by)));
  const s: bigint[] = [];
  for (let i = 1n; i <= 4n; i++) {
    let z = word(seed + i * 0x9e3779b9n);
    z = word((z ^ (z >> 16n)) * 0x21f0aaadn);
    z = word((z ^ (z >> 15n)) * 0x735a2d97n);
    s.push(z ^ (z >> 15n));
  }
  for (;;) {
    yield word(left(word(s[1]! * 5n), 7n) * 9n);
    const t = word(s[1]! << 9n);
    s[2]! ^= s[0]!;
    s[3]! ^= s[1]!;
    s[1]! ^= s[2]!;
    s[0]! ^= s[3]!;
    s[2]! ^= t;
    s[3] = left(s[3]!, 11n);
  }
}

describe('random numbers', () => {
  test('the published generators in another arithmetic give the same row, for any seed', () => {
    for (const seed of [0, 1, 7, 123456789, -5, 2 ** 31, 2 ** 32 + 3]) {
      const ours = seeded(seed);
      const theirs = published(BigInt.asUintN(32, BigInt(seed)));
      for (let i = 0; i < 50; i++) expect(ours.uniform()).toBe(Number(theirs.next().value) / 2 ** 32);
    }
  });

  test("Marsaglia's polar method: a pair lies on the ray of its point, at sqrt(-2 ln q)", () => {
    const normals = seeded(21);
    const uniforms = seeded(21);
    for (let pair = 0; pair < 200; pair++) {
      const [n, m] = [normals.normal(), normals.normal()];
      let [x, y] = [1, 1];
      while (x * x + y * y >= 1) [x, y] = [2 * uniforms.uniform() - 1, 2 * uniforms.uniform() - 1];
      expect(Math.atan2(m, n)).toBeCloseTo(Math.atan2(y, x), 12);
      expect(Math.exp(-(n * n + m * m) / 2)).toBeCloseTo(x * x + y * y, 12);
    }
  });

  test('xoshiro128** from state 1, 2, 3, 4 (published test vector of the reference implementation, from memory)', () => {
    const state = Int32Array.from([1, 2, 3, 4]);
    expect([xoshiro(state), xoshiro(state), xoshiro(state), xoshiro(state)]).toEqual([11520, 0, 5927040, 70819200]);
  });

  test('the same seed gives the same row, another seed another', () => {
    const row = (seed: number) => {
      const r = seeded(seed);
      return Array.from({ length: 5 }, () => r.normal());
    };
    expect(row(7)).toEqual(row(7));
    expect(row(7)).not.toEqual(row(8));
  });

  test('normals have the moments of a normal (200 000, seed 3)', () => {
    const n = 200_000;
    const r = seeded(3);
    const m = [0, 0, 0, 0];
    let beyond = 0;
    for (let i = 0; i < n; i++) {
      const z = r.normal();
      for (let k = 0; k < 4; k++) m[k]! += z ** (k + 1) / n;
      if (Math.abs(z) > 1.959964) beyond++;
    }
    // Five standard errors: 1/n, 2/n, 15/n, 96/n are the variances of the four sample moments.
    expect(Math.abs(m[0]!)).toBeLessThan(5 * Math.sqrt(1 / n));
    expect(Math.abs(m[1]! - 1)).toBeLessThan(5 * Math.sqrt(2 / n));
    expect(Math.abs(m[2]!)).toBeLessThan(5 * Math.sqrt(15 / n));
    expect(Math.abs(m[3]! - 3)).toBeLessThan(5 * Math.sqrt(96 / n));
    expect(Math.abs(beyond / n - 0.05)).toBeLessThan(5 * Math.sqrt(0.0475 / n));
  });

  test('uniforms fill sixteen boxes evenly (chi-square, 15 degrees, 0.1 % point 37.7)', () => {
    const r = seeded(11);
    const boxes = new Array<number>(16).fill(0);
    const n = 160_000;
    for (let i = 0; i < n; i++) boxes[Math.floor(16 * r.uniform())]!++;
    const chi = boxes.reduce((s, b) => s + (b - n / 16) ** 2 / (n / 16), 0);
    expect(chi).toBeLessThan(37.7);
    expect(chi).toBeGreaterThan(3);
  });
});

const grid = (n: number, seed: number, sigma: number, reach = 0): Reach[] => {
  const r = seeded(seed);
  const corners = [
    [0, 0],
    [40, 0],
    [40, 30],
    [0, 30],
    [20, 55],
    [-12, 17],
  ] as const;
  return corners.slice(0, n).map(([x, y]) => ({
    screw: { x, y },
    hole: { x: x + sigma * r.normal(), y: y + sigma * r.normal() },
    reach,
  }));
};

/** Greatest miss at a pose, reckoned afresh. */
function missAt(reaches: readonly Reach[], turn: number, x: number, y: number): number {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return Math.max(
    ...reaches.map((r) => {
      const px = c * r.screw.x - s * r.screw.y + x - r.hole.x;
      const py = s * r.screw.x + c * r.screw.y + y - r.hole.y;
      return Math.hypot(px, py) - r.reach;
    }),
  );
}

/** Brute force: a grid over the pose, closing in on its best point until the grid is finer than a micrometre. */
function bruteForce(reaches: readonly Reach[], turning: boolean): number {
  const arm = 40;
  let best: readonly [number, number, number] = [0, 0, 0];
  let width = 3;
  let least = missAt(reaches, 0, 0, 0);
  while (width > 1e-4) {
    const [t0, x0, y0] = best;
    for (let i = -6; i <= 6; i++) {
      for (let j = -6; j <= 6; j++) {
        for (let k = turning ? -6 : 0; k <= (turning ? 6 : 0); k++) {
          const at = [t0 + ((k / 6) * width) / arm, x0 + (i / 6) * width, y0 + (j / 6) * width] as const;
          const miss = missAt(reaches, ...at);
          if (miss < least) {
            least = miss;
            best = at;
          }
        }
      }
    }
    // Shrink slowly, so that a valley that runs aslant is not left behind.
    width *= 0.7;
  }
  return least;
}

describe('best rigid fit, least greatest miss', () => {
  test('two holes: half of what the spacing is out by, whichever way they lie', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const pair = grid(2, seed, 0.6);
      const spacing = Math.hypot(pair[1]!.hole.x - pair[0]!.hole.x, pair[1]!.hole.y - pair[0]!.hole.y);
      expect(fitRigid(pair)!.miss).toBeCloseTo(Math.abs(spacing - 40) / 2, 5);
    }
  });

  test('an exact pattern, moved and turned, misses by minus its reach', () => {
    const turned = grid(5, 1, 0, 0.7).map((r) => ({
      ...r,
      hole: {
        x: Math.cos(0.4) * r.screw.x - Math.sin(0.4) * r.screw.y + 3,
        y: Math.sin(0.4) * r.screw.x + Math.cos(0.4) * r.screw.y - 2,
      },
    }));
    const fit = fitRigid(turned)!;
    expect(fit.miss).toBeCloseTo(-0.7, 5);
    expect(fit.turn).toBeCloseTo((0.4 * 180) / Math.PI, 3);
  });

  test.each([3, 4, 5, 6])('%d holes: no pose on a grid does better, and the grid comes as near', (n) => {
    for (let seed = 1; seed <= 3; seed++) {
      const holes = grid(n, 100 * n + seed, 0.5, 0.3);
      const fit = fitRigid(holes)!;
      const brute = bruteForce(holes, true);
      expect(fit.miss).toBeLessThanOrEqual(brute + 2e-6);
      // The grid stops within a few of its last steps of the least.
      expect(brute - fit.miss).toBeLessThan(2e-3);
      // The miss told is the miss at the pose told.
      expect(missAt(holes, (fit.turn * Math.PI) / 180, fit.shift.x, fit.shift.y)).toBeCloseTo(fit.miss, 9);
    }
  });

  test('held straight it is the smallest circle round the errors', () => {
    // Errors on an equilateral triangle of circumradius 1.
    const errors = [0, 120, 240].map((d) => [Math.cos((d * Math.PI) / 180), Math.sin((d * Math.PI) / 180)] as const);
    const holes = grid(3, 1, 0).map((r, i) => ({
      ...r,
      hole: { x: r.screw.x + 5 + errors[i]![0], y: r.screw.y - 4 + errors[i]![1] },
    }));
    const fit = fitRigid(holes, { turning: 'held' })!;
    expect(fit.miss).toBeCloseTo(1, 5);
    expect(fit.turn).toBe(0);
    expect(fit.shift.x).toBeCloseTo(5, 3);
    expect(fit.shift.y).toBeCloseTo(-4, 3);
    expect(fit.miss).toBeCloseTo(
      bruteForce(
        holes.map((h) => ({ ...h, hole: { x: h.hole.x - 5, y: h.hole.y + 4 } })),
        false,
      ),
      2,
    );
  });

  test('pull says how the miss follows a hole', () => {
    const holes = grid(5, 77, 0.5, 0.2);
    const fit = fitRigid(holes)!;
    const step = 1e-3;
    for (let i = 0; i < holes.length; i++) {
      for (const axis of ['x', 'y'] as const) {
        const moved = (by: number) =>
          fitRigid(holes.map((h, k) => (k === i ? { ...h, hole: { ...h.hole, [axis]: h.hole[axis] + by } } : h)))!.miss;
        const slope = (moved(step) - moved(-step)) / (2 * step);
        // Second differences at a corner of the pattern cost up to the step itself.
        expect(Math.abs(slope - fit.pull[i]![axis])).toBeLessThan(0.02);
      }
    }
  });

  test('opening one hole: the rest keep their reach, and nothing smaller will do', () => {
    const holes = grid(4, 5, 0.1, 0.6).map((h, i) => (i === 2 ? { ...h, hole: { x: h.hole.x + 3, y: h.hole.y } } : h));
    expect(fitRigid(holes)!.miss).toBeGreaterThan(0);
    const opened = fitRigid(holes.map((h, i) => ({ ...h, opens: i === 2 })))!;
    for (const i of [0, 1, 3]) expect(Math.hypot(opened.off[i]!.x, opened.off[i]!.y)).toBeLessThanOrEqual(0.6 + 1e-6);
    const needed = Math.hypot(opened.off[2]!.x, opened.off[2]!.y) - 0.6;
    expect(opened.miss).toBeCloseTo(needed, 6);
    const exactly = (by: number) => fitRigid(holes.map((h, i) => ({ ...h, reach: i === 2 ? 0.6 + by : 0.6 })))!.miss;
    expect(exactly(needed + 1e-4)).toBeLessThan(0);
    expect(exactly(needed - 1e-3)).toBeGreaterThan(0);
  });

  test('opening one hole cannot save a fitting whose other holes do not agree', () => {
    const holes = grid(4, 5, 0, 0.3).map((h, i) =>
      i < 2 ? { ...h, hole: { x: h.hole.x + (i === 0 ? -1 : 1), y: h.hole.y } } : h,
    );
    expect(fitRigid(holes.map((h, i) => ({ ...h, opens: i === 3 })))).toBeUndefined();
  });

  test('ASME Y14.5 appendix B, fixed fastener: H = F + 2 T goes on at the worst, and no smaller hole does', () => {
    // M5 in a 5.5 hole: T = (H - F) / 2 = 0.25 diametral on each part, so each axis may be out by 0.125.
    const worst = (hole: number): number =>
      fitRigid(
        [-1, 1].map((side) => ({
          // Screws out by T/2 towards each other, holes by T/2 away.
          screw: { x: side * (20 - 0.125), y: 0 },
          hole: { x: side * (20 + 0.125), y: 0 },
          reach: (hole - 5) / 2,
        })),
      )!.miss;
    expect(worst(5.5)).toBeCloseTo(0, 6);
    expect(worst(5.49)).toBeGreaterThan(0);
    expect(worst(5.51)).toBeLessThan(0);
  });

  test('ASME Y14.5 appendix B, floating fastener: H = F + T', () => {
    // M6 in 6.6 holes in both parts: T = 0.6. Seen as one pattern on the other, each screw may stray by H - F in all.
    const worst = (hole: number): number =>
      fitRigid(
        [-1, 1].map((side) => ({
          screw: { x: side * (20 - 0.3), y: 0 },
          hole: { x: side * (20 + 0.3), y: 0 },
          reach: hole - 6,
        })),
      )!.miss;
    expect(worst(6.6)).toBeCloseTo(0, 6);
    expect(worst(6.59)).toBeGreaterThan(0);
  });
});

describe('the quick fit of a simulation', () => {
  test('two ways to the least greatest miss agree: tangents over smallest circles, and the cone problem (seed 4)', () => {
    const r = seeded(4);
    for (let k = 0; k < 300; k++) {
      const n = 2 + Math.floor(r.uniform() * 7);
      const screws = Array.from({ length: n }, (_, i) => ({ x: 40 * r.uniform() + 5 * i, y: 40 * r.normal() }));
      const errors = screws.map(() => ({ x: 0.02 * r.normal(), y: 0.02 * r.normal() }));
      const reaches = screws.map((s, i) => ({
        screw: s,
        hole: { x: s.x + errors[i]!.x, y: s.y + errors[i]!.y },
        reach: 0,
      }));
      const quick = new QuickFit(screws);
      const ex = Float64Array.from(errors, (e) => e.x);
      const ey = Float64Array.from(errors, (e) => e.y);
      // Held straight both are exact; free to turn, the quick one leaves out the square of the turn (0.02 / 10 mm here).
      expect(Math.abs(quick.held(ex, ey) - fitRigid(reaches, { within: 1e-7, turning: 'held' })!.miss)).toBeLessThan(
        2e-7,
      );
      expect(Math.abs(quick.free(ex, ey, 1e-7) - fitRigid(reaches, { within: 1e-7 })!.miss)).toBeLessThan(1e-4);
    }
  });

  test('the smallest circle holds every point, and no circle through two or three of them is smaller and holds all', () => {
    const r = seeded(12);
    for (let k = 0; k < 200; k++) {
      const n = 2 + Math.floor(r.uniform() * 6);
      const x = Array.from({ length: n }, () => r.normal());
      const y = Array.from({ length: n }, () => r.normal());
      const c = emptyCircle();
      smallestCircle(x, y, n, c);
      const holds = (cx: number, cy: number, radius: number) =>
        x.every((_, i) => Math.hypot(x[i]! - cx, y[i]! - cy) <= radius + 1e-9);
      expect(holds(c.x, c.y, c.radius)).toBe(true);
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i < n; i++)
        for (let j = 0; j < i; j++) {
          const [mx, my, mr] = [(x[i]! + x[j]!) / 2, (y[i]! + y[j]!) / 2, Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!) / 2];
          if (holds(mx, my, mr)) least = Math.min(least, mr);
          for (let l = 0; l < j; l++) {
            const [a, b, d] = [i, j, l].map((q) => x[q]! * x[q]! + y[q]! * y[q]!) as [number, number, number];
            const det = 2 * (x[i]! * (y[j]! - y[l]!) + x[j]! * (y[l]! - y[i]!) + x[l]! * (y[i]! - y[j]!));
            const cx = (a * (y[j]! - y[l]!) + b * (y[l]! - y[i]!) + d * (y[i]! - y[j]!)) / det;
            const cy = (a * (x[l]! - x[j]!) + b * (x[i]! - x[l]!) + d * (x[j]! - x[i]!)) / det;
            const cr = Math.hypot(x[i]! - cx, y[i]! - cy);
            if (holds(cx, cy, cr)) least = Math.min(least, cr);
          }
        }
      expect(c.radius).toBeCloseTo(least, 9);
    }
  });

  test('points in line, points that coincide, and one point alone', () => {
    const c = emptyCircle();
    smallestCircle([0, 1, 2, 3], [0, 0, 0, 0], 4, c);
    expect([c.x, c.y, c.radius]).toEqual([1.5, 0, 1.5]);
    smallestCircle([2, 2, 2], [1, 1, 1], 3, c);
    expect([c.x, c.y, c.radius]).toEqual([2, 1, 0]);
    smallestCircle([7], [8], 1, c);
    expect([c.x, c.y, c.radius]).toEqual([7, 8, 0]);
    expect(new QuickFit([{ x: 3, y: 4 }]).free(Float64Array.of(1), Float64Array.of(2), 1e-6)).toBe(0);
  });
});
