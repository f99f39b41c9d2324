// Measurements besides whole processes; each suite gives rows for one table.
import { pageSuite } from './page.mjs';

export const suites = [pageSuite];
