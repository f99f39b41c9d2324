import { describe, expect, test } from 'vitest';
import type { Bench } from '../../src/fit/bench.ts';
import { checkGates } from '../../src/fit/gates.ts';
import { checkHoops } from '../../src/fit/hoops.ts';
import { checkRims } from '../../src/fit/rims.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, factsBy, type Raw } from '../helpers/jig-cases.ts';

/**
 * A bare shell, R = 160, 150 deep: round it, one degree is 2.792527 mm. Top lugs whose feet reach 20 mm towards the rim and
 * 10 mm inward; a hoop whose skirt reaches 5 mm down and comes 4 mm further from finger tight to full tension.
 */
const drum: Raw = {
  jig: 1,
  name: 'Hoops',
  shell: { diameter: 320, depth: 150, wall: 10 },
  lugs: {
    count: 8,
    first: 0,
    rows: [{ edge: 'top', distance: 40 }],
    holes: { layout: 'single', drill: 5 },
    foot: { left: 8, right: 8, rimward: 20, inward: 10 },
  },
  rods: { travel: 4, washer: 1.5 },
  hoops: { top: { skirt: 5 } },
};
const perDeg = (Math.PI * 160) / 180;
/** What one check alone finds when the drum is changed. */
function asking(one: (bench: Bench) => readonly Fact[]) {
  const all = (set: Record<string, unknown>, id: string): Fact[] =>
    factsBy(one, changed(drum, set)).filter((f) => f.id === id);
  const found = (set: Record<string, unknown>, id: string): Fact | undefined => all(set, id)[0];
  const level = (set: Record<string, unknown>, id: string): string => found(set, id)?.level ?? 'silent';
  const needs = (set: Record<string, unknown>, what: string): unknown[] =>
    all(set, 'not-checked').flatMap((f) => (f.facts?.['check'] === what ? [`${f.at}: ${f.facts['needs']}`] : []));
  return { all, found, level, needs };
}

describe('the skirt of a hoop over the lugs', () => {
  const { all, found, level, needs } = asking(checkHoops);
  const rod = { face: 12, catch: 6, bottom: 22 };

  // Foot 20 + skirt 5 + travel 4 + 1 to spare: 30 mm from the edge.
  test.each([
    [30, 'silent'],
    [29.9, 'stop'],
  ])('lugs %s mm from the edge: %s', (distance, want) =>
    expect(level({ 'lugs.rows.0.distance': distance }, 'hoop-on-lug')).toBe(want),
  );
  test('the finding says what is left, and how far to go', () => {
    const f = found({ 'lugs.rows.0.distance': 26 }, 'hoop-on-lug');
    expect(f).toMatchObject({ level: 'stop', at: 'top-lugs', limit: 1, unit: 'mm' });
    expect(f?.measured).toBeCloseTo(26 - 20 - 5 - 4, 9);
    const told = { side: 'top', row: 'top lugs', part: 'skirt', skirt: 5, travel: 4, top: 6, over: 4 };
    expect(f?.facts).toMatchObject({ ...told, group: 'lugs.rows.0' });
  });
  // With its face 12 mm from the origin the body ends there; the foot beyond it may be thin: 12 + 5 + 4 + 1 = 22.
  test.each([
    [30, 'silent', 'silent'],
    [29.9, 'silent', 'care'],
    [22, 'silent', 'care'],
    [21.9, 'stop', 'silent'],
  ])('the body of a lug %s mm from the edge, and its foot', (distance, body, foot) => {
    const set = { 'lugs.rod': rod, 'lugs.rows.0.distance': distance };
    expect(level(set, 'hoop-on-lug')).toBe(body);
    expect(level(set, 'hoop-over-foot')).toBe(foot);
  });
  test('a foot under the skirt is told with its own top', () => {
    const f = found({ 'lugs.rod': rod, 'lugs.rows.0.distance': 25 }, 'hoop-over-foot');
    expect(f).toMatchObject({ at: 'top-lugs', measured: -4, limit: 1, facts: { top: 5, over: 5, part: 'skirt' } });
  });
  test('the workshop may want more room', () => {
    const set = { limits: { 'skirt-gap': 3 }, 'lugs.rows.0.distance': 31.9 };
    expect(found(set, 'hoop-on-lug')?.limit).toBe(3);
    expect(level({ ...set, 'lugs.rows.0.distance': 32 }, 'hoop-on-lug')).toBe('silent');
  });
  test('a row at the bottom is the same casting turned: its rimward end points down', () => {
    const bottom = (distance: number) => ({
      'lugs.rows.0': { edge: 'bottom', distance },
      hoops: { bottom: { skirt: 5 } },
    });
    expect(level(bottom(30), 'hoop-on-lug')).toBe('silent');
    expect(found(bottom(29), 'hoop-on-lug')).toMatchObject({
      at: 'bottom-lugs',
      measured: 0,
      facts: { side: 'bottom', top: 9 },
    });
    // Only the hoop of its own side meets a lug.
    expect(level({ ...bottom(29), hoops: { top: { skirt: 5 } } }, 'hoop-on-lug')).toBe('silent');
  });
  test('a double-ended lug meets both hoops', () => {
    const both = (distance: number) =>
      all(
        {
          'lugs.ends': 'both',
          'lugs.rows.0': { edge: 'middle', distance },
          'lugs.foot': { width: 16, height: 130 },
          hoops: { top: { skirt: 5 }, bottom: { skirt: 5 } },
        },
        'hoop-on-lug',
      ).map((f) => [f.facts?.['side'], f.measured]);
    // Feet reach 65 of the 75 mm to either edge: 75 - 65 - 5 - 4 = 1 is just enough.
    expect(both(0)).toEqual([]);
    expect(both(-1)).toEqual([['bottom', 0]]);
    expect(both(2)).toEqual([['top', -1]]);
  });

  const check = 'room between top hoop and lugs';
  test.each<[string, Record<string, unknown>, string[]]>([
    ['nothing', {}, []],
    ['the skirt', { hoops: { top: { ear: 6 } } }, ['top-lugs: hoops.top.skirt']],
    ['the rods', { rods: null }, ['top-lugs: rods.travel']],
    ['the lug', { 'lugs.foot': null }, ['top-lugs: lugs.rod or lugs.foot']],
    [
      'all three',
      { hoops: { top: { ear: 6 } }, rods: null, 'lugs.foot': null },
      ['top-lugs: hoops.top.skirt, rods.travel, lugs.rod or lugs.foot'],
    ],
    ['a hoop of the other side only', { hoops: { bottom: { ear: 6 } }, rods: null }, []],
  ])('asked for when missing: %s', (_, set, want) => expect(needs(set, check)).toEqual(want));
  test('without a travel what is sure is said all the same', () => {
    // 25.9 - 20 - 5 = 0.9 mm with the hoop not yet drawn down.
    const set = { rods: null, 'lugs.rows.0.distance': 25.9 };
    expect(found(set, 'hoop-on-lug')?.facts).toMatchObject({ travel: 0 });
    expect(found(set, 'hoop-on-lug')?.measured).toBeCloseTo(0.9, 9);
    expect(needs(set, check)).toEqual(['top-lugs: rods.travel']);
    expect(level({ ...set, 'lugs.rows.0.distance': 26 }, 'hoop-on-lug')).toBe('silent');
    const foot = { ...set, 'lugs.rod': rod };
    expect(level(foot, 'hoop-over-foot')).toBe('care');
    expect(needs(foot, check)).toEqual(['top-lugs: rods.travel']);
  });
});

describe('a seat on the face of its lug', () => {
  const { found, level } = asking(checkHoops);
  // Seat 6 above the edge, lugs 40 below, so 46 mm to the origin; the hoop comes down by 4: a face at 42 just lets it.
  const seat = (face: number) => ({
    'lugs.rod': { face, catch: 6, bottom: 22 },
    hoops: { top: { ear: 6 } },
  });
  test.each([
    [42, 'silent'],
    [42.1, 'stop'],
  ])('face %s mm above the origin: %s', (face, want) => expect(level(seat(face), 'hoop-on-lug')).toBe(want));
  test('is told by the ear', () => {
    const f = found(seat(44), 'hoop-on-lug');
    expect(f).toMatchObject({ level: 'stop', at: 'top-lugs', measured: -2, limit: 0 });
    const told = { side: 'top', row: 'top lugs', part: 'ear', ear: 6, travel: 4, top: -4, over: 2 };
    expect(f?.facts).toMatchObject({ ...told, group: 'lugs.rows.0' });
  });
});

describe('fittings in the reach of a hoop', () => {
  const { found, level } = asking(checkHoops);
  const bracket = (more: Raw, hoop: Raw = {}): Record<string, unknown> => ({
    'hoops.top': { skirt: 5, ...hoop },
    fittings: [
      {
        name: 'bracket',
        role: 'bracket',
        at: 20,
        edge: 'top',
        distance: 20,
        foot: { left: 15, right: 10, rimward: 8, inward: 12 },
        ...more,
      },
    ],
  });
  // 8 towards the rim + skirt 5 + travel 4.
  test.each([
    [17, 'silent'],
    [16.9, 'care'],
  ])('a foot %s mm from the edge: %s', (distance, want) =>
    expect(level(bracket({ distance }), 'hoop-near-fitting')).toBe(want),
  );
  test('a fitting at the bottom is measured from there, by its lower end', () => {
    const low = (distance: number) => ({
      ...bracket({ edge: 'bottom', distance, name: 'spur plate' }),
      hoops: { bottom: { skirt: 5 } },
    });
    expect(level(low(17), 'hoop-near-fitting')).toBe('silent');
    const f = found(low(15), 'hoop-near-fitting');
    expect(f).toMatchObject({ level: 'care', at: 'spur-plate', measured: 7, limit: 9 });
    expect(f?.facts).toMatchObject({ side: 'bottom', part: 'foot', what: 'spur-plate', over: 2, group: 'fittings.0' });
  });
  test('without rods the skirt alone counts; without a skirt nothing', () => {
    expect(level({ ...bracket({ distance: 13 }), rods: null }, 'hoop-near-fitting')).toBe('silent');
    expect(found({ ...bracket({ distance: 12.9 }), rods: null }, 'hoop-near-fitting')?.limit).toBe(5);
    expect(level({ ...bracket({ distance: 9 }), 'hoops.top': { ear: 5 } }, 'hoop-near-fitting')).toBe('silent');
  });
  test.each([
    ['vent', 'silent'],
    ['badge', 'silent'],
    ['bracket', 'care'],
    ['other', 'care'],
  ])('a %s: %s', (role, want) => expect(level(bracket({ role, distance: 10 }), 'hoop-near-fitting')).toBe(want));
  // Half a gate of 60 is 30 mm; of that the foot takes 15 to the left of its screws and 10 to the right.
  test.each([
    [20 + 14.9 / perDeg, 60, 'silent'],
    [20 + 15.1 / perDeg, 60, 'care'],
    [20 - 19.9 / perDeg, 60, 'silent'],
    [20 - 20.1 / perDeg, 60, 'care'],
    [20, 30, 'silent'],
    [20, 29, 'care'],
  ])('a gate at %s deg, %s wide, lets it pass: %s', (at, width, want) =>
    expect(level(bracket({ distance: 10 }, { gates: [{ at, width }] }), 'hoop-near-fitting')).toBe(want),
  );
  test('one gate of several is enough', () => {
    const gates = [
      { at: 200, width: 60 },
      { at: 20, width: 60 },
    ];
    expect(level(bracket({ distance: 10 }, { gates }), 'hoop-near-fitting')).toBe('silent');
  });

  // The hoop's rods stand on a circle of 354 + 6 of thread: their outside is 180 from the axis, 20 off the shell.
  const lever = (clear: number | undefined, circle?: number) => ({
    ...bracket(
      { lever: { width: 20, height: 40, ...(clear === undefined ? {} : { clear }) }, foot: { width: 10, height: 10 } },
      circle === undefined ? {} : { 'ear-circle': circle },
    ),
    'rods.thread': 'M6',
  });
  test.each([
    [undefined, 354, 'stop'],
    [19.9, 354, 'stop'],
    [20, 354, 'silent'],
    [20, undefined, 'stop'],
  ])('an open lever %s mm off the shell, ears on %s: %s', (clear, circle, want) => {
    const set = lever(clear, circle);
    expect(level(set, 'hoop-on-lever')).toBe(want);
    expect(level(set, 'hoop-near-fitting')).toBe(want === 'stop' ? 'silent' : 'care');
  });
  test('a rod without a thread counts by its line', () => {
    expect(level({ ...lever(17, 354), 'rods.thread': null }, 'hoop-on-lever')).toBe('silent');
    expect(level({ ...lever(16.9, 354), 'rods.thread': null }, 'hoop-on-lever')).toBe('stop');
    expect(level({ ...lever(17, 354), rods: null, 'rods.thread': null }, 'hoop-on-lever')).toBe('silent');
  });
  test('a lever is told as such', () => {
    const f = found(lever(undefined), 'hoop-on-lever');
    expect(f).toMatchObject({ at: 'bracket', measured: 0, limit: 9, facts: { part: 'open lever', over: 9 } });
  });
});

describe('a hoop with rods and no lugs', () => {
  const { all, found, level } = asking(checkHoops);
  const lonely: Record<string, unknown> = {
    'hoops.bottom': { ear: 4, skirt: 5 },
    'hoops.top': { ear: 4, skirt: 5 },
    'rods.length': { top: 42, bottom: 42 },
  };
  test('is told, with the side the lugs serve', () => {
    const f = all(lonely, 'hoop-without-lugs');
    expect(f).toMatchObject([
      { level: 'stop', at: 'hoop-bottom', measured: 0, limit: 1, unit: '', facts: { side: 'bottom', served: 'top' } },
    ]);
    const upside = { ...lonely, 'lugs.rows.0': { edge: 'bottom', distance: 40 } };
    expect(all(upside, 'hoop-without-lugs')).toMatchObject([
      { at: 'hoop-top', facts: { side: 'top', served: 'bottom' } },
    ]);
  });
  test.each<[string, Record<string, unknown>]>([
    ['double-ended lugs', { 'lugs.ends': 'both' }],
    ['a row for each', { 'lugs.rows.1': { edge: 'bottom', distance: 40 } }],
    ['no rods for it', { 'rods.length': { top: 42 } }],
    ['no rods at all', { rods: null }],
    ['no seat for rods', { 'hoops.bottom': { skirt: 5 } }],
    ['no such hoop', { 'hoops.bottom': null }],
  ])('is in order with %s', (_, set) => expect(level({ ...lonely, ...set }, 'hoop-without-lugs')).toBe('silent'));
  test('is in order on a drum whose lugs are not written yet', () => {
    const set = {
      ...lonely,
      lugs: null,
      fittings: [{ role: 'vent', at: 0, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 10 } }],
    };
    expect(level(set, 'hoop-without-lugs')).toBe('silent');
  });
  // A row measured from the middle serves the nearer hoop; just in the middle the top one, or the only one there is.
  test.each<[number, Record<string, unknown>, string]>([
    [1, {}, 'bottom'],
    [-1, {}, 'top'],
    [0, {}, 'bottom'],
    [0, { 'hoops.top': null }, 'silent'],
    [1, { 'hoops.top': null }, 'bottom'],
  ])('lugs %s mm from the middle, %j: the %s hoop lacks lugs', (distance, set, want) => {
    const f = found({ ...lonely, 'lugs.rows.0': { edge: 'middle', distance }, ...set }, 'hoop-without-lugs');
    expect(f?.facts?.['side'] ?? 'silent').toBe(want);
  });
});

describe('rods of legs beside the ears', () => {
  const { found, level } = asking(checkGates);
  // Ears stand over the lugs: half an ear of 20 and half a rod of 10 make 15 mm, half a rod and half an M6 8 mm.
  const leg = (off: number, more: Raw = {}, rod: Raw = {}): Record<string, unknown> => ({
    'lugs.rows.0': { edge: 'bottom', distance: 40 },
    hoops: { bottom: { ear: 4, 'ear-circle': 354 } },
    'rods.thread': 'M6',
    fittings: [
      {
        name: 'leg',
        role: 'leg',
        at: 90 + off / perDeg,
        edge: 'bottom',
        distance: 110,
        foot: { width: 20, height: 20 },
        rod: { diameter: 10, ...rod },
        ...more,
      },
    ],
  });
  test.each([
    [15.01, 'silent', 'silent'],
    [14.99, 'care', 'silent'],
    [-14.99, 'care', 'silent'],
    [8.01, 'care', 'silent'],
    [7.99, 'silent', 'stop'],
    [0, 'silent', 'stop'],
  ])('%s mm beside an ear', (off, near, on) => {
    expect(level(leg(off), 'leg-rod-near-ear')).toBe(near);
    expect(level(leg(off), 'leg-rod-on-rod')).toBe(on);
  });
  test('exactly beside is beside', () => {
    // asin(8 / 160) is 2.866 deg, 8.0033 mm round the shell, either way; 15 mm make no room at all.
    const f = found(leg(0, {}, { across: 8 }), 'leg-rod-near-ear');
    expect(f).toMatchObject({ level: 'care', at: 'leg', limit: 15 });
    expect(f?.measured).toBeCloseTo(160 * Math.asin(8 / 160), 9);
    expect(f?.facts).toMatchObject({ one: 'leg', group: 'fittings.0' });
    expect(f?.facts?.['over']).toBeCloseTo(15 - 8.00334, 4);
  });
  test('on the rod, the finding says how far to go from it', () => {
    const f = found(leg(3), 'leg-rod-on-rod');
    expect(f?.limit).toBe(8);
    expect(f?.measured).toBeCloseTo(3, 9);
    expect(f?.facts?.['over']).toBeCloseTo(5, 9);
    // Without a thread only the rod's own half counts.
    expect(found({ ...leg(3), 'rods.thread': null }, 'leg-rod-on-rod')?.limit).toBe(5);
    expect(level({ ...leg(5.5), rods: null }, 'leg-rod-on-rod')).toBe('silent');
  });
  // 354 + 6 is 180 from the axis: 20 mm off the shell.
  test.each([
    [20, 'care', 'silent'],
    [19.9, 'silent', 'stop'],
  ])('a rod %s mm off the shell runs outside', (clear, near, on) => {
    expect(level(leg(0, {}, { clear }), 'leg-rod-near-ear')).toBe(near);
    expect(level(leg(0, {}, { clear }), 'leg-rod-on-rod')).toBe(on);
  });
  test.each<[string, Record<string, unknown>]>([
    ['a spur', leg(0, { role: 'spur' })],
    ['a leg whose rod is not known', leg(0, { rod: undefined })],
    ['a drum without that hoop', { ...leg(0), hoops: { top: { ear: 4 } } }],
    ['lugs of the other hoop only', { ...leg(0), 'lugs.rows.0': { edge: 'top', distance: 40 } }],
  ])('%s is passed over', (_, set) => {
    expect(level(set, 'leg-rod-on-rod')).toBe('silent');
    expect(level(set, 'leg-rod-near-ear')).toBe('silent');
  });
});

describe('how feet and holes over a rim are told', () => {
  const { all, found, level } = asking(checkRims);
  const low = (distance: number, more: Raw = {}): Record<string, unknown> => ({
    lugs: null,
    fittings: [
      {
        name: 'plate',
        role: 'other',
        at: 20,
        edge: 'bottom',
        distance,
        foot: { left: 15, right: 10, rimward: 8, inward: 12 },
        holes: { layout: 'single', drill: 6 },
        ...more,
      },
    ],
  });
  test('by the side and how far they reach over it', () => {
    const f = found(low(2), 'foot-over-rim');
    expect(f).toMatchObject({ level: 'stop', at: 'plate', measured: -6, limit: 0 });
    expect(f?.facts).toMatchObject({
      side: 'bottom',
      what: 'foot',
      over: 6,
      whole: 'no',
      count: 1,
      group: 'fittings.0',
    });
    expect(found(low(2), 'hole-over-rim')).toMatchObject({
      measured: -1,
      facts: { what: 'hole', over: 1, whole: 'no' },
    });
    const top = found(low(2, { edge: 'top' }), 'foot-over-rim');
    expect(top).toMatchObject({ measured: -6, facts: { side: 'top', over: 6, whole: 'no' } });
  });
  // The foot's far end 12 above the origin: 12 below the edge it is wholly off the shell.
  test.each([
    [-75 - 12, 'bottom', 'yes'],
    [-75 - 11.9, 'bottom', 'no'],
    [75 + 12, 'top', 'yes'],
    [75 + 11.9, 'top', 'no'],
  ])('%s mm from the middle lies beyond the %s edge, wholly: %s', (distance, side, whole) => {
    const foot = { width: 10, height: 24 };
    expect(found(low(distance, { edge: 'middle', foot }), 'foot-over-rim')?.facts).toMatchObject({ side, whole });
  });
  test('a foot that reaches over both rims is told by the one it passes further', () => {
    const foot = { width: 10, height: 200 };
    expect(found(low(1, { edge: 'middle', foot }), 'foot-over-rim')?.facts).toMatchObject({ side: 'top', over: 26 });
    expect(found(low(-1, { edge: 'middle', foot }), 'foot-over-rim')?.facts).toMatchObject({
      side: 'bottom',
      over: 26,
    });
    expect(found(low(0, { edge: 'middle', foot }), 'foot-over-rim')?.facts).toMatchObject({ side: 'top', over: 25 });
  });
  test('a hole near a rim: half a drill of wood, and a vent needs none', () => {
    const thin = (distance: number, role = 'other') => low(distance, { role, foot: { width: 1, height: 1 } });
    const f = found(thin(5), 'hole-near-rim');
    expect(f).toMatchObject({
      level: 'care',
      at: 'plate',
      measured: 2,
      limit: 3,
      facts: { side: 'bottom', what: 'hole', over: -2, whole: 'no' },
    });
    expect(level(thin(6), 'hole-near-rim')).toBe('silent');
    expect(level(thin(5, 'vent'), 'hole-near-rim')).toBe('silent');
    // A foot has no drill: 2 mm from the edge it is as good as anywhere.
    expect(level(low(10, { holes: undefined }), 'hole-near-rim')).toBe('silent');
  });
  test('a row of lugs is one finding for its feet and one for its holes, an edge each', () => {
    const rows = (distance: number): Record<string, unknown> => ({
      'lugs.rows': [
        { edge: 'top', distance },
        { edge: 'bottom', distance, first: 20 },
      ],
      'hoops.top': null,
    });
    const told = (id: string, distance: number) => all(rows(distance), id).map((f) => [f.at, f.facts?.['count']]);
    expect(told('foot-over-rim', 19)).toEqual([
      ['lug-top-1', 8],
      ['lug-bottom-1', 8],
    ]);
    expect(told('hole-over-rim', 2)).toEqual([
      ['lug-top-1', 8],
      ['lug-bottom-1', 8],
    ]);
    expect(told('hole-near-rim', 4)).toEqual([
      ['lug-top-1', 8],
      ['lug-bottom-1', 8],
    ]);
    expect(found(rows(19), 'foot-over-rim')?.facts?.['places']).toMatch(/^lug-top-1, lug-top-2, /);
  });
  test('one bracket over both edges is two findings', () => {
    const two = { edge: 'middle', distance: 0, at: [20, 60] };
    const upright = { ...two, holes: { layout: 'upright', spacing: 149, drill: 6 }, foot: { width: 10, height: 100 } };
    expect(all(low(0, upright), 'hole-over-rim').map((f) => [f.at, f.facts?.['side'], f.facts?.['count']])).toEqual([
      ['plate-1-a', 'top', 2],
      ['plate-1-b', 'bottom', 2],
    ]);
    const near = { ...upright, holes: { layout: 'upright', spacing: 140, drill: 6 } };
    expect(all(low(0, near), 'hole-near-rim').map((f) => f.facts?.['side'])).toEqual(['top', 'bottom']);
  });
  test("old holes over a rim are nobody's fault here", () => {
    const old = { 'shell.holes': [{ at: 200, edge: 'top', distance: 1, diameter: 8 }] };
    expect(level(old, 'hole-over-rim')).toBe('silent');
    expect(level({ ...old, 'shell.holes.0.distance': 6 }, 'hole-near-rim')).toBe('silent');
  });
});
