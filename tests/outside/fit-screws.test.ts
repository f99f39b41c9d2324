import { describe, expect, test } from 'vitest';
import { clearanceHoles, mediumHole } from '../../src/data/clearance.ts';
import { drillSizes, nearestDrills } from '../../src/data/drills.ts';
import { parseThread } from '../../src/data/threads.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Thread } from '../../src/model/thread.ts';
import { changed, factsOf, type Raw } from '../helpers/jig-cases.ts';

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
