import { inverse, Matrix, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { choleskySolve, type Equation, normalEquations } from '../../src/geometry/least-squares.ts';
import { seeded } from '../../src/geometry/random.ts';

describe('small systems, positive definite', () => {
  test('by hand: 4 x + 2 y = 8, 2 x + 3 y = 7', () => {
    const a = Float64Array.of(4, Number.NaN, 2, 3);
    // What an earlier solution left behind does not count.
    const x = Float64Array.of(7, -3);
    expect(choleskySolve(a, 2, Float64Array.of(8, 7), x)).toBe(true);
    expect(x[0]).toBeCloseTo(1.25, 14);
    expect(x[1]).toBeCloseTo(1.5, 14);
    // Overwritten with the factor: L L' = A for L = [[2, 0], [1, sqrt 2]].
    expect([a[0], a[2]]).toEqual([2, 1]);
    expect(a[3]).toBeCloseTo(Math.SQRT2, 15);
  });

  test('against a general library, up to six unknowns', () => {
    const r = seeded(9);
    for (let size = 1; size <= 6; size++) {
      const m = new Matrix(Array.from({ length: size + 2 }, () => Array.from({ length: size }, () => r.normal())));
      const a = m.transpose().mmul(m);
      const b = Float64Array.from({ length: size }, () => r.normal());
      const x = new Float64Array(size);
      expect(choleskySolve(Float64Array.from(a.to1DArray()), size, b, x)).toBe(true);
      const wanted = solve(a, Matrix.columnVector([...b])).to1DArray();
      for (let i = 0; i < size; i++) expect(x[i]).toBeCloseTo(wanted[i]!, 9);
    }
  });

  test('a saddle and a flat valley have no answer', () => {
    const x = new Float64Array(2);
    expect(choleskySolve(Float64Array.of(1, 0, 2, 1), 2, Float64Array.of(1, 1), x)).toBe(false);
    expect(choleskySolve(Float64Array.of(1, 0, 1, 1), 2, Float64Array.of(1, 1), x)).toBe(false);
    expect(choleskySolve(Float64Array.of(0), 1, Float64Array.of(1), x)).toBe(false);
  });
});

describe('normal equations by the skyline, against a general library', () => {
  const r = seeded(5);
  const unknowns = 12;
  const equations: Equation[] = Array.from({ length: 40 }, (_, k) => {
    const first = Math.floor(r.uniform() * (unknowns - 3));
    const at = k < unknowns ? [k] : [first, first + 1, first + 3];
    return { at, by: at.map(() => r.normal()), residual: r.normal(), weight: 0.5 + r.uniform() };
  });
  const a = Matrix.zeros(equations.length, unknowns);
  for (const [k, e] of equations.entries()) for (const [i, u] of e.at.entries()) a.set(k, u, a.get(k, u) + e.by[i]!);
  const w = Matrix.diag(equations.map((e) => e.weight));
  const n = a.transpose().mmul(w).mmul(a);
  const b = a
    .transpose()
    .mmul(w)
    .mmul(Matrix.columnVector(equations.map((e) => e.residual)));
  const normal = normalEquations(unknowns, equations)!;

  test('the correction', () => {
    const x = inverse(n).mmul(b).to1DArray();
    for (let i = 0; i < unknowns; i++) expect(normal.correction[i]).toBeCloseTo(x[i]!, 9);
  });

  test('the covariance, column by column', () => {
    const inv = inverse(n);
    for (let j = 0; j < unknowns; j++) {
      const e = new Float64Array(unknowns);
      e[j] = 1;
      const column = normal.solve(e);
      for (let i = 0; i < unknowns; i++) expect(column[i]).toBeCloseTo(inv.get(i, j), 9);
    }
  });

  test('the variance of what any equation says, asked in any order', () => {
    const inv = inverse(n);
    for (const e of [...equations].reverse()) {
      const row = Matrix.zeros(1, unknowns);
      for (const [i, u] of e.at.entries()) row.set(0, u, row.get(0, u) + e.by[i]!);
      const wanted = row.mmul(inv).mmul(row.transpose()).get(0, 0);
      expect(normal.variance(e) / wanted).toBeCloseTo(1, 9);
      // Asked again it says the same: nothing of the last one is left over.
      expect(normal.variance(e)).toBe(normal.variance(e));
    }
  });

  test('an unknown that no equation holds has no answer', () => {
    expect(normalEquations(2, [{ at: [0], by: [1], residual: 1, weight: 1 }])).toBeUndefined();
  });

  test('by hand: x = 1 (weight 4), x + y = 4, y = 2, and an equation that names x twice', () => {
    // N = [[5, 1], [1, 2]], b = [4 + 4, 4 + 2]: x = (16 - 6) / 9, y = (30 - 8) / 9.
    const by = normalEquations(2, [
      { at: [0], by: [1], residual: 1, weight: 4 },
      { at: [1, 0], by: [1, 1], residual: 4, weight: 1 },
      { at: [1], by: [1], residual: 2, weight: 1 },
    ])!;
    expect(by.correction[0]).toBeCloseTo(10 / 9, 14);
    expect(by.correction[1]).toBeCloseTo(22 / 9, 14);
    expect(by.variance({ at: [0], by: [1] })).toBeCloseTo(2 / 9, 14);
    expect(by.variance({ at: [1], by: [1] })).toBeCloseTo(5 / 9, 14);
    // Twice x with weight 2 is 2 x = 6: N = 8, x = 3, and x + x has the variance 4 / 8.
    const twice = normalEquations(1, [{ at: [0, 0], by: [1, 1], residual: 6, weight: 2 }])!;
    expect(twice.correction[0]).toBeCloseTo(3, 14);
    expect(twice.variance({ at: [0, 0], by: [1, 1] })).toBeCloseTo(0.5, 14);
  });
});
