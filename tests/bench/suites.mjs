// Measurements besides whole processes; each suite gives rows for one table.
import { dryRunSuite } from './dryrun.mjs';
import { pageSuite } from './page.mjs';
import { rotaryRows } from './rotary.mjs';

export const suites = [rotaryRows, dryRunSuite, pageSuite];
