import { describe, expect, test } from 'vitest';
import { seeded, xoshiro } from '../../src/geometry/random.ts';

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
