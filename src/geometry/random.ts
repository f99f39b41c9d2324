/**
 * Seeded random numbers: the same seed gives the same row on every engine, because only 32-bit integer arithmetic
 * decides it. Generator: xoshiro128** of Blackman and Vigna (2018), state filled by splitmix32.
 */
export interface Random {
  /** Uniform in [0, 1), in steps of 2^-32. */
  readonly uniform: () => number;
  /** Standard normal: mean 0, deviation 1. */
  readonly normal: () => number;
}

/** One step of xoshiro128**: returns the 32-bit result and moves `state` (four 32-bit words, not all zero). */
export function xoshiro(state: Int32Array): number {
  const s1 = state[1]!;
  const product = Math.imul(s1, 5);
  const result = Math.imul((product << 7) | (product >>> 25), 9);
  const shifted = s1 << 9;
  const s2 = state[2]! ^ state[0]!;
  const s3 = state[3]! ^ s1;
  state[1] = s1 ^ s2;
  state[0] = state[0]! ^ s3;
  state[2] = s2 ^ shifted;
  state[3] = (s3 << 11) | (s3 >>> 21);
  return result >>> 0;
}

/** A generator of its own for each use; `seed` is any number, its lower 32 bits count. */
export function seeded(seed: number): Random {
  const state = new Int32Array(4);
  let mix = seed | 0;
  for (let i = 0; i < 4; i++) {
    mix = (mix + 0x9e3779b9) | 0;
    let z = mix;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    state[i] = z ^ (z >>> 15);
  }
  const uniform = (): number => xoshiro(state) / 4294967296;
  let spare = 0;
  let hasSpare = false;
  // Marsaglia's polar method: two normals from a point in the unit circle.
  const normal = (): number => {
    if (hasSpare) {
      hasSpare = false;
      return spare;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const q = x * x + y * y;
      if (q < 1 && q > 0) {
        const factor = Math.sqrt((-2 * Math.log(q)) / q);
        spare = y * factor;
        hasSpare = true;
        return x * factor;
      }
    }
  };
  return { uniform, normal };
}
