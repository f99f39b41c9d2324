import type { Fact, Finding } from '../model/finding.ts';
import { budgetSayings } from '../say/budget.ts';
import { collarSayings } from '../say/collar.ts';
import { dryRunSayings } from '../say/dryrun.ts';
import { feedSayings } from '../say/feeds.ts';
import { fitSayings } from '../say/fit.ts';
import { measuredSayings } from '../say/measured.ts';
import { rotarySayings } from '../say/rotary.ts';
import { type Sayings, sayAll } from '../say/say.ts';
import { wrapSayings } from '../say/wrap.ts';

/** Every finding's sentence, from every stage. An id belongs to one stage only: a test checks it. */
export const SAYINGS: Sayings = {
  ...fitSayings,
  ...budgetSayings,
  ...wrapSayings,
  ...collarSayings,
  ...feedSayings,
  ...rotarySayings,
  ...dryRunSayings,
};

/**
 * Facts in words: what is wrong, the limit, where it comes from and what to try.
 * @param facts from any stage
 * @returns findings, stops first, doubles once; numbers rounded to 1e-4
 * @throws Error for an id that no stage has
 * @source each finding names its own in `source`
 */
export const sentences = (facts: readonly Fact[]): Finding[] => sayAll(facts, { ...SAYINGS, ...measuredSayings });
