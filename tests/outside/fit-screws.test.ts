import { describe, expect, test } from 'vitest';
import { clearanceHoles, mediumHole } from '../../src/data/clearance.ts';
import { drillSizes, nearestDrills } from '../../src/data/drills.ts';
import { parseThread } from '../../src/data/threads.ts';
import { checkScrews } from '../../src/fit/screws.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Thread } from '../../src/model/thread.ts';
import { changed, type Raw } from '../helpers/changed.ts';
import { benchOf, factsBy } from '../helpers/laid-out.ts';

const thread = (name: string): Thread => parseThread(name) as Thread;

describe('clearance holes', () => {
  // ISO 273:1979, series fine, medium, coarse.
  test.each([
    ['M3', 3.2, 3.4, 3.6],
    ['M4', 4.3, 4.5, 4.8],
    ['M5', 5.3, 5.5, 5.8],
    ['M6', 6.4, 6.6, 7],
    ['M8', 8.4, 9, 10],
  ])('%s', (name, fine, medium, coarse) => {
    expect(clearanceHoles(thread(name))).toMatchObject({ fine, medium, coarse, source: 'ISO 273:1979' });
  });

  // Close and free drills of US shop charts: #18, #16; #9, #7; #2, #1; F, H.
  test.each([
    ['8-32', 4.3053, 4.4958, '#16'],
    ['10-24', 4.9784, 5.1054, '#7'],
    ['12-24', 5.6134, 5.7912, '#1'],
    ['1/4-20', 6.5278, 6.7564, 'H'],
  ])('%s', (name, close, free, drill) => {
    const holes = clearanceHoles(thread(name));
    expect(holes.fine).toBeCloseTo(close, 4);
    expect(holes.medium).toBeCloseTo(free, 4);
    expect(nearestDrills(holes.medium).nearest.name).toBe(drill);
  });

  test('an odd thread lies between its neighbours', () => {
    const odd = mediumHole(thread('4.5 x 0.75'));
    expect(odd).toBeGreaterThan(4.9);
    expect(odd).toBeLessThan(5.1);
  });
});

describe('drills on sale', () => {
  test('80 numbers, 26 letters, 64 fractions and metric sizes, in order of size', () => {
    const all = drillSizes();
    expect(all.filter((d) => d.name.startsWith('#'))).toHaveLength(80);
    expect(all.filter((d) => /^[A-Z]$/.test(d.name))).toHaveLength(26);
    expect(all.filter((d) => d.name.endsWith(' in'))).toHaveLength(64);
    expect(all.every((d, i) => i === 0 || d.diameter >= (all[i - 1]?.diameter ?? 0))).toBe(true);
  });

  // ASME B94.11M: #16 0.177 in, E 0.250 in (which is 1/4), Z 0.413 in, #80 0.0135 in.
  test.each([
    [4.4958, '#16'],
    [6.35, '1/4 in'],
    [10.4902, 'Z'],
    [0.3429, '#80'],
    [5.5, '5.5 mm'],
    [25.4, '1 in'],
  ])('%s mm is %s', (mm, name) => expect(nearestDrills(mm).nearest.name).toBe(name));

  test('the neighbours bracket the size', () => {
    const { under, over } = nearestDrills(5.57);
    expect(under?.name).toBe('7/32 in');
    expect(over?.name).toBe('5.6 mm');
  });
});

/** By hand: wall 6.6 + gasket 1 = 7.6 mm before the thread; M4 wants one diameter, 11.6; tapped 10 deep, 17.6 bottoms. */
const base: Raw = {
  jig: 1,
  name: 'Worked screws',
  shell: { diameter: 327.4, depth: 150, wall: 6.6 },
  lugs: {
    count: 8,
    rows: [{ edge: 'top', distance: 38 }],
    holes: { layout: 'upright', spacing: 20, drill: 4.5, screw: 'M4 x 16', tapped: 10 },
    foot: { width: 16, height: 30, gasket: 1 },
  },
};
const factsOf = (raw: Raw): readonly Fact[] => factsBy(checkScrews, raw);
const found = (set: Record<string, unknown>, id: string): Fact | undefined =>
  factsOf(changed(base, set)).find((f) => f.id === id);
const level = (set: Record<string, unknown>, id: string) => found(set, id)?.level ?? 'silent';

describe('screw length', () => {
  test.each([
    ['M4 x 11.6', 'silent'],
    ['M4 x 11.5', 'stop'],
    ['M4 x 7', 'stop'],
  ])('%s reaches: %s', (screw, want) => expect(level({ 'lugs.holes.screw': screw }, 'screw-too-short')).toBe(want));

  test.each([
    ['M4 x 17.6', 'silent'],
    ['M4 x 17.7', 'stop'],
  ])('%s bottoms: %s', (screw, want) => expect(level({ 'lugs.holes.screw': screw }, 'screw-bottoms')).toBe(want));

  test.each([
    ['M4 x 13.6', 'silent'],
    ['M4 x 13.5', 'care'],
  ])('%s holds well: %s', (screw, want) =>
    expect(level({ 'lugs.holes.screw': screw }, 'screw-holds-little')).toBe(want),
  );

  test('ring and washer count', () => {
    // Ring 4 and washer 1 more: 12.6; M4 x 16 then holds 3.4.
    const set = { 'shell.rings': { top: { width: 60, thickness: 4 } }, 'lugs.holes.washer': 1 };
    expect(found(set, 'screw-too-short')?.measured).toBeCloseTo(3.4, 9);
  });

  test('one hole on a ring and one off it want two lengths when no length serves both', () => {
    // Holes 28 and 48 from the edge; a ring 35 wide and 7 thick: 11.6…17.6 for one, 18.6…24.6 for the other.
    const ring = (thickness: number) => ({ 'shell.rings': { top: { width: 35, thickness } } });
    expect(level(ring(7), 'two-screw-lengths')).toBe('care');
    expect(level(ring(1), 'two-screw-lengths')).toBe('silent');
  });

  test('without the tapped depth it says so', () => {
    const notes = factsOf(changed(base, { 'lugs.holes.tapped': null })).filter((f) => f.id === 'not-checked');
    expect(notes.some((f) => String(f.facts?.['needs']).includes('tapped'))).toBe(true);
  });
});

describe('hole against screw', () => {
  test.each([
    [3.99, 'hole-smaller-than-screw', 'stop'],
    [4, 'hole-smaller-than-screw', 'silent'],
    [4, 'hole-tight', 'care'],
    [4.3, 'hole-tight', 'silent'],
    [4.3, 'hole-for-screw', 'note'],
    [9, 'hole-wider-than-washer', 'care'],
    [8.9, 'hole-wider-than-washer', 'silent'],
  ])('%s mm for M4: %s %s', (drill, id, want) => expect(level({ 'lugs.holes.drill': drill }, id)).toBe(want));

  test.each([
    [4.3, 'fine'],
    [4.5, 'medium'],
    [4.8, 'coarse'],
    [5, 'wider than coarse'],
  ])('%s mm is the series %s', (drill, series) =>
    expect(found({ 'lugs.holes.drill': drill }, 'hole-for-screw')?.facts?.['series']).toBe(series),
  );

  test('parallel screws: 20 mm off the line on R 163.7, wall 6.6, tilt 7.02 deg and walk 0.81 mm', () => {
    const across = {
      'lugs.holes': { layout: 'across', spacing: 40, drill: 4.7, screw: 'M4 x 16', tapped: 10 },
      'lugs.foot.width': 60,
    };
    const f = found(across, 'parallel-screws-bind');
    expect(f).toMatchObject({ level: 'care' });
    expect(f?.facts?.['tilt']).toBeCloseTo(7.01763, 5);
    expect(f?.facts?.['walk']).toBeCloseTo(0.80635, 5);
    expect(level({ ...across, 'lugs.holes': { ...across['lugs.holes'], drill: 4.81 } }, 'parallel-screws-bind')).toBe(
      'silent',
    );
    expect(
      level({ ...across, 'lugs.holes': { ...across['lugs.holes'], axes: 'radial' } }, 'parallel-screws-bind'),
    ).toBe('silent');
  });
});

describe('all that a builder is told of a screw, worked by hand as above', () => {
  // ISO 888 lengths in 11.6 to 17.6: 12, 14, 16.
  const reach = {
    screw: 'M4 x 16',
    length: 16,
    grip: 7.6,
    wall: 6.6,
    ring: 0,
    gasket: 1,
    washer: 0,
    from: 11.6,
    to: 17.6,
    sold: '12 mm, 14 mm, 16 mm',
    group: 'lugs.rows.0',
    count: 1,
  };
  const first = { ...reach, places: 'lug-top-1-a' };
  const row = { ...reach, places: 'top-lugs' };
  const ringed = { grip: 14.6, ring: 7, from: 18.6, to: 24.6, sold: '20 mm, 22 mm' };
  const ring = { 'shell.rings': { top: { width: 35, thickness: 7 } } };
  // ISO 273 for M4, and a washer 9 across (ISO 7089).
  const hole = {
    screw: 'M4',
    fine: 4.3,
    medium: 4.5,
    coarse: 4.8,
    standard: 'ISO 273:1979',
    drill: '4.5 mm',
    diameter: 4,
    group: 'lugs.rows.0',
    count: 1,
    places: 'top-lugs',
  };
  /** The float's noise off every figure. */
  const near = (facts: Fact['facts']) =>
    Object.fromEntries(
      Object.entries(facts ?? {}).map(([k, v]) => [k, typeof v === 'number' ? Math.round(v * 1e6) / 1e6 : v]),
    );

  test.each<[string, Record<string, unknown>, string, string, number, number, Record<string, unknown>]>([
    [
      'screw-too-short',
      { screw: 'M4 x 9' },
      'stop',
      'lug-top-1-a',
      1.4,
      4,
      { ...first, screw: 'M4 x 9', length: 9, over: 2.6 },
    ],
    [
      'screw-holds-little',
      { screw: 'M4 x 12' },
      'care',
      'lug-top-1-a',
      4.4,
      6,
      { ...first, screw: 'M4 x 12', length: 12 },
    ],
    [
      'screw-bottoms',
      { screw: 'M4 x 20' },
      'stop',
      'lug-top-1-a',
      12.4,
      10,
      { ...first, screw: 'M4 x 20', length: 20, over: 2.4 },
    ],
    ['thread-in-casting-short', { tapped: 3 }, 'care', 'top-lugs', 3, 4, { ...row, to: 10.6, sold: 'none' }],
    [
      'screw-too-short',
      { washer: 5 },
      'stop',
      'lug-top-1-a',
      3.4,
      4,
      { ...first, washer: 5, grip: 12.6, from: 16.6, to: 22.6, sold: '18 mm, 20 mm, 22 mm', over: 0.6 },
    ],
    ['hole-for-screw', {}, 'note', 'top-lugs', 4.5, 4.3, { ...hole, series: 'medium' }],
    ['hole-tight', { drill: 4.26 }, 'care', 'top-lugs', 4.26, 4.3, { ...hole, series: 'fine' }],
    ['hole-smaller-than-screw', { drill: 3.9 }, 'stop', 'top-lugs', 3.9, 4, { ...hole, series: 'fine' }],
    ['hole-wider-than-washer', { drill: 9 }, 'care', 'top-lugs', 9, 9, { ...hole, series: 'wider than coarse' }],
  ])('%s with %o', (id, holes, want, at, measured, limit, facts) => {
    const set = Object.fromEntries(Object.entries(holes).map(([k, v]) => [`lugs.holes.${k}`, v]));
    const f = found(set, id);
    expect(f).toMatchObject({ level: want, at, unit: 'mm', limit });
    expect(f?.measured).toBeCloseTo(measured, 9);
    expect(near(f?.facts)).toEqual(facts);
  });

  test('the screw on the ring is too short, and each hole is told its own lengths', () => {
    const short = found(ring, 'screw-too-short');
    expect(short?.measured).toBeCloseTo(1.4, 9);
    expect(near(short?.facts)).toEqual({ ...first, ...ringed, over: 2.6 });
    const two = found(ring, 'two-screw-lengths');
    expect(two).toMatchObject({ level: 'care', at: 'top-lugs', limit: 6 });
    expect(two?.measured).toBeCloseTo(7, 9);
    expect(near(two?.facts)).toEqual({
      ...row,
      ...ringed,
      thick: 'lug-top-1-a',
      thin: 'lug-top-1-b',
      forThick: '20 mm, 22 mm',
      forThin: '12 mm, 14 mm, 16 mm',
    });
  });

  // Holes 28 and 48 below the top, 122 and 102 above the bottom of 150: a ring reaches a hole's middle or does not.
  const rings = (top: number, bottom: number) => ({
    'shell.rings': { top: { width: top, thickness: 7 }, bottom: { width: bottom, thickness: 3 } },
  });
  test.each([
    [28, 10, 'silent'],
    [28.1, 10, 'care'],
    [48, 10, 'care'],
    [48.1, 10, 'silent'],
    [10, 102.1, 'silent'],
    [28.1, 102.1, 'silent'],
  ])('rings %s and %s wide: two lengths %s', (top, bottom, want) => {
    expect(level(rings(top, bottom), 'two-screw-lengths')).toBe(want);
  });
  test('the thicker ring counts where both lie, and a hole below reaches the bottom one', () => {
    const grip = (set: Record<string, unknown>, at: string) =>
      found({ ...set, 'lugs.holes.screw': 'M4 x 8', 'lugs.rows': [{ edge: at, distance: 38 }] }, 'screw-too-short')
        ?.facts?.['grip'];
    expect(grip(rings(60, 10), 'top')).toBeCloseTo(14.6, 9);
    expect(grip(rings(10, 60), 'bottom')).toBeCloseTo(10.6, 9);
    expect(grip(rings(10, 10), 'top')).toBeCloseTo(7.6, 9);
    expect(grip(rings(60, 140), 'top')).toBeCloseTo(14.6, 9);
  });

  test('a thread of unknown depth has an open window, bottoms nowhere and wants two lengths nowhere', () => {
    const set = { 'lugs.holes.tapped': null, 'lugs.holes.screw': 'M4 x 9' };
    expect(near(found(set, 'screw-too-short')?.facts)).toMatchObject({ from: 11.6, to: 'open' });
    expect(level({ 'lugs.holes.tapped': null, 'lugs.holes.screw': 'M4 x 80' }, 'screw-bottoms')).toBe('silent');
    expect(level({ 'lugs.holes.tapped': null, ...ring }, 'two-screw-lengths')).toBe('silent');
    expect(level({ 'lugs.holes.tapped': null, 'lugs.holes.screw': 'M4 x 13.5' }, 'screw-holds-little')).toBe('care');
  });
  test('a casting tapped for less than a diameter is held by what it has', () => {
    expect(level({ 'lugs.holes.tapped': 4 }, 'thread-in-casting-short')).toBe('silent');
    expect(level({ 'lugs.holes.tapped': 3.9 }, 'thread-in-casting-short')).toBe('care');
    const set = (screw: string) => ({ 'lugs.holes.tapped': 3, 'lugs.holes.screw': screw });
    expect(level(set('M4 x 10.6'), 'screw-too-short')).toBe('silent');
    expect(found(set('M4 x 10.5'), 'screw-too-short')?.limit).toBe(3);
    // Tapped 5: a screw that fills it holds all there is.
    expect(level({ 'lugs.holes.tapped': 5, 'lugs.holes.screw': 'M4 x 12.6' }, 'screw-holds-little')).toBe('silent');
    expect(level({ 'lugs.holes.tapped': 5, 'lugs.holes.screw': 'M4 x 12.5' }, 'screw-holds-little')).toBe('care');
  });

  test('a drill that is not sold has its neighbours; one within 0.03 of a sold one is that one', () => {
    // Between 4.5 mm and #15 (0.180 in, 4.572).
    const f = found({ 'lugs.holes.drill': 4.535 }, 'drill-not-on-sale');
    expect(f).toMatchObject({ level: 'note', at: 'top-lugs', measured: 4.535, limit: 4.5 });
    expect(f?.facts).toMatchObject({ nearest: '4.5 mm', under: '4.5 mm', over: '#15' });
    expect(level({ 'lugs.holes.drill': 4.529 }, 'drill-not-on-sale')).toBe('silent');
    expect(level({ 'lugs.holes.drill': 4.531 }, 'drill-not-on-sale')).toBe('note');
    expect(level({ 'lugs.holes.drill': 60.1 }, 'drill-not-on-sale')).toBe('silent');
    expect(found({ 'lugs.holes.drill': 0.2 }, 'drill-not-on-sale')?.facts).not.toHaveProperty('under');
  });

  const asked = (set: Record<string, unknown>) =>
    factsOf(changed(base, set))
      .filter((f) => f.id === 'not-checked')
      .map((f) => [f.at, f.facts?.['check'], f.facts?.['needs']]);
  const length = 'hole against screw, and screw length';
  const casting = 'screws bottoming in the casting';
  const plate = (role: string, holes: Raw) => ({
    fittings: [{ name: 'plate', role, at: 20, edge: 'middle', distance: 0, foot: { width: 40, height: 40 }, holes }],
  });
  const pair = { layout: 'upright', spacing: 20, drill: 4.5 };
  test('what is missing is asked for by its key, of lugs and of fittings', () => {
    expect(asked({ 'lugs.holes.screw': null })).toContainEqual(['top-lugs', length, 'holes.screw of top lugs']);
    expect(asked({ 'lugs.holes.tapped': null })).toContainEqual(['top-lugs', casting, 'lugs.holes.tapped']);
    expect(asked(plate('other', pair))).toContainEqual(['plate', length, 'holes.screw of plate']);
    expect(asked(plate('other', { ...pair, screw: 'M4 x 16' }))).toContainEqual(['plate', casting, 'tapped of plate']);
    expect(asked({}).filter(([, what]) => what === length || what === casting)).toEqual([]);
  });
  test('a vent and a badge want no screw, but a drill that is sold', () => {
    for (const role of ['vent', 'badge']) {
      const set = plate(role, { layout: 'single', drill: 4.535 });
      expect(asked(set).filter(([, what]) => what === length)).toEqual([]);
      expect(found(set, 'drill-not-on-sale')).toMatchObject({ at: 'plate', measured: 4.535 });
    }
    expect(found(plate('other', { ...pair, drill: 4.535 }), 'drill-not-on-sale')?.at).toBe('plate');
  });
  test("a fitting's own gasket and screw count", () => {
    const set = plate('other', { ...pair, screw: 'M4 x 9', tapped: 10 });
    expect(near(factsOf(changed(base, set)).find((f) => f.at === 'plate-a')?.facts)).toMatchObject({
      grip: 6.6,
      gasket: 0,
    });
    const sealed = changed(base, set);
    Object.assign((sealed['fittings'] as { foot: Raw }[])[0]!.foot, { gasket: 2 });
    expect(near(factsOf(sealed).find((f) => f.at === 'plate-a')?.facts)).toMatchObject({ grip: 8.6, gasket: 2 });
  });

  test('without a foot there is no gasket', () => {
    const bare = { 'lugs.foot': null, 'lugs.holes.screw': 'M4 x 9' };
    expect(near(found(bare, 'screw-too-short')?.facts)).toMatchObject({ grip: 6.6, gasket: 0 });
    const footless = changed(base, plate('other', { ...pair, screw: 'M4 x 9', tapped: 10 }));
    Reflect.deleteProperty((footless['fittings'] as Raw[])[0]!, 'foot');
    expect(near(factsOf(footless).find((f) => f.at === 'plate-a')?.facts)).toMatchObject({ grip: 6.6, gasket: 0 });
  });

  test.each<[string, Record<string, unknown>, readonly string[]]>([
    [
      'screw-too-short',
      { 'lugs.holes.screw': 'M4 x 9' },
      ['lugs.rows.0.holes.screw', 'lugs.holes.screw', 'lugs.holes', 'lugs.rows.0'],
    ],
    ['screw-holds-little', { 'lugs.holes.screw': 'M4 x 12' }, ['lugs.rows.0.holes.screw', 'lugs.holes.screw']],
    ['screw-bottoms', { 'lugs.holes.screw': 'M4 x 20' }, ['lugs.rows.0.holes.screw', 'lugs.holes.screw']],
    ['two-screw-lengths', ring, ['lugs.rows.0.holes.screw', 'lugs.holes.screw']],
    ['thread-in-casting-short', { 'lugs.holes.tapped': 3 }, ['lugs.rows.0.holes.tapped', 'lugs.holes.tapped']],
    ['hole-for-screw', {}, ['lugs.rows.0.holes.drill', 'lugs.holes.drill']],
    ['hole-tight', { 'lugs.holes.drill': 4.2 }, ['lugs.rows.0.holes.drill', 'lugs.holes.drill']],
    ['hole-smaller-than-screw', { 'lugs.holes.drill': 3.9 }, ['lugs.rows.0.holes.drill', 'lugs.holes.drill']],
    ['hole-wider-than-washer', { 'lugs.holes.drill': 9 }, ['lugs.rows.0.holes.drill', 'lugs.holes.drill']],
    ['drill-not-on-sale', { 'lugs.holes.drill': 4.535 }, ['lugs.rows.0.holes.drill', 'lugs.holes.drill']],
    [
      'parallel-screws-bind',
      { 'lugs.holes.layout': 'across', 'lugs.holes.spacing': 40, 'lugs.foot.width': 60 },
      ['lugs.rows.0.holes.drill', 'lugs.holes.drill'],
    ],
  ])('%s points at the line of its own value, or else of what the lugs share', (id, set, keys) => {
    const bench = benchOf(changed(base, set));
    for (let i = 0; i < keys.length; i++) {
      const lines = Object.fromEntries(keys.slice(i).map((key, k) => [key, i + k + 1]));
      expect(checkScrews({ ...bench, jig: { ...bench.jig, lines } }).find((x) => x.id === id)?.line, keys[i]).toBe(
        i + 1,
      );
    }
  });

  test('parallel screws: the drill that clears the walk, and none asked for where there is no walk', () => {
    // 4 + 20 x 6.6 / 163.7 = 4.80635; #12 (0.189 in, 4.8006) is under it, #11 (0.191 in, 4.8514) over.
    const across = (spacing: number, drill: number) => ({
      'lugs.holes': { layout: 'across', spacing, drill, screw: 'M4 x 16', tapped: 10, axes: 'parallel' },
      'lugs.foot.width': 60,
    });
    const f = found(across(40, 4.7), 'parallel-screws-bind');
    expect(f).toMatchObject({ at: 'top-lugs', measured: 4.7, unit: 'mm' });
    expect(f?.limit).toBeCloseTo(4.80635, 5);
    expect(near(f?.facts)).toMatchObject({ across: 20, drill: '#11' });
    // 0.03 below is the same drill.
    expect(level(across(40, 4.777), 'parallel-screws-bind')).toBe('silent');
    expect(level(across(40, 4.776), 'parallel-screws-bind')).toBe('care');
    expect(level({ 'lugs.holes.drill': 3.9, 'lugs.holes.axes': 'parallel' }, 'parallel-screws-bind')).toBe('silent');
    for (const axes of ['radial', 'parallel'])
      expect(factsOf(changed(base, { 'lugs.holes.axes': axes })).every((f) => typeof f.id === 'string')).toBe(true);
  });

  test('the hole on the ring counts wherever it is in the pattern, alone or among three', () => {
    // The ring reaches 102.1 up and the lower hole lies at 102: 10.6 to pass, 1.4 held.
    const low = found({ ...rings(10, 102.1), 'lugs.holes.screw': 'M4 x 12' }, 'screw-too-short');
    expect(low?.at).toBe('lug-top-1-b');
    expect(low?.measured).toBeCloseTo(1.4, 9);
    // A plate at half the height, 75, under a ring that begins at 80: holes at 75, 85 and 80.
    const points = [0, 10, 5].map((upright) => ({ across: 0, upright }));
    const short = (holes: Raw) =>
      factsOf(
        changed(base, {
          ...plate('other', { drill: 4.5, screw: 'M4 x 12', tapped: 10, ...holes }),
          'shell.rings': { top: { width: 70, thickness: 5 } },
          'lugs.holes.screw': null,
        }),
      ).filter((f) => f.id === 'screw-too-short');
    expect(short({ layout: 'points', points }).map((f) => f.at)).toEqual(['plate-b']);
    expect(short({ layout: 'single', screw: 'M4 x 9' }).map((f) => f.at)).toEqual(['plate']);
  });

  test('two lengths are asked for only where the grips differ', () => {
    expect(level({ 'lugs.holes.tapped': 3 }, 'two-screw-lengths')).toBe('silent');
    // Under 3 mm of ring 14.6 to 15.4 and 11.6 to 12.4 have nothing in common; under 0.5 they have 12.1 to 15.6: 14.
    const ring = (thickness: number, tapped: number) => ({
      'shell.rings': { top: { width: 35, thickness } },
      'lugs.holes.tapped': tapped,
    });
    expect(level(ring(3, 4.8), 'two-screw-lengths')).toBe('care');
    expect(level(ring(0.5, 8), 'two-screw-lengths')).toBe('silent');
    // 14.6 to 15.6: they meet, but no screw between 14 and 16 is sold.
    expect(level(ring(3, 8), 'two-screw-lengths')).toBe('care');
    expect(level(ring(3, 8.4), 'two-screw-lengths')).toBe('silent');
  });

  test('lengths sold at either end of the window count, and three are named', () => {
    const sold = (set: Raw) => found({ 'lugs.holes.screw': 'M4 x 9', ...set }, 'screw-too-short')?.facts?.['sold'];
    // Washer 0.4: 8 to pass; 12 to 14 with 6 tapped, from 12 on without an end.
    expect(sold({ 'lugs.holes.washer': 0.4, 'lugs.holes.tapped': 6 })).toBe('12 mm, 14 mm');
    expect(sold({ 'lugs.holes.washer': 0.4, 'lugs.holes.tapped': null })).toBe('12 mm, 14 mm, 16 mm');
  });

  test('a ring as wide as the hole is high does not reach it', () => {
    const grip = (bottom: number) =>
      found(
        {
          ...rings(10, bottom),
          'lugs.holes.screw': 'M4 x 8',
          'lugs.holes.layout': 'single',
          'lugs.holes.spacing': null,
        },
        'screw-too-short',
      )?.facts?.['grip'];
    expect(grip(112)).toBeCloseTo(7.6, 9);
    expect(grip(112.1)).toBeCloseTo(10.6, 9);
  });

  test('an inch screw has two series; drills of a chart: #18 is close, #16 free', () => {
    const inch = (drill: number) =>
      found({ 'lugs.holes.screw': '8-32 x 5/8 in', 'lugs.holes.drill': drill }, 'hole-for-screw')?.facts;
    expect([4.31, 4.5, 4.6].map((d) => inch(d)?.['series'])).toEqual(['close', 'free', 'wider than free']);
    expect(inch(4.5)).not.toHaveProperty('coarse');
  });

  test('a fitting without holes is asked for no screw and no drill', () => {
    const bare = {
      fittings: [
        { name: 'plate', role: 'other', at: 20, edge: 'middle', distance: 0, foot: { width: 40, height: 40 } },
      ],
    };
    expect(asked(bare).filter(([at, what]) => at === 'plate' && what === length)).toEqual([]);
    expect(level(bare, 'drill-not-on-sale')).toBe('silent');
    expect(factsOf(changed(base, bare)).every((f) => typeof f.id === 'string')).toBe(true);
  });

  test('the screw furthest off the line decides, and past the largest drill the hole is bored', () => {
    const wide = (across: readonly number[], drill: number, screw: string) =>
      found(
        {
          'lugs.holes': {
            layout: 'points',
            points: across.map((a) => ({ across: a, upright: 0 })),
            drill,
            screw,
            tapped: 30,
          },
          'lugs.foot': { width: 110, height: 60 },
          'lugs.count': 2,
        },
        'parallel-screws-bind',
      );
    expect(near(wide([5, -20], 4.7, 'M4 x 16')?.facts)).toMatchObject({ across: 20, walk: 0.806353 });
    // 24 + 40 x 6.6 / 163.7 = 25.6127, and no drill is larger than 25.4.
    const bored = wide([-40, 40], 25, 'M24 x 3 x 40');
    expect(bored?.limit).toBeCloseTo(25.6127, 4);
    expect(bored?.facts?.['drill']).toBe('bored: no drill is so large');
  });

  test('what is asked for stands at the line of the holes, or else of the row', () => {
    const bench = benchOf(changed(base, { 'lugs.holes.screw': null }));
    const line = (lines: Record<string, number>) =>
      checkScrews({ ...bench, jig: { ...bench.jig, lines } }).find((f) => f.facts?.['check'] === length)?.line;
    expect(line({ 'lugs.rows.0': 2, 'lugs.rows.0.holes': 3 })).toBe(3);
    expect(line({ 'lugs.rows.0': 2 })).toBe(2);
  });
});
