// All parts of a 14-inch, 10-lug collar: planned and nested, the first time in a process and warm; and its sheet.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ENTRY = `
export { planCollar } from './src/collar/collar.ts';
export { resolveJig } from './src/jig/resolve.ts';
export { layOut } from './src/layout/layout.ts';
export { nest } from './src/nest/nest.ts';
`;

const JIG = {
  jig: 1,
  name: 'bench 14 x 6',
  shell: { diameter: 355.6, depth: 152, wall: 6.35, round: 0.4, edges: 'cut' },
  lugs: {
    count: 10,
    rows: [
      { edge: 'top', distance: 38 },
      { edge: 'bottom', distance: 38 },
    ],
    holes: { layout: 'upright', spacing: 25.4, drill: 5, pilot: 2.5, screw: 'M4 x 12' },
  },
  fittings: [
    {
      name: 'strainer',
      role: 'strainer',
      at: 0,
      edge: 'bottom',
      distance: 46,
      holes: { layout: 'upright', spacing: 28, drill: 5 },
    },
    {
      name: 'butt',
      role: 'butt',
      at: 180,
      edge: 'bottom',
      distance: 46,
      holes: { layout: 'upright', spacing: 28, drill: 5 },
    },
    { name: 'vent', role: 'vent', at: 90, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 11 } },
  ],
  collar: { material: 'birch-ply-6', thickness: 5.8 },
};

/** Run in a process of its own: prints milliseconds of the first and of the best call of planning and of nesting. */
const TIMED = (bundle, jig) => `
const m = await import(${JSON.stringify(bundle)});
const { jig } = m.resolveJig(${JSON.stringify(jig)});
const layout = m.layOut(jig);
const timed = (work, runs) => {
  const all = [];
  for (let i = 0; i < runs; i++) {
    const began = performance.now();
    work();
    all.push(performance.now() - began);
  }
  return [all[0], Math.min(...all)];
};
const plan = timed(() => m.planCollar(jig, layout, { digest: '0123456789' }), 25);
const { value } = m.planCollar(jig, layout, { digest: '0123456789' });
const { sheet, material } = jig.collar;
let sheets;
const nest = timed(() => {
  sheets = m.nest(value.parts, sheet, { kerf: material.kerf, title: 'bench', digest: '0' }).value;
}, 3);
const count = value.parts.reduce((n, p) => n + p.quantity, 0);
console.log(JSON.stringify({ plan, nest, count, layouts: value.layouts, cut: value.tradeoff.rings?.sheetArea, sheets: sheets.length }));
`;

const median = (xs) => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)];

export async function collarSuite() {
  const folder = mkdtempSync(join(tmpdir(), 'lugwright-collar-'));
  const outfile = join(folder, 'collar.mjs');
  await build({
    stdin: { contents: ENTRY, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    minify: true,
    platform: 'node',
    format: 'esm',
    outfile,
    logLevel: 'error',
  });
  const rows = [];
  for (const sheet of ['laser-600x400', 'laser-900x600']) {
    const script = join(folder, `${sheet}.mjs`);
    const jig = { ...JIG, collar: { ...JIG.collar, sheet } };
    writeFileSync(script, TIMED(pathToFileURL(outfile).href, jig));
    const runs = [];
    const bare = [];
    for (let i = 0; i < 5; i++) {
      const began = performance.now();
      spawnSync(process.execPath, ['-e', '0']);
      bare.push(performance.now() - began);
      runs.push(JSON.parse(spawnSync(process.execPath, [script], { encoding: 'utf8' }).stdout));
    }
    const of = (what, i) => median(runs.map((r) => r[what][i]));
    const start = median(bare);
    const row = (what, ms, aim) =>
      rows.push({ what: `${sheet}: ${what}`, measured: `${ms.toFixed(1)} ms`, 'x bare': (ms / start).toFixed(2), aim });
    const { count, layouts, cut, sheets } = runs[0];
    row(`${count} parts planned, first call in a process`, of('plan', 0), '');
    row(`${count} parts planned, warm`, of('plan', 1), 'under 50 ms');
    row(`nested on ${sheets} sheets, first call`, of('nest', 0), '');
    row(`nested on ${sheets} sheets, warm`, of('nest', 1), 'under 300 ms');
    const cm2 = (mm2) => (mm2 === undefined ? 'does not go' : `${Math.round(mm2 / 100)} cm2`);
    rows.push({
      what: `${sheet}: sheet of whole rings, of rings in pieces, of sectors`,
      measured: [layouts.whole, layouts.pieces, layouts.sector].map(cm2).join(', '),
      'x bare': '',
      aim: `cut: ${cm2(cut)}, ${(cut / Math.min(...Object.values(layouts))).toFixed(2)} x the least`,
    });
  }
  rmSync(folder, { recursive: true, force: true });
  return rows;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) console.table(await collarSuite());
