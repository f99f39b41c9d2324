// One table of all figures: whole processes against a bare one, measured in turn, then the suites. `npm run bench`.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { atMost, median, met, shown, table } from './kit.mjs';
import { suites } from './suites.mjs';

if (!existsSync('dist/cli.cjs')) throw new Error('run npm run build first');
const scratch = mkdtempSync(join(tmpdir(), 'lugwright-bench-'));
const RUNS = Number(process.env.RUNS ?? 11);

function once(args) {
  const began = performance.now();
  const child = spawnSync(process.execPath, ['--import', './tests/bench/rss.mjs', ...args], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  });
  return { ms: performance.now() - began, mib: Number(child.output[3]) / 1024, status: child.status };
}

const bare = { name: 'node -e 0', args: ['-e', '0'] };
const cli = (...args) => ['bin/lugwright.mjs', ...args];
const rows = [
  { name: '--version', args: cli('--version') },
  { name: 'check snare', args: cli('check', 'jigs/kettle-row-snare.yaml', '--json') },
  ...readdirSync('jigs')
    .filter((f) => /^kettle-row-.*\.yaml$/.test(f))
    .map((f) => ({
      name: `make ${f.replace(/^kettle-row-|\.yaml$/g, '')}`,
      args: cli('make', `jigs/${f}`, '--out', join(scratch, f), '--quiet'),
    })),
];
const samples = new Map([bare, ...rows].map((r) => [r.name, []]));
for (let i = 0; i < RUNS; i++) for (const r of [bare, ...rows]) samples.get(r.name).push(once(r.args));

const floor = {
  ms: median(samples.get(bare.name).map((s) => s.ms)),
  mib: median(samples.get(bare.name).map((s) => s.mib)),
};
const { rows: bars, add } = table();
add('a bare process, node -e 0, ms', floor.ms);
add('a bare process, MiB', floor.mib);
for (const { name } of rows) {
  const list = samples.get(name);
  const make = name.startsWith('make');
  add(`${name}: wall, times a bare process`, median(list.map((s) => s.ms)) / floor.ms, make ? atMost(4) : {});
  add(`${name}: memory, times a bare process`, median(list.map((s) => s.mib)) / floor.mib, make ? atMost(2.5) : {});
}
rmSync(scratch, { recursive: true, force: true });
for (const suite of suites) {
  process.stderr.write(`${suite.name} ...\n`);
  bars.push(...(await suite()));
}
const asked = bars.filter((row) => met(row) !== undefined);
console.log(
  `node ${process.version}, ${cpus().length} x ${cpus()[0]?.model}; whole processes: median of ${RUNS} in turn`,
);
console.table(bars.map(shown));
console.log(`${asked.filter(met).length} of ${asked.length} bars reached`);
mkdirSync('reports', { recursive: true });
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
writeFileSync(
  'reports/bench.json',
  JSON.stringify({ version, node: process.version, cpu: cpus()[0]?.model, runs: RUNS, rows: bars }, null, 2),
);
