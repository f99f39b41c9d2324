import type { Saying } from '../model/finding.ts';
import { drilledSayings } from './dryrun-holes.ts';
import { jobSayings } from './dryrun-job.ts';
import { languageSayings } from './dryrun-language.ts';
import { limitSayings } from './dryrun-limits.ts';
import { woodSayings } from './dryrun-wood.ts';

/** What the dry run finds. */
export const dryRunSayings: Readonly<Record<string, Saying>> = {
  ...languageSayings,
  ...woodSayings,
  ...limitSayings,
  ...drilledSayings,
  ...jobSayings,
};
