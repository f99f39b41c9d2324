import { areaPathsD, EndType, FillRule, inflatePathsD, intersectD, JoinType } from 'clipper2-ts';
import { describe, expect, test } from 'vitest';
import { bounds, circle, pathLength, polar, polygon, rectangle, signedArea } from '../../src/drawing/paths.ts';
import { roomOn } from '../../src/drawing/room.ts';
import { distance } from '../../src/drawing/spans.ts';
import type { Part, Path } from '../../src/model/drawing.ts';
import type { SheetProfile } from '../../src/model/sheet.ts';
import { nest } from '../../src/nest/nest.ts';
import { packBoxes } from '../../src/nest/rectangles.ts';
import { type Stop, shortOrder, travelOf } from '../../src/nest/travel.ts';
import { polygonOf, seeded } from '../helpers/flat.ts';

const SHEET: SheetProfile = { name: 'bed', width: 600, height: 400, margin: 5, spacing: 2, bridge: 1 };
const OPTIONS = { kerf: 0.2, title: 'Lantern Street', digest: 'abcdef0123456789' };

const part = (id: string, outer: Part['outer'], quantity = 1, inner: Part['inner'] = []): Part => ({
  id,
  job: 'collar',
  name: id,
  outer,
  inner,
  marks: [],
  quantity,
  turns: true,
});

/** A fifth of a ring, as a collar is built of. */
function arcPiece(r0: number, r1: number, half: number): Path {
  const o = { x: 0, y: 0 };
  return {
    kind: 'path',
    layer: 'CUT-OUTER',
    from: 'ring',
    closed: true,
    start: polar(o, r0, 90 + half),
    segs: [
      { kind: 'arc', to: polar(o, r0, 90 - half), center: o, ccw: false },
      { kind: 'line', to: polar(o, r1, 90 - half) },
      { kind: 'arc', to: polar(o, r1, 90 + half), center: o, ccw: true },
      { kind: 'line', to: polar(o, r0, 90 + half) },
    ],
  };
}

const box = (id: string, w: number, h: number, quantity = 1): Part =>
  part(id, rectangle('CUT-OUTER', id, { x: 3, y: -2 }, { x: 3 + w, y: -2 + h }), quantity);

/** Parts of a 14 inch collar of two rings: arcs, plates and small blocks. */
const COLLAR = [part('ring', arcPiece(178.3, 215, 36), 20), box('plate', 29.4, 118.7, 26), box('block', 64, 24, 8)];

describe('nesting', () => {
  const { value: sheets, facts } = nest(COLLAR, SHEET, OPTIONS);

  test('every part is on a sheet as often as it is wanted', () => {
    expect(facts).toEqual([]);
    const ids = sheets.flatMap((s) => s.parts.map((p) => p.id));
    expect(ids.filter((i) => i === 'ring')).toHaveLength(20);
    expect(ids.filter((i) => i === 'plate')).toHaveLength(26);
    expect(ids.filter((i) => i === 'block')).toHaveLength(8);
  });

  test('cut outlines keep the gap, agrees a general polygon library', () => {
    for (const s of sheets) {
      const outers = s.drawing.shapes.filter((x) => x.layer === 'CUT-OUTER');
      const grown = outers.map((x) =>
        inflatePathsD([polygonOf(x, 0.001)], 0.998, JoinType.Round, EndType.Polygon, 2, 6, 0.001),
      );
      for (const [i, a] of grown.entries()) {
        for (const [k, b] of grown.entries()) {
          if (k <= i) continue;
          expect(Math.abs(areaPathsD(intersectD(a, b, FillRule.NonZero, 6)))).toBe(0);
        }
      }
      const { min, max } = bounds(s.drawing.shapes);
      expect(min.x).toBeGreaterThan(0);
      expect(max.x).toBeLessThanOrEqual(595);
      expect(max.y).toBeLessThanOrEqual(395);
    }
  });

  test('sheet use up to the last sheet is 0.65 or more, and 1.1 times what boxes alone give', () => {
    const material = COLLAR.reduce((sum, p) => sum + p.quantity * Math.abs(signedArea(p.outer)), 0);
    // The last sheet counts as far as its parts reach, up or across: the rest of it is whole.
    const last = bounds(sheets.at(-1)!.drawing.shapes.filter((x) => x.layer === 'CUT-OUTER'));
    const area = (sheets.length - 1) * 600 * 400 + Math.min(600 * last.max.y, 400 * last.max.x);
    expect(material / area).toBeGreaterThan(0.65);
    const gap = 2.2;
    const { min, max } = roomOn(SHEET, OPTIONS.kerf);
    const items = COLLAR.flatMap((p) => Array(p.quantity).fill(p) as Part[]).map((p, key) => {
      const b = bounds([p.outer]);
      return { key, width: b.max.x - b.min.x + gap, height: b.max.y - b.min.y + gap, turns: true };
    });
    const boxes = packBoxes(items, max.x - min.x + gap, max.y - min.y + gap);
    const bins = Math.max(...boxes.map((b) => b.bin)) + 1;
    const right = Math.max(
      ...boxes
        .filter((b) => b.bin === bins - 1)
        .map((b) => b.x + (b.turned ? items[b.key]!.height : items[b.key]!.width)),
    );
    const top = Math.max(
      ...boxes
        .filter((b) => b.bin === bins - 1)
        .map((b) => b.y + (b.turned ? items[b.key]!.width : items[b.key]!.height)),
    );
    expect(area).toBeLessThan(((bins - 1) * 600 * 400 + Math.min(600 * top, 400 * right)) / 1.1);
  });

  test('cuts come in the order engrave, score, inner, outer', () => {
    const holed = part('holed', rectangle('CUT-OUTER', 'e', { x: 0, y: 0 }, { x: 60, y: 40 }), 3, [
      circle('CUT-INNER', 'h', { x: 20, y: 20 }, 4),
    ]);
    const layers = nest([holed], SHEET, OPTIONS).value[0]!.drawing.shapes.map((s) => s.layer);
    const runs = layers.filter((l, i) => l !== layers[i - 1]);
    expect(runs).toEqual(['ENGRAVE', 'REFERENCE', 'CUT-INNER', 'CUT-OUTER']);
  });

  test('length, pierces and area are those of the parts', () => {
    const [sheet] = nest([box('b', 100, 50, 2)], SHEET, OPTIONS).value;
    // Outside corners are rounded by half the kerf: a full turn of radius 0.1 a part.
    expect(sheet!.cutLength).toBeCloseTo(2 * (300 + 2 * Math.PI * 0.1), 9);
    expect(sheet!.pierces).toBe(2);
    expect(sheet!.use).toBeCloseTo((2 * 5000) / 240000, 12);
  });

  test("time comes from the laser's own speeds, and says which it had to assume", () => {
    const part = [box('b', 100, 50, 2)];
    const speeds = { cut: 20, score: 50, engrave: 100, travel: 300, pierce: 0.2 };
    const [told] = nest(part, { ...SHEET, speeds }, OPTIONS).value;
    const letters = told!.drawing.shapes
      .filter((s) => s.layer === 'ENGRAVE')
      .reduce((sum, s) => sum + pathLength(s), 0);
    const wanted = told!.cutLength / 20 + 100 / 50 + letters / 100 + told!.travel / 300 + 2 * 0.2;
    expect(told!.seconds).toBeCloseTo(wanted, 9);
    expect(told!.assumed).toEqual([]);
    expect(nest(part, { ...SHEET, speeds: { cut: 20 } }, OPTIONS).value[0]!.assumed).toEqual([
      'score',
      'engrave',
      'travel',
      'pierce',
    ]);
  });

  test('a small piece goes into the hollow of an earlier sheet, whichever later sheet it was on', () => {
    const frame = polygon('CUT-OUTER', 'u', [
      { x: 0, y: 0 },
      { x: 580, y: 0 },
      { x: 580, y: 380 },
      { x: 480, y: 380 },
      { x: 480, y: 100 },
      { x: 100, y: 100 },
      { x: 100, y: 380 },
      { x: 0, y: 380 },
    ]);
    const { value } = nest([part('frame', frame, 3), box('small', 200, 150, 3)], SHEET, OPTIONS);
    expect(value.map((s) => s.parts.map((p) => p.id).toSorted())).toEqual([
      ['frame', 'small', 'small'],
      ['frame', 'small'],
      ['frame'],
    ]);
  });

  test('a part larger than the sheet is named, the others are laid', () => {
    const { value, facts: said } = nest([box('huge', 700, 20), box('small', 20, 20)], SHEET, OPTIONS);
    expect(said.map((f) => [f.level, f.id, f.at])).toEqual([['stop', 'part-larger-than-sheet', 'huge']]);
    expect(value.flatMap((s) => s.parts.map((p) => p.id))).toEqual(['small']);
  });

  test('exactly as large as the room fits, a tenth more does not', () => {
    const { min, max } = roomOn(SHEET, OPTIONS.kerf);
    const [w, h] = [max.x - min.x, max.y - min.y];
    expect(nest([box('full', w, h)], SHEET, OPTIONS).facts).toEqual([]);
    expect(nest([box('full', w + 0.1, h)], SHEET, OPTIONS).facts).toHaveLength(1);
    const upright = { ...box('upright', 380, 580), turns: false };
    expect(nest([upright], SHEET, OPTIONS).facts).toHaveLength(1);
    expect(nest([{ ...upright, turns: true }], SHEET, OPTIONS).facts).toEqual([]);
  });

  test('the same parts give the same sheets', () => {
    expect(JSON.stringify(nest(COLLAR, SHEET, OPTIONS))).toBe(JSON.stringify({ value: sheets, facts }));
  });

  test('no parts, no sheets', () => expect(nest([], SHEET, OPTIONS)).toEqual({ value: [], facts: [] }));
});

describe('travel of the head', () => {
  const stopsOf = (seed: number, n: number): Stop[] => {
    const random = seeded(seed);
    return Array.from({ length: n }, () => {
      const enter = { x: 600 * random(), y: 400 * random() };
      return { enter, leave: random() < 0.5 ? enter : { x: 600 * random(), y: 400 * random() } };
    });
  };
  const home = { x: 0, y: 0 };
  const inOrder = (stops: Stop[], order: number[]): number =>
    travelOf(
      home,
      order.map((i) => stops[i]!),
    );

  /** The best order there is, by going through all of them (dynamic programming over sets of stops, Held and Karp 1962). */
  function best(stops: Stop[]): number {
    const n = stops.length;
    const cost = new Float64Array((1 << n) * n).fill(Number.POSITIVE_INFINITY);
    for (let i = 0; i < n; i++) cost[(1 << i) * n + i] = distance(home, stops[i]!.enter);
    for (let set = 1; set < 1 << n; set++) {
      for (let i = 0; i < n; i++) {
        const c = cost[set * n + i]!;
        if (c === Number.POSITIVE_INFINITY) continue;
        for (let k = 0; k < n; k++) {
          if (set & (1 << k)) continue;
          const to = (set | (1 << k)) * n + k;
          cost[to] = Math.min(cost[to]!, c + distance(stops[i]!.leave, stops[k]!.enter));
        }
      }
    }
    return Math.min(...cost.subarray(((1 << n) - 1) * n));
  }

  test('within 5 % of the best order of up to 12 stops', () => {
    const over: number[] = [];
    for (let seed = 1; seed <= 25; seed++) {
      const stops = stopsOf(seed, 4 + (seed % 9));
      over.push(inOrder(stops, shortOrder(home, stops)) / best(stops) - 1);
    }
    expect(Math.max(...over), over.map((v) => v.toFixed(3)).join(' ')).toBeLessThan(0.05);
    expect(Math.min(...over)).toBeGreaterThan(-1e-12);
  });

  test('never longer than going to the nearest next, and every stop once', () => {
    for (let seed = 100; seed < 110; seed++) {
      const stops = stopsOf(seed, 60);
      const order = shortOrder(home, stops);
      expect(order.toSorted((a, b) => a - b)).toEqual([...stops.keys()]);
      expect(inOrder(stops, order)).toBeLessThanOrEqual(inOrder(stops, shortOrder(home, stops, false)));
    }
  });
});
