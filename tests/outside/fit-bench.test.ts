import { describe, expect, test } from 'vitest';
import { fromEdge, lineAcross, outlineOf, sidesServed } from '../../src/fit/bench.ts';
import { changed, type Raw } from '../helpers/changed.ts';
import { benchOf } from '../helpers/laid-out.ts';

/** R = 160: a turn is 320 pi = 1005.310 mm, a quarter 251.327 mm; a flat foot 20 wide reaches 160 asin(10 / 160) = 10.007 mm. */
const TURN = 320 * Math.PI;
const HALF = 160 * Math.asin(10 / 160);
const drum: Raw = {
  jig: 1,
  name: 'Bench',
  shell: {
    diameter: 320,
    depth: 150,
    wall: 10,
    holes: [
      { at: 180, edge: 'bottom', distance: 30, diameter: 8 },
      { at: 0, edge: 'top', distance: 30, diameter: 8 },
    ],
  },
  lugs: { count: 2, first: 90, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } },
  fittings: [
    { name: 'plate', role: 'other', at: [0, 90], edge: 'middle', distance: 5, foot: { width: 20, height: 30 } },
    { name: 'eye', role: 'bracket', at: 0, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 4 } },
  ],
};
const bench = benchOf(drum);
const print = (id: string) => bench.prints.find((p) => p.id === id);

describe('the unrolled shell', () => {
  test('feet first, then holes as they are placed, then old holes', () => {
    expect(bench.prints.map((p) => [p.kind, p.id])).toEqual([
      ['foot', 'plate-1'],
      ['foot', 'plate-2'],
      ['hole', 'lug-top-1'],
      ['hole', 'lug-top-2'],
      ['hole', 'eye'],
      ['old', 'old-hole-1'],
      ['old', 'old-hole-2'],
    ]);
    expect(bench.girth).toBeCloseTo(TURN, 9);
  });
  // Whatever lies over the seam is moved one turn on, so that its left side is within the turn.
  test.each<[id: string, x: number, half: number, y: number, up: number]>([
    ['plate-1', TURN, HALF, 80, 15],
    ['plate-2', TURN / 4, HALF, 80, 15],
    ['lug-top-1', TURN / 4, 3, 110, 3],
    ['lug-top-2', (3 * TURN) / 4, 3, 110, 3],
    ['eye', TURN, 2, 75, 2],
    ['old-hole-1', TURN / 2, 4, 30, 4],
    ['old-hole-2', TURN, 4, 120, 4],
  ])('%s lies at %s mm and reaches %s mm to either side', (id, x, half, y, up) => {
    const p = print(id);
    expect(p?.x).toBeCloseTo(x, 6);
    expect(p?.left).toBeCloseTo(x - half, 6);
    expect(p?.right).toBeCloseTo(x + half, 6);
    expect([p?.y, p?.down, p?.up]).toEqual([y, y - up, y + up]);
  });
  test('a print leads to what stands there, and a place to its foot', () => {
    expect(print('lug-top-2')?.placed?.key).toBe('lugs.rows.0');
    expect(print('lug-top-2')?.hole?.drill).toBe(6);
    expect(print('eye')?.placed?.id).toBe('eye');
    expect(print('old-hole-1')?.placed).toBeUndefined();
    const placed = print('plate-2')?.placed;
    expect(placed && bench.footOf.get(placed)).toBe(print('plate-2'));
    expect(bench.footOf.size).toBe(2);
    expect(print('plate-1')?.shape).toBe(print('plate-2')?.shape);
  });
  test('the outline of a foot lies where its print lies, or moved round from there', () => {
    const p = print('plate-2');
    const [here, on] = p ? [outlineOf(p), outlineOf(p, 100)] : [];
    expect(here?.left).toBeCloseTo(TURN / 4 - HALF, 9);
    expect([here?.down, here?.up]).toEqual([65, 95]);
    expect(on?.right).toBeCloseTo(TURN / 4 + 100 + HALF, 9);
    const hole = print('eye');
    expect(hole && outlineOf(hole)).toBeUndefined();
  });
});

describe('rows and fittings by their words', () => {
  test('each with its place in the jig file and its places on the shell', () => {
    expect(bench.groups.map((g) => [g.name, g.title, g.key, g.placed.map((p) => p.id).join()])).toEqual([
      ['top', 'top lugs', 'lugs.rows.0', 'lug-top-1,lug-top-2'],
      ['plate', 'plate', 'fittings.0', 'plate-1,plate-2'],
      ['eye', 'eye', 'fittings.1', 'eye'],
    ]);
    expect(bench.groups[0]?.row?.edge).toBe('top');
    expect(bench.groups[0]?.fitting).toBeUndefined();
    expect(bench.groups[2]?.fitting?.role).toBe('bracket');
    expect(bench.groups[2]?.row).toBeUndefined();
  });
  // From the middle a row serves the nearer hoop; just in the middle the top one, or else the only one there is.
  test.each<[edge: string, distance: number, more: Record<string, unknown>, want: string[]]>([
    ['top', 40, {}, ['top']],
    ['bottom', 40, {}, ['bottom']],
    ['middle', 0.1, {}, ['top']],
    ['middle', -0.1, {}, ['bottom']],
    ['middle', 0, {}, ['top']],
    ['middle', 0, { hoops: { bottom: { ear: 4 } } }, ['bottom']],
    ['middle', 0, { hoops: { top: { ear: 4 } } }, ['top']],
    ['middle', 0, { hoops: { top: { ear: 4 }, bottom: { ear: 4 } } }, ['top']],
    ['middle', 5, { hoops: { bottom: { ear: 4 } } }, ['top']],
    ['top', 40, { hoops: { bottom: { ear: 4 } } }, ['top']],
    ['middle', 0, { 'lugs.ends': 'both' }, ['top', 'bottom']],
    ['bottom', 40, { 'lugs.ends': 'both' }, ['top', 'bottom']],
  ])('lugs from the %s, %s mm, %j serve %j', (edge, distance, more, want) => {
    const { jig } = benchOf(changed(drum, { 'lugs.rows.0': { edge, distance }, ...more }));
    expect(jig.rows.map((row) => sidesServed(jig, row))).toEqual([want]);
  });
  test('a height is seen from either edge', () => {
    expect(fromEdge('top', 110, 150)).toBe(40);
    expect(fromEdge('bottom', 110, 150)).toBe(110);
  });
  // asin(80 / 160) = 30 deg; no line lies further across than the shell is wide.
  test.each([
    [0, 80, 30],
    [10, -80, 340],
    [350, 80, 20],
    [0, 160, 90],
    [0, 200, 90],
    [0, -200, 270],
    [45, 0, 45],
  ])('a line at %s deg, %s mm across, runs at %s', (angle, across, want) =>
    expect(lineAcross(bench, angle, across)).toBeCloseTo(want, 9),
  );
});
