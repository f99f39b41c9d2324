import { drawings } from './drawings.ts';
import { jigs } from './jigs.ts';
import { lengths } from './lengths.ts';
import { profiles } from './profiles.ts';
import { programs } from './programs.ts';
import { readings } from './readings.ts';
import type { Fuzzed } from './suite.ts';

/** Everything that is fuzzed. Each entry is a file of its own here. */
export const SUITES: readonly Fuzzed<unknown>[] = [programs, jigs, lengths, readings, profiles, drawings].map(
  (suite) => suite as Fuzzed<unknown>,
);
