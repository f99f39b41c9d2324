import { programs } from './programs.ts';
import type { Fuzzed } from './suite.ts';

/** Everything that is fuzzed. Each entry is a file of its own here. */
export const SUITES: readonly Fuzzed<unknown>[] = [programs as Fuzzed<unknown>];
