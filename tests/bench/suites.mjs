// Measurements besides whole processes; each suite gives rows for one table.
import { collarSuite } from './collar.mjs';
import { dryRunSuite } from './dryrun.mjs';
import { fitSuite } from './fit.mjs';
import { flatSuite } from './flat.mjs';
import { pageSuite } from './page.mjs';
import { rotarySuite } from './rotary.mjs';

export const suites = [fitSuite, flatSuite, rotarySuite, dryRunSuite, pageSuite, collarSuite];
