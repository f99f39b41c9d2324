import { mkdirSync } from 'node:fs';
import { Stryker } from '@stryker-mutator/core';
import { PARTS } from './parts.mjs';
import { printReport, reportOf } from './report.mjs';

const args = process.argv.slice(2);
const reportOnly = args.includes('--report');
const named = args.filter((a) => !a.startsWith('--'));
const chosen = Object.entries(PARTS).flatMap(([part, files]) =>
  Object.entries(files)
    .map(([file, tests]) => ({ part, path: `${file}.ts`, tests: tests.map((t) => `tests/outside/${t}.test.ts`) }))
    .filter(({ path }) => named.length === 0 || named.includes(part) || named.includes(path)),
);
if (chosen.length === 0) throw new Error(`parts are ${Object.keys(PARTS).join(', ')}, or files of them`);

if (!reportOnly) {
  mkdirSync('reports/mutation', { recursive: true });
  for (const one of chosen) await mutate(one);
}
process.exitCode = printReport(chosen);

/** One file at a time, each with a report of its own: a run that was broken off is taken up again where it stood. */
async function mutate({ path, tests }) {
  console.log(`\n${path}`);
  // A mutant met while a file loads is tried with every test of vitest's own configuration, so they are chosen there.
  process.env.LUGWRIGHT_MUTATION_TESTS = tests.join(',');
  await new Stryker({
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
    mutate: [path],
    coverageAnalysis: 'perTest',
    concurrency: Number(process.env.LUGWRIGHT_MUTATION_WORKERS ?? 1),
    // A busy machine must not pass for an endless loop.
    timeoutMS: 30_000,
    timeoutFactor: 3,
    reporters: ['json', 'progress-append-only'],
    jsonReporter: { fileName: reportOf(path) },
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
