// `npm run kills [-- 260]`: the main job, killed without warning at so many points: as far as they go just before each of its
// changes to the file system, the rest by the clock, spread over the whole run. Each must leave the old set, the new set,
// or a set marked unfinished; the next run, with the old jig file or the new in turn, must leave its own set whole.
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const points = Number(process.argv[2] ?? 260);
const home = mkdtempSync(join(tmpdir(), 'lugwright-kills-'));
try {
  await import('../../bin/build.mjs');
  for (const part of ['bin', 'dist', 'package.json']) cpSync(part, join(home, part), { recursive: true });
  const outfile = join(home, 'killed-make.mjs');
  await build({
    entryPoints: ['tests/helpers/killed-make.ts'],
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
  });
  const { KilledMake } = await import(pathToFileURL(outfile).href);
  const job = new KilledMake(join(home, 'sets'), join(home, 'bin', 'lugwright.mjs'));
  const began = Date.now();
  const changes = job.changes();
  const whole = Date.now() - began;
  const byClock = Math.max(Math.ceil(points / 5), points - changes);
  const byChange = points - byClock;
  const found = { old: 0, new: 0, unfinished: 0 };
  for (let i = 0; i < points; i++) {
    const next = i % 2 === 0 ? 'new' : 'old';
    const at = Math.floor((i * changes) / byChange);
    const after = Math.ceil(((i - byChange + 1) * whole) / byClock);
    const state = i < byChange ? job.try({ KILL_AT: String(at) }, next) : job.try({}, next, after);
    found[state]++;
    if ((i + 1) % 20 === 0) console.error(`${i + 1} of ${points}`);
  }
  console.log(
    `make killed at ${points} points (${byChange} of its ${changes} changes to the file system, ${byClock} by the clock over ${whole} ms): ` +
      `${found.old} left the old set, ${found.new} the new, ${found.unfinished} a set marked unfinished; every next run left its own set whole`,
  );
} finally {
  rmSync(home, { recursive: true, force: true });
}
