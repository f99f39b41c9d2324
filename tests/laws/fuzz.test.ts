import { existsSync, readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, test } from 'vitest';
import { SUITES } from '../fuzz/suites.ts';

/** The short end of `npm run fuzz`: a few hundred inputs of each kind, and every find it ever kept. */
describe.each(SUITES.map((s) => [s.name, s] as const))('%s', (name, suite) => {
  test(`${suite.short} inputs`, () => {
    fc.assert(fc.property(suite.inputs, suite.holds), { numRuns: suite.short, seed: 20 });
  });

  const folder = `tests/cases/fuzz/${name}`;
  for (const file of existsSync(folder) ? readdirSync(folder).sort() : [])
    test(`find ${file}`, () => {
      suite.holds(JSON.parse(readFileSync(`${folder}/${file}`, 'utf8')).input);
    });
});
