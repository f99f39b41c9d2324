import { describe, expect, test } from 'vitest';
import { checkFeet } from '../../src/fit/feet.ts';
import { checkFootRock } from '../../src/fit/foot-rock.ts';
import { checkJoints } from '../../src/fit/joints.ts';
import { checkOverhang } from '../../src/fit/overhang.ts';
import { checkRims } from '../../src/fit/rims.ts';
import { fitSayings } from '../../src/say/fit.ts';
import { say } from '../../src/say/say.ts';
import type { Raw } from '../helpers/changed.ts';
import { perDeg, plates, R, saidBy } from '../helpers/plates.ts';

const foot = (width: number, height: number, more: Raw = {}): Raw => ({ foot: { width, height, ...more } });
const square = foot(30, 30);
/** A plate on the other side of the shell. */
const AWAY = { at: 270, ...foot(9, 9) };
/** Half a foot 30 wide lies at R asin(15 / R) = 15.0211 mm round the shell. */
const half = R * Math.asin(15 / R);
/** The plates with more fittings beside them. */
const besides = (raw: Raw, ...more: Raw[]): Raw => ({
  ...raw,
  fittings: [
    ...(raw['fittings'] as Raw[]),
    ...more.map((f, i) => ({ name: `more-${i}`, role: 'other', at: 90, edge: 'middle', distance: 0, ...f })),
  ],
});

/** Lugs of 20 x 40 about their pattern's middle, 16 of them: 64.29 mm from one to the next. */
const lugs = (lug: Raw = {}, more: Raw = {}): Raw => ({
  jig: 1,
  name: 'Lugs',
  shell: { diameter: 2 * R, depth: 150, wall: 6.6 },
  lugs: {
    count: 16,
    first: 0,
    rows: [{ edge: 'top', distance: 40 }],
    holes: { layout: 'upright', spacing: 20, drill: 5 },
    ...foot(20, 40),
    ...lug,
  },
  ...more,
});

describe('two feet', () => {
  const { found, level, all, pointed } = saidBy(checkFeet);
  test('overlap: who, by how much, and where to go', () => {
    const raw = plates(square, { ...square, at: 90 + 20 / perDeg, distance: 4 });
    const f = found(raw, 'feet-overlap');
    expect(f).toMatchObject({ level: 'stop', at: 'one', limit: 0, facts: { one: 'one', other: 'two', sameRow: 'no' } });
    expect(f?.facts?.['around']).toBeCloseTo(2 * half - 20, 2);
    expect(f?.facts?.['aroundDeg']).toBeCloseTo((2 * half - 20) / perDeg, 2);
    expect(f?.facts?.['upright']).toBeCloseTo(26, 2);
    const up = found(plates(square, { ...square, at: 90 - 3 / perDeg, distance: -28 }), 'feet-overlap');
    expect(up?.measured).toBeCloseTo(2, 2);
    expect(up?.facts?.['upright']).toBeCloseTo(-2, 2);
    expect(up?.facts?.['around']).toBeCloseTo(3 - 2 * half, 2);
  });
  // The second stands in two places; the deeper of the two is told. Feet 30 high, so 26 above leaves 4 to overlap.
  test.each<[string, number[], number, string]>([
    ['2 mm on its right, 3 mm on its left', [2 * half - 2, 3 - 2 * half], 0, 'two-2'],
    ['2 mm on its left, 3 mm on its right', [2 - 2 * half, 2 * half - 3], 0, 'two-2'],
    ['3 mm on its right, 2 mm on its left', [2 * half - 3, 2 - 2 * half], 0, 'two-1'],
    ['3 mm on its left, 2 mm on its right', [3 - 2 * half, 2 * half - 2], 0, 'two-1'],
    ['4 mm from above, and 3 mm on the right', [0, 2 * half - 3], 26, 'two-1'],
    ['3 mm on the right, and 4 mm from above', [2 * half - 3, 0], 26, 'two-2'],
    ['3 mm on the right, and 4 mm from below', [2 * half - 3, 0], -26, 'two-2'],
    ['4 mm from above, twice: the first', [5, 0], 26, 'two-1'],
    ['4 mm from below, twice: the first', [5, 0], -26, 'two-1'],
  ])('the deeper overlap of several: %s', (_, aside, distance, other) => {
    const raw = plates(square, { ...square, at: aside.map((mm) => 90 + mm / perDeg), distance });
    expect(found(raw, 'feet-overlap')?.facts?.['other']).toBe(other);
  });
  test('lugs of one row are too many or too wide', () => {
    // 64.29 mm from lug to lug; a foot 66 across reaches 33.23 to each side.
    const raw = lugs(foot(66, 40));
    const f = pointed(raw).find((x) => x.id === 'feet-overlap');
    expect(f).toMatchObject({ path: 'lugs.count', facts: { sameRow: 'yes', count: 16, group: 'lugs.rows.0' } });
    expect(f?.facts?.['around']).toBeCloseTo(2 * R * Math.asin(33 / R) - 22.5 * perDeg, 2);
    // Or as many as the row says itself.
    const own = lugs({ ...foot(66, 40), count: 8, rows: [{ edge: 'top', distance: 40, count: 16 }] });
    expect(pointed(own).find((x) => x.id === 'feet-overlap')?.path).toBe('lugs.rows.0.count');
  });
  test('of a fitting in two places that overlap, the angle is what to change, not the number of lugs', () => {
    const raw = { ...plates({ ...square, at: [90, 90 + 20 / perDeg] }, square), ...lugs() };
    const f = pointed(raw).find((x) => x.id === 'feet-overlap' && x.facts?.['sameRow'] === 'yes');
    expect(f?.path).toBe('fittings.0.at');
  });
  test('a fitting copied and left at its angle stands on the first, whatever its outline', () => {
    const points = [
      [-20, -20],
      [20, -20],
      [20, -10],
      [-10, -10],
      [-10, 20],
      [-20, 20],
    ];
    const bent = { foot: { outline: points.map(([across, upright]) => ({ across, upright })) } };
    expect(found(plates(bent, bent), 'feet-overlap')?.measured).toBeGreaterThan(9);
  });
  test('are told for each two hardwares once', () => {
    const raw = besides(plates({ ...square, at: [90, 120] }, { ...square, at: [95, 126] }), {
      ...square,
      at: 90,
      distance: 29,
    });
    const told = (r: Raw) =>
      all(r, 'feet-overlap').map((f) => [f.at, f.facts?.['other'], f.facts?.['count'], f.facts?.['places']]);
    expect(told(raw)).toEqual([
      ['one-1', 'two-1', 2, 'one-1, one-2'],
      ['one-1', 'more-0', 1, 'one-1'],
      ['two-1', 'more-0', 1, 'two-1'],
    ]);
    // One that meets both of the others is told with both: 8 deg are 22.9 mm, 7 deg 20.0, of 30.04.
    expect(told(plates(square, { ...square, at: [82, 97] }))).toEqual([['one', 'two-2', 2, 'two-1, two-2']]);
  });
  // The usual limit is 1 mm.
  test.each([
    [30.5, {}, 'care'],
    [31, {}, 'silent'],
    [32.5, {}, 'silent'],
    [32.5, { limits: { 'foot-gap': 3 } }, 'care'],
    [33, { limits: { 'foot-gap': 3 } }, 'silent'],
  ])('one %s mm above the other, with %j: %s', (distance, more, want) => {
    const f = found(plates(square, { ...square, distance }, more), 'feet-close');
    expect(f?.level ?? 'silent').toBe(want);
    if (f) expect(f).toMatchObject({ at: 'one', facts: { one: 'one', other: 'two', sameRow: 'no' } });
    if (f) expect(f.measured).toBeCloseTo(distance - 30, 9);
  });
  test('discs whose boxes nearly touch stand further apart on the slant', () => {
    const disc = foot(30, 30, { shape: 'ellipse' });
    // hypot(21.5, 21.5) = 30.41 and hypot(22, 22) = 31.11 between middles, boxes over each other.
    const apart = (mm: number) => plates(disc, { ...disc, at: 90 + mm / perDeg, distance: mm });
    const near = found(apart(21.5), 'feet-close');
    expect(near?.measured).toBeGreaterThan(0.38);
    expect(near?.measured).toBeLessThan(0.45);
    expect(level(apart(22), 'feet-close')).toBe('silent');
  });
  test('the closest place of each two hardwares', () => {
    const aside = (mm: number) => 90 + mm / perDeg;
    const raw = besides(plates(square, { ...square, at: [aside(2 * half + 0.9), aside(-2 * half - 0.5)] }), {
      ...square,
      distance: 30.2,
      at: 90,
    });
    expect(
      all(raw, 'feet-close').map((f) => [f.at, f.facts?.['other'], f.limit, Number(f.measured?.toFixed(6))]),
    ).toEqual([
      ['one', 'two-2', 1, 0.5],
      ['one', 'more-0', 1, 0.2],
      ['two-2', 'more-0', 1, Number(Math.hypot(0.5, 0.2).toFixed(6))],
    ]);
  });
});

describe('a badge on its vent', () => {
  const { level } = saidBy(checkFeet);
  const vent = { role: 'vent', ...foot(20, 20) };
  const badge = { role: 'badge', ...foot(40, 30) };
  // Middles up to 2 mm apart: one grommet holds both.
  test.each<[string, Raw, Raw, string]>([
    ['on one spot', vent, badge, 'silent'],
    ['the badge named first', badge, vent, 'silent'],
    ['2 mm above', vent, { ...badge, distance: 2 }, 'silent'],
    ['2.01 mm above', vent, { ...badge, distance: 2.01 }, 'stop'],
    ['1.99 mm beside', vent, { ...badge, at: 90 + 1.99 / perDeg }, 'silent'],
    ['2.01 mm beside', vent, { ...badge, at: 90 - 2.01 / perDeg }, 'stop'],
    ['1.4 mm to both: 1.98', vent, { ...badge, at: 90 + 1.4 / perDeg, distance: 1.4 }, 'silent'],
    ['1.5 mm to both: 2.12', vent, { ...badge, at: 90 + 1.5 / perDeg, distance: -1.5 }, 'stop'],
    ['over the strainer line', { ...vent, at: 359.8 }, { ...badge, at: 0.2 }, 'silent'],
    ['two badges', badge, badge, 'stop'],
    ['two vents', vent, vent, 'stop'],
    ['a badge on a plate', { ...vent, role: 'other' }, badge, 'stop'],
    ['a plate on a vent', vent, { ...badge, role: 'other' }, 'stop'],
    ['a plate and a badge', badge, { ...vent, role: 'bracket' }, 'stop'],
    ['a plate and a vent', { ...badge, role: 'bracket' }, vent, 'stop'],
  ])('%s', (_, one, other, want) => expect(level(plates(one, other), 'feet-overlap')).toBe(want));
});

describe('what is missing of a foot, a lever or a rod is asked for', () => {
  const { facts, pointed } = saidBy(checkFeet);
  const holes = { holes: { layout: 'single', drill: 6 } };
  const asked = (raw: Raw) =>
    pointed(raw)
      .filter((f) => f.id === 'not-checked' && /foot|lever|rod past/.test(String(f.facts?.['check'])))
      .filter((f) => !/rocking/.test(String(f.facts?.['check'])))
      .map((f) => [f.at, f.facts?.['check'], f.facts?.['needs'], f.path]);
  const ROOM = 'room for the foot, and holes within it';
  const LEVER = 'what the open lever sweeps over';
  const ROD = 'the rod past lugs and hoop';

  test.each<[string, Raw, unknown[][]]>([
    ['a bracket without a foot', { role: 'bracket', ...holes }, [['one', ROOM, 'the foot of one', 'fittings.0']]],
    ['a bracket with one', { role: 'bracket', ...square }, []],
    ['a vent', { role: 'vent', ...holes }, []],
    ['a badge', { role: 'badge', ...holes }, []],
    ['a strainer with a foot', { role: 'strainer', ...square }, [['one', LEVER, 'lever of one', 'fittings.0']]],
    ['a strainer with a lever', { role: 'strainer', ...square, lever: { width: 9, height: 9 } }, []],
    ['a strainer without a foot', { role: 'strainer', ...holes }, [['one', ROOM, 'the foot of one', 'fittings.0']]],
    ['a leg with a foot', { role: 'leg', ...square }, [['one', ROD, 'rod of one', 'fittings.0']]],
    ['a spur with a foot', { role: 'spur', ...square }, [['one', ROD, 'rod of one', 'fittings.0']]],
    ['a leg with a rod', { role: 'leg', ...square, rod: { diameter: 10 } }, []],
    ['a spur with a rod', { role: 'spur', ...square, rod: { diameter: 10 } }, []],
    ['a leg without a foot', { role: 'leg', ...holes }, [['one', ROOM, 'the foot of one', 'fittings.0']]],
    ['a spur without a foot', { role: 'spur', ...holes }, [['one', ROOM, 'the foot of one', 'fittings.0']]],
  ])('%s', (_, one, want) => expect(asked(plates(one, AWAY))).toEqual(want));
  test('a badge without a foot lies on nothing', () => {
    expect(facts(plates({ role: 'badge', ...holes }, AWAY))).toEqual([]);
  });
  test('lugs without feet', () => {
    const raw = lugs();
    const { foot: _, ...bare } = raw['lugs'] as Raw;
    expect(asked(raw)).toEqual([]);
    expect(asked({ ...raw, lugs: bare })).toEqual([['top-lugs', ROOM, 'lugs.foot', 'lugs.rows.0']]);
  });
});

describe('what hangs over the shell', () => {
  const { facts, found, level, inTurn } = saidBy(checkOverhang);
  const rod = (more: Raw = {}) => ({
    role: 'leg',
    edge: 'bottom',
    distance: 100,
    ...square,
    rod: { diameter: 10, ...more },
  });
  /** Under the rod, which runs down from the leg's foot. */
  const under = { role: 'bracket', edge: 'bottom', distance: 40, ...square };
  const aside = (mm: number) => 90 + mm / perDeg;
  // Half the rod and half the bracket: 5 + 15.0211.
  test.each<[string, Raw, Raw, string]>([
    ['right of the rod', rod(), { ...under, at: aside(20.02) }, 'stop'],
    ['clear to the right', rod(), { ...under, at: aside(20.03) }, 'silent'],
    ['left of the rod', rod(), { ...under, at: aside(-20.02) }, 'stop'],
    ['clear to the left', rod(), { ...under, at: aside(-20.03) }, 'silent'],
    // A rod 12 to the right of its foot's middle is R asin(12 / R) = 12.0107 round the shell.
    ['a rod beside its foot', rod({ across: 12 }), { ...under, at: aside(12.0107 + 20.02) }, 'stop'],
    ['clear of a rod beside its foot', rod({ across: 12 }), { ...under, at: aside(12.0107 + 20.03) }, 'silent'],
    ['left of a rod on the left', rod({ across: -12 }), { ...under, at: aside(-12.0107 - 20.02) }, 'stop'],
    // The leg's foot ends 115 up, so does the rod; the bracket begins 15 below its middle.
    ['above the rod', rod(), { ...under, distance: 130 }, 'silent'],
    ['at the top of the rod', rod(), { ...under, distance: 129.9 }, 'stop'],
    // No foot: from its holes, 100 up.
    [
      'above a rod without a foot',
      { ...rod(), foot: undefined, holes: { layout: 'single', drill: 6 } },
      { ...under, distance: 115 },
      'silent',
    ],
    [
      'under a rod without a foot',
      { ...rod(), foot: undefined, holes: { layout: 'single', drill: 6 } },
      { ...under, distance: 114.9 },
      'stop',
    ],
    ['a badge', rod(), { ...under, role: 'badge' }, 'silent'],
    ['a vent', rod(), { ...under, role: 'vent' }, 'silent'],
    ['over the strainer line', { ...rod(), at: 359 }, { ...under, at: 3 }, 'stop'],
    ['over the strainer line, the other way', { ...rod(), at: 3 }, { ...under, at: 359 }, 'stop'],
    ['its own foot', rod(), AWAY, 'silent'],
    ['a rod far out over a flat bracket', rod({ clear: 24 }), { ...under, ...foot(30, 30, { stands: 24 }) }, 'silent'],
    ['a rod not far enough out', rod({ clear: 23.9 }), { ...under, ...foot(30, 30, { stands: 24 }) }, 'stop'],
    ['a rod far out over who knows what', rod({ clear: 24 }), under, 'stop'],
    ['a rod who knows how far out', rod(), { ...under, ...foot(30, 30, { stands: 24 }) }, 'stop'],
  ])('%s', (_, one, other, want) =>
    expect(level(JSON.parse(JSON.stringify(plates(one, other))) as Raw, 'leg-rod-over-fitting')).toBe(want),
  );
  test('another of the same legs is in the way as anything else', () => {
    const raw = plates({ ...rod(), at: [90, aside(10)] }, AWAY);
    expect(found(raw, 'leg-rod-over-fitting')?.facts).toMatchObject({ count: 2, places: 'one-1, one-2' });
  });
  test('what lies over what, and which way is out', () => {
    // The rod 5 mm left of the bracket's middle goes 15.0211 left, or 55 up: from the edge to the bracket's upper end.
    const f = found(plates(rod(), { ...under, at: aside(5) }), 'leg-rod-over-fitting');
    expect(f).toMatchObject({ level: 'stop', at: 'one', limit: 0 });
    expect(f?.facts).toMatchObject({ part: 'rod', one: 'one', other: 'two', what: 'one', count: 1 });
    expect(f?.facts?.['around']).toBeCloseTo(-half, 2);
    expect(f?.facts?.['aroundDeg']).toBeCloseTo(-half / perDeg, 2);
    expect(f?.facts?.['upright']).toBeCloseTo(55, 2);
    expect(f?.measured).toBeCloseTo(half, 2);
  });
  const lever = (more: Raw = {}) => ({
    role: 'strainer',
    edge: 'bottom',
    distance: 60,
    ...foot(20, 20),
    lever: { width: 60, height: 20, ...more },
  });
  // Half the lever is R asin(30 / R) = 30.1697, the bracket 15.0211.
  test.each<[string, Raw, Raw, string]>([
    ['under the lever', lever(), { ...under, at: aside(45.19), distance: 60 }, 'stop'],
    ['beside it', lever(), { ...under, at: aside(45.2), distance: 60 }, 'silent'],
    ['above it', lever(), { ...under, at: aside(30), distance: 85 }, 'silent'],
    ['a little under it', lever(), { ...under, at: aside(30), distance: 84.9 }, 'stop'],
    ['over the strainer line', { ...lever(), at: 355 }, { ...under, at: 5, distance: 60 }, 'stop'],
    [
      'a lever far out',
      lever({ clear: 9 }),
      { ...under, at: aside(30), distance: 60, ...foot(30, 30, { stands: 9 }) },
      'silent',
    ],
    [
      'not far enough',
      lever({ clear: 8 }),
      { ...under, at: aside(30), distance: 60, ...foot(30, 30, { stands: 9 }) },
      'stop',
    ],
  ])('%s', (_, one, other, want) => expect(level(plates(one, other), 'lever-over-fitting')).toBe(want));
  test('over lugs by that name, the deepest of them, once for each part and row', () => {
    // Lugs of 20 x 40 every 22.5 deg, 110 up; half of one is 10.0062 round the shell.
    const fittings = (at: number) => [
      { name: 'catch', at, ...lever({ width: 140 }), edge: 'top', distance: 40 },
      { name: 'prop', ...rod(), edge: 'top', distance: 20, at: [22.5, 48], ...foot(9, 9) },
    ];
    // The lever reaches 72.43 to both sides of 100 deg: over the lugs 28.57 mm to its left and 35.71 to its right.
    const told = (raw: Raw) =>
      facts(raw)
        .filter((f) => /-over-/.test(f.id))
        .map((f) => [f.id, f.at, f.facts?.['other'], f.facts?.['count'], f.facts?.['places'], f.facts?.['what']]);
    expect(told(lugs({}, { fittings: fittings(100) }))).toEqual([
      ['lever-over-lug', 'catch', 'lug-top-5', 2, 'lug-top-5, lug-top-6', 'catch'],
      ['leg-rod-over-lug', 'prop-1', 'lug-top-2', 2, 'prop-1, prop-2', 'prop'],
    ]);
    expect(found(lugs({}, { fittings: fittings(100) }), 'lever-over-lug')?.facts?.['part']).toBe('open lever');
  });
  // Half the rod and half the lug are 15.0062: the second place is over it by 3 mm, the first by 2.
  test.each([
    [-13.0062, 12.0062],
    [13.0062, -12.0062],
  ])('the deeper of two: %s and %s mm aside of a lug', (first, second) => {
    const prop = {
      name: 'prop',
      ...rod(),
      ...foot(9, 9),
      edge: 'top',
      distance: 20,
      at: [aside(first), aside(second)],
    };
    expect(found(lugs({}, { fittings: [prop] }), 'leg-rod-over-lug')?.at).toBe('prop-2');
  });
  test('points at the part, else at the place of its fitting', () => {
    expect(
      inTurn(plates(rod(), under), 'leg-rod-over-fitting', 'one', [
        'fittings.0.rod',
        'fittings.0.at',
        'fittings.0',
        'fittings.1',
      ]),
    ).toEqual(['fittings.0.rod', 'fittings.0.at', 'fittings.0', 'fittings.1']);
    const both = ['fittings.0.lever', 'fittings.0.at', 'fittings.0', 'fittings.1'];
    expect(inTurn(plates(lever(), under), 'lever-over-fitting', 'one', both)).toEqual(both);
  });
});

describe('a finding of feet points at what to change first, or else the next', () => {
  const { inTurn } = saidBy((bench) => [...checkFeet(bench), ...checkFootRock(bench)]);
  const second = ['fittings.1.at', 'fittings.1', 'fittings.0'];
  test.each<[string, string, Raw, readonly string[]]>([
    ['feet-overlap', 'one', plates(square, square), second],
    ['feet-close', 'one', plates(square, { ...square, distance: 30.5 }), second],
    ['foot-rocks', 'one', plates(foot(40, 40, { face: 'flat' }), AWAY), ['fittings.0.foot', 'fittings.0']],
    ['foot-rocks', 'top-lugs', lugs(foot(40, 40, { face: 'flat' })), ['lugs.rows.0.foot', 'lugs.foot', 'lugs.rows.0']],
  ])('%s at %s', (id, at, raw, keys) => expect(inTurn(raw, id, at, keys)).toEqual(keys));
});

describe('a flat foot on a round shell, in full', () => {
  const { facts, found, pointed } = saidBy(checkFootRock);
  const rocks = (more: Raw) => found(plates({ foot: { width: 30, height: 30, ...more } }, AWAY), 'foot-rocks');
  const aside = (left: number, right: number) =>
    found(plates({ foot: { left, right, rimward: 15, inward: 15, gasket: 2, face: 'flat' } }, AWAY), 'foot-rocks');
  test('drops by R - sqrt(R^2 - 20^2) = 1.2263 at the further side; a gasket gives by half', () => {
    const f = aside(10, 20);
    const gap = R - Math.sqrt(R ** 2 - 400);
    expect(gap).toBeCloseTo(1.2263, 4);
    expect(f).toMatchObject({ level: 'care', at: 'one', limit: 1, facts: { taken: 1, gasket: 2, across: 40 } });
    expect(f?.measured).toBeCloseTo(gap, 9);
    expect(f?.facts?.['gap']).toBeCloseTo(gap, 9);
    expect(f?.facts?.['need']).toBeCloseTo(2 * gap, 9);
    expect(aside(20, 10)?.facts?.['across']).toBe(40);
  });
  // Up to 0.15 mm no feeler gauge finds: sqrt(2 R 0.15 - 0.15^2) = 7.0062 to a side.
  test.each([
    [14, 'silent'],
    [14.02, 'care'],
  ])('%s wide without a gasket: %s', (width, want) =>
    expect(rocks({ width, face: 'flat' })?.level ?? 'silent').toBe(want),
  );
  test('wider than the shell it is a shell radius deep', () => {
    expect(rocks({ width: 400, face: 'flat' })?.measured).toBeCloseTo(R, 9);
  });
  test('narrow, curved or not there at all, nothing rocks', () => {
    const { foot: _, ...bare } = lugs()['lugs'] as Raw;
    expect(facts(plates(foot(13, 13, { face: 'flat' }), foot(60, 60, { face: 'curved' })))).toEqual([]);
    expect(facts({ ...lugs(), lugs: bare })).toEqual([]);
  });
  test('flat or curved must be said where it matters', () => {
    const asked = (raw: Raw) =>
      pointed(raw)
        .filter((f) => f.facts?.['check'] === 'foot rocking on the round shell')
        .map((f) => [f.at, f.level, f.facts?.['needs'], f.path]);
    expect(asked(plates(square, AWAY))).toEqual([
      ['one', 'note', 'face: flat or curved, in the foot of one', 'fittings.0.foot'],
    ]);
    expect(asked(plates(foot(30, 30, { face: 'curved' }), foot(13, 13)))).toEqual([]);
    expect(asked(lugs())).toEqual([['top-lugs', 'note', 'face: flat or curved, in the foot of top lugs', 'lugs.foot']]);
    expect(rocks({})).toBeUndefined();
    expect(rocks({ face: 'curved' })).toBeUndefined();
  });
});

describe('holes on joints and rings', () => {
  const { facts, found, level, all, pointed } = saidBy(checkJoints);
  const hole = (drill = 8, more: Raw = {}): Raw => ({ holes: { layout: 'single', drill, ...more } });
  const on = (shell: Raw, one: Raw = hole(), two: Raw = AWAY) =>
    plates(one, two, { shell: { diameter: 2 * R, depth: 150, wall: 6.6, ...shell } });
  const ring = (width: number, more: Raw = {}): Raw => ({ width, thickness: 4, ...more });
  test.each<[string, Raw, string, string]>([
    ['a joint 3.9 mm right of a hole of 8', on({ joints: [90 + 3.9 / perDeg] }), 'hole-on-joint', 'care'],
    ['3.9 mm left', on({ joints: [90 - 3.9 / perDeg] }), 'hole-on-joint', 'care'],
    ['4.1 mm left', on({ joints: [90 - 4.1 / perDeg] }), 'hole-on-joint', 'silent'],
    ['over the strainer line', on({ joints: [359.5] }, { ...hole(), at: 0.5 }), 'hole-on-joint', 'care'],
    ['over it, 4.3 mm', on({ joints: [359.5] }, { ...hole(), at: 1 }), 'hole-on-joint', 'silent'],
    // The hole is 75 up in a shell 150 deep: the inner edge of a ring 71 wide is 4 away.
    ['a bottom ring 71.1 wide', on({ rings: { bottom: ring(71.1) } }), 'hole-on-ring-edge', 'care'],
    ['71 wide', on({ rings: { bottom: ring(71) } }), 'hole-on-ring-edge', 'silent'],
    ['78.9 wide', on({ rings: { bottom: ring(78.9) } }), 'hole-on-ring-edge', 'care'],
    ['79 wide', on({ rings: { bottom: ring(79) } }), 'hole-on-ring-edge', 'silent'],
    ['a top ring 71.1 wide', on({ rings: { top: ring(71.1) } }), 'hole-on-ring-edge', 'care'],
    ['a top ring 71 wide', on({ rings: { top: ring(71) } }), 'hole-on-ring-edge', 'silent'],
    ['a top ring 30 wide', on({ rings: { top: ring(30) } }), 'hole-on-ring-edge', 'silent'],
    // Under an M4 lies a washer of 9 (ISO 7089): 4.5 to each side, less than a hole of 12.
    [
      'its washer on a ring',
      on({ rings: { bottom: ring(70.6) } }, hole(4.5, { screw: 'M4 x 16' })),
      'hole-on-ring-edge',
      'care',
    ],
    [
      'its washer past a ring',
      on({ rings: { bottom: ring(70.4) } }, hole(4.5, { screw: 'M4 x 16' })),
      'hole-on-ring-edge',
      'silent',
    ],
    ['no screw is told: its hole', on({ rings: { bottom: ring(72.6) } }, hole(4.5)), 'hole-on-ring-edge', 'silent'],
    [
      'a hole wider than the washer',
      on({ rings: { bottom: ring(69.1) } }, hole(12, { screw: 'M4 x 16' })),
      'hole-on-ring-edge',
      'care',
    ],
    [
      'joint of a bottom ring that covers the hole',
      on({ rings: { bottom: ring(76, { joint: 91 }) } }),
      'hole-on-ring-joint',
      'care',
    ],
    [
      'of one that ends at its middle',
      on({ rings: { bottom: ring(75, { joint: 91 }) } }),
      'hole-on-ring-joint',
      'silent',
    ],
    ['of one that ends before', on({ rings: { bottom: ring(74, { joint: 91 }) } }), 'hole-on-ring-joint', 'silent'],
    [
      'joint of a top ring that covers it',
      on({ rings: { top: ring(76, { joint: 89 }) } }),
      'hole-on-ring-joint',
      'care',
    ],
    [
      'of a top ring that ends at its middle',
      on({ rings: { top: ring(75, { joint: 89 }) } }),
      'hole-on-ring-joint',
      'silent',
    ],
    ['of a top ring that ends before', on({ rings: { top: ring(74, { joint: 89 }) } }), 'hole-on-ring-joint', 'silent'],
    [
      'joint of a ring 4.3 mm aside',
      on({ rings: { top: ring(100, { joint: 91.5 }) } }),
      'hole-on-ring-joint',
      'silent',
    ],
    ['a ring without a joint', on({ rings: { top: ring(100) } }), 'hole-on-ring-joint', 'silent'],
    ['no ring, no joint', on({}), 'hole-on-joint', 'silent'],
  ])('%s', (_, raw, id, want) => expect(level(raw, id)).toBe(want));
  test('what is told of them, and where it points', () => {
    const told = (raw: Raw, id: string) => pointed(raw).find((f) => f.id === id);
    const joint = told(on({ joints: [89] }), 'hole-on-joint');
    expect(joint).toMatchObject({ at: 'one', limit: 4, path: 'shell.joints', facts: { joint: 89, count: 1 } });
    expect(joint?.measured).toBeCloseTo(perDeg, 9);
    expect(told(on({ rings: { top: ring(72) } }), 'hole-on-ring-edge')).toMatchObject({
      measured: 3,
      limit: 4,
      path: 'shell.rings.top',
      facts: { ring: 'top', width: 72, height: 78 },
    });
    expect(told(on({ rings: { bottom: ring(72) } }), 'hole-on-ring-edge')).toMatchObject({
      measured: 3,
      path: 'shell.rings.bottom',
      facts: { ring: 'bottom', width: 72, height: 72 },
    });
    const glue = told(on({ rings: { bottom: ring(100, { joint: 91 }) } }), 'hole-on-ring-joint');
    expect(glue).toMatchObject({ limit: 4, path: 'shell.rings.bottom', facts: { ring: 'bottom', joint: 91 } });
    expect(glue?.measured).toBeCloseTo(perDeg, 9);
  });
  test('the washers of lugs count as those of fittings', () => {
    // Lugs 110 up with holes at 100 and 120: the ring's edge is 4.4 from the lower ones.
    const raw = (screw: Raw) =>
      lugs(
        { holes: { layout: 'upright', spacing: 20, drill: 4.5, ...screw } },
        { shell: { diameter: 2 * R, depth: 150, wall: 6.6, rings: { top: ring(45.6 + 8.8) } } },
      );
    expect(found(raw({ screw: 'M4 x 16' }), 'hole-on-ring-edge')?.facts?.['count']).toBe(16);
    expect(level(raw({}), 'hole-on-ring-edge')).toBe('silent');
  });
  test('each kind of hardware and each ring once, the worst hole', () => {
    const shell = { rings: { top: ring(72), bottom: ring(73) }, joints: [90.5] };
    const raw = on(shell, { ...hole(), at: [90, 91.2, 90.3] }, { ...hole(), role: 'vent', at: 90 });
    const told = (id: string) =>
      all(raw, id).map((f) => [f.at, f.facts?.['ring'], f.facts?.['count'], Number(f.measured?.toFixed(3))]);
    expect(told('hole-on-joint')).toEqual([
      ['one-3', undefined, 3, 0.571],
      ['two', undefined, 1, 1.429],
    ]);
    expect(told('hole-on-ring-edge')).toEqual([
      ['one-1', 'top', 3, 3],
      ['one-1', 'bottom', 3, 2],
      ['two', 'top', 1, 3],
      ['two', 'bottom', 1, 2],
    ]);
  });
  test('a stave shell must say where its joints are', () => {
    const asked = (shell: Raw) =>
      pointed(on(shell))
        .filter((f) => f.facts?.['check'] === 'holes on stave joints')
        .map((f) => [f.at, f.level, f.facts?.['needs'], f.path]);
    expect(asked({ build: 'stave' })).toEqual([['shell', 'note', 'shell.joints', 'shell']]);
    expect(asked({ build: 'stave', joints: [10] })).toEqual([]);
    expect(facts(on({ build: 'ply' }))).toEqual([]);
    expect(asked({})).toEqual([]);
    expect(level(on({ build: 'stave', rings: { top: ring(72) } }), 'hole-on-ring-edge')).toBe('care');
  });
});

describe('a finding that stands for several names where they are, of many the first', () => {
  // A lug 40 high whose middle is 15 below the top edge hangs over it.
  test.each([
    [8, 'lug-top-1, lug-top-2, lug-top-3, lug-top-4, lug-top-5, lug-top-6, lug-top-7, lug-top-8'],
    [9, 'lug-top-1, lug-top-2, lug-top-3, lug-top-4, lug-top-5, lug-top-6 and 3 more'],
  ])('%d of them: %s', (count, names) => {
    const raw = lugs({ ...foot(20, 40), count, rows: [{ edge: 'top', distance: 15 }] });
    const fact = saidBy(checkRims).found(raw, 'foot-over-rim');
    expect(fact === undefined ? '' : say(fact, fitSayings).text).toContain(`(the worst of ${count}: ${names})`);
  });
});
