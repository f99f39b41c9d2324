import type fc from 'fast-check';

/** One thing to throw anything at: what goes in, and what must be true of it. `npm run fuzz` runs them by the million. */
export interface Fuzzed<T> {
  readonly name: string;
  /** Inputs that take well under a second together, for every test run. */
  readonly short: number;
  /** JSON values, so that a find can be kept in a file. Bytes: a string of characters up to U+00FF. */
  readonly inputs: fc.Arbitrary<T>;
  /** Throws when the input breaks what must hold. */
  readonly holds: (input: T) => void;
}
