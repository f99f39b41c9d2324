// What every suite needs: our code as one module, seeded numbers, the least of many runs, and rows of one kind.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

/** What is wanted of a figure: no more than, no less than, or nothing (it is shown beside the others). */
export const atMost = (most) => ({ most });
export const atLeast = (least) => ({ least });

/** Rows `{ what, measured, aim }`, `measured` a number cut to what means something. */
export function table() {
  const rows = [];
  const add = (what, measured, aim = {}) => rows.push({ what, measured: Number(measured.toPrecision(3)), aim });
  return { rows, add };
}

/** Whether a row's aim is met; undefined where it has none. */
export function met({ measured, aim }) {
  if (aim.most !== undefined) return measured <= aim.most;
  return aim.least === undefined ? undefined : measured >= aim.least;
}

/** A row as people read it. */
export const shown = (row) => ({
  what: row.what,
  measured: row.measured,
  wanted: row.aim.most !== undefined ? `<= ${row.aim.most}` : row.aim.least !== undefined ? `>= ${row.aim.least}` : '',
  reached: { true: 'yes', false: 'NO', undefined: '' }[met(row)],
});

export const median = (xs) => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)];

/** Milliseconds of one call. */
export function timed(work) {
  const began = performance.now();
  work();
  return performance.now() - began;
}

/** Least milliseconds of many calls: whatever else the machine does only adds. */
export function best(runs, work) {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) least = Math.min(least, timed(work));
  return least;
}

/** Numbers from 0 to 1, the same every run (linear congruential, constants of Numerical Recipes). */
export function seeded(seed) {
  let now = seed;
  return () => {
    now = (now * 1664525 + 1013904223) % 4294967296;
    return now / 4294967296;
  };
}

/** Gives `use` what `source` exports, bundled into one file as the product is, and the folder and file it lies in. */
export async function bundled(name, source, use, options = {}) {
  const folder = mkdtempSync(join(tmpdir(), `lugwright-${name}-`));
  const file = join(folder, `${name}.mjs`);
  try {
    await build({
      stdin: { contents: source, resolveDir: process.cwd(), loader: 'ts' },
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: file,
      logLevel: 'error',
      banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
      ...options,
    });
    return await use(await import(pathToFileURL(file).href), folder, file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Runs a suite whose file is the one that was called, and prints its rows. */
export async function alone(url, suite) {
  if (url === pathToFileURL(process.argv[1] ?? '').href) console.table((await suite()).map(shown));
}
