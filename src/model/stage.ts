import type { Fact } from './finding.ts';

/** What every stage gives back: its value and what it found. The same input gives the same bytes. */
export interface Staged<T> {
  readonly value: T;
  readonly facts: readonly Fact[];
}
