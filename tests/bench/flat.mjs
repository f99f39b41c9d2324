// Flat work: how full sheets are and how soon, offsets against a polygon library, travel against every order there is, writing
// against the disk.
import { spawnSync } from 'node:child_process';
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { EndType, inflatePathsD, JoinType } from 'clipper2-ts';
// Its package names a main file that is not what it says; this one is an ES module as it stands.
import { MaxRectsPacker, PACKING_LOGIC } from 'maxrects-packer/dist/maxrects-packer.mjs';
import { alone, atLeast, atMost, best, bundled, seeded, table } from './kit.mjs';

const ENTRY = `
import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { planCollar } from './src/collar/collar.ts';
import { resolveJig } from './src/jig/resolve.ts';
import { layOut } from './src/layout/layout.ts';
import { nest } from './src/nest/nest.ts';
export { polygon, bounds, signedArea } from './src/drawing/paths.ts';
export { offsetPath } from './src/drawing/offset.ts';
export { distanceTo, pointOn, spansOf } from './src/drawing/spans.ts';
export { shortOrder, travelOf } from './src/nest/travel.ts';
export { toDxf } from './src/write/dxf.ts';
export { toSvg } from './src/write/svg.ts';
const { jig } = resolveJig(parse(readFileSync('jigs/kettle-row-snare.yaml', 'utf8')));
export const sheet = jig.collar.sheet;
export const kerf = sheet.kerf ?? jig.collar.material.kerf;
export const parts = planCollar(jig, layOut(jig), { digest: 'bench' }).value.parts;
export const laid = (many = 1) =>
  nest(parts.map((p) => ({ ...p, quantity: many * p.quantity })), sheet, { kerf, title: 'bench', digest: 'bench' }).value;
if (process.env.BENCH_COLD) {
  const began = performance.now();
  laid();
  console.log(performance.now() - began);
}
`;

/** Sheets of this many, the last counted as the strip across it, or up it, that its parts reach into. */
const areaTo = (m, sheets, right, top) =>
  (sheets - 1) * m.sheet.width * m.sheet.height + Math.min(right * m.sheet.height, top * m.sheet.width);

function sheetRows(m, cold) {
  const sheets = m.laid();
  const last = m.bounds(sheets.at(-1).drawing.shapes.filter((s) => s.layer === 'CUT-OUTER'));
  const ours = areaTo(m, sheets.length, last.max.x, last.max.y);
  const material = sheets.reduce((sum, s) => sum + s.use, 0) * m.sheet.width * m.sheet.height;
  const gap = m.kerf + m.sheet.spacing;
  const [width, height] = [m.sheet.width - 2 * m.sheet.margin, m.sheet.height - 2 * m.sheet.margin];
  const boxes = m.parts.flatMap((p) => {
    const { min, max } = m.bounds([p.outer]);
    return Array.from({ length: p.quantity }, () => [max.x - min.x + gap, max.y - min.y + gap]);
  });
  const theirs = Object.values(PACKING_LOGIC)
    .filter((logic) => typeof logic === 'number')
    .map((logic) => {
      const options = { smart: false, pot: false, square: false, allowRotation: true, logic };
      const packer = new MaxRectsPacker(width + gap, height + gap, 0, options);
      packer.addArray(boxes.map(([w, h]) => ({ width: w, height: h, data: 0 })));
      const end = packer.bins.at(-1).rects;
      const [right, top] = [Math.max(...end.map((r) => r.x + r.width)), Math.max(...end.map((r) => r.y + r.height))];
      return areaTo(m, packer.bins.length, m.sheet.margin + right - gap, m.sheet.margin + top - gap);
    });
  return [
    [
      `14 inch collar, ${boxes.length} parts on 600 x 400: sheet use up to the last part`,
      material / ours,
      atLeast(0.65),
    ],
    ['sheet use against boxes packed by a general library, times', Math.min(...theirs) / ours, atLeast(1.1)],
    ['these sheets laid by a process just begun, ms', cold, atMost(300)],
    ...[1, 2, 4, 8].map((many) => [`${many * boxes.length} parts laid, ms`, best(2, () => m.laid(many))]),
  ];
}

/** Greatest distance between an offset and the true one, half way along each of its pieces, over jagged stars. */
function offsetRows(m) {
  let [ours, theirs] = [0, 0];
  for (let seed = 1; seed <= 40; seed++) {
    const random = seeded(seed);
    const points = Array.from({ length: 18 }, (_, i) => {
      const [r, a] = [15 + 35 * random(), (2 * Math.PI * i) / 18];
      return { x: r * Math.cos(a), y: r * Math.sin(a) };
    });
    const star = m.polygon('CUT-OUTER', 'star', points);
    const original = m.spansOf(star);
    const off = (p, d) => Math.abs(Math.min(...original.map((s) => m.distanceTo(s, p))) - Math.abs(d));
    for (const d of [0.1, -0.1, 1.5]) {
      for (const path of m.offsetPath(star, d)) {
        for (const s of m.spansOf(path))
          for (const t of [0.25, 0.5, 0.8]) ours = Math.max(ours, off(m.pointOn(s, t), d));
      }
      // Its own default for arcs of this size, and all the digits it keeps.
      for (const ring of inflatePathsD([points], d, JoinType.Round, EndType.Polygon, 2, 8)) {
        for (const [i, a] of ring.entries()) {
          const b = ring[(i + 1) % ring.length];
          theirs = Math.max(theirs, off({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 }, d));
        }
      }
    }
  }
  return [
    ['greatest deviation from the true offset, mm', ours, atMost(1e-6)],
    ['the same by a polygon-offset library, mm', theirs],
  ];
}

/** The least travel of all orders, tried one by one but for those already longer than the best. */
function least(m, home, stops) {
  let bound = m.travelOf(home, stops);
  const go = (at, left, way) => {
    if (way >= bound) return;
    if (left.length === 0) bound = way;
    const near = left.map((s) => [Math.hypot(s.enter.x - at.x, s.enter.y - at.y), s]).sort((a, b) => a[0] - b[0]);
    for (const [d, s] of near) {
      go(
        s.leave,
        left.filter((o) => o !== s),
        way + d,
      );
    }
  };
  go(home, stops, 0);
  return bound;
}

function travelRows(m) {
  const random = seeded(7);
  const home = { x: 0, y: 0 };
  const stopsOf = (n) =>
    Array.from({ length: n }, () => {
      const enter = { x: 600 * random(), y: 400 * random() };
      return { enter, leave: random() < 0.7 ? enter : { x: 600 * random(), y: 400 * random() } };
    });
  const way = (stops, improve) =>
    m.travelOf(
      home,
      m.shortOrder(home, stops, improve).map((i) => stops[i]),
    );
  let [over, beside] = [1, 0];
  for (let n = 2; n <= 12; n++) {
    for (let i = 0; i < 4; i++) {
      const stops = stopsOf(n);
      over = Math.max(over, way(stops) / least(m, home, stops));
    }
  }
  for (const n of [13, 30, 60, 120, 121, 300]) {
    const stops = stopsOf(n);
    let [at, left, sum] = [home, stops, 0];
    while (left.length > 0) {
      const to = left.reduce((a, b) =>
        Math.hypot(b.enter.x - at.x, b.enter.y - at.y) < Math.hypot(a.enter.x - at.x, a.enter.y - at.y) ? b : a,
      );
      sum += Math.hypot(to.enter.x - at.x, to.enter.y - at.y);
      at = to.leave;
      left = left.filter((s) => s !== to);
    }
    beside = Math.max(beside, way(stops) / sum);
  }
  return [
    ['travel against the best of all orders, 2 to 12 stops, worst', over, atMost(1.05)],
    ['travel against always to the nearest next, 13 to 300 stops, worst', beside, atMost(1)],
  ];
}

function writerRows(m, folder) {
  const own = m.laid();
  const sheets = Array.from({ length: 100 }, (_, i) => own[i % own.length]);
  const files = () => sheets.flatMap(({ drawing }) => [m.toDxf(drawing), m.toSvg(drawing)]);
  const ms = best(3, files);
  const bytes = files().map((text) => Buffer.from(text));
  const disk = best(3, () => {
    for (const [i, b] of bytes.entries()) {
      const fd = openSync(join(folder, `sheet-${i}`), 'w');
      writeSync(fd, b);
      fsyncSync(fd);
      closeSync(fd);
    }
  });
  const mb = bytes.reduce((sum, b) => sum + b.length, 0) / 1e6;
  return [
    ['100 sheets as DXF and SVG, MB a second', mb / ms / 1e-3],
    ['the disk takes the same 200 files, MB a second', mb / disk / 1e-3],
    ['written as fast as the disk takes them, times', disk / ms, atLeast(1)],
  ];
}

/** Rows of sheets, offsets, travel and writers. */
export const flatSuite = () =>
  bundled('flat', ENTRY, (m, folder, file) => {
    const env = { ...process.env, BENCH_COLD: '1' };
    const cold = Array.from({ length: 5 }, () =>
      Number(spawnSync(process.execPath, [file], { env, encoding: 'utf8' }).stdout),
    );
    const { rows, add } = table();
    for (const row of [
      ...sheetRows(m, Math.min(...cold)),
      ...offsetRows(m),
      ...travelRows(m),
      ...writerRows(m, folder),
    ])
      add(...row);
    return rows;
  });

await alone(import.meta.url, flatSuite);
