// The fit check once loaded, the accuracy budget's simulations, and how both grow; least of many runs in this process.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ENTRY = `
export { check } from './src/fit/check.ts';
export { budget } from './src/budget/budget.ts';
export { shareMet, simulate } from './src/budget/simulate.ts';
export { resolveJig } from './src/jig/resolve.ts';
export { parseText } from './src/jig/text.ts';
export { layOut } from './src/layout/layout.ts';
export { erf } from './src/geometry/statistics.ts';
export { readFileSync } from 'node:fs';
`;

const least = (runs, work) => {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const began = performance.now();
    work();
    best = Math.min(best, performance.now() - began);
  }
  return best;
};

/** Two rows of two-hole lugs side by side on a shell wide enough for all of them: feet near each other everywhere. */
const jigOf = (holes) => ({
  jig: 1,
  name: 'bench',
  shell: { diameter: 2400, depth: 400, wall: 7 },
  lugs: {
    count: Math.max(1, Math.round(holes / 4)),
    rows: [
      { edge: 'top', distance: 36 },
      { edge: 'bottom', distance: 36 },
    ],
    holes: { layout: 'upright', spacing: 25.4, drill: 5, screw: 'M4 x 16', tapped: 10 },
    foot: { width: 18, height: 46, gasket: 1, corner: 5, face: 'curved' },
  },
});

export async function fitRows() {
  const folder = mkdtempSync(join(tmpdir(), 'lugwright-fit-'));
  const outfile = join(folder, 'fit.mjs');
  await build({
    stdin: { contents: ENTRY, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
    banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
    logLevel: 'error',
  });
  const m = await import(pathToFileURL(outfile).href);
  const planned = (raw, lines) => {
    const r = m.resolveJig(raw, { lines });
    if (!r.ok) throw new Error(JSON.stringify(r.issues));
    return { jig: r.jig, layout: m.layOut(r.jig) };
  };
  const rows = [];
  const add = (what, measured, aim) => rows.push({ what, measured, aim });

  // Fourteen lugs a side with two holes each, strainer, butt and vent: 61 holes.
  const text = m.readFileSync('jigs/kettle-row-snare.yaml', 'utf8').replace(/^( {2}count: )10$/m, '$114');
  const parsed = m.parseText(text);
  const sixty = planned(parsed.raw, parsed.lines);
  const ms = least(400, () => m.check(sixty.jig, sixty.layout));
  add(`check of ${sixty.layout.holes.length} holes, once loaded, ms`, Number(ms.toFixed(2)), 4);
  const exact = least(200, () => m.budget(sixty.jig, sixty.layout, { samples: 0 }));
  add('accuracy budget of it, closed forms only, ms', Number(exact.toFixed(2)), '');

  const sigma = 0.5;
  const even = { hole: { around: sigma, along: sigma }, stretch: { around: 0, along: 0 }, lean: 0 };
  const bore = (x, y) => ({ at: { x, y }, walk: { x: 0, y: 0 } });
  const million = (bores, count) => {
    let needs;
    const took = least(3, () => {
      needs = m.simulate(bores, even, count, 1);
    });
    return { took, goesOn: m.shareMet(needs.free, 1) };
  };
  const pair = million([bore(0, 12.7), bore(0, -12.7)], 1_000_000);
  const off = Math.abs(pair.goesOn - m.erf(1 / sigma));
  add('Monte Carlo of a million two-hole lugs, ms', Math.round(pair.took), 2000);
  add(
    'their share that goes on against erf(c / sigma), in standard errors',
    Number((off / Math.sqrt((pair.goesOn * (1 - pair.goesOn)) / 1e6)).toFixed(2)),
    3,
  );
  const grid = (columns, up) =>
    Array.from({ length: columns * up }, (_, i) => bore((i % columns) * 30, Math.floor(i / columns) * 40));
  for (const [name, bores] of [
    ['three', [bore(0, 20), bore(-15, -10), bore(15, -10)]],
    ['four', grid(2, 2)],
    ['nine', grid(3, 3)],
  ]) {
    const count = 100_000;
    const { took } = million(bores, count);
    add(`best rigid fit of ${name} holes, ms for a million (from ${count})`, Math.round((took * 1e6) / count), '');
  }

  let before;
  for (const holes of [12, 60, 200, 1000]) {
    const { jig, layout } = planned(jigOf(holes));
    const took = least(holes < 500 ? 200 : 40, () => m.check(jig, layout));
    const each = (1000 * took) / layout.holes.length;
    add(
      `check of ${layout.holes.length} holes, ms (us a hole${before ? `, ${(took / before.took).toFixed(1)} x the time for ${(layout.holes.length / before.holes).toFixed(1)} x the holes` : ''})`,
      `${took.toFixed(2)} (${each.toFixed(1)})`,
      '',
    );
    before = { took, holes: layout.holes.length };
  }
  rmSync(folder, { recursive: true, force: true });
  return rows;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) console.table(await fitRows());
