// One table of ratios: whole processes against a bare one, measured in turn in the same run. `npm run bench`.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';

if (!existsSync('dist/cli.mjs')) throw new Error('run npm run build first');
const scratch = mkdtempSync(join(tmpdir(), 'lugwright-bench-'));
const RUNS = Number(process.env.RUNS ?? 11);
const median = (xs) => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)];

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
const table = [...samples].map(([name, list]) => {
  const [ms, mib] = [median(list.map((s) => s.ms)), median(list.map((s) => s.mib))];
  return {
    command: name,
    ms: Math.round(ms),
    'x bare': (ms / floor.ms).toFixed(2),
    MiB: Math.round(mib),
    'x bare memory': (mib / floor.mib).toFixed(2),
  };
});
console.log(
  `node ${process.version}, ${cpus().length} x ${cpus()[0]?.model}, median of ${RUNS} interleaved runs; aim for make: 4 x wall, 2.5 x memory`,
);
console.table(table);

const { suites } = existsSync('tests/bench/suites.mjs') ? await import('./suites.mjs') : { suites: [] };
const more = [];
for (const suite of suites) {
  const rows = await suite();
  more.push(...rows);
  console.table(rows);
}
mkdirSync('reports', { recursive: true });
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
writeFileSync(
  'reports/bench.json',
  JSON.stringify({ version, node: process.version, cpu: cpus()[0]?.model, runs: RUNS, table, more }, null, 2),
);
rmSync(scratch, { recursive: true, force: true });
