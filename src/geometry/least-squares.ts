/**
 * Symmetric positive definite systems. Small dense ones for a fit of one fitting; and ones stored by their skyline for
 * many readings of many holes, where each unknown meets only its neighbours and the work grows with the count, not with
 * its cube.
 */

/**
 * Solves A x = b for a small A of `size`, given row by row (lower half used) and overwritten with its Cholesky factor.
 * False when A is not positive definite.
 */
export function choleskySolve(a: Float64Array, size: number, b: Float64Array, x: Float64Array): boolean {
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= a[i * size + k]! * a[j * size + k]!;
      if (i !== j) a[i * size + j] = sum / a[j * size + j]!;
      else if (sum > 0) a[i * size + i] = Math.sqrt(sum);
      else return false;
    }
  }
  for (let i = 0; i < size; i++) {
    let sum = b[i]!;
    for (let k = 0; k < i; k++) sum -= a[i * size + k]! * x[k]!;
    x[i] = sum / a[i * size + i]!;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i]!;
    for (let k = i + 1; k < size; k++) sum -= a[k * size + i]! * x[k]!;
    x[i] = sum / a[i * size + i]!;
  }
  return true;
}

/** One equation: coefficients by unknown, what the residual is (seen less reckoned), and 1 / sigma^2. */
export interface Equation {
  readonly at: readonly number[];
  readonly by: readonly number[];
  readonly residual: number;
  readonly weight: number;
}

/** The normal equations, factored. */
export interface Normal {
  /** N^-1 b for the equations given: the correction of the unknowns. */
  readonly correction: Float64Array;
  /** N^-1 v, for covariances; `v` is left alone. */
  readonly solve: (v: Float64Array) => Float64Array;
  /** e' N^-1 e: the variance of what one equation says, from half a solution and only from its first unknown on. */
  readonly variance: (e: Pick<Equation, 'at' | 'by'>) => number;
}

/**
 * Normal equations of weighted least squares over `unknowns`, by the skyline: row i is kept from its first unknown that
 * any equation joins to it. Undefined when some unknown is not held by any equation.
 */
export function normalEquations(unknowns: number, equations: readonly Equation[]): Normal | undefined {
  const first = Int32Array.from({ length: unknowns }, (_, i) => i);
  for (const { at } of equations) {
    const low = Math.min(...at);
    for (const i of at) first[i] = Math.min(first[i]!, low);
  }
  const start = new Int32Array(unknowns + 1);
  for (let i = 0; i < unknowns; i++) start[i + 1] = start[i]! + i - first[i]! + 1;
  const a = new Float64Array(start[unknowns]!);
  const place = (i: number, j: number): number => start[i]! + j - first[i]!;
  const right = new Float64Array(unknowns);
  for (const { at, by, residual, weight } of equations) {
    for (let p = 0; p < at.length; p++) {
      const i = at[p]!;
      right[i]! += weight * by[p]! * residual;
      for (let q = 0; q < at.length; q++) {
        const j = at[q]!;
        if (j <= i) a[place(i, j)]! += weight * by[p]! * by[q]!;
      }
    }
  }
  for (let i = 0; i < unknowns; i++) {
    for (let j = first[i]!; j <= i; j++) {
      const from = Math.max(first[i]!, first[j]!);
      const ri = start[i]! - first[i]!;
      const rj = start[j]! - first[j]!;
      let sum = a[ri + j]!;
      for (let k = from; k < j; k++) sum -= a[ri + k]! * a[rj + k]!;
      if (i !== j) a[ri + j] = sum / a[rj + j]!;
      else if (sum > 0) a[ri + i] = Math.sqrt(sum);
      else return undefined;
    }
  }
  const solve = (v: Float64Array): Float64Array => {
    const x = Float64Array.from(v);
    for (let i = 0; i < unknowns; i++) {
      const row = start[i]! - first[i]!;
      let sum = x[i]!;
      for (let k = first[i]!; k < i; k++) sum -= a[row + k]! * x[k]!;
      x[i] = sum / a[row + i]!;
    }
    for (let i = unknowns - 1; i >= 0; i--) {
      const row = start[i]! - first[i]!;
      const value = x[i]! / a[row + i]!;
      x[i] = value;
      for (let k = first[i]!; k < i; k++) x[k]! -= a[row + k]! * value;
    }
    return x;
  };
  const half = new Float64Array(unknowns);
  const variance = (e: Pick<Equation, 'at' | 'by'>): number => {
    const low = Math.min(...e.at);
    half.fill(0, low);
    for (let k = 0; k < e.at.length; k++) half[e.at[k]!]! += e.by[k]!;
    let total = 0;
    for (let i = low; i < unknowns; i++) {
      const row = start[i]! - first[i]!;
      let sum = half[i]!;
      for (let k = Math.max(low, first[i]!); k < i; k++) sum -= a[row + k]! * half[k]!;
      const x = sum / a[row + i]!;
      half[i] = x;
      total += x * x;
    }
    return total;
  };
  return { correction: solve(right), solve, variance };
}
