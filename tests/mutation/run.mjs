import { mkdirSync } from 'node:fs';
import { Stryker } from '@stryker-mutator/core';
import { PARTS } from './parts.mjs';
import { printReport } from './report.mjs';

const args = process.argv.slice(2);
const only = args.includes('--only') ? args[args.indexOf('--only') + 1] : undefined;
const named = args.filter((a) => a in PARTS);
const parts = named.length > 0 ? named : Object.keys(PARTS);
const runs = only === undefined ? parts.map((part) => ({ part, name: part })) : [{ part: parts[0], name: slug(only) }];

if (!args.includes('--report')) {
  mkdirSync('reports/mutation', { recursive: true });
  for (const run of runs) await mutate(run);
}
process.exitCode = printReport(runs.map((run) => run.name));

async function mutate({ part, name }) {
  const { mutate, tests } = PARTS[part];
  // A mutant met while a file loads is tried with every test of vitest's own configuration, so they are chosen there.
  process.env.LUGWRIGHT_MUTATION_TESTS = tests.join(',');
  await new Stryker({
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
    mutate: only === undefined ? mutate : [only],
    coverageAnalysis: 'perTest',
    concurrency: Number(process.env.LUGWRIGHT_MUTATION_WORKERS ?? 1),
    // A busy machine must not pass for an endless loop.
    timeoutMS: 6000,
    timeoutFactor: 3,
    reporters: ['json', 'progress-append-only'],
    jsonReporter: { fileName: `reports/mutation/${name}.json` },
    // It would rewrite a tsconfig with TypeScript's old programming interface; vitest needs no types.
    tsconfigFile: 'none',
    tempDirName: 'reports/mutation/sandbox',
    ignorePatterns: ['dist', 'output', 'reports', 'coverage'],
    thresholds: { break: null },
    warnings: { slow: false },
    logLevel: 'warn',
    allowConsoleColors: false,
  }).runMutationTest();
}

function slug(text) {
  return text.replace(/\W+/g, '-');
}
