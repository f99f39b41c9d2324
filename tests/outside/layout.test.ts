import { describe, expect, test } from 'vitest';
import { arc, chord } from '../../src/geometry/frames.ts';
import type { Hole } from '../../src/model/layout.ts';
import { demo, planned } from '../helpers/jigs.ts';

const shell = { diameter: '327.4 mm', depth: 152, wall: 6.6 };
const lug = (row: object, more: object = {}) => ({
  jig: 1,
  name: 'x',
  shell,
  lugs: { count: 8, rows: [row], holes: { layout: 'single', drill: 6 }, ...more },
});
const holes = (raw: unknown): readonly Hole[] => planned(raw).layout.holes;

describe('equal division of a circle (textbook: arc = 2 pi R / n, chord = 2 R sin(pi / n))', () => {
  test('R = 163.7: n = 8 and n = 10', () => {
    expect(arc(163.7, 360 / 8)).toBeCloseTo(128.5697, 4);
    expect(chord(163.7, 360 / 8)).toBeCloseTo(125.2906, 4);
    expect(arc(163.7, 360 / 10)).toBeCloseTo(102.8557, 4);
    expect(chord(163.7, 360 / 10)).toBeCloseTo(101.1722, 4);
  });
  // Computed by plain circle geometry for D = 355.6.
  test.each([
    [6, 186.191725, 177.8],
    [8, 139.643793, 136.082229],
    [10, 111.715035, 109.886443],
    [12, 93.095862, 92.03605197],
  ])('D = 355.6, n = %i', (n, a, c) => {
    expect(arc(177.8, 360 / n)).toBeCloseTo(a, 5);
    expect(chord(177.8, 360 / n)).toBeCloseTo(c, 5);
  });
  test('the lugs of a row stand one chord apart on the shell', () => {
    const row = holes(lug({ edge: 'top', distance: 30 }));
    const at = (h: Hole) =>
      [163.7 * Math.cos((h.angle * Math.PI) / 180), 163.7 * Math.sin((h.angle * Math.PI) / 180)] as const;
    row.forEach((h, i) => {
      const [a, b] = [at(h), at(row[(i + 1) % 8] as Hole)];
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeCloseTo(125.290557, 5);
    });
  });
});

describe('heights and edges', () => {
  test('top, bottom and middle', () => {
    expect(holes(lug({ edge: 'top', distance: 36 }))[0]?.height).toBeCloseTo(116, 9);
    expect(holes(lug({ edge: 'bottom', distance: 36 }))[0]?.height).toBe(36);
    expect(holes(lug({ edge: 'middle', distance: -10 }))[0]?.height).toBe(66);
  });
  test('half a pitch from the strainer line unless said', () => {
    expect(holes(lug({ edge: 'top', distance: 36 }))[0]?.angle).toBe(22.5);
    expect(holes(lug({ edge: 'top', distance: 36 }, { first: 0 }))[0]?.angle).toBe(0);
    expect(holes(lug({ edge: 'top', distance: 36, count: 6 }))[0]?.angle).toBe(30);
  });
});

describe('patterns', () => {
  test('across lies at asin(x / R): x = 20, R = 163.7 is 7.01763 deg, not the 7.00010 of an arc', () => {
    const h = holes(
      lug({ edge: 'top', distance: 36 }, { first: 90, holes: { layout: 'across', spacing: 40, drill: 6 } }),
    );
    expect(h[0]?.angle).toBeCloseTo(90 - 7.01763, 5);
    expect(h[1]?.angle).toBeCloseTo(90 + 7.01763, 5);
  });
  test('a bottom row is the same casting turned by 180 deg, not mirrored', () => {
    const points = [
      { across: 5, upright: 12 },
      { across: -3, upright: -8 },
    ];
    const [top, bottom] = ['top', 'bottom'].map((edge) =>
      holes(lug({ edge, distance: 40 }, { first: 90, count: 1, holes: { layout: 'points', points, drill: 6 } })),
    );
    expect(top?.[0]?.angle).toBeGreaterThan(90);
    expect(bottom?.[0]?.angle).toBeLessThan(90);
    expect(top?.[0]?.height).toBe(112 + 12);
    expect(bottom?.[0]?.height).toBe(40 - 12);
    expect(bottom?.[1]?.angle).toBeGreaterThan(90);
    expect(bottom?.[1]?.height).toBe(40 + 8);
  });
  test('a turned foot: rimward stays at the rim, left and right change sides', () => {
    const foot = { left: 5, right: 9, rimward: 20, inward: 30 };
    const raw = {
      jig: 1,
      name: 'x',
      shell,
      lugs: {
        count: 4,
        rows: [
          { edge: 'top', distance: 36 },
          { edge: 'bottom', distance: 36 },
        ],
        holes: { layout: 'single', drill: 6 },
        foot,
      },
    };
    const placed = planned(raw).layout.placed;
    expect(placed[0]?.foot).toMatchObject({ left: 5, right: 9, up: 20, down: 30 });
    expect(placed[4]?.foot).toMatchObject({ left: 9, right: 5, up: 30, down: 20 });
  });
  test('grid runs from the upper left', () => {
    const h = holes(
      lug({ edge: 'bottom', distance: 60 }, { count: 1, first: 90, holes: { layout: 'single', drill: 5 } }),
    );
    expect(h).toHaveLength(1);
    const grid = { layout: 'grid', columns: 3, rows: 2, across: 10, upright: 20, drill: 5 };
    const g = holes({
      jig: 1,
      name: 'x',
      shell,
      fittings: [{ role: 'other', at: 90, edge: 'bottom', distance: 60, holes: grid }],
    });
    expect(g.map((x) => x.height)).toEqual([70, 70, 70, 50, 50, 50]);
    expect(g.map((x) => x.across)).toEqual([-10, 0, 10, -10, 0, 10]);
    expect(g.map((x) => x.id)).toEqual(['other-a', 'other-b', 'other-c', 'other-d', 'other-e', 'other-f']);
  });
});

describe('places', () => {
  const at = (where: unknown) =>
    planned({
      ...lug({ edge: 'top', distance: 36 }),
      fittings: [{ role: 'vent', at: where, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 10 } }],
    }).jig.fittings[0]?.at;
  test('an angle, wrapped', () => expect(at('-10 deg')).toEqual([350]));
  test('between lugs, going with growing angle', () => {
    expect(at({ between: [2, 3] })).toEqual([90]);
    expect(at({ between: [8, 1] })).toEqual([0]);
    expect(at({ between: [3, 2] })).toEqual([270]);
  });
  test('a list of either', () => expect(at([10, { between: [1, 2] }])).toEqual([10, 45]));
  test('every', () => expect(at({ every: 120, from: 30 })).toEqual([30, 150, 270]));
});

describe('girth from a tape: D = C / pi - t', () => {
  test('1028.6 mm with a tape of 0.2 mm', () => {
    const raw = lug({ edge: 'top', distance: 36 });
    const { jig } = planned({ ...raw, shell: { circumference: '1028.6 mm', tape: '0.2 mm', depth: 152, wall: 6.6 } });
    expect(2 * jig.shell.radius).toBeCloseTo(1028.6 / Math.PI - 0.2, 9);
  });
});

test('every demo jig lays out, with ids that are XML names and all different', () => {
  for (const name of ['snare', 'floor-tom', 'bass', 'rack-tom', 'wrong']) {
    const { layout } = planned(demo(`jigs/kettle-row-${name}.yaml`));
    const ids = layout.holes.map((h) => h.id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z_][\w.-]*$/);
  }
});
