import type { Fact } from '../model/finding.ts';

/** One file of the set, as text or bytes, with a few words on what it is for. */
export interface MadeFile {
  readonly name: string;
  readonly data: string | Uint8Array;
  readonly what: string;
}

/** Something left out of the set, with the reason in plain words. */
export interface NotMade {
  readonly what: string;
  readonly why: string;
}

/** What one branch of the job gives: files, findings, what was left out. */
export interface Branch {
  readonly files: readonly MadeFile[];
  readonly facts: readonly Fact[];
  readonly notMade: readonly NotMade[];
}
