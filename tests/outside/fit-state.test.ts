import { describe, expect, test } from 'vitest';
import { checkState } from '../../src/fit/state.ts';
import { checkUsual } from '../../src/fit/usual.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, type Raw } from '../helpers/changed.ts';
import { benchOf } from '../helpers/laid-out.ts';

/** A bare shell of R 163.7: its wall may be 1.5 to 25 thick, its girth is 1028.557. */
const bare: Raw = {
  jig: 1,
  name: 'Worked state',
  shell: { diameter: 327.4, depth: 150, wall: 6.6, edges: 'cut' },
  lugs: { count: 8, rows: [{ edge: 'top', distance: 38 }], holes: { layout: 'single', drill: 5 } },
};
const told = (set: Record<string, unknown>): readonly Fact[] => checkState(benchOf(changed(bare, set)));
const found = (set: Record<string, unknown>, id: string) => told(set).find((f) => f.id === id);
const level = (set: Record<string, unknown>, id: string) => found(set, id)?.level ?? 'silent';
const ids = (set: Record<string, unknown>) => told(set).map((f) => f.id);

/** One line of the file for each key; of those left, a finding takes the first. */
const linesOf = (set: Record<string, unknown>, keys: readonly string[], id: string, at?: string) => {
  const bench = benchOf(changed(bare, set));
  return keys.map((_, i) => {
    const lines = Object.fromEntries(keys.slice(i).map((key, k) => [key, i + k + 1]));
    const jig = { ...bench.jig, lines };
    return checkState({ ...bench, jig }).find((f) => f.id === id && (at === undefined || f.at === at))?.line;
  });
};
const inOrder = (keys: readonly string[]) => keys.map((_, i) => i + 1);

describe('the wall', () => {
  // 0.3 R, but 25 or 0.15 R if that is less: R 163.7: 25; R 200: 30; R 70: 21.
  test.each([
    [327.4, 1.5, 1.4, 'thin'],
    [327.4, 25, 25.1, 'thick'],
    [400, 30, 30.1, 'thick'],
    [140, 21, 21.1, 'thick'],
  ])('of a shell of %s mm may be %s but not %s mm', (diameter, good, bad, way) => {
    const wall = (w: number) => ({ 'shell.diameter': diameter, 'shell.wall': w });
    expect(level(wall(good), 'wall-implausible')).toBe('silent');
    const f = found(wall(bad), 'wall-implausible');
    expect(f).toMatchObject({ level: 'stop', at: 'shell', measured: bad, limit: good, unit: 'mm' });
    expect(f?.facts).toEqual({ way, inches: expect.closeTo(bad * 25.4, 9) });
  });
});

describe('the shell as it stands', () => {
  test('bare, with its edges cut, has nothing to be told', () => expect(told({})).toEqual([]));

  test('edges: cut, uncut, or not said', () => {
    expect(ids({ 'shell.edges': 'cut' })).toEqual([]);
    expect(told({ 'shell.edges': 'uncut' })).toEqual([
      { level: 'care', id: 'edges-uncut', at: 'shell', measured: null, limit: null, unit: 'mm', facts: {} },
    ]);
    expect(told({ 'shell.edges': null })).toEqual([
      {
        level: 'note',
        id: 'not-checked',
        at: 'shell',
        measured: null,
        limit: null,
        unit: '',
        facts: { check: 'whether cutting the bearing edges still moves the heights', needs: 'shell.edges' },
      },
    ]);
  });

  test.each([
    ['shell.round', 'out-of-round'],
    ['shell.square', 'out-of-square'],
  ])('%s passes to 1 mm, or to what the workshop allows', (key, id) => {
    expect(level({ [key]: 1 }, id)).toBe('silent');
    expect(found({ [key]: 1.1 }, id)).toMatchObject({
      level: 'care',
      at: 'shell',
      measured: 1.1,
      limit: 1,
      unit: 'mm',
    });
    const allowed = { limits: { [key.slice('shell.'.length)]: 1.1 } };
    expect(level({ [key]: 1.1, ...allowed }, id)).toBe('silent');
  });

  test('a skin is told when it came on after the measuring, with the diameter to drill', () => {
    const skin = (thickness: number, when: string) => ({ 'shell.skin': { thickness, when } });
    const f = found(skin(0.5, 'after'), 'skin-added');
    expect(f).toMatchObject({ level: 'note', at: 'shell', measured: 0.5, limit: null });
    expect(f?.facts).toEqual({ diameter: expect.closeTo(328.4, 9) });
    expect(ids(skin(0.5, 'before'))).toEqual([]);
    expect(ids(skin(0, 'after'))).toEqual([]);
  });
});

describe('a batch', () => {
  test.each([
    // Girth 1000, looked at twice when more than 1 mm outside.
    [1001, 1010, null],
    [1001.1, 1010, 1001.1],
    [990, 999, null],
    [990, 998.9, 998.9],
    [990, 1010, null],
  ])('a shell of girth 1000 in a batch of %s to %s: %s', (least, most, limit) => {
    const set = { 'shell.diameter': null, 'shell.circumference': 1000, batch: { girth: [least, most], count: 3 } };
    const f = found(set, 'shell-outside-batch');
    expect(told(set)).toHaveLength(limit === null ? 0 : 1);
    expect(f?.limit ?? null).toBe(limit);
    if (!f) return;
    expect(f).toMatchObject({ level: 'care', at: 'shell', unit: 'mm', facts: { least, most } });
    expect(f.measured).toBeCloseTo(1000, 9);
  });
});

describe('two figures that cannot both be true', () => {
  const ring = (width: number) => ({ width, thickness: 5 });
  const old = (distance: number, edge = 'bottom') => ({
    'shell.holes': [
      { at: 0, edge: 'middle', distance: 0, diameter: 8 },
      { at: 10, edge, distance, diameter: 8 },
    ],
  });
  const circle = (side: string, value: number) => ({ [`hoops.${side}.ear-circle`]: value });
  const girth = { 'shell.diameter': null, 'shell.circumference': 1000 };
  test.each<[Record<string, unknown>, Record<string, unknown>, string, string, string, number, number]>([
    [
      { 'shell.rings': { top: ring(75), bottom: ring(75) } },
      { 'shell.rings': { top: ring(75.1), bottom: ring(75) } },
      'the two reinforcement rings overlap inside the shell',
      'shell.rings',
      'shell.depth',
      150.1,
      150,
    ],
    [
      { ...girth, beds: { width: 500, depth: 2 } },
      { ...girth, beds: { width: 500.1, depth: 2 } },
      'the two snare beds overlap',
      'beds.width',
      'half the girth',
      500.1,
      500,
    ],
    [
      { beds: { width: 80, depth: 149.9 } },
      { beds: { width: 80, depth: 150 } },
      'the snare beds are as deep as the shell',
      'beds.depth',
      'shell.depth',
      150,
      150,
    ],
    [
      circle('top', 327.5),
      circle('top', 327.4),
      'the rods would run inside the shell',
      'hoops.top.ear-circle',
      'shell.diameter',
      327.4,
      327.4,
    ],
    [
      circle('bottom', 327.5),
      circle('bottom', 327.4),
      'the rods would run inside the shell',
      'hoops.bottom.ear-circle',
      'shell.diameter',
      327.4,
      327.4,
    ],
    // 8 wide: 4 mm past an edge it is gone.
    [old(153.9), old(154), 'this hole is not on the shell', 'shell.holes.1', 'shell.depth', 154, 150],
    [old(153.9, 'top'), old(154, 'top'), 'this hole is not on the shell', 'shell.holes.1', 'shell.depth', -4, 150],
  ])('%o can, %o cannot: %s', (good, bad, what, one, other, measured, limit) => {
    expect(level(good, 'contradiction')).toBe('silent');
    const all = told(bad).filter((f) => f.id === 'contradiction');
    expect(all).toHaveLength(1);
    expect(all[0]).toMatchObject({ level: 'stop', at: 'shell', unit: 'mm', facts: { what, one, other } });
    expect(all[0]?.measured).toBeCloseTo(measured, 9);
    expect(all[0]?.limit).toBeCloseTo(limit, 9);
    const keys = other === 'half the girth' ? [one] : [one, other];
    expect(linesOf(bad, keys, 'contradiction')).toEqual(inOrder(keys));
  });
});

describe('possible, but nothing a builder does every day', () => {
  const bed = (width: number, depth: number) => ({ beds: { width, depth } });
  const one = (role: string, more: Raw) => ({
    fittings: [
      { role: 'badge', at: 90, edge: 'middle', distance: 0, foot: { width: 40, height: 30 } },
      { name: 'it', role, at: 0, edge: 'bottom', distance: 40, foot: { width: 20, height: 20 }, ...more },
    ],
  });
  const drilled = (role: string, drill: number) => one(role, { holes: { layout: 'single', drill } });
  const ring = (side: string, width: number, thickness: number) => ({ [`shell.rings.${side}`]: { width, thickness } });
  const rows = (top: number, bottom: number) => ({
    'lugs.rows': [
      { edge: 'top', distance: 38, count: top },
      { edge: 'bottom', distance: 38, count: bottom },
    ],
  });
  test.each<
    [string, Record<string, unknown>, Record<string, unknown>, string, number, number, string, readonly string[]]
  >([
    ['bed-narrow', bed(25, 2), bed(24.9, 2), 'beds', 24.9, 25, 'mm', ['beds']],
    ['bed-deep', bed(80, 6), bed(80, 6.1), 'beds', 6.1, 6, 'mm', ['beds']],
    ['vent-wide', drilled('vent', 30), drilled('vent', 30.1), 'it', 30.1, 30, 'mm', ['fittings.1']],
    ['vent-wide', drilled('other', 31), drilled('vent', 31), 'it', 31, 30, 'mm', ['fittings.1']],
    ['vent-narrow', drilled('vent', 3), drilled('vent', 2.9), 'it', 2.9, 3, 'mm', ['fittings.1']],
    ['vent-narrow', drilled('other', 2.9), drilled('vent', 2.9), 'it', 2.9, 3, 'mm', ['fittings.1']],
    ['vent-narrow', one('vent', {}), drilled('vent', 2.9), 'it', 2.9, 3, 'mm', ['fittings.1']],
    ['ring-thicker-than-wide', ring('top', 8, 8), ring('top', 8, 8.1), 'shell', 8.1, 8, 'mm', ['shell.rings.top']],
    ['ring-thicker-than-wide', {}, ring('bottom', 8, 8.1), 'shell', 8.1, 8, 'mm', ['shell.rings.bottom']],
    // 65 % of 150.
    [
      'leg-high',
      one('leg', { distance: 97.5 }),
      one('leg', { distance: 97.6 }),
      'it',
      97.6,
      97.5,
      'mm',
      ['fittings.1.edge'],
    ],
    [
      'leg-high',
      one('spur', { distance: 97.6 }),
      one('leg', { at: [0, 120], distance: 97.6 }),
      'it-1',
      97.6,
      97.5,
      'mm',
      ['fittings.1.edge'],
    ],
    ['lug-counts-differ', rows(8, 8), rows(8, 6), 'lugs', 6, 8, '', ['lugs.rows']],
    ['lug-counts-differ', {}, rows(6, 8), 'lugs', 8, 6, '', ['lugs.rows']],
    [
      'lug-counts-differ',
      { 'lugs.rows': [{ edge: 'bottom', distance: 38 }] },
      rows(6, 8),
      'lugs',
      8,
      6,
      '',
      ['lugs.rows'],
    ],
  ])('%s: %o is not, %o is', (id, good, bad, at, measured, limit, unit, keys) => {
    expect(level(good, id)).toBe('silent');
    expect(found(bad, id)).toMatchObject({ level: 'care', at, measured, unit });
    expect(found(bad, id)?.limit).toBeCloseTo(limit, 9);
    expect(linesOf(bad, keys, id)).toEqual(inOrder(keys));
  });

  test('two rows at one edge count together, and a double-ended row counts at both', () => {
    const two = [4, 4].map((count, i) => ({ edge: 'top', distance: 38, count, first: 45 * i }));
    expect(level({ 'lugs.rows': [...two, { edge: 'bottom', distance: 38, count: 8 }] }, 'lug-counts-differ')).toBe(
      'silent',
    );
    expect(level({ 'lugs.ends': 'both', 'lugs.rows': [{ edge: 'middle', distance: 0 }] }, 'lug-counts-differ')).toBe(
      'silent',
    );
  });
});

describe('a finding points at its own line, or else the next', () => {
  test.each<[string, Record<string, unknown>, readonly string[]]>([
    ['wall-implausible', { 'shell.wall': 1 }, ['shell.wall', 'shell']],
    ['edges-uncut', { 'shell.edges': 'uncut' }, ['shell.edges', 'shell']],
    ['not-checked', { 'shell.edges': null }, ['shell']],
    ['out-of-round', { 'shell.round': 2 }, ['shell.round', 'shell']],
    ['out-of-square', { 'shell.square': 2 }, ['shell.square', 'shell']],
    ['skin-added', { 'shell.skin': { thickness: 1, when: 'after' } }, ['shell.skin', 'shell']],
    ['shell-outside-batch', { batch: { girth: [900, 910], count: 2 } }, ['batch', 'shell']],
  ])('%s', (id, set, keys) => {
    expect(linesOf(set, keys, id)).toEqual(inOrder(keys));
  });
});

describe('every figure has the range drums are made in (common practice, no source)', () => {
  const plate = (role: string, more: Raw) => ({ name: role, role, at: 0, edge: 'middle', distance: 0, ...more });
  const drum: Raw = {
    jig: 1,
    name: 'Usual',
    shell: {
      diameter: 327.4,
      depth: 150,
      wall: 6.6,
      skin: { thickness: 1, when: 'before' },
      rings: { top: { width: 30, thickness: 5 }, bottom: { width: 31, thickness: 6 } },
    },
    lugs: {
      count: 8,
      rows: [{ edge: 'top', distance: 38 }],
      holes: { layout: 'upright', spacing: 20, drill: 4.5, screw: 'M4 x 14', tapped: 10, washer: 1 },
      foot: { left: 8, right: 8, rimward: 15, inward: 15, gasket: 1 },
      rod: { face: 12, catch: 6, bottom: 22, standoff: 14 },
    },
    rods: { length: { top: 45, bottom: 46 }, threaded: 20, washer: 1.5, travel: '4 mm' },
    hoops: { top: { ear: 6, skirt: 5 }, bottom: { ear: 7, skirt: 6 } },
    fittings: [
      plate('leg', { foot: { width: 40, height: 50 }, holes: { layout: 'single', drill: 5 }, rod: { diameter: 10 } }),
    ],
  };
  const facts = (set: Record<string, unknown>) => checkUsual(benchOf(changed(drum, set)));
  test('such a drum is told nothing', () => expect(facts({})).toEqual([]));
  test('nor is one of which hardly anything is written down yet', () => {
    const { shell, lugs, fittings } = drum as { shell: Raw; lugs: Raw; fittings: Raw[] };
    const only = { diameter: shell['diameter'], depth: shell['depth'], wall: shell['wall'] };
    const start = { ...drum, shell: only, rods: undefined, hoops: undefined };
    expect(
      checkUsual(benchOf({ ...start, lugs: { ...lugs, rod: undefined, foot: undefined }, fittings: undefined })),
    ).toEqual([]);
    expect(checkUsual(benchOf({ ...start, lugs: undefined, fittings: [{ ...fittings[0], rod: undefined }] }))).toEqual(
      [],
    );
  });

  // Key as written, where it is told, what the finding calls it, and the range; an end that no file can pass is left out.
  test.each<[string, string, string, number | undefined, number | undefined]>([
    ['shell.diameter', 'shell', 'shell.diameter', 140, 800],
    ['shell.depth', 'shell', 'shell.depth', 40, 700],
    ['shell.skin.thickness', 'shell', 'shell.skin', undefined, 4],
    ['shell.rings.top.width', 'shell', 'shell.rings.top.width', 8, 130],
    ['shell.rings.bottom.width', 'shell', 'shell.rings.bottom.width', 8, 130],
    ['shell.rings.top.thickness', 'shell', 'shell.rings.top.thickness', 1, 25],
    ['shell.rings.bottom.thickness', 'shell', 'shell.rings.bottom.thickness', 1, 25],
    ['hoops.top.ear', 'hoop-top', 'hoops.top.ear', -60, 100],
    ['hoops.bottom.ear', 'hoop-bottom', 'hoops.bottom.ear', -60, 100],
    ['hoops.top.skirt', 'hoop-top', 'hoops.top.skirt', undefined, 60],
    ['hoops.bottom.skirt', 'hoop-bottom', 'hoops.bottom.skirt', undefined, 60],
    ['rods.length.top', 'rods', 'rods.length.top', 20, 250],
    ['rods.length.bottom', 'rods', 'rods.length.bottom', 20, 250],
    ['rods.threaded', 'rods', 'rods.threaded', 6, 200],
    ['rods.washer', 'rods', 'rods.washer', undefined, 6],
    ['rods.travel', 'rods', 'rods.travel', 0.5, 15],
    ['lugs.rod.face', 'top-lugs', 'lugs.rows.0.rod.face', undefined, 200],
    ['lugs.rod.catch', 'top-lugs', 'lugs.rows.0.rod.catch', undefined, 40],
    ['lugs.rod.bottom', 'top-lugs', 'lugs.rows.0.rod.bottom', 6, 150],
    ['lugs.rod.standoff', 'top-lugs', 'lugs.rows.0.rod.standoff', 4, 60],
    ['lugs.foot.gasket', 'top-lugs', 'lugs.rows.0.foot.gasket', undefined, 5],
    ['lugs.holes.drill', 'top-lugs', 'lugs.rows.0.holes.drill', 1.5, 25],
    ['lugs.holes.washer', 'top-lugs', 'lugs.rows.0.holes.washer', undefined, 6],
    ['lugs.holes.tapped', 'top-lugs', 'lugs.rows.0.holes.tapped', 2, 40],
    ['fittings.0.rod.diameter', 'leg', 'fittings.0.rod.diameter', 4, 25],
    ['fittings.0.foot.width', 'leg', 'fittings.0.foot.width', 4, 400],
    ['fittings.0.foot.height', 'leg', 'fittings.0.foot.height', 4, 400],
    ['fittings.0.foot.gasket', 'leg', 'fittings.0.foot.gasket', undefined, 5],
    ['fittings.0.holes.drill', 'leg', 'fittings.0.holes.drill', 1.5, 25],
    ['fittings.0.holes.tapped', 'leg', 'fittings.0.holes.tapped', 2, 40],
  ])('%s, told at %s as %s, from %s to %s', (key, at, name, low, high) => {
    const deep = key.endsWith('catch')
      ? { 'lugs.rod.bottom': 50 }
      : key.endsWith('bottom')
        ? { 'lugs.rod.catch': 2 }
        : {};
    const of = (v: number) => facts({ ...deep, [key]: key === 'rods.travel' ? `${v} mm` : v });
    for (const [limit, past] of [
      [low, (low ?? 0) - 0.1],
      [high, (high ?? 0) + 0.1],
    ] as const) {
      if (limit === undefined) continue;
      expect(of(limit)).toEqual([]);
      const [f, ...more] = of(past);
      expect(more).toEqual([]);
      expect(f).toMatchObject({ level: 'care', id: 'size-unusual', at, limit, unit: 'mm' });
      expect(f?.measured).toBeCloseTo(past, 9);
      expect(f?.facts).toMatchObject({ key: name, low: low ?? 0, high });
    }
  });

  test.each([
    [2, 1, 2],
    [24, 25, 24],
  ])('%s lugs in a row, not %s', (good, bad, limit) => {
    expect(facts({ 'lugs.count': good })).toEqual([]);
    expect(facts({ 'lugs.count': bad })).toEqual([
      {
        level: 'care',
        id: 'size-unusual',
        at: 'top-lugs',
        measured: bad,
        limit,
        unit: '',
        facts: { key: 'lugs.rows.0.count', low: 2, high: 24, group: 'lugs.rows.0' },
      },
    ]);
  });

  test('the sides of a foot count together', () => {
    const foot = (left: number, right: number) => ({ 'lugs.foot.left': left, 'lugs.foot.right': right });
    expect(facts(foot(2, 2))).toEqual([]);
    expect(facts(foot(2, 1.9))[0]).toMatchObject({ at: 'top-lugs', facts: { key: 'lugs.rows.0.foot.width' } });
    const up = facts({ 'lugs.foot.rimward': 200.1, 'lugs.foot.inward': 200 });
    expect(up[0]?.measured).toBeCloseTo(400.1, 9);
    expect(up[0]?.facts?.['key']).toBe('lugs.rows.0.foot.height');
  });

  // Centimetres first, then inches, then the other ways; what would be usual in none is guessed at in none.
  test.each<[string, number, number | undefined, string | undefined]>([
    ['rods.threaded', 2.5, 25, 'centimetres for millimetres'],
    ['rods.threaded', 0.6, 6, 'centimetres for millimetres'],
    ['rods.threaded', 0.5, 12.7, 'inches for millimetres'],
    ['rods.length.top', 19.9, 199, 'centimetres for millimetres'],
    ['rods.length.top', 1.5, 38.1, 'inches for millimetres'],
    ['rods.length.top', 0.5, undefined, undefined],
    ['hoops.top.skirt', 127, 12.7, 'ten times too large'],
    ['rods.washer', 15, 1.5, 'ten times too large'],
    ['rods.length.top', 2500, 250, 'ten times too large'],
    ['rods.length.top', 2540, 100, 'millimetres for inches'],
    ['hoops.top.ear', -70, undefined, undefined],
  ])('%s of %s mm was perhaps %s: %s', (key, value, meant, slip) => {
    const [f] = facts({ [key]: value });
    if (meant === undefined) expect(Object.keys(f?.facts ?? {}).sort()).toEqual(['high', 'key', 'low']);
    else expect(f?.facts).toMatchObject({ meant: expect.closeTo(meant, 9), slip });
  });

  test('what all lugs share is told once, and what differs is told of each row', () => {
    const rows = (more: Raw) => ({
      'lugs.rows': [
        { edge: 'top', distance: 38 },
        { edge: 'bottom', distance: 38, ...more },
      ],
      'lugs.holes.drill': 26,
    });
    expect(facts(rows({})).map((f) => [f.at, f.measured])).toEqual([['top-lugs', 26]]);
    expect(facts(rows({ holes: { drill: 27 } })).map((f) => [f.at, f.measured])).toEqual([
      ['top-lugs', 26],
      ['bottom-lugs', 27],
    ]);
  });

  test('a vent is its own affair, and a fitting without holes has none', () => {
    const with_ = (more: Raw) => facts({ fittings: [plate('vent', more)] });
    expect(with_({ holes: { layout: 'single', drill: 40 } })).toEqual([]);
    expect(facts({ fittings: [plate('badge', { foot: { width: 40, height: 30 } })] })).toEqual([]);
  });

  test('the key is the one the file has a line for, and the finding stands there', () => {
    const bench = benchOf(
      changed(drum, { 'lugs.rod.catch': 41, 'lugs.rod.bottom': 50, 'lugs.holes.drill': 26, 'shell.diameter': 130 }),
    );
    const at = (lines: Record<string, number>) =>
      checkUsual({ ...bench, jig: { ...bench.jig, lines } }).map((f) => [f.facts?.['key'], f.line]);
    expect(
      at({ 'shell.circumference': 3, 'lugs.rod.catch': 9, 'lugs.rows.0.holes.drill': 12, 'lugs.holes.drill': 14 }),
    ).toEqual([
      ['shell.circumference', 3],
      ['lugs.rod.catch', 9],
      ['lugs.rows.0.holes.drill', 12],
    ]);
    const rods = benchOf(changed(drum, { 'rods.length': 300 }));
    expect(checkUsual({ ...rods, jig: { ...rods.jig, lines: { 'rods.length': 5 } } })[0]).toMatchObject({
      line: 5,
      facts: { key: 'rods.length' },
    });
  });
});
