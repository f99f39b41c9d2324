import { type RawJig, valueAt } from './changes.ts';
import type { Proposal } from './search.ts';

/** One key of the jig file to change. */
export interface Change {
  readonly path: string;
  /** As the file says now; null when the key is not there. */
  readonly from: unknown;
  /** Null takes the key away. */
  readonly to: unknown;
}

/** One thing to do: one key, or a few that change together. */
export interface Step {
  readonly say: string;
  readonly changes: readonly Change[];
  /** Stops it clears, by id and place. */
  readonly clears: readonly string[];
  /** Other things to do instead that clear as much. */
  readonly or: readonly string[];
}

export const sentence = (say: string): string => `${say.charAt(0).toUpperCase()}${say.slice(1)}.`;

export const changesOf = (raw: RawJig, p: Proposal): Change[] =>
  Object.entries(p.set).map(([path, to]) => ({ path, from: valueAt(raw, path) ?? null, to }));
