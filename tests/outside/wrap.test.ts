import type { ICircleEntity } from 'dxf-parser';
import { describe, expect, test } from 'vitest';
import { bounds } from '../../src/drawing/paths.ts';
import { flatRadius } from '../../src/geometry/frames.ts';
import { paperProfile, sheetProfile } from '../../src/jig/profile.ts';
import type { Drawing } from '../../src/model/drawing.ts';
import { nest } from '../../src/nest/nest.ts';
import { planWrap } from '../../src/wrap/wrap.ts';
import { toDxf } from '../../src/write/dxf.ts';
import { toSvg } from '../../src/write/svg.ts';
import { DEMOS, demo, planned, type Raw } from '../helpers/jigs.ts';
import { readDxf } from '../helpers/read-dxf.ts';

const DIGEST = '0123456789abcdef';
const SNARE = DEMOS[0]!;

function wrapOf(file: string, wrap: Raw = {}, shell: Raw = {}) {
  const raw = demo(file);
  raw['wrap'] = { ...(raw['wrap'] as Raw), ...wrap };
  raw['shell'] = { ...(raw['shell'] as Raw), ...shell };
  const { jig, layout } = planned(raw);
  return { jig, layout, ...planWrap(jig, layout, { digest: DIGEST }) };
}

// Bend allowance of sheet work, BA = angle (r + k t) (machinery handbooks): full turn round 355.6 mm, k = 0.5 and others.
test.each([
  [0.1, 0.5, 1117.464507],
  [0.25, 0, 1117.150348],
  [0.3, 1 / 3, 1117.778666],
  [0.5, 0.5, 1118.721144],
  [3, 0.5, 1126.575126],
  [3, 1, 1135.999904],
])('sheet %f mm, neutral line %f: a full turn is %f mm', (t, k, length) => {
  expect(2 * Math.PI * flatRadius(177.8, t, k)).toBeCloseTo(length, 6);
});

test('the template is as long as its sheet needs round R = 163.7: 1031.6990 for 1 mm card', () => {
  const { value } = wrapOf(
    SNARE,
    { material: 'card-1', thickness: undefined },
    { circumference: undefined, tape: undefined, diameter: '327.4 mm' },
  );
  expect(value.length).toBeCloseTo(1031.699, 4);
  expect(value.paperLength).toBeCloseTo(2 * Math.PI * 163.75, 6);
});

describe.each(DEMOS)('%s', (file) => {
  const { jig, layout, value, facts } = wrapOf(file);
  const kerf = jig.wrap.material.kerf;

  test('every hole is in wrap.dxf at (R + k t) theta and its height, drawn a kerf smaller', () => {
    const circles = readDxf(toDxf(value.whole)).entities.filter((e) => e.type === 'CIRCLE') as ICircleEntity[];
    expect(circles).toHaveLength(layout.holes.length);
    const r = layout.radius + jig.wrap.material.neutral * jig.wrap.thickness;
    for (const h of layout.holes) {
      const x = (h.angle / 180) * Math.PI * r;
      const match = circles.filter((c) => {
        const turns = Math.round((c.center.x - x) / value.length);
        return Math.hypot(c.center.x - x - turns * value.length, c.center.y - h.height) < 1e-3;
      });
      expect(match, h.id).toHaveLength(1);
      expect(2 * match[0]!.radius + kerf).toBeCloseTo(jig.wrap.marks === 'punch' ? 1.5 : h.drill, 5);
    }
  });

  test('SVG gives every hole by its id, counted down from the top edge, with the same x', () => {
    const svg = toSvg(value.whole);
    for (const h of layout.holes) {
      const m = svg.match(new RegExp(`<circle id="${h.id}" cx="([^"]+)" cy="([^"]+)" r="([^"]+)"`));
      expect(m, h.id).not.toBeNull();
      expect(Number(m![2])).toBeCloseTo(layout.depth - h.height, 3);
    }
  });

  test('panels: each hole once, pieces put together again give the whole turn', () => {
    expect(facts.map((f) => f.id)).not.toContain('wrap-sheet-too-small');
    const ids = value.panels
      .flatMap((p) => [...p.inner, ...p.marks])
      .flatMap((s) => (s.kind === 'circle' && s.id ? [s.id] : []));
    expect(ids.toSorted()).toEqual(layout.holes.map((h) => h.id).toSorted());
    const area = value.panels.reduce((sum, p) => {
      const { min, max } = bounds([p.outer]);
      return sum + (max.x - min.x) * (max.y - min.y);
    }, 0);
    expect(area).toBeCloseTo(value.length * layout.depth, 4);
  });

  test('sheets fit their bed, name themselves, and carry a check line of exactly 100 mm', () => {
    const sheets = nest(value.panels, jig.wrap.sheet, { kerf, title: jig.name, digest: DIGEST }).value;
    for (const s of sheets) {
      const entities = readDxf(toDxf(s.drawing)).entities;
      const check = entities.filter((e) => e.layer === 'REFERENCE') as unknown as {
        vertices: { x: number; y: number }[];
      }[];
      expect(check).toHaveLength(1);
      expect(Math.abs(check[0]!.vertices[1]!.x - check[0]!.vertices[0]!.x)).toBe(100);
      const names = (x: Drawing['shapes'][number]): boolean =>
        x.layer === 'ENGRAVE' && bounds([x]).max.y < jig.wrap.sheet.margin;
      const { min, max } = bounds(s.drawing.shapes.filter((x) => !names(x)));
      const { margin, width, height } = jig.wrap.sheet;
      expect(Math.min(min.x, min.y)).toBeGreaterThanOrEqual(margin - 1e-9);
      expect(max.x).toBeLessThanOrEqual(width - margin + 1e-9);
      expect(max.y).toBeLessThanOrEqual(height - margin + 1e-9);
    }
  });
});

describe('a shell taller than the sheet', () => {
  const { jig, layout } = wrapOf(DEMOS[1]!, { marks: 'guide' });
  const sheet = { ...jig.wrap.sheet, width: 300, height: 210 };
  const { value, facts } = planWrap({ ...jig, wrap: { ...jig.wrap, sheet } }, layout, { digest: DIGEST });

  test('is wrapped in bands, each of which knows its own edge', () => {
    expect(layout.depth).toBeGreaterThan(300);
    const lows = [...new Set(value.pieces.map((p) => p.low))];
    expect(lows.length).toBeGreaterThan(1);
    expect(value.pieces.filter((p) => p.low === 0).every((p) => p.edge === 'bottom')).toBe(true);
    expect(value.pieces.filter((p) => p.high === layout.depth).every((p) => p.edge === 'top')).toBe(true);
    expect(facts.filter((f) => f.level === 'stop')).toEqual([]);
  });

  test('bands and panels together mark every hole once and cover the shell', () => {
    const ids = value.panels.flatMap((p) => p.inner).flatMap((s) => (s.kind === 'circle' && s.id ? [s.id] : []));
    expect(ids.toSorted()).toEqual(layout.holes.map((h) => h.id).toSorted());
    const area = value.pieces.reduce(
      (sum, p) => sum + (p.high - p.low) * (((p.to - p.from + 360) % 360 || 360) / 360) * value.length,
      0,
    );
    expect(area).toBeCloseTo(value.length * layout.depth, 4);
    for (const p of value.panels) {
      const { min, max } = bounds([p.outer]);
      const [w, h] = [max.x - min.x, max.y - min.y].toSorted((a, b) => b - a) as [number, number];
      expect(w).toBeLessThanOrEqual(290);
      expect(h).toBeLessThanOrEqual(199);
    }
  });
});

test('a vent and the badge it holds share one hole: it is cut once and nothing is refused', () => {
  const { jig, value } = wrapOf('tests/cases/sound/bass-22x16.yaml');
  const { facts, value: sheets } = nest(value.panels, jig.wrap.sheet, { kerf: 0.12, title: 't', digest: 'd' });
  expect(facts).toEqual([]);
  const circles = sheets.flatMap((s) =>
    s.drawing.shapes.filter((x) => x.kind === 'circle' && (x.id === 'vent' || x.id === 'badge')),
  );
  expect(circles).toHaveLength(1);
  // Both names are found in the SVG, one of them where nothing is drawn.
  const svg = sheets.map((s) => toSvg(s.drawing)).join('');
  expect(svg.match(/<circle id="(vent|badge)"/g)?.toSorted()).toEqual(['<circle id="badge"', '<circle id="vent"']);
  expect(svg.replace(/<defs>.*?<\/defs>/g, '').match(/<circle id="(vent|badge)"/g)).toHaveLength(1);
});

describe('the seam', () => {
  test('stays where the builder wants it when nothing is there', () => {
    expect(wrapOf(SNARE, { 'seam-at': '100 deg' }).value.seam).toBeCloseTo(100, 9);
  });

  test('asked for on a hole, it is refused by the name of the hole', () => {
    const { facts, layout } = wrapOf(SNARE, { 'seam-at': '18 deg' });
    const hit = facts.find((f) => f.id === 'wrap-seam-on-hole');
    expect(hit).toMatchObject({ level: 'stop', measured: 0 });
    expect(layout.holes.map((h) => h.id)).toContain(hit!.facts!['what']);
  });

  test('at the strainer line the sheet begins at x = 0', () => {
    const { value } = wrapOf(SNARE, { 'seam-at': 0 });
    expect(value.seam).toBe(0);
    expect(value.whole.min.x).toBeCloseTo(-2, 9);
  });
});

describe('what cannot be wrapped is said', () => {
  test('a sheet smaller than any piece', () => {
    const { jig, layout } = wrapOf(SNARE);
    const sheet = { ...jig.wrap.sheet, width: 30, height: 30 };
    const { facts, value } = planWrap({ ...jig, wrap: { ...jig.wrap, sheet } }, layout, { digest: DIGEST });
    expect(value.panels).toEqual([]);
    expect(facts.find((f) => f.id === 'wrap-sheet-too-small')).toMatchObject({ level: 'stop' });
  });

  test('a bed of 130 x 90 cm written without its noughts; a large drum on a common bed needs no word', () => {
    const { jig, layout } = wrapOf(SNARE);
    const pieces = (size: { width: number; height: number }, shell = jig.shell) => {
      const sheet = { ...jig.wrap.sheet, ...size };
      const { value, facts } = planWrap({ ...jig, shell, wrap: { ...jig.wrap, sheet } }, layout, { digest: DIGEST });
      return [value.pieces.length, facts.find((f) => f.id === 'wrap-in-many-pieces')] as const;
    };
    const [many, told] = pieces({ width: 130, height: 90 });
    // 1117 mm round by 140 up, pieces of at most 130 x 90: nine by two and more.
    expect(many).toBeGreaterThanOrEqual(18);
    expect(told).toMatchObject({ level: 'care', measured: many, facts: { width: 130, height: 90 } });
    expect(pieces({ width: 1300, height: 900 })[1]).toBeUndefined();
    for (const file of DEMOS) expect(wrapOf(file).facts.map((f) => f.id)).not.toContain('wrap-in-many-pieces');
  });

  test('a material that does not bend so far', () => {
    expect(wrapOf(SNARE, { material: 'mdf-6' }).facts.find((f) => f.id === 'wrap-too-stiff')).toMatchObject({
      level: 'stop',
    });
    expect(wrapOf(SNARE, { material: 'card-1' }).facts.map((f) => f.id)).not.toContain('wrap-too-stiff');
  });
});

test.each([
  [24, 12, false],
  [60, 40, false],
  [600_000 / 10, 400, false],
  [100, 80, true],
  [300, 200, true],
])('a bed of %f x %f: %s', (width, height, ok) => {
  const read = sheetProfile('bed.yaml', { profile: 'sheet', like: 'laser-600x400', width, height });
  expect(read.ok).toBe(ok);
  if (!read.ok) expect(read.issues[0]).toMatchObject({ path: ['width'], found: `a bed of ${width} x ${height} mm` });
});

describe('a size in another unit', () => {
  test.each([
    [0.6, 0.4, 'as metres it is 600 x 400'],
    [60, 40, 'as inches it is 1524 x 1016, as centimetres it is 600 x 400'],
    [60_000, 40_000, 'write it in mm'],
  ])('a bed of %f x %f mm: %s', (width, height, cure) => {
    const read = sheetProfile('bed.yaml', { profile: 'sheet', width, height });
    expect(!read.ok && read.issues[0]?.try).toContain(cure);
  });

  test.each([
    [8.5, 11, 'as inches it is 215.9 x 279.4'],
    [21, 29.7, 'as centimetres it is 210 x 297'],
    [100_000, 100_000, 'write it in mm'],
  ])('a page of %f x %f mm: %s', (width, height, cure) => {
    const read = paperProfile('page.yaml', { profile: 'paper', width, height });
    expect(!read.ok && read.issues[0]?.try).toContain(cure);
  });

  test('a number with its unit is told the number', () => {
    const read = sheetProfile('bed.yaml', { profile: 'sheet', width: '24 in', kerf: '0.2 mm' });
    expect(read.ok ? [] : read.issues.map((i) => i.try.slice(0, 12))).toEqual(['write 609.6,', 'write 0.2, i']);
  });

  test('no character of a name that cannot be written goes unnamed, of a fitting too', () => {
    const vent = {
      name: '孔',
      role: 'vent',
      at: 0,
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill: 11 },
    };
    const shell = { diameter: 355, depth: 165, wall: 7 };
    const { jig, layout } = planned({
      jig: 1,
      name: '小鼓\u0000',
      shell,
      fittings: [vent, { ...vent, name: 'Öse', at: 90 }],
    });
    const said = planWrap(jig, layout, { digest: 'x' }).facts.filter((f) => f.id === 'letters-unknown');
    expect(said.map((f) => f.facts?.['letters'])).toEqual(['小 鼓 U+0000']);
    expect(jig.assumptions.filter((a) => a.key.endsWith('name'))).toMatchObject([
      { key: 'fittings.0.name', value: 'fitting' },
    ]);
  });
});
