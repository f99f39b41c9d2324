// The planner of the rotary program, measured in this process: planning, ordering and writing, and the order's quality.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const ENTRY = `
export { planRotary } from './src/rotary/plan.ts';
export { goodOrder, pathLength, shortestOrder } from './src/rotary/order.ts';
export { Legs, travelCost } from './src/rotary/legs.ts';
export { findMachine } from './src/data/machines.ts';
export { resolveJig } from './src/jig/resolve.ts';
export { layOut } from './src/layout/layout.ts';
`;

/** A small seeded generator (linear congruential, Numerical Recipes constants): the same stations every run. */
function stations(count) {
  let seed = 20;
  const next = () => {
    seed = (seed * 1664525 + 1013904223) % 4294967296;
    return seed / 4294967296;
  };
  return Array.from({ length: count }, () => ({ x: 400 * next(), a: 360 * next() }));
}

const jigOf = (lugs, machine) => ({
  jig: 1,
  name: 'bench',
  shell: { diameter: 400, depth: 400, wall: 7, wood: 'sugar-maple' },
  lugs: {
    count: lugs,
    rows: [
      { edge: 'top', distance: 36 },
      { edge: 'bottom', distance: 36 },
    ],
    holes: { layout: 'upright', spacing: 25.4, drill: 6, pilot: 2.5 },
  },
  rotary: { machine, tools: 'default' },
});

const best = (runs, work) => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const began = performance.now();
    work();
    least = Math.min(least, performance.now() - began);
  }
  return least;
};

export async function rotaryRows() {
  const folder = mkdtempSync(join(tmpdir(), 'lugwright-rotary-'));
  const outfile = join(folder, 'rotary.mjs');
  await build({
    stdin: { contents: ENTRY, resolveDir: process.cwd(), loader: 'ts' },
    bundle: true,
    platform: 'node',
    format: 'esm',
    outfile,
    logLevel: 'error',
  });
  const m = await import(pathToFileURL(outfile).href);
  const rows = [];
  const add = (what, value, against) => rows.push({ what, value, against });
  for (const [machine, how, more] of [
    ['rotary-slow', 'drilled', {}],
    ['rotary-fast', 'bored by Y, chords', {}],
    ['rotary-fast', 'bored by Y, arcs', { arcs: true }],
    ['rotary-fast', 'bored by A', { hasY: false }],
  ]) {
    const resolved = m.resolveJig(jigOf(15, machine));
    if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
    const { rotary } = resolved.jig;
    const { hasY = true, arcs = false } = more;
    const understands = { ...rotary.machine.understands, arcs };
    const jig = { ...resolved.jig, rotary: { ...rotary, machine: { ...rotary.machine, hasY, understands } } };
    const layout = m.layOut(jig);
    const options = { digest: 'bench', version: '0' };
    // Other work on the machine makes single runs useless: the least of many.
    const ms = best(100, () => m.planRotary(jig, layout, options));
    const { value } = m.planRotary(jig, layout, options);
    add(
      `${layout.holes.length} holes planned, ordered and written, ${how}`,
      `${ms.toFixed(1)} ms`,
      `${value.text.length} bytes`,
    );
  }
  const start = { x: Number.NaN, a: 0 };
  const cost = m.travelCost(m.findMachine('rotary-slow'));
  let worst = 1;
  for (let i = 4; i <= 12; i++) {
    const list = stations(i);
    const legs = new m.Legs(list, start, cost);
    worst = Math.max(worst, legs.length(m.goodOrder(list, legs)) / legs.length(m.shortestOrder(list, start, cost)));
  }
  add('heuristic against the exact optimum, 4 to 12 stations, worst', worst.toFixed(3), 'x the optimum');
  for (const count of [60, 200, 1000, 10_000]) {
    const list = stations(count);
    const plain = list.map((_, i) => i);
    const began = performance.now();
    const order = m.shortestOrder(list, start, cost);
    const ms = performance.now() - began;
    const share = m.pathLength(order, list, start, cost) / m.pathLength(plain, list, start, cost);
    add(`${count} stations ordered`, `${ms.toFixed(0)} ms`, `${share.toFixed(3)} x the travel of plain order`);
  }
  rmSync(folder, { recursive: true, force: true });
  return rows;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) console.table(await rotaryRows());
