import { describe, expect, test } from 'vitest';
import { checkHoles } from '../../src/fit/holes.ts';
import { patternKeysOf } from '../../src/fit/pattern-keys.ts';
import type { Raw } from '../helpers/changed.ts';
import { benchOf } from '../helpers/laid-out.ts';
import { perDeg, plates, R, saidBy } from '../helpers/plates.ts';

const { facts, found, level, all, pointed, inTurn } = saidBy(checkHoles);

const single = (drill: number): Raw => ({ holes: { layout: 'single', drill } });
const points = (drill: number, ...all: [across: number, upright: number][]): Raw => ({
  holes: { layout: 'points', drill, points: all.map(([across, upright]) => ({ across, upright })) },
});
const foot = (width: number, height: number): Raw => ({ foot: { width, height } });
/** A plate on the other side of the shell. */
const AWAY = { at: 270, ...foot(9, 9) };
/** A third fitting on the plates. */
const third = (raw: Raw, more: Raw): Raw => ({
  ...raw,
  fittings: [...(raw['fittings'] as Raw[]), { role: 'other', at: 90, edge: 'middle', distance: 0, ...more }],
});
const pointedAt = (raw: Raw, id: string) => pointed(raw).find((f) => f.id === id);

/** Lugs of 20 x 40 about their pattern's middle, 16 of them: 64.29 mm from one to the next. */
const lugs = (holes: Raw, row: Raw = {}, more: Raw = {}): Raw => ({
  jig: 1,
  name: 'Lugs',
  shell: { diameter: 2 * R, depth: 150, wall: 6.6 },
  lugs: { count: 16, first: 0, rows: [{ edge: 'top', distance: 40, ...row }], holes, foot: { width: 20, height: 40 } },
  ...more,
});

describe('a hole under the foot of something else', () => {
  // A foot 30 high ends 15 above its middle, a hole of 8 begins 4 below its own: 19.
  test.each([
    [19.1, 'silent'],
    [19, 'silent'],
    [18.9, 'stop'],
    [0, 'stop'],
    [-18.9, 'stop'],
    [-19, 'silent'],
  ])('%s mm above it: %s', (distance, want) => {
    expect(level(plates(foot(30, 30), { ...single(8), distance }), 'hole-under-foot', 'two')).toBe(want);
  });
  test.each([
    [0, 'silent'],
    [2, 'silent'],
    [2.01, 'stop'],
  ])('a vent %s mm off the middle of its badge: %s', (distance, want) => {
    const badge = { role: 'badge', ...foot(40, 30) };
    expect(level(plates(badge, { role: 'vent', ...single(10), distance }), 'hole-under-foot')).toBe(want);
  });
  test('says how far it reaches in, and which two', () => {
    const f = found(plates(foot(30, 30), { ...single(8), distance: 18.9, role: 'vent' }), 'hole-under-foot');
    expect(f).toMatchObject({ limit: 0, facts: { one: 'two', other: 'one', role: 'vent' } });
    expect(f?.measured).toBeCloseTo(0.1, 9);
    expect(f?.facts?.['over']).toBeCloseTo(0.1, 9);
    // In the very middle: 15 to the foot's end and half the hole.
    expect(found(plates(foot(30, 30), single(8)), 'hole-under-foot')?.measured).toBe(19);
  });
  // Half the foot is 15.0211 mm round the shell, half the hole 4: 19.0211 mm are 6.657 deg.
  test.each([
    [359, 2, 'stop'],
    [359, 5.6, 'stop'],
    [359, 5.7, 'silent'],
    [6, 359.5, 'stop'],
    [6, 359.4, 'stop'],
    [6, 359.3, 'silent'],
    [2, 355.4, 'stop'],
    [2, 355.3, 'silent'],
  ])('with wrap-around: foot at %s deg, hole at %s', (one, two, want) => {
    expect(level(plates({ ...foot(30, 30), at: one }, { ...single(8), at: two }), 'hole-under-foot')).toBe(want);
  });
  test('is told for each two hardwares once, the worst place of all', () => {
    const raw = third(plates(foot(30, 30), { ...single(8), at: [94, 91] }), { ...single(5), at: 88, name: 'three' });
    expect(all(raw, 'hole-under-foot').map((f) => [f.at, f.facts?.['count'], f.facts?.['places']])).toEqual([
      ['two-2', 2, 'two-1, two-2'],
      ['three', 1, 'three'],
    ]);
    expect(all(third(plates(foot(30, 30), single(8)), foot(12, 12)), 'hole-under-foot')).toHaveLength(2);
  });
  test('points at the place of what is drilled', () => {
    expect(pointedAt(plates(foot(30, 30), single(8)), 'hole-under-foot')).toMatchObject({
      path: 'fittings.1.at',
      facts: { group: 'fittings.1', group2: 'fittings.0' },
    });
    // A row of lugs stands by its distance, not by an angle of its own.
    const bracket = { role: 'bracket', at: 0, edge: 'top', distance: 70, ...foot(30, 30) };
    const raw = lugs({ layout: 'upright', spacing: 40, drill: 5 }, {}, { fittings: [bracket] });
    expect(pointedAt(raw, 'hole-under-foot')).toMatchObject({
      path: 'lugs.rows.0',
      facts: { group: 'lugs.rows.0', group2: 'fittings.0' },
    });
  });
});

describe('a hole outside its own foot', () => {
  // A foot 20 high ends 10 above its middle; a hole of 8 fits with its centre up to 6. Chords may lie 0.01 inside a curve.
  test.each([
    [6, 'silent'],
    [6.009, 'silent'],
    [6.011, 'stop'],
    [-6.011, 'stop'],
  ])('%s mm from the middle: %s', (up, want) => {
    expect(level(plates({ ...foot(30, 20), ...points(8, [0, up]) }, AWAY), 'hole-outside-foot')).toBe(want);
  });
  test.each([
    [6.5, 3.5, 0.5, 'no'],
    [13.9, -3.9, 7.9, 'no'],
    [14, -4, 8, 'yes'],
    [20, -10, 14, 'yes'],
  ])('%s mm from the middle it lies %s mm inside, %s mm show, wholly out: %s', (up, inside, over, whole) => {
    const f = found(plates({ ...foot(30, 20), ...points(8, [0, up]) }, AWAY), 'hole-outside-foot');
    expect(f).toMatchObject({ at: 'one', limit: 4, facts: { drill: 8, whole } });
    expect(f?.measured).toBeCloseTo(inside, 9);
    expect(f?.facts?.['over']).toBeCloseTo(over, 9);
  });
  // 12 mm across are 12.0107 mm round the shell, and half the foot 15.0211: 3.0104 to its side.
  test.each([
    [0, 12, 'stop'],
    [0, -12, 'stop'],
    [0, 10, 'silent'],
    [0, -10, 'silent'],
    [359, 10, 'silent'],
    [5, -12, 'stop'],
  ])('over the strainer line: foot at %s deg, hole %s across: %s', (at, across, want) => {
    expect(level(plates({ ...foot(30, 20), ...points(8, [across, 0]), at }, AWAY), 'hole-outside-foot')).toBe(want);
  });
  test('is told once for each hardware, its worst hole', () => {
    const raw = plates(
      { ...foot(30, 20), ...points(8, [-5, 7], [5, 9]) },
      { ...foot(30, 20), ...points(8, [0, 8]), at: 270 },
    );
    expect(all(raw, 'hole-outside-foot').map((f) => [f.at, f.facts?.['count'], f.measured])).toEqual([
      ['one-b', 2, 1],
      ['two', 1, 2],
    ]);
  });
  test('points at the pattern: its own, else what the lugs share', () => {
    const wide = { layout: 'upright', spacing: 36, drill: 5 };
    expect(pointedAt(plates({ ...foot(30, 20), ...single(22) }, AWAY), 'hole-outside-foot')).toMatchObject({
      path: 'fittings.0.holes',
      facts: { group: 'fittings.0' },
    });
    expect(pointedAt(lugs(wide), 'hole-outside-foot')?.path).toBe('lugs.holes');
    expect(pointedAt(lugs({ ...wide, spacing: 20 }, { holes: { spacing: 36 } }), 'hole-outside-foot')).toMatchObject({
      path: 'lugs.rows.0.holes',
      facts: { group: 'lugs.rows.0' },
    });
  });
  test('the origin of a pattern need not lie on the foot', () => {
    const beside: [number, number][] = [
      [20, -10],
      [40, -10],
      [40, 10],
      [20, 10],
    ];
    const outline = beside.map(([across, upright]) => ({ across, upright }));
    expect(facts(plates({ foot: { outline }, ...points(8, [30, 0]) }, AWAY))).toEqual([]);
  });
  test('a hole without a foot is nothing to judge', () => {
    expect(level(plates(single(8), AWAY), 'hole-outside-foot')).toBe('silent');
  });
});

describe('two new holes', () => {
  test('that touch leave nothing, and do not run into each other', () => {
    const raw = plates(single(8), { ...single(8), distance: 8 });
    expect(level(raw, 'holes-overlap')).toBe('silent');
    expect(found(raw, 'holes-close')).toMatchObject({ level: 'care', measured: 0, limit: 3 });
  });
  test('the builder may want more wood between them', () => {
    const raw = (distance: number) => plates(single(8), { ...single(8), distance }, { limits: { land: 5 } });
    expect(level(raw(13), 'holes-close')).toBe('silent');
    expect(found(raw(12.5), 'holes-close')).toMatchObject({ measured: 4.5, limit: 5 });
  });
  test('of 8 and 6 mm 5 mm apart: 4 + 3 needed, 2 too near', () => {
    const raw = plates(single(8), { ...single(6), distance: 5 });
    expect(found(raw, 'holes-overlap')).toMatchObject({
      level: 'stop',
      at: 'one',
      measured: -2,
      limit: 0,
      facts: { one: 'one', other: 'two', hole: 'two', apart: 5, need: 7, over: 2, same: 'no' },
    });
    expect(pointedAt(raw, 'holes-overlap')).toMatchObject({
      path: 'fittings.1.at',
      facts: { group: 'fittings.1', group2: 'fittings.0' },
    });
  });
  // One degree is 2.8571 mm: holes of 8 overlap below 2.8 deg.
  test.each([
    [359, 1.79, 'stop'],
    [359, 1.81, 'silent'],
    [2, 359.21, 'stop'],
    [2, 359.19, 'silent'],
  ])('over the strainer line: at %s and %s deg', (one, two, want) => {
    expect(level(plates({ ...single(8), at: one }, { ...single(8), at: two }), 'holes-overlap')).toBe(want);
  });
  test('of one pattern: the pattern is what to change', () => {
    const raw = plates({ holes: { layout: 'upright', spacing: 7, drill: 8 } }, AWAY);
    expect(found(raw, 'holes-overlap')?.facts).toMatchObject({ one: 'one', other: 'one', same: 'yes', hole: 'one-b' });
    expect(pointedAt(raw, 'holes-overlap')).toMatchObject({ path: 'fittings.0.holes', facts: { group: 'fittings.0' } });
    const near = { layout: 'upright', spacing: 4, drill: 5 };
    expect(pointedAt(lugs(near), 'holes-overlap')?.path).toBe('lugs.holes');
    expect(pointedAt(lugs({ ...near, spacing: 20 }, { holes: { spacing: 4 } }), 'holes-overlap')?.path).toBe(
      'lugs.rows.0.holes',
    );
  });
  test('of two rows of lugs: what the lugs share', () => {
    const raw = lugs({ layout: 'upright', spacing: 20, drill: 5 });
    // Holes 120 and 100 up, and 101 and 81; the lower row hangs upside down, so its second hole is the upper one.
    const rows = [
      { edge: 'top', distance: 40 },
      { edge: 'bottom', distance: 91 },
    ];
    const both = { ...raw, lugs: { ...(raw['lugs'] as Raw), rows } };
    expect(pointedAt(both, 'holes-overlap')).toMatchObject({
      path: 'lugs.holes',
      at: 'lug-top-1-b',
      facts: { hole: 'lug-bottom-1-b', count: 16, group: 'lugs.rows.1', group2: 'lugs.rows.0' },
    });
  });
  test('are told for each two hardwares, overlapping and close apart, the worst of each', () => {
    // Holes 7, 6 and 9 mm to the sides of one of 8, one 7.5 mm above it: hypot(6, 7.5) = 9.605.
    const raw = third(plates(single(8), { ...single(8), at: [90 + 7 / perDeg, 90 - 6 / perDeg, 90 + 9 / perDeg] }), {
      ...single(8),
      distance: 7.5,
      name: 'three',
    });
    const told = facts(raw).filter((f) => f.id === 'holes-overlap' || f.id === 'holes-close');
    expect(told.map((f) => [f.id, f.at, f.facts?.['hole'], Number(f.measured?.toFixed(3))])).toEqual([
      ['holes-overlap', 'one', 'two-2', -2],
      ['holes-close', 'one', 'two-3', 1],
      ['holes-overlap', 'one', 'three', -0.5],
      ['holes-overlap', 'two-1', 'two-3', -6],
      ['holes-close', 'two-2', 'three', 1.605],
    ]);
  });
  // The badge is held in the vent's hole of 10: its own hole may lie within that, up to where its middle leaves it.
  test.each([
    [0, 'silent'],
    [4.9, 'silent'],
    [5, 'stop'],
    [6.4, 'stop'],
  ])('a badge with a hole %s mm from the middle of its vent: %s', (up, want) => {
    const badge = { role: 'badge', ...foot(40, 30), ...points(3, [0, up]) };
    expect(level(plates({ role: 'vent', ...single(10) }, badge), 'holes-overlap')).toBe(want);
    expect(level(plates(badge, { role: 'vent', ...single(10) }), 'holes-overlap')).toBe(want);
  });
});

describe('holes that are in the shell already', () => {
  const shell = (...holes: Raw[]): Raw => ({ shell: { diameter: 2 * R, depth: 150, wall: 6.6, holes } });
  const old = (distance: number, diameter: number, at = 90): Raw => ({ at, edge: 'middle', distance, diameter });
  /** What is said of a new hole without a foot and an old one above it. */
  const met = (drill: number, distance: number, diameter: number) =>
    facts(plates(single(drill), AWAY, shell(old(distance, diameter))))
      .filter((f) => /old|holes/.test(f.id))
      .map((f) => f.id);
  const [INTO, OPEN, REUSED, WIDER, CLOSE] = [
    'hole-into-old-hole',
    'old-hole-open',
    'old-hole-reused',
    'old-hole-wider',
    'holes-close',
  ];

  // New, millimetres apart, old.
  test.each([
    // Swallowed whole: 1.5 + 2.5 = 4.
    [8, 0, 8, [REUSED]],
    [8, 1.5, 5, [REUSED]],
    [8, 1.502, 5, [INTO, OPEN]],
    // In its place within 0.3 mm, as near as a caliper tells.
    [8, 0.29, 8, [REUSED]],
    [8, 0.31, 8, [INTO, OPEN]],
    [8, 0, 8.58, [REUSED]],
    [8, 0, 8.62, [WIDER, REUSED]],
    [8, 0.2, 12, [WIDER, REUSED]],
    // Beside it: half and half is 8.
    [8, 7.99, 8, [INTO, OPEN]],
    [8, 8, 8, [CLOSE, OPEN]],
    [8, 10.99, 8, [CLOSE, OPEN]],
    [8, 11, 8, [OPEN]],
  ])('drilling %s mm, %s mm from one of %s mm: %j', (drill, apart, diameter, want) =>
    expect(met(drill, apart, diameter)).toEqual(want),
  );

  test('one of 8 into one of 6, 5 mm apart: 7 needed', () => {
    const f = pointedAt(plates(single(8), AWAY, shell(old(5, 6))), 'hole-into-old-hole');
    expect(f).toMatchObject({
      level: 'stop',
      at: 'one',
      measured: -2,
      limit: 0,
      path: 'shell.holes.0',
      facts: { other: 'old-hole-1', hole: 'old-hole-1', apart: 5, need: 7, diameter: 6, drill: 8, inside: 'no' },
    });
    expect(f?.facts?.['group']).toBe('fittings.0');
  });
  test.each([
    [4, 'yes'],
    [3, 'yes'],
    [4.01, 'no'],
    [7, 'no'],
  ])('one of 4, %s mm from the middle of one of 12, falls into it: %s', (apart, want) => {
    expect(found(plates(single(4), AWAY, shell(old(apart, 12))), 'hole-into-old-hole')?.facts?.['inside']).toBe(want);
  });
  test('near an old one there is little wood: 9 - 4 - 3 = 2', () => {
    expect(found(plates(single(8), AWAY, shell(old(9, 6))), 'holes-close')).toMatchObject({
      level: 'care',
      at: 'one',
      measured: 2,
      limit: 3,
      facts: { hole: 'old-hole-1', apart: 9, need: 7 },
    });
  });
  test('wider than what goes there: the two diameters', () => {
    expect(found(plates(single(8), AWAY, shell(old(0, 12))), 'old-hole-wider')).toMatchObject({
      level: 'care',
      measured: 12,
      limit: 8,
      facts: { other: 'old-hole-1', diameter: 12, drill: 8 },
    });
  });
  test('told for each old hole and each hardware, the worst place', () => {
    const raw = third(
      plates(
        { ...single(8), at: [90, 90 - 7 / perDeg] },
        { ...single(5), distance: -5 },
        shell(old(0, 6, 90 - 3 / perDeg), old(9, 6), old(30, 6), old(33, 6)),
      ),
      { ...single(5), name: 'three', at: 200 },
    );
    const of = (id: string) =>
      facts(raw)
        .filter((f) => f.id === id)
        .map((f) => [f.at, f.facts?.['other'], f.facts?.['count'], Number(f.measured?.toFixed(3))]);
    // 3 and 4 mm from the two places of one (7 needed), hypot(3, 5) = 5.831 from two (5.5 needed): 0.331 of wood left.
    expect(of(INTO)).toEqual([['one-1', 'old-hole-1', 2, -4]]);
    expect(of(CLOSE)).toEqual(
      expect.arrayContaining([
        ['one-1', 'old-hole-2', 1, 2],
        ['two', 'old-hole-1', 1, 0.331],
      ]),
    );
    // Old holes near each other are nobody's business.
    expect(of(OPEN).map(([at]) => at)).toEqual(['old-hole-1', 'old-hole-2', 'old-hole-3', 'old-hole-4']);
  });

  // A foot 24 high ends 12 above its middle; a hole of 4 is covered with its centre up to 10.
  test.each([
    [10, ['old-hole-covered']],
    [10.009, ['old-hole-covered']],
    [10.011, ['old-hole-shows']],
    [11, ['old-hole-shows']],
    [13.9, ['old-hole-shows']],
    [14, [OPEN]],
  ])('one of 4 mm %s mm above the middle of a foot: %j', (distance, want) => {
    const raw = plates(foot(24, 24), AWAY, shell(old(distance, 4)));
    expect(
      facts(raw)
        .filter((f) => f.id.startsWith('old'))
        .map((f) => f.id),
    ).toEqual(want);
  });
  test('what shows of it, under which foot', () => {
    const raw = plates(foot(24, 24), { ...foot(24, 24), at: 270 }, shell(old(11, 4), old(-11.5, 4), old(11, 4, 270)));
    expect(
      pointed(raw)
        .filter((f) => f.id === 'old-hole-shows')
        .map((f) => [
          f.level,
          f.at,
          f.measured,
          f.limit,
          f.path,
          ...['other', 'group', 'diameter'].map((k) => f.facts?.[k]),
        ]),
    ).toEqual([
      ['care', 'old-hole-1', 1, 0, 'shell.holes.0', 'one', 'fittings.0', 4],
      ['care', 'old-hole-2', 1.5, 0, 'shell.holes.1', 'one', 'fittings.0', 4],
      ['care', 'old-hole-3', 1, 0, 'shell.holes.2', 'two', 'fittings.1', 4],
    ]);
  });
  test('under two feet of one kind, the one that leaves more of it open', () => {
    // Feet 28.57 mm apart reach 12.01 to each side; the old hole, 12 to each side, lies 13 from the first: 15.57 from the next.
    const raw = plates({ ...foot(24, 24), at: [90, 100] }, AWAY, shell(old(0, 24, 90 + 13 / perDeg)));
    const f = found(raw, 'old-hole-shows');
    expect(f?.facts?.['other']).toBe('one-2');
    expect(f?.measured).toBeCloseTo(12 + 10 * perDeg - 13 - R * Math.asin(12 / R), 6);
  });
  test('each is told of once, with its place and size', () => {
    const raw = plates({ ...single(8), ...foot(24, 24) }, AWAY, shell(old(0, 8), old(9, 4), old(40, 6)));
    expect(
      pointed(raw)
        .filter((f) => /^old-hole-(open|covered|reused)$/.test(f.id))
        .map((f) => [f.id, f.level, f.at, f.measured, f.facts?.['diameter'], f.facts?.['height'], f.path]),
    ).toEqual([
      ['old-hole-reused', 'note', 'old-hole-1', 8, 8, 75, 'shell.holes.0'],
      ['old-hole-covered', 'note', 'old-hole-2', 4, 4, 84, 'shell.holes.1'],
      ['old-hole-open', 'care', 'old-hole-3', 6, 6, 115, 'shell.holes.2'],
    ]);
  });
});

describe('a finding of holes points at what to change first, or else the next', () => {
  const shell = (...holes: Raw[]): Raw => ({ shell: { diameter: 2 * R, depth: 150, wall: 6.6, holes } });
  const old = { at: 90, edge: 'middle', distance: 3, diameter: 8 };
  const pair = { layout: 'upright', spacing: 4, drill: 5 };
  test.each<[string, string, Raw, readonly string[]]>([
    ['hole-under-foot', 'two', plates(foot(30, 30), single(8)), ['fittings.1.at', 'fittings.1', 'fittings.0']],
    ['hole-outside-foot', 'one', plates({ ...foot(6, 6), ...single(8) }, AWAY), ['fittings.0.holes', 'fittings.0']],
    [
      'hole-outside-foot',
      'lug-top-1-a',
      lugs({ layout: 'upright', spacing: 40, drill: 5 }),
      ['lugs.rows.0.holes', 'lugs.holes', 'lugs.rows.0'],
    ],
    ['holes-overlap', 'one', plates(single(8), single(6)), ['fittings.1.at', 'fittings.1', 'fittings.0']],
    ['holes-overlap', 'one-a', plates({ holes: pair }, AWAY), ['fittings.0.holes', 'fittings.0']],
    ['holes-overlap', 'lug-top-1-a', lugs(pair), ['lugs.rows.0.holes', 'lugs.holes', 'lugs.rows.0']],
    ['hole-into-old-hole', 'one', plates(single(8), AWAY, shell(old)), ['shell.holes.0', 'shell.holes', 'fittings.0']],
    [
      'old-hole-shows',
      'old-hole-1',
      plates(foot(10, 10), AWAY, shell(old)),
      ['shell.holes.0', 'shell.holes', 'fittings.0'],
    ],
    ['old-hole-open', 'old-hole-1', plates(AWAY, AWAY, shell(old)), ['shell.holes.0', 'shell.holes']],
  ])('%s at %s', (id, at, raw, keys) => expect(inTurn(raw, id, at, keys)).toEqual(keys));
  test('a value of a pattern: its own, what the lugs share, the pattern, the hardware', () => {
    const [row, fitting] = benchOf(
      lugs(
        { layout: 'single', drill: 5 },
        {},
        { fittings: [{ role: 'vent', at: 9, edge: 'middle', distance: 0, ...single(9) }] },
      ),
    ).groups;
    expect(row && patternKeysOf(row, 'drill')).toEqual([
      'lugs.rows.0.holes.drill',
      'lugs.holes.drill',
      'lugs.holes',
      'lugs.rows.0.holes',
      'lugs.rows.0',
    ]);
    expect(fitting && patternKeysOf(fitting, 'drill')).toEqual([
      'fittings.0.holes.drill',
      'fittings.0.holes',
      'fittings.0',
    ]);
  });
});
