// All parts of a 14-inch, 10-lug collar: planned and nested, the first time in a process and warm; and its sheet.
import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { alone, atMost, bundled, median, table } from './kit.mjs';

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

/** Rows of the collar, on two sizes of sheet. */
export const collarSuite = () => bundled('collar', ENTRY, measure, { minify: true });

function measure(_, folder, bundle) {
  const { rows, add } = table();
  for (const sheet of ['laser-600x400', 'laser-900x600']) {
    const script = join(folder, `${sheet}.mjs`);
    const jig = { ...JIG, collar: { ...JIG.collar, sheet } };
    writeFileSync(script, TIMED(pathToFileURL(bundle).href, jig));
    const runs = Array.from({ length: 5 }, () =>
      JSON.parse(spawnSync(process.execPath, [script], { encoding: 'utf8' }).stdout),
    );
    const of = (what, i) => median(runs.map((r) => r[what][i]));
    const { count, layouts, cut, sheets } = runs[0];
    add(`${sheet}: ${count} collar parts planned, first call in a process, ms`, of('plan', 0));
    add(`${sheet}: ${count} collar parts planned, warm, ms`, of('plan', 1), atMost(50));
    add(`${sheet}: nested on ${sheets} sheets, first call, ms`, of('nest', 0));
    add(`${sheet}: nested on ${sheets} sheets, warm, ms`, of('nest', 1), atMost(300));
    const ways = Object.values(layouts).filter((mm2) => mm2 !== undefined && mm2 !== null);
    add(`${sheet}: sheet of the layout cut against the best of ${ways.length}, times`, cut / Math.min(...ways));
  }
  return rows;
}

await alone(import.meta.url, collarSuite);
