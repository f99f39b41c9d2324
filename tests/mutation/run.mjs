import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { Stryker } from '@stryker-mutator/core';
import { PARTS } from './parts.mjs';
import { isOpen, lastOf, printReport, reportOf } from './report.mjs';

const args = process.argv.slice(2);
const reportOnly = args.includes('--report');
const again = args.includes('--again');
const named = args.filter((a) => !a.startsWith('--'));
const chosen = Object.entries(PARTS).flatMap(([part, files]) =>
  Object.entries(files)
    .map(([file, tests]) => ({ part, path: `${file}.ts`, tests: tests.map((t) => `tests/outside/${t}.test.ts`) }))
    .filter(({ path }) => named.length === 0 || named.includes(part) || named.includes(path)),
);
if (chosen.length === 0) throw new Error(`parts are ${Object.keys(PARTS).join(', ')}, or files of them`);

if (!reportOnly) {
  mkdirSync('reports/mutation', { recursive: true });
  for (const one of chosen) {
    const last = again ? lastOf(one.path) : undefined;
    if (last?.source === readFileSync(one.path, 'utf8')) await retry(one, last);
    else await mutate(one, [one.path], reportOf(one.path));
  }
}
process.exitCode = printReport(chosen);

/** Only what lived or was too slow to say, one by one, and what becomes of it is put in the file's report. */
async function retry(one, last) {
  const open = last.mutants.filter(isOpen);
  if (open.length === 0) return;
  // Columns of a report count from 1, those of a range from 0.
  const place = ({ line, column }) => `${line}:${column - 1}`;
  const ranges = open.map(({ location: { start, end } }) => `${one.path}:${place(start)}-${place(end)}`);
  await mutate(one, [...new Set(ranges)], 'reports/mutation/again.json');
  const key = (m) => JSON.stringify([m.mutatorName, m.location, m.replacement]);
  const found = new Map(lastOf(one.path, 'reports/mutation/again.json').mutants.map((m) => [key(m), m]));
  const report = JSON.parse(readFileSync(reportOf(one.path), 'utf8'));
  const file = report.files[one.path];
  file.mutants = file.mutants.map((m) => (isOpen(m) && found.has(key(m)) ? found.get(key(m)) : m));
  writeFileSync(reportOf(one.path), JSON.stringify(report));
}

/** One file at a time, each with a report of its own, so that a run broken off is not lost. */
async function mutate({ path, tests }, ranges, fileName) {
  console.log(`\n${path}`);
  // A mutant met while a file loads is tried with every test of vitest's own configuration, so they are chosen there.
  process.env.LUGWRIGHT_MUTATION_TESTS = tests.join(',');
  await new Stryker({
    testRunner: 'vitest',
    vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
    mutate: ranges,
    coverageAnalysis: 'perTest',
    concurrency: Number(process.env.LUGWRIGHT_MUTATION_WORKERS ?? 1),
    // A busy machine must not pass for an endless loop.
    timeoutMS: 30_000,
    timeoutFactor: 3,
    reporters: ['json', 'progress-append-only'],
    jsonReporter: { fileName },
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
