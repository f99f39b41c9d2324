import { budgetSayings } from '../say/budget.ts';
import { collarSayings } from '../say/collar.ts';
import { dryRunSayings } from '../say/dryrun.ts';
import { feedSayings } from '../say/feeds.ts';
import { fitSayings } from '../say/fit.ts';
import { rotarySayings } from '../say/rotary.ts';
import type { Sayings } from '../say/say.ts';
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
