import { describe, expect, test } from 'vitest';
import { check } from '../../src/fit/check.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, factsOf, jigOf, type Raw } from '../helpers/jig-cases.ts';

/**
 * The worked example of the rods, by hand: washer 1.5, ear 6, lugs 38 from the edge, face 12, so 33.5 mm from head to face;
 * travel 4 mm; an M6 lug (pitch 1, diameter 6) that bites 6 mm below its face and stops the rod at 22.
 */
const worked: Raw = {
  jig: 1,
  name: 'Worked rods',
  shell: { diameter: 327.4, depth: 150, wall: 6.6, nominal: '13 in' },
  lugs: {
    count: 8,
    rows: [{ edge: 'top', distance: 38 }],
    holes: { layout: 'upright', spacing: 20, drill: 4.5, screw: 'M4 x 14', tapped: 10 },
    foot: { width: 16, height: 30, gasket: 1 },
    rod: { face: 12, catch: 6, bottom: 22, takes: 'M6', standoff: 14 },
  },
  rods: { length: { top: 45 }, thread: 'M6', threaded: 20, washer: 1.5, travel: 4 },
  hoops: { top: { ear: 6, skirt: 5, ears: 8, 'ear-circle': 357.4 } },
};

const found = (set: Record<string, unknown>, id: string): Fact | undefined =>
  factsOf(changed(worked, set)).find((f) => f.id === id);
const level = (set: Record<string, unknown>, id: string) => found(set, id)?.level ?? 'silent';

describe('how deep a rod stands', () => {
  test('a 45 rod stands at 11.5 and 15.5', () => {
    expect(found({}, 'rod-window')?.facts).toMatchObject({ way: 33.5, d0: 11.5, d1: 15.5 });
    expect(factsOf(worked).filter((f) => f.level === 'stop')).toEqual([]);
  });

  test('a 57 rod stands at 23.5 and 27.5 and bottoms in a lug of 22', () => {
    const f = found({ 'rods.length.top': 57, 'rods.threaded': 40 }, 'rod-bottoms');
    expect(f).toMatchObject({ level: 'stop', measured: 27.5, limit: 20, at: 'top-lugs' });
    expect(f?.facts).toMatchObject({ d0: 23.5, d1: 27.5, bottom: 22 });
  });

  // d1 <= 22 - 2: 33.5 + 16 = 49.5 is the longest; d0 - 6 >= 3 turns: 33.5 + 9 = 42.5 is the shortest.
  test.each([
    [49.5, 'silent'],
    [49.6, 'stop'],
  ])('against the bottom, %s mm: %s', (length, want) => {
    expect(level({ 'rods.length.top': length, 'rods.threaded': 40 }, 'rod-bottoms')).toBe(want);
  });

  test.each([
    [42.5, 'silent'],
    [42.4, 'stop'],
    [33.0, 'stop'],
  ])('three turns finger tight, %s mm: %s', (length, want) => {
    expect(level({ 'rods.length.top': length }, 'rod-too-short')).toBe(want);
  });

  // With 1 mm of travel the diameter at full tension is the harder limit: d0 + 1 - 6 >= 6, d0 >= 11, 44.5 long.
  test.each([
    [44.5, 'silent'],
    [44.4, 'stop'],
  ])('one diameter at full tension, %s mm: %s', (length, want) => {
    expect(level({ 'rods.length.top': length, 'rods.travel': 1 }, 'rod-too-short')).toBe(want);
  });

  // One and a half diameters: d0 + 4 - 6 >= 9, d0 >= 11, 44.5 long.
  test.each([
    [44.5, 'silent'],
    [44.4, 'care'],
  ])('one and a half diameters, %s mm: %s', (length, want) => {
    expect(level({ 'rods.length.top': length }, 'rod-holds-little')).toBe(want);
  });

  // d1 - threaded <= catch: 15.5 - 9.5 = 6.
  test.each([
    [9.5, 'silent'],
    [9.4, 'stop'],
  ])('plain shank with %s mm threaded: %s', (threaded, want) => {
    expect(level({ 'rods.threaded': threaded }, 'rod-jams')).toBe(want);
  });

  test('the windows: rods 42.5 to 49.5, and for a 45 rod lugs 33.5 to 40.5 from the edge', () => {
    expect(found({}, 'rod-window')?.facts).toMatchObject({
      shortest: 42.5,
      longest: 49.5,
      nearest: 33.5,
      furthest: 40.5,
    });
    expect(level({ 'lugs.rows.0.distance': 33.5 }, 'rod-bottoms')).toBe('silent');
    expect(level({ 'lugs.rows.0.distance': 33.4 }, 'rod-bottoms')).toBe('stop');
    expect(level({ 'lugs.rows.0.distance': 40.5 }, 'rod-too-short')).toBe('silent');
    expect(level({ 'lugs.rows.0.distance': 40.6 }, 'rod-too-short')).toBe('stop');
  });

  test('the stock length to buy is the one that lies in the window, nearest its middle', () => {
    expect(found({ 'rods.stock': [35, 44, 47, 57] }, 'rod-window')?.facts?.['buy']).toBe(47);
    expect(found({ 'rods.stock': [35, 57] }, 'rod-window')?.facts?.['stock']).toBe('none');
    expect(level({ 'rods.stock': [35, 57] }, 'rod-not-in-stock')).toBe('care');
  });

  test('a lug without room for bite, travel and reserve has no window', () => {
    expect(found({ 'lugs.rod.bottom': 12 }, 'rod-window')?.facts?.['window']).toBe('closed');
  });

  test('a row measured from the bottom edge has its own way', () => {
    const set = {
      'lugs.rows': [{ edge: 'bottom', distance: 40 }],
      'hoops.bottom': { ear: 4 },
      'rods.length': { bottom: 45 },
    };
    expect(found(set, 'rod-window')?.facts).toMatchObject({ way: 33.5, side: 'bottom' });
  });

  test.each([
    ['hoops.top.ear', 'hoops.top.ear'],
    ['lugs.rod', 'lugs.rod'],
    ['rods.length', 'rods.length.top'],
    ['rods.threaded', 'rods.threaded'],
  ])('without %s it says that it needs it', (key, needs) => {
    const notes = factsOf(changed(worked, { [key]: null })).filter((f) => f.id === 'not-checked');
    expect(notes.some((f) => String(f.facts?.['needs']).includes(needs))).toBe(true);
  });
});

describe("the limits are the workshop's own", () => {
  test('a reserve of 1 mm and four turns move both ends of the window', () => {
    const jig = jigOf(worked);
    const window = check(jig, layOut(jig), { reserve: 1, firstTurns: 4 }).find((f) => f.id === 'rod-window');
    expect(window?.facts).toMatchObject({ shortest: 43.5, longest: 50.5 });
    const own = { ...jig, limits: { reserve: 1, firstTurns: 4 } };
    expect(check(own, layOut(own)).find((f) => f.id === 'rod-window')?.facts).toMatchObject(window?.facts ?? {});
  });
});

describe('double-ended lugs', () => {
  // Depth 100, lug in the middle, faces 2 x 20 apart; way 1.5 + 6 + 50 - 20 = 37.5; a 53.5 rod stands at 16 and 20.
  const both = {
    'shell.depth': 100,
    'lugs.ends': 'both',
    'lugs.rows': [{ edge: 'middle', distance: 0 }],
    'lugs.rod.face': 20,
    'lugs.rod.bottom': 30,
    'hoops.bottom': { ear: 6 },
    'rods.threaded': 40,
  };
  test.each([
    [53.5, 'silent'],
    [53.6, 'stop'],
  ])('two %s mm rods share 40 mm: %s', (length, want) => {
    expect(level({ ...both, 'rods.length': length }, 'rods-meet')).toBe(want);
  });
  test('within the reserve it is told', () => {
    expect(level({ ...both, 'rods.length': 53 }, 'rods-nearly-meet')).toBe('care');
    expect(level({ ...both, 'rods.length': 52.5 }, 'rods-nearly-meet')).toBe('silent');
  });
  test('one head and no hoop below leave the lower end alone', () => {
    const facts = factsOf(changed(worked, { ...both, 'hoops.bottom': null }));
    expect(facts.filter((f) => f.at.endsWith('-bottom'))).toEqual([]);
  });
});

describe('the line of the rods', () => {
  // Way 33.5 less travel 4 leaves 29.5 free; radius 163.7 + gasket 1 + standoff 14 = 178.7.
  test('4 mm over 29.5 lean 7.7 deg and bind', () => {
    const f = found({ 'hoops.top.ear-circle': 365.4 }, 'rod-binds');
    expect(f?.measured).toBeCloseTo(7.722, 3);
    expect(f?.facts).toMatchObject({ free: 29.5 });
  });
  // tan 1 deg x 29.5 = 0.51493, tan 2 deg x 29.5 = 1.03017, on the radius.
  test.each([
    [0.514, 'silent', 'silent'],
    [0.516, 'care', 'silent'],
    [1.03, 'care', 'silent'],
    [1.031, 'silent', 'stop'],
    [-1.031, 'silent', 'stop'],
  ])('%s mm off the line', (off, leans, binds) => {
    const set = { 'hoops.top.ear-circle': 357.4 + 2 * off };
    expect(level(set, 'rod-leans')).toBe(leans);
    expect(level(set, 'rod-binds')).toBe(binds);
  });
  test('lugs that are not where the ears are lean sideways', () => {
    const rows = [0, 1].map((i) => ({ edge: 'top', distance: 38, count: 4, first: i === 0 ? 0 : 50 }));
    // Eight ears stand 45 deg apart; the second four lugs are 5 deg off, 2.5 either way when the hoop is turned to suit.
    const f = found({ 'lugs.rows': rows }, 'rod-binds');
    expect(f?.measured).toBeCloseTo(
      (Math.atan((2 * 178.7 * Math.sin((1.25 * Math.PI) / 180)) / 29.5) * 180) / Math.PI,
      6,
    );
    expect(level({ 'lugs.rows': rows.map((r, i) => ({ ...r, first: 45 * i })) }, 'rod-binds')).toBe('silent');
  });
});

describe('the hoop over the lugs', () => {
  // Face 12 of a lug 38 from the edge ends 26 below it; skirt + 4 mm of travel + 1 mm must stay above.
  test.each([
    [21, 'silent'],
    [21.1, 'stop'],
  ])('a skirt of %s mm: %s', (skirt, want) => {
    expect(level({ 'hoops.top.skirt': skirt }, 'hoop-on-lug')).toBe(want);
  });
  // The foot reaches 15 up: 23 below the edge.
  test.each([
    [18, 'silent'],
    [18.1, 'care'],
  ])('over the feet with %s mm: %s', (skirt, want) => {
    expect(level({ 'hoops.top.skirt': skirt }, 'hoop-over-foot')).toBe(want);
  });
});

describe('threads', () => {
  test.each([
    ['12-24 UNC', '#12-24', 'silent'],
    ['12-24', '5.5 mm x 1.06 mm', 'silent'],
    ['12-24', 'M6', 'stop'],
    ['M6', '1/4-20', 'stop'],
    ['M6', 'M6 x 0.75', 'stop'],
    ['12-24', '12-28', 'stop'],
  ])('rods %s in lugs %s: %s', (rods, lugs, want) => {
    expect(level({ 'rods.thread': rods, 'lugs.rod.takes': lugs }, 'thread-mismatch')).toBe(want);
  });
});
