// Makes the sample set and the README's picture anew from demo jigs: `npm run sample` (after a build).
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { coverPicture, layOut, parseText, resolveJig } from '../dist/index.mjs';

// A set is some megabytes; these files tell what it is like.
const SHOWN = [
  'plan.json',
  'holes.csv',
  'wrap.dxf',
  'wrap.svg',
  'wrap.pdf',
  'collar-sheet-1.svg',
  'rotary.nc',
  'dry-run.json',
  'readings.csv',
];
const whole = mkdtempSync(join(tmpdir(), 'lugwright-sample-'));
const made = spawnSync(
  process.execPath,
  ['bin/lugwright.mjs', 'make', 'jigs/kettle-row-rack-tom.yaml', '--out', whole, '--quiet'],
  { stdio: 'inherit' },
);
if (made.status !== 0) throw new Error(`make gave exit status ${made.status}`);
rmSync('output/sample', { recursive: true, force: true });
mkdirSync('output/sample', { recursive: true });
for (const name of SHOWN) copyFileSync(join(whole, name), join('output/sample', name));
rmSync(whole, { recursive: true });

const parsed = parseText(readFileSync('jigs/kettle-row-snare.yaml', 'utf8'));
const { jig } = resolveJig(parsed.raw);
writeFileSync('output/sample/cover.svg', coverPicture(jig, layOut(jig)));
