// The planner of the rotary program, measured in this process: planning, ordering and writing, and the order's quality.
import { alone, atMost, best, bundled, seeded, table, timed } from './kit.mjs';

const ENTRY = `
export { planRotary } from './src/rotary/plan.ts';
export { goodOrder, pathLength, shortestOrder } from './src/rotary/order.ts';
export { Legs, travelCost } from './src/rotary/legs.ts';
export { findMachine } from './src/data/machines.ts';
export { resolveJig } from './src/jig/resolve.ts';
export { layOut } from './src/layout/layout.ts';
`;

/** Places on a shell: the same stations every run. */
function stations(count) {
  const next = seeded(20);
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

/** Rows of the planner of the rotary program. */
export const rotarySuite = () => bundled('rotary', ENTRY, measure);

function measure(m) {
  const { rows, add } = table();
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
    add(`${layout.holes.length} holes planned, ordered and written, ${how}, ms`, ms, atMost(10));
    add('  bytes of that program', m.planRotary(jig, layout, options).value.text.length);
  }
  const start = { x: Number.NaN, a: 0 };
  const cost = m.travelCost(m.findMachine('rotary-slow'));
  let worst = 1;
  for (let i = 4; i <= 12; i++) {
    const list = stations(i);
    const legs = new m.Legs(list, start, cost);
    worst = Math.max(worst, legs.length(m.goodOrder(list, legs)) / legs.length(m.shortestOrder(list, start, cost)));
  }
  add('travel against the exact optimum, 4 to 12 stations, worst, times', worst, atMost(1.05));
  for (const count of [60, 200, 1000, 10_000]) {
    const list = stations(count);
    const plain = list.map((_, i) => i);
    let order;
    const ms = timed(() => {
      order = m.shortestOrder(list, start, cost);
    });
    const share = m.pathLength(order, list, start, cost) / m.pathLength(plain, list, start, cost);
    add(`${count} stations ordered, ms`, ms);
    add('  their travel against the plain order, times', share, atMost(1));
  }
  return rows;
}

await alone(import.meta.url, rotarySuite);
