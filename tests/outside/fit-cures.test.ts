import { describe, expect, test } from 'vitest';
import { type Cure, downTo, upTo, within } from '../../src/fit/cure-kit.ts';
import { curesFor } from '../../src/fit/cures.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, type Raw } from '../helpers/changed.ts';
import { laidOut } from '../helpers/laid-out.ts';

/**
 * A drum on which a degree is 2 mm of girth (R = 360 / pi, near enough 114.6), 200 deep, with a row of eight lugs at either edge
 * that begin at 22.5 deg: halfway between them lie 0, 45, 90 and so on.
 */
const plate = (name: string, role: string, at: unknown, edge: string, distance: number, more: Raw = {}): Raw => ({
  name,
  role,
  at,
  edge,
  distance,
  foot: { width: 20, height: 20 },
  ...more,
});
const drum: Raw = {
  jig: 1,
  name: 'Worked cures',
  shell: { diameter: 720 / Math.PI, depth: 200, wall: 6, nominal: '9 in' },
  lugs: {
    count: 8,
    first: 'half',
    rows: [
      { edge: 'top', distance: 40 },
      { edge: 'bottom', distance: 50 },
    ],
    holes: { layout: 'upright', spacing: 20, drill: 4.5, screw: 'M4 x 16', tapped: 10 },
    foot: { width: 16, height: 30 },
    rod: { face: 12, catch: 6, bottom: 22, takes: 'M6' },
  },
  rods: { length: { top: 45, bottom: 46 }, thread: 'M6', threaded: 20, washer: 1.5, travel: 4 },
  hoops: { top: { ear: 6, ears: 8 }, bottom: { ear: 6, ears: 8 } },
  fittings: [
    plate('strainer', 'strainer', 0, 'bottom', 50),
    plate('butt', 'butt', 180, 'bottom', 55),
    plate('leg', 'leg', [60, 180, 300], 'bottom', 60),
    plate('badge', 'badge', 100, 'middle', 10),
    plate('plate', 'other', 350, 'top', 30, {
      holes: { layout: 'across', spacing: 30, drill: 6.6, screw: '10-24 x 1/2 in' },
    }),
  ],
};
const both = { 'lugs.ends': 'both' };
const oneBoth = { ...both, 'lugs.rows': [{ edge: 'middle', distance: 0 }] };

type Facts = Record<string, string | number>;
const tried = (
  id: string,
  facts: Facts,
  set: Record<string, unknown> = {},
  more: Partial<Fact> = {},
): readonly Cure[] => {
  const { jig, layout } = laidOut(changed(drum, set));
  return curesFor(
    { level: 'stop', id, at: 'here', measured: null, limit: null, unit: 'mm', facts, ...more },
    jig,
    layout,
  );
};
const cure = (set: Raw, say: string, cost: number): Cure => ({ set, say, cost });

const top = { group: 'lugs.rows.0', side: 'top' };
const bottom = { group: 'lugs.rows.1', side: 'bottom' };

describe('a rule has half millimetres', () => {
  test.each([
    [3, 3, 3],
    [3.01, 3.5, 3],
    [3.49, 3.5, 3],
    [3.5, 3.5, 3.5],
    [-0.2, 0, -0.5],
    // Dust of the float is none.
    [3.5 + 1e-9, 3.5, 3.5],
    [3.5 - 1e-9, 3.5, 3.5],
  ])('%s is taken up to %s, down to %s', (v, up, down) => {
    expect(upTo(v)).toBeCloseTo(up, 12);
    expect(downTo(v)).toBeCloseTo(down, 12);
  });
  test.each([
    [40, 45, 42.2, 42.2],
    [40, 45, 40, 40],
    [40, 45, 45, 45],
    [40.1, 45, 30, 40.5],
    [40, 45.4, 60, 45],
    [40.5, 45, 30, 40.5],
    [40, 44.5, 60, 44.5],
    [40.1, 45, 40.1, 40.1],
    [40, 44.9, 44.9, 44.9],
    // Dust of the float beyond a mark is none.
    [42.5 + 1e-12, 45, 30, 42.5],
    [40, 44.5 - 1e-12, 60, 44.5],
    // Between two marks: the middle.
    [40.1, 40.3, 30, 40.2],
    [40.1, 40.3, 60, 40.2],
  ])('from %s to %s, now %s: %s', (low, high, now, want) => expect(within(low, high, now)).toBeCloseTo(want, 12));
});

describe('a finding that nobody has a cure for gets none', () => {
  test('of its kind', () => expect(tried('season-movement', {})).toEqual([]));
  test('without figures, or at a place that is not on the drum', () => {
    const { jig, layout } = laidOut(drum);
    for (const id of ['foot-over-rim', 'snare-implausible'])
      expect(curesFor({ level: 'stop', id, at: 'here', measured: null, limit: null, unit: 'mm' }, jig, layout)).toEqual(
        [],
      );
    expect(tried('strainer-off-bed', {}, {}, { at: 'gone' })).toEqual([]);
  });
});

describe('a rod too long or too short for its lug', () => {
  const windows = { window: 'open', shortest: 42.3, longest: 49.3, nearest: 45.7, furthest: 52.7, length: 57 };
  const rods = (mm: string, side: string) => [
    cure({ [`rods.length.${side}`]: mm }, `use ${mm} rods at the ${side}`, 2),
    cure({ 'rods.length': mm }, `use ${mm} rods`, 2),
  ];
  test.each(['rod-bottoms', 'rod-too-short'])('%s: move the lugs, or buy rods', (id) => {
    expect(tried(id, { ...top, ...windows })).toEqual([
      cure({ 'lugs.rows.0.distance': '46 mm' }, 'set the top lugs 46 mm from the top edge', 1),
      ...rods('49 mm', 'top'),
    ]);
    expect(tried(id, { ...bottom, ...windows, length: 30, nearest: 18.7, furthest: 25.7 })).toEqual([
      cure({ 'lugs.rows.1.distance': '25.5 mm' }, 'set the bottom lugs 25.5 mm from the bottom edge', 1),
      ...rods('42.5 mm', 'bottom'),
    ]);
  });
  test('what is in stock is bought', () => {
    expect(tried('rod-bottoms', { ...top, ...windows, buy: 47 }).slice(1)).toEqual(rods('47 mm', 'top'));
  });
  test('a lug measured from the middle stays so: 46 from the top of 200 is 54 above it', () => {
    const set = { 'lugs.rows': [{ edge: 'middle', distance: 60 }] };
    expect(tried('rod-bottoms', { ...top, ...windows }, set)[0]).toEqual(
      cure({ 'lugs.rows.0.distance': '54 mm' }, 'set the middle lugs 54 mm from the middle', 1),
    );
  });
  test('one measured from the other edge stays so too, and one in the middle may go below it', () => {
    // 46 from the bottom of 200 is 154 from the top; the middle is at 100.
    const from = (edge: string) => ({ ...both, 'lugs.rows': [{ edge, distance: 40 }] });
    const facts = { ...windows, group: 'lugs.rows.0', side: 'bottom', nearest: 45.7, furthest: 46.2 };
    expect(tried('rod-bottoms', facts, from('top'))[0]?.set).toEqual({ 'lugs.rows.0.distance': '154 mm' });
    expect(tried('rod-bottoms', facts, from('middle'))[0]?.set).toEqual({ 'lugs.rows.0.distance': '-54 mm' });
  });
  test('no lug is moved onto its edge or past it', () => {
    const at = (furthest: number) => tried('rod-too-short', { ...top, ...windows, nearest: -5, furthest });
    expect(at(0)).toEqual(rods('49 mm', 'top'));
    expect(at(0.5)).toHaveLength(3);
    const middle = { 'lugs.rows': [{ edge: 'middle', distance: 60 }] };
    expect(tried('rod-too-short', { ...top, ...windows, nearest: 90, furthest: 100 }, middle)[0]?.set).toEqual({
      'lugs.rows.0.distance': '10 mm',
    });
    expect(tried('rod-too-short', { ...top, ...windows, nearest: 100, furthest: 102 }, middle)[0]?.set).toEqual({
      'lugs.rows.0.distance': '0 mm',
    });
  });
  test('a lug with no room for any rod is not helped by moving or buying', () => {
    expect(tried('rod-bottoms', { ...top, ...windows, window: 'closed' })).toEqual([]);
  });
  test('a finding that names no row still names the rods', () => {
    expect(tried('rod-bottoms', { ...windows, side: 'top' })).toEqual(rods('49 mm', 'top'));
  });
  test('two rows called double-ended are perhaps two rows of single ones', () => {
    const one = cure({ 'lugs.ends': 'one' }, 'call the lugs single-ended', 1);
    expect(tried('rod-bottoms', { ...top, ...windows }, both).at(-1)).toEqual(one);
    expect(tried('rod-bottoms', { ...top, ...windows }, oneBoth)).toHaveLength(3);
    expect(tried('rod-bottoms', { ...top, ...windows })).toHaveLength(3);
  });
  test('a shank that jams also wants more thread, if the rod is as long as that', () => {
    const jams = (threaded: number, over: number) =>
      tried('rod-jams', { ...top, ...windows, length: 45, threaded, over }).at(-1);
    expect(jams(20, 1.2)).toEqual(cure({ 'rods.threaded': '21.5 mm' }, 'get rods threaded 21.5 mm from the tip', 2));
    expect(jams(44, 1)?.set).toEqual({ 'rods.threaded': '45 mm' });
    expect(jams(44, 1.1)).toEqual(rods('45 mm', 'top')[1]);
  });
  test('rods that meet give way both: 0.5 over and 2 kept free are 1.25 each', () => {
    const meet = (set: Raw) => tried('rods-meet', { over: 0.5, reserve: 2 }, set);
    expect(meet({ 'rods.length': { top: 54, bottom: 53.7 } })).toEqual([
      cure(
        { 'rods.length.top': '52.5 mm', 'rods.length.bottom': '52 mm' },
        'use shorter rods, 52.5 mm at the top and 52 mm at the bottom',
        2,
      ),
    ]);
    expect(meet({ 'rods.length': { top: 54, bottom: 53.25 }, 'rods.stock': [45, 50, 52, 52.75, 60] })[0]?.set).toEqual({
      'rods.length.top': '52.75 mm',
      'rods.length.bottom': '52 mm',
    });
    expect(meet({ 'rods.length': { top: 54 } })).toEqual([]);
    expect(meet({ 'rods.length': { bottom: 54 } })).toEqual([]);
    expect(meet({ rods: null })).toEqual([]);
  });
  test('rods of another thread are rods to get', () => {
    expect(tried('thread-mismatch', { rods: 'M6', lugs: '12-24 UNC' })).toEqual([
      cure({ 'rods.thread': '12-24 UNC' }, 'get 12-24 UNC rods', 2),
    ]);
  });
});

describe('hoops', () => {
  test('a rod that leans out or in wants the ear circle of its lugs; sideways no circle helps', () => {
    expect(tried('rod-binds', { ...bottom, way: 'outward', line: 357.4 })).toEqual([
      cure(
        { 'hoops.bottom.ear-circle': '357.4 mm' },
        'use a bottom hoop with an ear circle of 357.4 mm, or measure it again',
        3,
      ),
    ]);
    expect(tried('rod-binds', { ...bottom, way: 'sideways', line: 357.4 })).toEqual([]);
  });
  test('ten ears: ten lugs, or eight ears', () => {
    expect(tried('ears-mismatch', { ears: 10, lugs: 8, side: 'bottom' }, {}, { unit: '' })).toEqual([
      cure({ 'lugs.count': 10 }, 'lay out 10 lugs', 1),
      cure({ 'lugs.rows.1.count': 10 }, 'lay out 10 lugs in that row', 1),
      cure({ 'hoops.bottom.ears': 8 }, 'get a bottom hoop with 8 ears', 3),
    ]);
    // Lugs off the ears, and two rows to one hoop, are not cured by a count.
    expect(tried('ears-mismatch', { ears: 8, lugs: 8, side: 'top' }, {}, { unit: 'deg' })).toEqual([]);
    expect(tried('ears-mismatch', { ears: 8, lugs: 16, side: 'top' }, both, { unit: '' }).map((c) => c.set)).toEqual([
      { 'lugs.ends': 'one' },
    ]);
    const none = { 'lugs.rows': [{ edge: 'bottom', distance: 50 }] };
    expect(tried('ears-mismatch', { ears: 8, lugs: 0, side: 'top' }, none, { unit: '' })).toEqual([]);
  });
  test('a hoop without lugs: double-ended lugs, or a row measured from the other edge', () => {
    expect(tried('hoop-without-lugs', { side: 'top' })).toEqual([
      cure({ 'lugs.ends': 'both' }, 'call the lugs double-ended', 1),
      cure({ 'lugs.rows.0.edge': 'bottom' }, 'measure the top lugs from the bottom edge', 1),
      cure({ 'lugs.rows.1.edge': 'top' }, 'measure the bottom lugs from the top edge', 1),
    ]);
  });
  test.each(['hoop-on-lug', 'hoop-on-lever'])('%s: further in by what it is over, on the rule', (id) => {
    expect(tried(id, { ...top, over: 2.2 })).toEqual([
      cure({ 'lugs.rows.0.distance': '42.5 mm' }, 'set the top lugs 42.5 mm from the top edge', 1),
    ]);
    expect(tried(id, { group: 'fittings.0', side: 'bottom', over: 3 })).toEqual([
      cure({ 'fittings.0.distance': '53 mm' }, 'set the strainer 53 mm from the bottom edge', 1),
    ]);
    expect(tried(id, { group: 'beds', side: 'top', over: 2.2 })).toEqual([]);
    expect(tried(id, { group: 'fittings.9', side: 'top', over: 2.2 })).toEqual([]);
    expect(tried(id, { group: 'lugs.rows.2', side: 'top', over: 2.2 })).toEqual([]);
  });
});

describe('at the rim and the beds', () => {
  test.each(['foot-over-rim', 'hole-over-rim'])('%s: from the other edge, or further in', (id) => {
    expect(tried(id, { group: 'fittings.4', side: 'top', over: 1.1 })).toEqual([
      cure({ 'fittings.4.edge': 'bottom' }, 'measure the plate from the bottom edge', 1),
      cure({ 'fittings.4.distance': '31.5 mm' }, 'set the plate 31.5 mm from the top edge', 1),
    ]);
    // The badge is measured from the middle: 90 from the top, 95 then.
    expect(tried(id, { group: 'fittings.3', side: 'top', over: 5 })).toEqual([
      cure({ 'fittings.3.distance': '5 mm' }, 'set the badge 5 mm from the middle', 1),
    ]);
  });
  test('of many fittings the one that is named', () => {
    const many = Array.from({ length: 12 }, (_, i) => plate(`plate ${i}`, 'other', 30 * i, 'bottom', 30 + i));
    expect(tried('foot-in-bed', { group: 'fittings.11', over: 1 }, { fittings: many })).toEqual([
      cure({ 'fittings.11.distance': '42 mm' }, 'set the plate-11 42 mm from the bottom edge', 1),
    ]);
  });
  test.each(['foot-in-bed', 'hole-in-bed'])('%s: up from the bottom', (id) => {
    expect(tried(id, { group: 'fittings.1', over: 1.3 })).toEqual([
      cure({ 'fittings.1.distance': '56.5 mm' }, 'set the butt 56.5 mm from the bottom edge', 1),
    ]);
  });
  test('strainer and butt go over the beds, and opposite one another', () => {
    expect(tried('strainer-off-bed', {}, {}, { at: 'strainer' })).toEqual([
      cure({ 'fittings.0.at': '0 deg' }, 'put strainer at 0 deg', 1),
    ]);
    expect(tried('butt-off-bed', {}, {}, { at: 'butt' })).toEqual([
      cure({ 'fittings.1.at': '180 deg' }, 'put butt at 180 deg', 1),
    ]);
    expect(
      tried('butt-not-opposite', { butt: 'butt', strainer: 'strainer', want: 181.5, wantStrainer: 358.5 }),
    ).toEqual([
      cure({ 'fittings.1.at': '181.5 deg' }, 'put butt at 181.5 deg', 1),
      cure({ 'fittings.0.at': '358.5 deg' }, 'put strainer at 358.5 deg', 1),
    ]);
  });
  test.each(['strainer-not-at-snare-edge', 'butt-not-at-snare-edge'])('%s: from the snare edge', (id) => {
    expect(tried(id, { group: 'fittings.4' }, {}, { limit: 60.7 })).toEqual([
      cure({ 'fittings.4.edge': 'bottom' }, 'measure the plate from the bottom edge', 1),
      cure({ 'fittings.4.distance': '139.5 mm' }, 'set the plate 139.5 mm from the top edge', 1),
    ]);
    expect(tried(id, {}, {}, { limit: 60.7 })).toEqual([]);
  });
});

describe('two things on one spot', () => {
  const halves = (...paths: readonly (readonly [string, string])[]) =>
    (
      [
        ['half', 'half a pitch from the strainer line'],
        [0, 'one on the strainer line'],
        // Eight lugs: 45 deg between them.
        [11.25, 'a quarter of a pitch from the strainer line'],
        [33.75, 'three quarters of a pitch from the strainer line'],
      ] as const
    ).flatMap(([first, words]) => [
      cure({ 'lugs.first': first }, `turn the lugs: ${words}`, 1),
      ...paths.map(([path, title]) => cure({ [`${path}.first`]: first }, `turn ${title}: ${words}`, 1)),
    ]);
  const put = (key: string, name: string, ...angles: number[]) =>
    angles.map((a) => cure({ [`${key}.at`]: `${a} deg` }, `put ${name} at ${a} deg`, 1));
  const set = (path: string, title: string, mm: number, from: string) =>
    cure({ [`${path}.distance`]: `${mm} mm` }, `set ${title} ${mm} mm from ${from}`, 1);

  const facts = {
    one: 'badge',
    other: 'plate',
    group: 'fittings.3',
    group2: 'fittings.4',
    around: 7,
    upright: 5,
    over: 5,
  };

  test('a badge and a plate: each between lugs, the nearest first, then apart by what they overlap and a millimetre', () => {
    // The badge is at 100, 10 above the middle; the plate at 350, 30 below the top. 7 mm and 1 are 4 deg; 5 and 1 are 6 mm.
    expect(tried('feet-overlap', facts)).toEqual([
      cure({ 'fittings.4.edge': 'bottom' }, 'measure the plate from the bottom edge', 1),
      ...put('fittings.3', 'badge', 90, 135, 45, 180),
      ...put('fittings.4', 'plate', 0, 315, 45, 270),
      ...put('fittings.4', 'plate', 354),
      ...put('fittings.3', 'badge', 96),
      set('fittings.4', 'the plate', 24, 'the top edge'),
      set('fittings.3', 'the badge', 4, 'the middle'),
    ]);
    expect(tried('hole-under-foot', facts)).toEqual(tried('feet-overlap', facts));
    expect(tried('holes-overlap', { ...facts, same: 'no' })).toEqual(tried('feet-overlap', facts));
    expect(tried('feet-overlap', { ...facts, around: -7, upright: -5 }).slice(-4)).toEqual([
      ...put('fittings.4', 'plate', 346),
      ...put('fittings.3', 'badge', 104),
      set('fittings.4', 'the plate', 36, 'the top edge'),
      set('fittings.3', 'the badge', 16, 'the middle'),
    ]);
    expect(tried('feet-overlap', { ...facts, around: 0, upright: 0 })).toHaveLength(9);
  });

  test('a hole does not know which way is out: both are tried', () => {
    const facts = { one: 'badge', other: 'plate', group: 'fittings.3', group2: 'fittings.4', over: 5 };
    expect(tried('hole-under-foot', facts).slice(9)).toEqual([
      ...put('fittings.4', 'plate', 353),
      ...put('fittings.3', 'badge', 97),
      ...put('fittings.4', 'plate', 347),
      ...put('fittings.3', 'badge', 103),
      set('fittings.4', 'the plate', 24, 'the top edge'),
      set('fittings.3', 'the badge', 4, 'the middle'),
      set('fittings.4', 'the plate', 36, 'the top edge'),
      set('fittings.3', 'the badge', 16, 'the middle'),
    ]);
  });

  test('a step up is a step of the rule', () => {
    const facts = { one: 'badge', other: 'gone', group: 'fittings.3', around: 7, upright: 4.2, over: 5 };
    expect(tried('feet-overlap', facts).at(-1)).toEqual(set('fittings.3', 'the badge', 4.5, 'the middle'));
  });

  test('strainer and butt go to their lines, never between lugs; lugs are turned, and keep to their row', () => {
    const facts = {
      one: 'lug-top-1',
      other: 'strainer',
      group: 'lugs.rows.0',
      group2: 'fittings.0',
      around: 7,
      upright: 5,
      over: 5,
    };
    expect(tried('feet-overlap', facts)).toEqual([
      ...halves(['lugs.rows.0', 'the top lugs']),
      cure({ 'lugs.rows.0.edge': 'bottom' }, 'measure the top lugs from the bottom edge', 1),
      cure({ 'fittings.0.edge': 'top' }, 'measure the strainer from the top edge', 1),
      ...put('fittings.0', 'strainer', 0, 4),
      set('fittings.0', 'the strainer', 56, 'the bottom edge'),
      // Down by 6.
      set('lugs.rows.0', 'the top lugs', 46, 'the top edge'),
    ]);
    const butt = tried('feet-overlap', {
      ...facts,
      one: 'butt',
      other: 'lug-top-1',
      group: 'fittings.1',
      group2: 'lugs.rows.0',
    });
    expect(butt.filter((c) => 'fittings.1.at' in c.set)).toEqual(put('fittings.1', 'butt', 180, 176));
    expect(butt.slice(0, 8)).toEqual(halves(['lugs.rows.0', 'the top lugs']));
  });

  test('one of three legs moves alone', () => {
    const facts = { one: 'leg-2', other: 'gone', group: 'fittings.2', around: 7, upright: 5, over: 5 };
    const all = tried('feet-overlap', facts);
    expect(all.slice(1, 3).map((c) => c.set)).toEqual([
      { 'fittings.2.at': ['60 deg', '180 deg', '300 deg'] },
      { 'fittings.2.at': ['60 deg', '135 deg', '300 deg'] },
    ]);
    expect(all.at(-2)).toEqual(cure({ 'fittings.2.at': ['60 deg', '176 deg', '300 deg'] }, 'put leg-2 at 176 deg', 1));
    expect(all.at(-1)).toEqual(set('fittings.2', 'the leg', 54, 'the bottom edge'));
  });

  test('two rows of double-ended lugs on one spot were perhaps one in the middle', () => {
    const facts = {
      one: 'lug-top-1',
      other: 'lug-bottom-1',
      group: 'lugs.rows.0',
      group2: 'lugs.rows.1',
      around: 7,
      upright: 5,
      over: 5,
    };
    const one = cure(
      { 'lugs.rows': [{ edge: 'middle', distance: 0 }] },
      'write one row of double-ended lugs, in the middle',
      1.5,
    );
    expect(tried('feet-overlap', facts, both)).toEqual([
      ...halves(['lugs.rows.0', 'the top lugs'], ['lugs.rows.1', 'the bottom lugs']),
      one,
      cure({ 'lugs.rows.0.edge': 'bottom' }, 'measure the top lugs from the bottom edge', 1),
      cure({ 'lugs.rows.1.edge': 'top' }, 'measure the bottom lugs from the top edge', 1),
      set('lugs.rows.1', 'the bottom lugs', 56, 'the bottom edge'),
      set('lugs.rows.0', 'the top lugs', 46, 'the top edge'),
    ]);
    expect(tried('feet-overlap', facts)).not.toContainEqual(one);
    expect(tried('feet-overlap', { ...facts, one: 'lug-middle-1', other: 'badge' }, oneBoth)).not.toContainEqual(one);
  });

  test('without lugs there are none to go between', () => {
    expect(tried('feet-overlap', facts, { lugs: null, rods: null, hoops: null })).toHaveLength(5);
  });

  test('the row with most lugs has the least pitch', () => {
    const rows = {
      'lugs.rows': [
        { edge: 'top', distance: 40, count: 5 },
        { edge: 'bottom', distance: 50, count: 10 },
      ],
    };
    const firsts = tried('lever-over-lug', {}, rows, { at: 'strainer' }).map((c) => c.set['lugs.first']);
    expect(firsts).toEqual(['half', 0, 9, 27]);
  });

  const overhang = { group: 'fittings.4', group2: 'lugs.rows.0', around: 7, upright: 5 };
  test.each(['lever-over-lug', 'lever-over-fitting', 'leg-rod-over-lug', 'leg-rod-over-fitting'])(
    '%s: what hangs over moves off, or the lugs turn',
    (id) => {
      expect(tried(id, overhang, {}, { at: 'plate' })).toEqual([
        ...put('fittings.4', 'plate', 0, 315, 45, 270, 354),
        set('fittings.4', 'the plate', 24, 'the top edge'),
        ...halves(['lugs.rows.0', 'the top lugs']),
      ]);
    },
  );
  test('a leg rod on a tension rod goes between the lugs', () => {
    expect(tried('leg-rod-on-rod', {}, {}, { at: 'plate' })).toEqual(put('fittings.4', 'plate', 0, 315, 45, 270));
  });
  test('holes of one casting that overlap were measured wrongly: 3 mm of land between them', () => {
    expect(tried('holes-overlap', { group: 'lugs.rows.0', same: 'yes', need: 4.6 })).toEqual([
      cure({ 'lugs.rows.0.holes.spacing': '8 mm' }, 'spacing 8 mm: measure the casting again', 3),
      cure({ 'lugs.holes.spacing': '8 mm' }, 'spacing 8 mm: measure the casting again', 3),
    ]);
    expect(tried('holes-overlap', { group: 'fittings.4', same: 'yes', need: 4.6 })).toEqual([
      cure({ 'fittings.4.holes.spacing': '8 mm' }, 'spacing 8 mm: measure the casting again', 3),
    ]);
  });
});

describe('holes, screws and heads', () => {
  const again = (key: string, what: string) =>
    cure({ [key]: what.split(' ').slice(1).join(' ') }, `${what}: measure the casting again`, 3);
  test('holes outside the foot: the other way round, or nearer by twice what they are over', () => {
    expect(tried('hole-outside-foot', { group: 'lugs.rows.0', over: 2.2 })).toEqual([
      again('lugs.rows.0.holes.layout', 'layout across'),
      again('lugs.holes.layout', 'layout across'),
      again('lugs.rows.0.holes.spacing', 'spacing 15.5 mm'),
      again('lugs.holes.spacing', 'spacing 15.5 mm'),
    ]);
    expect(tried('hole-outside-foot', { group: 'fittings.4', over: 2.2 })).toEqual([
      again('fittings.4.holes.layout', 'layout upright'),
      again('fittings.4.holes.spacing', 'spacing 25.5 mm'),
    ]);
    // Not so near that the holes meet: drill 4.5, 20 - 2 x 7.75 is 4.5.
    expect(tried('hole-outside-foot', { group: 'lugs.rows.0', over: 7.5 })).toHaveLength(4);
    expect(tried('hole-outside-foot', { group: 'lugs.rows.0', over: 7.75 })).toHaveLength(2);
    const holes = (more: Raw) => ({ 'fittings.4.holes': { drill: 4.5, ...more } });
    expect(tried('hole-outside-foot', { group: 'fittings.4', over: 2 }, holes({ layout: 'single' }))).toEqual([]);
    expect(tried('hole-outside-foot', { over: 2 })).toEqual([]);
  });

  const hole = 'hole-smaller-than-screw';
  test('a hole too small: the thickest screw that goes through, or the drill of the medium series', () => {
    // ISO 273: M4 wants 4.3 to pass and 4.5 drilled; 3.4 lets M3 through (3.2), not M3.5 (3.7).
    expect(tried(hole, { group: 'lugs.rows.0' }, { 'lugs.holes.drill': 3.4 })).toEqual([
      cure({ 'lugs.rows.0.holes.screw': 'M3 x 16' }, 'use M3 x 16 screws', 2.5),
      cure({ 'lugs.holes.screw': 'M3 x 16' }, 'use M3 x 16 screws', 2.5),
      cure({ 'lugs.rows.0.holes.drill': '4.5 mm' }, 'drill 4.5 mm', 2),
      cure({ 'lugs.holes.drill': '4.5 mm' }, 'drill 4.5 mm', 2),
    ]);
    expect(tried(hole, { group: 'fittings.0' })).toEqual([]);
    expect(tried(hole, {})).toEqual([]);
  });
  // Fine series of ISO 273, and close drills of shop charts: 12-24 5.613, 10-24 4.978, 8-32 4.305, 6-32 3.658, 1/4 6.528.
  test.each([
    ['M8 x 20', 6.4, 'M6 x 20'],
    ['M8 x 20', 6.3, 'M5 x 20'],
    ['M8 x 20', 5.3, 'M5 x 20'],
    ['M8 x 20', 4.3, 'M4 x 20'],
    ['M8 x 20', 3.7, 'M3.5 x 20'],
    ['M8 x 20', 3.2, 'M3 x 20'],
    ['M8 x 20', 3.1, undefined],
    ['5/16-18 x 3/4 in', 6.6, '1/4-20 x 3/4 in'],
    ['5/16-18 x 3/4 in', 6.5, '12-24 x 3/4 in'],
    ['5/16-18 x 3/4 in', 5.6, '10-24 x 3/4 in'],
    ['5/16-18 x 3/4 in', 4.9, '8-32 x 3/4 in'],
    ['5/16-18 x 3/4 in', 4.3, '6-32 x 3/4 in'],
    ['5/16-18 x 3/4 in', 3.6, undefined],
  ])('of a %s in a hole of %s: %s', (screw, drill, thinner) => {
    const all = tried(
      hole,
      { group: 'fittings.4' },
      { 'fittings.4.holes.screw': screw, 'fittings.4.holes.drill': drill },
    );
    expect(all.filter((c) => c.cost === 2.5).map((c) => c.set)).toEqual(
      thinner === undefined ? [] : [{ 'fittings.4.holes.screw': thinner }],
    );
    expect(all).toHaveLength(thinner === undefined ? 1 : 2);
    expect(all.at(-1)?.cost).toBe(2);
  });

  test.each(['screw-too-short', 'screw-bottoms'])(
    '%s: the three sold lengths nearest the middle of the window',
    (id) => {
      // ISO 888 from 11 to 22: 12, 14, 16, 18, 20, 22; the middle is 16.5.
      expect(tried(id, { group: 'lugs.rows.0', from: 11, to: 22 })).toEqual(
        ['M4 x 16', 'M4 x 18', 'M4 x 14'].flatMap((text) => [
          cure({ 'lugs.rows.0.holes.screw': text }, `use ${text} screws`, 2),
          cure({ 'lugs.holes.screw': text }, `use ${text} screws`, 2),
        ]),
      );
      // A window without an end: one diameter on from where it begins, 12 to 16.
      expect(
        tried(id, { group: 'lugs.rows.0', from: 12, to: 'open' }).map((c) => c.set['lugs.holes.screw'] ?? ''),
      ).toEqual(['', 'M4 x 14', '', 'M4 x 12', '', 'M4 x 16']);
      // Inch screws by eighths: 12.7 and 15.875 mm lie in 12 to 17, the middle is 14.5.
      expect(tried(id, { group: 'fittings.4', from: 12, to: 17 }).map((c) => c.set)).toEqual([
        { 'fittings.4.holes.screw': '10-24 UNC x 5/8 in' },
        { 'fittings.4.holes.screw': '10-24 UNC x 1/2 in' },
      ]);
      expect(tried(id, { group: 'lugs.rows.0', from: 16.1, to: 17.9 })).toEqual([]);
      expect(tried(id, { group: 'fittings.0', from: 11, to: 22 })).toEqual([]);
      expect(tried(id, { from: 11, to: 22 })).toEqual([]);
    },
  );

  test.each(['shell-too-large', 'shell-too-small'])(
    '%s: the next size of head, and the skin measured with it',
    (id) => {
      const heads = (measured: number, set: Raw = {}) => tried(id, {}, set, { measured });
      // 13 in are 330.2: a shell of 328 is 2.2 under; one of 330.3 would float under 14 in, 355.6.
      expect(heads(328)).toEqual([
        cure({ 'shell.nominal': '13 in' }, 'use 13 in heads, or measure the shell again', 3),
      ]);
      expect(heads(330.3)).toEqual([]);
      const skin = (when: string) => ({ 'shell.skin': { thickness: 1, when } });
      const before = cure({ 'shell.skin.when': 'before' }, 'the shell was measured with its skin on', 3.5);
      expect(heads(330.3, skin('after'))).toEqual([before]);
      expect(heads(328, skin('after')).at(-1)).toEqual(before);
      expect(heads(328, skin('after'))).toHaveLength(2);
      expect(heads(328, skin('before'))).toHaveLength(1);
    },
  );

  test.each(['snare-longer-than-shell', 'snare-implausible'])('%s: wires 5 mm inside the wall', (id) => {
    expect(tried(id, { inside: 217.2 })).toEqual([
      cure({ 'snare.length': '212 mm' }, 'get wires of 212 mm or a little less', 2),
    ]);
    expect(tried(id, { inside: 5.5 })).toHaveLength(1);
    expect(tried(id, { inside: 5.4 })).toEqual([]);
  });

  test('a wall that cannot be was written in another unit', () => {
    const wall = (measured: number, way: string) => tried('wall-implausible', { way }, {}, { measured });
    expect(wall(0.26, 'thin')).toEqual([
      cure({ 'shell.wall': '0.26 in' }, 'measure the wall again: 0.26 in was probably meant', 1),
    ]);
    expect(wall(66, 'thick')).toEqual([
      cure({ 'shell.wall': '6.6 mm' }, 'measure the wall again: 6.6 mm was probably meant', 1),
    ]);
  });
});
