import { describe, expect, test } from 'vitest';
import { checkSeasons } from '../../src/fit/seasons.ts';
import { changed, type Raw } from '../helpers/changed.ts';
import { benchOf } from '../helpers/laid-out.ts';

/**
 * Wood Handbook FPL-GTR-282 table 4-2 at 70 deg F: 6.2 % in air of 30 %, 9.2 in 50, 12.0 in 65. FPL-GTR-190 table 13-5: sugar
 * maple moves 0.00165 radially and 0.00353 tangentially per % (mean 0.00259), from 6 to 14 %. Staves lie across the girth.
 */
const F70 = ((70 - 32) * 5) / 9;
const air = (humidity: number) => ({ temperature: F70, humidity });
const climate = (workshop: number, home: number) => ({ climate: { workshop: air(workshop), home: air(home) } });
const staves: Raw = {
  jig: 1,
  name: 'Worked seasons',
  shell: { diameter: 327.4, depth: 150, wall: 6.6, wood: 'sugar-maple', build: 'stave' },
  fittings: [{ role: 'badge', at: 0, edge: 'middle', distance: 0, foot: { width: 40, height: 30 } }],
  ...climate(50, 30),
};
const told = (set: Record<string, unknown>) => checkSeasons(benchOf(changed(staves, set)));
const found = (set: Record<string, unknown>, id: string) => told(set).find((f) => f.id === id);
const ids = (set: Record<string, unknown>) => told(set).map((f) => f.id);
const girth = Math.PI * 327.4;

describe('staves of sugar maple from 50 to 30 %', () => {
  test('what the season does to a shell of staves, all of it', () => {
    const [f, ...more] = told({});
    expect(more).toEqual([]);
    expect(f).toMatchObject({ level: 'note', id: 'season-movement', at: 'shell', limit: null, unit: 'mm' });
    const facts = f?.facts ?? {};
    expect(facts['from']).toBeCloseTo(9.2, 1);
    expect(facts['to']).toBeCloseTo(6.2, 1);
    const by = Number(facts['to']) - Number(facts['from']);
    expect(f?.measured).toBeCloseTo(girth * 0.00259 * by, 9);
    // Along the grain 0.15 % over 30 %. Out of round: 4/3 R by 4/pi of half the difference of the two ways of the grain.
    expect(facts).toEqual({
      from: facts['from'],
      to: facts['to'],
      girth: expect.closeTo(girth * 0.00259 * by, 9),
      girthMost: expect.closeTo(girth * 0.00353 * by, 9),
      diameter: expect.closeTo(327.4 * 0.00259 * by, 9),
      diameterMost: expect.closeTo(327.4 * 0.00353 * by, 9),
      depth: expect.closeTo(150 * 0.00005 * by, 9),
      round: expect.closeTo(((4 / 3) * 163.7 * (4 / Math.PI) * 0.00188 * Math.abs(by)) / 2, 9),
    });
  });

  test('temperature counts: 90 deg F and 50 % give 8.9 %', () => {
    const warm = { temperature: ((90 - 32) * 5) / 9, humidity: 50 };
    expect(found({ 'climate.workshop': warm }, 'season-movement')?.facts?.['from']).toBeCloseTo(8.9, 1);
    expect(found({ 'climate.home': warm }, 'season-movement')?.facts?.['to']).toBeCloseTo(8.9, 1);
  });

  test.each<[Record<string, unknown>, string]>([
    [{ climate: null }, 'climate'],
    [{ 'shell.build': null }, 'shell.build'],
    [{ 'shell.wood': null }, 'shell.wood'],
    [{ 'shell.wood': 'birch-plywood' }, 'a wood whose movement is known (not birch-plywood)'],
    [{ climate: null, 'shell.build': null, 'shell.wood': null }, 'climate, shell.build, shell.wood'],
  ])('with %o it asks for %s', (set, needs) => {
    expect(told(set)).toEqual([
      {
        level: 'note',
        id: 'not-checked',
        at: 'shell',
        measured: null,
        limit: null,
        unit: '',
        facts: { check: 'what the seasons do to the shell', needs },
      },
    ]);
  });
});

describe('a head of 13 in, 330.2', () => {
  // Good from 1 to 4.5 mm under it, loose to 5.7. Three-ply sheets move 0.27 % from 7 to 20 % at most: 329 by 0.2 for 3 %.
  const shell = (diameter: number, build: string, from: number, to: number) => ({
    'shell.nominal': '13 in',
    'shell.diameter': diameter,
    'shell.build': build,
    ...climate(from, to),
  });
  const most = (build: string, by: number) => (build === 'ply' ? 0.0027 / 13 : 0.00353) * by;
  test.each<[string, number, string, number, number, string | undefined, number | undefined]>([
    ['floats when it shrinks by 3.5', 327.4, 'stave', 50, 30, 'season-head-floats', 324.5],
    ['is loose when it shrinks by 0.2', 325.8, 'ply', 50, 30, 'season-head-floats', 325.7],
    ['is too large when it grows by 3.2', 327.4, 'stave', 50, 65, 'season-head-binds', 330.2],
    ['is tight when it grows by 0.2', 329.1, 'ply', 50, 65, 'season-head-binds', 329.2],
    ['stays good', 327.4, 'ply', 50, 30, undefined, undefined],
    ['was tight and is good', 329.3, 'ply', 50, 30, undefined, undefined],
    ['was too large and is larger', 331, 'stave', 50, 65, undefined, undefined],
    ['was loose and is loose', 325, 'ply', 50, 30, undefined, undefined],
    ['was tight and is too large', 329.5, 'stave', 50, 65, 'season-head-binds', 330.2],
    ['was loose and floats', 325, 'stave', 50, 30, 'season-head-floats', 324.5],
    // Better than today is no finding of the season.
    ['was too large and is only tight', 330.3, 'ply', 50, 30, undefined, undefined],
    ['floated and is only loose', 324.4, 'ply', 50, 65, undefined, undefined],
    // 0.353 % of 325.6 for each of some 3.6 % of moisture: to 329.7, between the limits of tight and too large.
    ['was loose and is tight', 325.6, 'stave', 30, 54, 'season-head-binds', 329.2],
    ['was loose and is too large', 325.6, 'stave', 30, 65, 'season-head-binds', 330.2],
  ])('%s', (_, diameter, build, from, to, id, limit) => {
    const set = shell(diameter, build, from, to);
    const heads = told(set).filter((f) => f.id.startsWith('season-head'));
    expect(heads.map((f) => f.id)).toEqual(id === undefined ? [] : [id]);
    const [f] = heads;
    if (!f) return;
    const season = found(set, 'season-movement')?.facts ?? {};
    expect(f).toMatchObject({ level: 'care', at: 'shell', unit: 'mm' });
    expect(f.limit).toBeCloseTo(limit ?? 0, 9);
    expect(f.measured).toBeCloseTo(diameter * (1 + most(build, Number(season['to']) - Number(season['from']))), 9);
    expect(f.facts).toEqual({ ...season, nominal: expect.closeTo(330.2, 9) });
  });
  test('of no known size says nothing', () => {
    expect(ids({ ...climate(50, 65), 'shell.diameter': 331 })).toEqual(['season-movement']);
  });
});

describe('a collar kept for the next shell', () => {
  // 327.4 x 0.00353 x 3.0 = 3.5 on the diameter: 1.7 to 1.8 all round.
  const collar = (clearance: number) => ({ collar: { clearance } });
  test('holds it while the clearance takes what it grows or shrinks by', () => {
    const facts = found({}, 'season-movement')?.facts ?? {};
    const half = (327.4 * 0.00353 * (Number(facts['from']) - Number(facts['to']))) / 2;
    expect(ids(collar(half + 0.001))).toEqual(['season-movement']);
    const f = found(collar(half - 0.001), 'season-collar');
    expect(f).toMatchObject({ level: 'care', at: 'collar', unit: 'mm', facts });
    expect(f?.measured).toBeCloseTo(half, 9);
    expect(f?.limit).toBeCloseTo(half - 0.001, 9);
    expect(ids({ ...collar(half - 0.001), ...climate(30, 50) })).toContain('season-collar');
  });
  test('is not spoken of when none is asked for', () => {
    expect(ids({})).toEqual(['season-movement']);
    expect(ids(climate(30, 65))).not.toContain('season-collar');
  });
});

describe('out of round', () => {
  test('today and the season together pass to 2 mm, or to twice what the workshop lets pass', () => {
    const by = found({}, 'season-movement')?.facts?.['round'] as number;
    expect(by).toBeGreaterThan(0.7);
    expect(ids({ 'shell.round': 2 - by - 0.001 })).toEqual(['season-movement']);
    const f = found({ 'shell.round': 2 - by + 0.001 }, 'season-out-of-round');
    expect(f).toMatchObject({ level: 'care', at: 'shell', limit: 2, unit: 'mm' });
    expect(f?.facts).toEqual(found({}, 'season-movement')?.facts);
    expect(f?.measured).toBeCloseTo(2.001, 9);
    const limits = { limits: { round: 1.5 } };
    expect(ids({ 'shell.round': 3 - by - 0.001, ...limits })).toEqual(['season-movement']);
    expect(found({ 'shell.round': 3 - by + 0.001, ...limits }, 'season-out-of-round')?.limit).toBe(3);
  });
  test('a shell whose roundness was not measured is round', () => {
    // R 400 from 6.2 to 12 %: 4/3 400 4/pi 0.00188 5.8 / 2 = 3.7.
    const f = found({ 'shell.diameter': 800, ...climate(30, 65) }, 'season-out-of-round');
    expect(f?.measured).toBeGreaterThan(3.6);
    expect(f?.measured).toBeLessThan(3.8);
  });
  test('ply does not leave the round, however bad it is today', () => {
    expect(ids({ 'shell.build': 'ply', 'shell.round': 3 })).toEqual(['season-movement']);
  });
});

describe('a finding points at its own line, or else the next', () => {
  test('findings stand at the climate, or else at the shell; the collar first at its own', () => {
    const bench = benchOf(changed(staves, { collar: { clearance: 0.5 }, 'shell.round': 2, 'shell.nominal': '13 in' }));
    const lines = (keys: Record<string, number>) =>
      Object.fromEntries(checkSeasons({ ...bench, jig: { ...bench.jig, lines: keys } }).map((f) => [f.id, f.line]));
    const all = (line: number, collar: number) => ({
      'season-movement': line,
      'season-head-floats': line,
      'season-out-of-round': line,
      'season-collar': collar,
    });
    expect(lines({ collar: 1, climate: 2, shell: 3 })).toEqual(all(2, 1));
    expect(lines({ climate: 2, shell: 3 })).toEqual(all(2, 2));
    expect(lines({ shell: 3 })).toEqual(all(3, 3));
    const asked = benchOf(changed(staves, { 'shell.wood': null }));
    const line = (keys: Record<string, number>) =>
      checkSeasons({ ...asked, jig: { ...asked.jig, lines: keys } })[0]?.line;
    expect(line({ climate: 2, shell: 3 })).toBe(2);
    expect(line({ shell: 3 })).toBe(3);
  });
});
