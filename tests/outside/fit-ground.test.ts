import { describe, expect, test } from 'vitest';
import { boxGap, clearBy, depthInside, gapBetween, overlaps } from '../../src/fit/contact.ts';
import { gather, gatherAlike } from '../../src/fit/gather.ts';
import { type Boxed, eachNear, eachPair, ground } from '../../src/fit/neighbours.ts';
import { footOutline, fromPoints, moved, type Outline } from '../../src/fit/outline.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Foot } from '../../src/model/jig.ts';

const R = 163.7;

type Pairs = readonly (readonly [x: number, y: number])[];
const shape = (...points: Pairs): Outline => fromPoints(points.map(([x, y]) => ({ x, y })));
const box = (left: number, down: number, right: number, up: number): Outline =>
  shape([left, down], [right, down], [right, up], [left, up]);

const square = box(-5, -5, 5, 5);
const diamond = shape([0, -5], [5, 0], [0, 5], [-5, 0]);
/** A U: 40 wide, 30 high, its notch 20 wide down to 10. */
const notched = shape([0, 0], [40, 0], [40, 30], [30, 30], [30, 10], [10, 10], [10, 30], [0, 30]);

describe('how deep a point lies in an outline', () => {
  test.each<[string, Outline, number, number, number]>([
    ['the middle of a square', square, 0, 0, 5],
    ['near its right side', square, 4, 1, 1],
    ['near its left side', square, -3, 1, 2],
    ['near its upper side', square, 1, 4.5, 0.5],
    ['near its lower side', square, 1, -4.5, 0.5],
    ['right of it', square, 7, 1, -2],
    ['left of it', square, -8, 1, -3],
    ['above it', square, 1, 6, -1],
    ['below it', square, 1, -9, -4],
    ['off its upper right corner, 3 and 4', square, 8, 9, -5],
    ['off its upper left corner', square, -8, 9, -5],
    ['off its lower left corner', square, -8, -9, -5],
    ['off its lower right corner', square, 8, -9, -5],
    // Level with two corners: sides at 45 deg, 1 / sqrt 2 for each millimetre.
    ['a diamond, level with its corners', diamond, -2, 0, 3 / Math.SQRT2],
    ['right of it, level with its corners', diamond, 7, 0, -2],
    ['left of it, level with its corners', diamond, -7, 0, -2],
    ['beside its slanted side', diamond, 4, 4, -3 / Math.SQRT2],
    ['level with its upper corner', diamond, -4, 5, -4 / Math.SQRT2],
    ['level with its lower corner', diamond, -4, -5, -4 / Math.SQRT2],
    ['in the notch of a U', notched, 20, 15, -5],
    ['in the arm of a U', notched, 8, 20, 2],
    ['level with the bottom of the notch', notched, 35, 10, 5],
  ])('%s', (_, o, x, y, want) => expect(depthInside(o, { x, y })).toBeCloseTo(want, 12));
  test('a point named twice is no side', () => {
    const twice = shape([-5, -5], [5, -5], [5, -5], [5, 5], [-5, 5]);
    expect(depthInside(twice, { x: 4, y: 0 })).toBe(1);
    expect(depthInside(twice, { x: 8, y: -9 })).toBe(-5);
  });
  test('a hair inside and outside', () => {
    expect(depthInside(square, { x: 4.999, y: 0 })).toBeCloseTo(0.001, 12);
    expect(depthInside(square, { x: 5.001, y: 0 })).toBeCloseTo(-0.001, 12);
    expect(depthInside(diamond, { x: 2.499, y: 2.499 })).toBeGreaterThan(0);
    expect(depthInside(diamond, { x: 2.501, y: 2.501 })).toBeLessThan(0);
  });
});

describe('two outlines', () => {
  const tall = box(-1, -20, 1, 20);
  const wide = box(-20, -1, 20, 1);
  test.each<[string, Outline, Outline, boolean]>([
    ['the same twice', square, square, true],
    ['one within the other', square, box(-1, -1, 1, 1), true],
    ['a cross, no corner in the other', tall, wide, true],
    ['a cross off the middle of both', tall, moved(wide, 19.5, 12), true],
    ['corners over corners', square, moved(square, 9, 9), true],
    ['side on side', square, moved(square, 10, 0), false],
    ['side on part of a side', square, moved(square, 10, 4), false],
    ['top on bottom', square, moved(square, 3, 10), false],
    ['a hair over', square, moved(square, 9.9999, 0), true],
    ['corner on corner', square, moved(square, 10, 10), false],
    ['corner of a diamond on a side', square, moved(diamond, 10, 0), false],
    ['corner of a diamond over a side', square, moved(diamond, 9.99, 0), true],
    ['sides of diamonds on each other', diamond, moved(diamond, 5, 5), false],
    ['sides of diamonds a hair over', diamond, moved(diamond, 4.999, 5), true],
    ['boxes over each other, diamonds not', diamond, moved(diamond, 6, 6), false],
    ['a post in the notch', notched, box(15, 12, 25, 40), false],
    ['a post filling the notch', notched, box(10, 10, 30, 40), false],
    ['a post through the bottom of the notch', notched, box(15, 9, 25, 40), true],
    ['a post wider than the notch', notched, box(9, 12, 25, 40), true],
    ['a beam over both arms', notched, box(-5, 20, 45, 22), true],
    ['two Us, one turned into the other', notched, moved(notched, 30, 10), true],
    ['pointed corners on one spot', shape([5, 2], [4, 5], [0, 0]), shape([3, 5], [0, 1], [0, 0]), false],
    ['the same U twice', notched, notched, true],
    ['two Us, side by side', notched, moved(notched, 40, 0), false],
    // Two sides in line and every corner on the other's side: the middle of the lower side tells.
    ['half of a square', square, box(-5, -5, 5, 0), true],
    ['a square and its upper half, shifted', square, box(-5, 0, 5, 8), true],
    ['the U and its lower bar', notched, box(0, 0, 40, 10), true],
    ['the U and what just fills its notch', notched, box(10, 10, 30, 30), false],
    ['the U and its left arm', notched, box(0, 0, 10, 30), true],
    ['the U and its right arm', notched, box(30, 0, 40, 30), true],
  ])('%s', (_, a, b, want) => {
    expect(overlaps(a, b)).toBe(want);
    expect(overlaps(b, a)).toBe(want);
  });

  test.each<[string, Outline, Outline, number]>([
    ['side by side', square, moved(square, 13, 0), 3],
    ['the other side', square, moved(square, -13, 0), 3],
    ['one above the other', square, moved(square, 0, 14), 4],
    ['one below the other', square, moved(square, 0, -14), 4],
    ['on the slant, 3 and 4', square, moved(square, 13, 14), 5],
    ['on the slant, 3 and 4, down', square, moved(square, -13, -14), 5],
    ['over each other sideways', square, moved(square, 2, 14), 4],
    ['touching', square, moved(square, 10, 0), 0],
  ])('gap %s', (_, a, b, want) => {
    for (const [p, q] of [
      [a, b],
      [b, a],
    ] as const) {
      expect(gapBetween(p, q)).toBeCloseTo(want, 12);
      expect(boxGap(p, q)).toBeCloseTo(want, 12);
    }
  });
  test('a corner against a side, whichever has it', () => {
    expect(gapBetween(diamond, moved(square, 12, 0))).toBe(2);
    expect(gapBetween(moved(square, 12, 0), diamond)).toBe(2);
    // Diamonds side by side on the slant: 6 sqrt 2 between parallel sides of 5 sqrt 2 about each middle.
    expect(gapBetween(diamond, moved(diamond, 6, 6))).toBeCloseTo(Math.SQRT2, 12);
    expect(boxGap(diamond, moved(diamond, 6, 6))).toBe(0);
  });
  test('a post in a notch stands as near as the nearer side', () => {
    expect(gapBetween(notched, box(14, 12, 29, 40))).toBe(1);
    expect(gapBetween(box(14, 13, 27, 40), notched)).toBe(3);
  });
});

describe('how far to go to be clear', () => {
  test.each<[string, Outline, Outline, 'x' | 'y', number]>([
    ['off to the left', square, moved(square, 7, 0), 'x', -3],
    ['off to the right', square, moved(square, -7, 0), 'x', 3],
    ['down', square, moved(square, 0, 8), 'y', -2],
    ['up', square, moved(square, 0, -8), 'y', 2],
    ['right as far as left: right', square, square, 'x', 10],
    ['up as far as down: up', square, square, 'y', 10],
    ['of unlike sizes, left', square, box(2, -1, 20, 1), 'x', -3],
    ['of unlike sizes, right', square, box(-20, -1, 1, 1), 'x', 6],
    ['of unlike sizes, up', box(-1, -20, 1, 20), box(-5, -60, 5, -15), 'y', 5],
    ['of unlike sizes, down', box(-1, -20, 1, 20), box(-5, 12, 5, 60), 'y', -8],
    ['far to the right out of something wide', square, box(-40, -1, 38, 1), 'x', 43],
    ['far down out of something tall', square, box(-1, -38, 1, 40), 'y', -43],
    // Diamonds 4 apart upwards: their sides touch 6 apart sideways.
    ['diamonds, sooner than their boxes', diamond, moved(diamond, 1, 4), 'x', -5],
    ['diamonds, upwards', diamond, moved(diamond, 4, -1), 'y', 5],
  ])('%s', (_, a, b, along, want) => {
    const way = clearBy(a, b, along);
    // Sixteen halvings of some tens of millimetres; never short of clear.
    expect(Math.abs(way - want)).toBeLessThan(1e-3);
    expect(overlaps(along === 'x' ? moved(a, way, 0) : moved(a, 0, way), b)).toBe(false);
  });
});

describe('a foot as it lies on the shell', () => {
  const foot = (more: Partial<Foot>): Foot => ({
    left: 15,
    right: 15,
    up: 10,
    down: 10,
    shape: 'rectangle',
    corner: 0,
    gasket: 0,
    ...more,
  });
  /** So wide a shell that a foot lies flat: across is round the shell to 1e-9 mm. */
  const FLAT = 1e7;
  const areaOf = ({ points }: Outline) =>
    points.reduce((sum, p, i) => {
      const q = points[(i + 1) % points.length] ?? p;
      return sum + (p.x * q.y - q.x * p.y) / 2;
    }, 0);
  const boxOf = ({ left, right, down, up }: Outline) => [left, right, down, up].map((v) => Number(v.toFixed(6)));

  test('its sides lie at R asin(x / R): 15 across are 15.0211 round a shell of R = 163.7', () => {
    const o = footOutline(foot({ left: 10 }), R);
    // x + x^3 / 6 R^2 + 3 x^5 / 40 R^4: 10 + 0.00622 + 0.00001 and 15 + 0.02099 + 0.00008.
    expect(o.points).toHaveLength(4);
    expect(boxOf(o)).toEqual([-10.00623, 15.02107, -10, 10]);
    expect(areaOf(o)).toBeCloseTo((10.00623 + 15.02107) * 20, 4);
  });
  test('wider than the shell it ends a quarter turn from the middle', () => {
    const quarter = (R * Math.PI) / 2;
    const o = footOutline(foot({ left: 200, right: 164 }), R);
    expect(o.left).toBeCloseTo(-quarter, 9);
    expect(o.right).toBeCloseTo(quarter, 9);
  });
  test('an ellipse about its own middle: poles exact, chords within 0.01 mm and no more of them than that takes', () => {
    const o = footOutline(foot({ left: 10, right: 20, up: 8, down: 12, shape: 'ellipse' }), FLAT);
    expect(boxOf(o)).toEqual([-10, 20, -12, 8]);
    for (const { x, y } of o.points) expect(((x - 5) / 15) ** 2 + ((y + 2) / 10) ** 2).toBeCloseTo(1, 6);
    // 15 (1 - cos(pi / 88)) = 0.00956, and with four fewer 0.01049.
    expect(o.points).toHaveLength(88);
    expect(areaOf(o)).toBeCloseTo(Math.PI * 15 * 10 * (Math.sin(Math.PI / 44) / (Math.PI / 44)), 6);
    expect(footOutline(foot({ left: 2, right: 2, up: 40, down: 40, shape: 'ellipse' }), FLAT).points).toHaveLength(144);
  });
  test('smaller than a chord may stand off it is a diamond', () => {
    const dot = foot({ left: 0.004, right: 0.004, up: 0.004, down: 0.004, shape: 'ellipse' });
    expect(footOutline(dot, FLAT).points).toHaveLength(4);
  });
  test('round corners: 13 points each about their own middle, poles exact', () => {
    // 4 (1 - cos(pi / 96)) = 0.0021 with 12 chords to a quarter; 0.0025 is a quarter of a hundredth of 4, so 11.1 are needed.
    const o = footOutline(foot({ left: 5, right: 25, up: 8, down: 22, corner: 4 }), FLAT);
    expect(o.points).toHaveLength(52);
    expect(boxOf(o)).toEqual([-5, 25, -22, 8]);
    const middles = [
      [21, 4],
      [-1, 4],
      [-1, -18],
      [21, -18],
    ] as const;
    o.points.forEach(({ x, y }, i) => {
      const [cx, cy] = middles[Math.floor(i / 13)] ?? [0, 0];
      expect(Math.hypot(x - cx, y - cy)).toBeCloseTo(4, 6);
    });
    // 30 x 30 less 4 squares of 4 outside their quarters of 4 x 12 chords.
    const quarters = 24 * 4 ** 2 * Math.sin(Math.PI / 24);
    expect(areaOf(o)).toBeCloseTo(900 - 4 * 4 ** 2 + quarters, 5);
  });
  test('corners of more than half a side are cut to that', () => {
    // Stadiums: a box and a circle, chords a little inside: 10 x 20 and a circle of 10, 10 x 10 and one of 5.
    const wide = footOutline(foot({ corner: 50 }), FLAT);
    const tall = footOutline(foot({ left: 4, right: 6, corner: 50 }), FLAT);
    expect(boxOf(wide)).toEqual([-15, 15, -10, 10]);
    expect(boxOf(tall)).toEqual([-4, 6, -10, 10]);
    for (const [o, area, r] of [
      [wide, 200 + Math.PI * 100, 10],
      [tall, 100 + Math.PI * 25, 5],
    ] as const) {
      expect(areaOf(o)).toBeLessThan(area);
      expect(areaOf(o)).toBeGreaterThan(area - 2 * Math.PI * r * 0.01);
    }
  });
  test('corners no eye can see are none', () => {
    expect(footOutline(foot({ corner: 0.001 }), FLAT).points).toHaveLength(4);
    expect(footOutline(foot({ corner: 0.002 }), FLAT).points).toHaveLength(8);
  });
  test('slanted sides are cut into pieces of 5 mm at most, upright and level ones are not', () => {
    const points = [
      { across: -20, upright: -20 },
      { across: 20, upright: -20 },
      { across: 0, upright: 20 },
    ];
    const o = footOutline(foot({ outline: points }), R);
    // hypot(20, 40) = 44.72: nine pieces each; the base is one.
    expect(o.points).toHaveLength(19);
    // Every piece's middle, laid on the shell, is on the line to a tenth of what a chord may stand off.
    o.points.slice(1).forEach((p, i) => {
      const q = o.points[(i + 2) % 19] ?? p;
      const across = R * Math.sin((p.x + q.x) / 2 / R);
      const upright = (p.y + q.y) / 2;
      expect(Math.abs(20 - 2 * Math.abs(across) - upright) / Math.hypot(1, 2)).toBeLessThan(0.001);
    });
  });
  test.each([
    [3, 4, 1],
    [6, 8, 2],
    [6, 8.01, 3],
    [0.001, 40, 1],
    [0.002, 40, 9],
    [40, 0.001, 1],
    [40, 0.002, 9],
  ])('a side %s to the side and %s up: %i pieces', (dx, dy, pieces) => {
    const outline = [
      { across: 0, upright: 0 },
      { across: dx, upright: 0 },
      { across: 0, upright: dy },
    ];
    expect(footOutline(foot({ outline }), FLAT).points).toHaveLength(pieces + 2);
  });
  test('moved, it takes its box along', () => {
    const o = moved(square, 3, -4);
    expect(o).toEqual(box(-2, -9, 8, 1));
  });
});

describe('what lies near, round the shell', () => {
  const GIRTH = 100;
  const at = (left: number, width: number, down = 0, height = 10): Boxed => ({
    left,
    right: left + width,
    down,
    up: down + height,
  });
  const pairs = (items: readonly Boxed[], reach: number) => {
    const met: [number, number, number][] = [];
    eachPair(ground(items, GIRTH), reach, (a, b, shift) => met.push([items.indexOf(a), items.indexOf(b), shift]));
    return met;
  };
  test.each<[string, Boxed[], number, [number, number, number][]]>([
    ['side by side, 2 apart, reach 2', [at(10, 10), at(22, 10)], 2, [[0, 1, 0]]],
    ['2 apart, reach 1.9', [at(10, 10), at(22, 10)], 1.9, []],
    ['one above the other, 2 apart', [at(10, 10), at(10, 10, 12)], 2, [[0, 1, 0]]],
    ['one above the other, reach 1.9', [at(10, 10), at(10, 10, 12)], 1.9, []],
    ['one below the other', [at(10, 10, 12), at(10, 10)], 2, [[0, 1, 0]]],
    ['over the seam: the second lies a girth to the left', [at(1, 5), at(92, 5)], 4, [[0, 1, -GIRTH]]],
    ['over the seam: the second lies a girth to the right', [at(92, 5), at(1, 5)], 4, [[0, 1, GIRTH]]],
    ['over the seam, too far', [at(92, 5), at(1, 5)], 3.9, []],
    ['one that itself lies over the seam', [at(95, 10), at(3, 5)], 0, [[0, 1, GIRTH]]],
    ['the other way', [at(3, 5), at(95, 10)], 0, [[0, 1, -GIRTH]]],
    [
      'three in a row, in the order of the list',
      [at(30, 10), at(20, 10), at(40, 10)],
      0,
      [
        [0, 1, 0],
        [0, 2, 0],
      ],
    ],
    ['on a narrow girth both ways, told once', [at(0, 60), at(55, 60)], 0, [[0, 1, 0]]],
    ['all alone', [at(0, 99.5)], 3, []],
    ['nothing', [], 3, []],
  ])('%s', (_, items, reach, want) => expect(pairs(items, reach)).toEqual(want));
  test('on a bare shell nothing is near', () => {
    let met = 0;
    eachNear(ground([], GIRTH), at(3, 4), 4, () => met++);
    expect(met).toBe(0);
  });
  test('in the order of the list, wherever they lie', () => {
    const items = [at(95, 5), at(10, 5), at(0, 5)];
    const met: [number, number][] = [];
    eachNear(ground(items, GIRTH), at(3, 4), 4, (b, shift) => met.push([items.indexOf(b), shift]));
    expect(met).toEqual([
      [0, -GIRTH],
      [1, 0],
      [2, 0],
    ]);
  });
  test('of the chosen ones, those near a place', () => {
    const items = [at(0, 5), at(10, 5), at(95, 5), at(50, 5)];
    const near = (wanted?: (i: number) => boolean) => {
      const met: [number, number][] = [];
      eachNear(ground(items, GIRTH), at(3, 4), 4, (b, shift) => met.push([items.indexOf(b), shift]), wanted);
      return met;
    };
    expect(near()).toEqual([
      [0, 0],
      [1, 0],
      [2, -GIRTH],
    ]);
    expect(near((i) => i > 0)).toEqual([
      [1, 0],
      [2, -GIRTH],
    ]);
  });
});

describe('many of one fault are one finding', () => {
  const fact = (at: string, more: Partial<Fact> = {}): Fact => ({
    level: 'stop',
    id: 'some',
    at,
    measured: 1,
    limit: 2,
    unit: 'mm',
    ...more,
  });
  test('the worst stays, where the first stood, with how many and where', () => {
    const facts = [
      { key: 'x', over: 2, fact: fact('a') },
      { key: 'y', over: 9, fact: fact('b') },
      { key: 'x', over: 3, fact: fact('c', { facts: { own: 7 } }) },
      { key: 'x', over: 1, fact: fact('d') },
      { key: 'x', over: 3, fact: fact('e') },
      { key: 'x', over: 2.5, fact: fact('a') },
    ];
    expect(gather(facts)).toEqual([
      { ...fact('c'), facts: { own: 7, count: 4, places: 'a, c, d, e' } },
      { ...fact('b'), facts: { count: 1, places: 'b' } },
    ]);
    expect(gather([])).toEqual([]);
  });
  test('where two meet, by the one that tells the places apart, or by both', () => {
    const meet = (...pairs: [string, string][]) =>
      gather(pairs.map(([at, other]) => ({ key: 'x', over: 1, fact: fact(at), other }))).map((f) => [
        f.facts?.['count'],
        f.facts?.['places'],
      ]);
    expect(meet(['lug-1', 'bracket'], ['lug-2', 'bracket'])).toEqual([[2, 'lug-1, lug-2']]);
    expect(meet(['bracket', 'leg-1'], ['bracket', 'leg-2'], ['bracket', 'leg-1'])).toEqual([[2, 'leg-1, leg-2']]);
    expect(meet(['lug-1', 'lug-2'], ['lug-2', 'lug-3'], ['lug-1', 'lug-3'])).toEqual([
      [3, 'lug-1 and lug-2, lug-2 and lug-3, lug-1 and lug-3'],
    ]);
  });
  test('dear figures are worked out for the worst alone', () => {
    const worked: string[] = [];
    const finish = (f: Fact): Fact => {
      worked.push(f.at);
      return { ...f, measured: 5 };
    };
    const facts = [
      { key: 'x', over: 1, fact: fact('a'), finish },
      { key: 'x', over: 2, fact: fact('b'), finish },
      { key: 'y', over: 2, fact: fact('c'), finish },
      { key: 'y', over: 1, fact: fact('d') },
      { key: 'z', over: 1, fact: fact('e'), finish },
      { key: 'z', over: 2, fact: fact('f') },
    ];
    expect(gather(facts).map((f) => [f.at, f.measured])).toEqual([
      ['b', 5],
      ['c', 5],
      ['f', 1],
    ]);
    expect(worked).toEqual(['b', 'c']);
  });
  test('rows of lugs that share a fault are one, fittings and other figures are not', () => {
    const row = (n: number, more: Partial<Fact> = {}, facts: Fact['facts'] = {}) =>
      fact(`row-${n}`, { ...more, facts: { group: `lugs.rows.${n}`, screw: 'M4', needs: 'x', ...facts } });
    const places = (...facts: Fact[]) => gatherAlike(facts).map((f) => f.facts?.['places']);
    expect(places(row(0), row(1))).toEqual(['row-0, row-1']);
    expect(places(fact('a'), fact('b'))).toEqual(['a, b']);
    expect(places(row(0), row(1, {}, { group: 'fittings.0' }))).toEqual(['row-0', 'row-1']);
    expect(places(row(0, {}, { group: 'fittings.1' }), row(1, {}, { group: 'fittings.0' }))).toEqual([
      'row-0',
      'row-1',
    ]);
    expect(places(row(0, {}, { group: 'fittings.1' }), row(1, {}, { group: 'fittings.1' }))).toEqual(['row-0, row-1']);
    for (const other of [
      row(1, { id: 'other' }),
      row(1, { measured: 1.5 }),
      row(1, { limit: 1 }),
      row(1, {}, { screw: 'M5' }),
      row(1, {}, { needs: 'y' }),
    ])
      expect(places(row(0), other)).toEqual(['row-0', 'row-1']);
  });
});
