// The fit check once loaded, the accuracy budget's simulations, and how both grow; least of many runs in this process.
import { alone, atMost, best, bundled, table } from './kit.mjs';

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

/** Rows of the fit check and the budget. */
export const fitSuite = () => bundled('fit', ENTRY, measure);

function measure(m) {
  const { rows, add } = table();
  const planned = (raw, lines) => {
    const r = m.resolveJig(raw, { lines });
    if (!r.ok) throw new Error(JSON.stringify(r.issues));
    return { jig: r.jig, layout: m.layOut(r.jig) };
  };
  // Fourteen lugs a side with two holes each, strainer, butt and vent: 61 holes.
  const text = m.readFileSync('jigs/kettle-row-snare.yaml', 'utf8').replace(/^( {2}count: )10$/m, '$114');
  const parsed = m.parseText(text);
  const sixty = planned(parsed.raw, parsed.lines);
  const ms = best(400, () => m.check(sixty.jig, sixty.layout));
  add(`check of ${sixty.layout.holes.length} holes, once loaded, ms`, ms, atMost(4));
  const exact = best(200, () => m.budget(sixty.jig, sixty.layout, { samples: 0 }));
  add('accuracy budget of it, closed forms only, ms', exact);

  const sigma = 0.5;
  const even = { hole: { around: sigma, along: sigma }, stretch: { around: 0, along: 0 }, lean: 0 };
  const bore = (x, y) => ({ at: { x, y }, walk: { x: 0, y: 0 } });
  const million = (bores, count) => {
    let needs;
    const took = best(3, () => {
      needs = m.simulate(bores, even, count, 1);
    });
    return { took, goesOn: m.shareMet(needs.free, 1) };
  };
  const pair = million([bore(0, 12.7), bore(0, -12.7)], 1_000_000);
  const off = Math.abs(pair.goesOn - m.erf(1 / sigma));
  add('Monte Carlo of a million two-hole lugs, ms', pair.took, atMost(2000));
  add(
    'their share that goes on against erf(c / sigma), in standard errors',
    off / Math.sqrt((pair.goesOn * (1 - pair.goesOn)) / 1e6),
    atMost(3),
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
    add(`best rigid fit of ${name} holes, ms for a million (from ${count})`, (took * 1e6) / count);
  }

  let before;
  for (const holes of [12, 60, 200, 1000]) {
    const { jig, layout } = planned(jigOf(holes));
    const took = best(holes < 500 ? 200 : 40, () => m.check(jig, layout));
    add(`check of ${layout.holes.length} holes, ms`, took);
    if (before !== undefined) {
      const more = layout.holes.length / before.holes;
      add(`  time against ${before.holes} holes, for ${more.toFixed(1)} times as many`, took / before.took);
    }
    before = { took, holes: layout.holes.length };
  }
  return rows;
}

await alone(import.meta.url, fitSuite);
