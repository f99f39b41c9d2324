// Measurements besides whole processes; each suite gives rows for one table.
import { collarSuite } from './collar.mjs';
import { dryRunSuite } from './dryrun.mjs';
import { fitRows } from './fit.mjs';
import { flatSuite } from './flat.mjs';
import { pageSuite } from './page.mjs';
import { rotaryRows } from './rotary.mjs';

export const suites = [fitRows, flatSuite, rotaryRows, dryRunSuite, pageSuite, collarSuite];
