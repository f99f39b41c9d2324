import { describe, expect, test } from 'vitest';
import type { Bench } from '../../src/fit/bench.ts';
import { check } from '../../src/fit/check.ts';
import { checkHoops } from '../../src/fit/hoops.ts';
import { checkRodLine } from '../../src/fit/rod-line.ts';
import { checkRods } from '../../src/fit/rods.ts';
import { checkThreads } from '../../src/fit/thread.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import { changed, type Raw } from '../helpers/changed.ts';
import { factsBy, jigOf } from '../helpers/laid-out.ts';
import { inTurn } from '../helpers/plates.ts';

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

const checks = (bench: Bench): readonly Fact[] =>
  [checkRods, checkThreads, checkRodLine, checkHoops].flatMap((one) => one(bench));
const factsOf = (raw: Raw): readonly Fact[] => factsBy(checks, raw);
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

/** One double-ended lug for both hoops. */
const both = {
  'shell.depth': 100,
  'lugs.ends': 'both',
  'lugs.rows': [{ edge: 'middle', distance: 0 }],
  'lugs.rod.face': 20,
  'lugs.rod.bottom': 30,
  'hoops.bottom': { ear: 6 },
  'rods.threaded': 40,
};

describe('double-ended lugs', () => {
  // Depth 100, lug in the middle, faces 2 x 20 apart; way 1.5 + 6 + 50 - 20 = 37.5; a 53.5 rod stands at 16 and 20.
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

/** What every finding about the worked rod says of it, but for what follows from its length. */
const drawn = {
  side: 'top',
  row: 'top lugs',
  group: 'lugs.rows.0',
  way: 33.5,
  washer: 1.5,
  ear: 6,
  distance: 38,
  face: 12,
  travel: 4,
  catch: 6,
  bottom: 22,
  window: 'open',
};

describe('all that a builder is told, worked by hand as above', () => {
  const long = {
    ...drawn,
    shortest: 42.5,
    longest: 49.5,
    length: 57,
    // 38 + 57 - 33.5 - 16 at the bottom, 38 + 57 - 33.5 - 9 at three turns.
    nearest: 45.5,
    furthest: 52.5,
    stock: '44, 47',
    buy: 47,
    d0: 23.5,
    d1: 27.5,
  };
  const stock = { 'rods.length.top': 57, 'rods.threaded': 40, 'rods.stock': [35, 44, 47, 50] };
  // Threaded for 9 mm the shank enters the thread at d0 = 9 + 6 - 4 = 11: 44.5 is the longest rod.
  const short = {
    ...drawn,
    shortest: 42.5,
    longest: 44.5,
    length: 40,
    nearest: 33.5,
    furthest: 35.5,
    d0: 6.5,
    d1: 10.5,
  };
  const noThread = { 'rods.thread': null, 'lugs.rod.takes': null, 'rods.length.top': 35, 'rods.threaded': null };

  test.each<[string, Record<string, unknown>, Partial<Fact>]>([
    [
      'rod-window',
      {},
      {
        level: 'note',
        measured: null,
        limit: null,
        facts: {
          ...drawn,
          shortest: 42.5,
          longest: 49.5,
          length: 45,
          nearest: 33.5,
          furthest: 40.5,
          d0: 11.5,
          d1: 15.5,
        },
      },
    ],
    ['rod-bottoms', stock, { level: 'stop', measured: 27.5, limit: 20, facts: { ...long, over: 7.5, reserve: 2 } }],
    ['rod-not-in-stock', stock, { level: 'care', measured: 57, limit: 50, facts: { ...long, list: '35, 44, 47, 50' } }],
    [
      'rod-too-short',
      { 'rods.length.top': 40, 'rods.threaded': 9 },
      { level: 'stop', measured: 0.5, limit: 3, facts: { ...short, when: 'finger tight', over: 2.5, turns: 0.5 } },
    ],
    [
      // Travel 1 mm: at full tension 44 - 33.5 + 1 - 6 = 5.5 of 6 mm held; the window begins at 33.5 + 6 + 6 - 1.
      'rod-too-short',
      { 'rods.length.top': 44, 'rods.travel': 1 },
      {
        measured: 5.5,
        limit: 6,
        facts: {
          ...drawn,
          travel: 1,
          shortest: 44.5,
          longest: 52.5,
          length: 44,
          nearest: 29.5,
          furthest: 37.5,
          d0: 10.5,
          d1: 11.5,
          when: 'at full tension',
          over: 0.5,
          turns: 5.5,
        },
      },
    ],
    [
      // Of an unknown thread it is known only that 35 - 33.5 + 4 does not reach the first of it, 6 below the face.
      'rod-too-short',
      noThread,
      {
        measured: -0.5,
        limit: 0,
        facts: {
          ...drawn,
          shortest: 39.5,
          longest: 49.5,
          length: 35,
          nearest: 23.5,
          furthest: 33.5,
          d0: 1.5,
          d1: 5.5,
          when: 'at full tension',
          over: 0.5,
          turns: 0,
        },
      },
    ],
    [
      // 44 - 33.5 + 4 - 6 = 8.5 of nine.
      'rod-holds-little',
      { 'rods.length.top': 44 },
      {
        level: 'care',
        measured: 8.5,
        limit: 9,
        facts: {
          ...drawn,
          shortest: 42.5,
          longest: 49.5,
          length: 44,
          nearest: 32.5,
          furthest: 39.5,
          d0: 10.5,
          d1: 14.5,
          over: 0.5,
        },
      },
    ],
    [
      // 15.5 - 8.5 = 7 of shank-free way, thread from 6 on; 33.5 + 8.5 + 6 - 4 = 44 is the longest.
      'rod-jams',
      { 'rods.threaded': 8.5 },
      {
        measured: 7,
        limit: 6,
        facts: {
          ...drawn,
          shortest: 42.5,
          longest: 44,
          length: 45,
          nearest: 39,
          furthest: 40.5,
          d0: 11.5,
          d1: 15.5,
          threaded: 8.5,
          over: 1,
        },
      },
    ],
  ])('%s with %o', (id, set, want) =>
    expect(found(set, id)).toMatchObject({ id, at: 'top-lugs', unit: 'mm', ...want }),
  );

  test.each([
    ['rod-bottoms', stock, long],
    ['rod-window', stock, long],
  ])('%s says nothing more than that', (id, set, want) => {
    const more = id === 'rod-bottoms' ? { over: 7.5, reserve: 2 } : {};
    expect(found(set, id)?.facts).toEqual({ ...want, ...more });
  });

  test('a rod of unknown length has a window and a length to buy, and no place for its lug', () => {
    const facts = factsOf(changed(worked, { 'rods.length': null, 'rods.stock': [35, 45] }));
    const { catch: _, bottom: __, ...known } = drawn;
    expect(facts.find((f) => f.id === 'rod-window')).toMatchObject({ level: 'note', at: 'top-lugs' });
    expect(facts.find((f) => f.id === 'rod-window')?.facts).toEqual({
      ...known,
      shortest: 42.5,
      longest: 49.5,
      stock: '45',
      buy: 45,
    });
    expect(facts.some((f) => f.id === 'rod-not-in-stock')).toBe(false);
  });

  // A rod of 42.5 or 49.5 is sound, as the windows above say.
  test('stock at either end of the window fits, and of two as near the middle the first is bought', () => {
    expect(found({ 'rods.stock': [42.4, 42.5, 49.5, 49.6] }, 'rod-window')?.facts).toMatchObject({
      stock: '42.5, 49.5',
      buy: 42.5,
    });
    expect(level({ 'rods.stock': [45] }, 'rod-not-in-stock')).toBe('silent');
    expect(level({}, 'rod-not-in-stock')).toBe('silent');
    expect(found({}, 'rod-window')?.facts).not.toHaveProperty('stock');
  });

  test('a window of one length is open', () => {
    // Bottom 15: at most 15 - 2 - 4 = 9 below the face, which is what three turns want.
    expect(found({ 'lugs.rod.bottom': 15 }, 'rod-window')?.facts).toMatchObject({
      shortest: 42.5,
      longest: 42.5,
      window: 'open',
    });
    expect(found({ 'lugs.rod.bottom': 14.9 }, 'rod-window')?.facts?.['window']).toBe('closed');
  });

  const contradictions = (set: Record<string, unknown>) =>
    factsOf(changed(worked, set))
      .filter((f) => f.id === 'contradiction')
      .map((f) => [f.level, f.measured, f.limit, f.facts?.['what'], f.facts?.['one'], f.facts?.['other']]);
  test('a rod no longer than its washer, and a rod threaded for more than its length', () => {
    expect(contradictions({ 'rods.length.top': 1.5, 'rods.threaded': 1.5 })).toEqual([
      ['stop', 1.5, 1.5, 'the rod is no longer than its washer is thick', 'rods.length', 'rods.washer'],
    ]);
    expect(contradictions({ 'rods.length.top': 1.6, 'rods.threaded': 1.6 })).toEqual([]);
    expect(contradictions({ 'rods.threaded': 45.1 })).toEqual([
      ['stop', 45.1, 45, 'more of the rod is threaded than it is long', 'rods.threaded', 'rods.length'],
    ]);
    expect(contradictions({ 'rods.threaded': 45 })).toEqual([]);
    // One threaded length for both: the longer rod is threaded for 50.
    expect(contradictions({ 'rods.threaded': 50, 'rods.length.bottom': 55 })).toEqual([]);
  });

  test('what is not known is asked for by its key, and nothing else is', () => {
    const asked = (set: Record<string, unknown>) =>
      factsOf(changed(worked, set))
        .filter((f) => f.id === 'not-checked' && f.at !== 'shell')
        .map((f) => [f.at, f.facts?.['check'], f.facts?.['needs']]);
    const depth = 'how deep the rods go';
    expect(asked({})).toEqual([]);
    expect(asked({ rods: null })).toContainEqual(['top-lugs', depth, 'rods']);
    expect(asked({ 'hoops.top.ear': null })).toContainEqual(['top-lugs', depth, 'hoops.top.ear']);
    expect(asked({ hoops: null })).toContainEqual(['top-lugs', depth, 'hoops.top.ear']);
    expect(asked({ 'lugs.rod': null })).toContainEqual(['top-lugs', depth, 'lugs.rod (face, catch, bottom)']);
    expect(asked({ rods: null, hoops: null, 'lugs.rod': null })).toContainEqual([
      'top-lugs',
      depth,
      'lugs.rod (face, catch, bottom), hoops.top.ear, rods',
    ]);
    expect(asked({ 'rods.length': null })).toContainEqual(['top-lugs', depth, 'rods.length.top']);
    expect(asked({ 'rods.threaded': null })).toEqual([['top-lugs', 'the plain shank of the rods', 'rods.threaded']]);
    expect(asked({ ...noThread, 'rods.length.top': 45, 'rods.threaded': 20 })).toContainEqual([
      'top-lugs',
      'turns and diameters of thread held',
      'rods.thread',
    ]);
    expect(asked({ 'hoops.top.ear-circle': null })).toEqual([['top-lugs', 'lean of the rods', 'hoops.top.ear-circle']]);
    expect(asked({ 'lugs.rod.standoff': null })).toEqual([['top-lugs', 'lean of the rods', 'lugs.rod.standoff']]);
    expect(asked({ 'hoops.top.ears': null })).toEqual([['hoop-top', 'ears against lugs', 'hoops.top.ears']]);
  });

  test("a rod's own thread counts, and the lug's only where the rod's is not known", () => {
    // 12-24: pitch 1.0583, three turns 3.175 and a window from 33.5 + 6 + 3.175; M8: pitch 1.25, three turns 3.75, but 8 less 4 is more.
    expect(found({ 'rods.thread': '12-24' }, 'rod-window')?.facts?.['shortest']).toBeCloseTo(42.675, 9);
    expect(found({ 'rods.thread': null, 'lugs.rod.takes': 'M8' }, 'rod-window')?.facts?.['shortest']).toBeCloseTo(
      43.5,
      9,
    );
  });

  test('turns are told by the pitch: 12-24 wants three of 25.4 / 24, and half a millimetre is 0.47 of one', () => {
    const f = found({ 'rods.thread': '12-24', 'rods.length.top': 40 }, 'rod-too-short');
    expect(f?.limit).toBeCloseTo(3.175, 9);
    expect(f?.facts?.['turns']).toBeCloseTo((0.5 * 24) / 25.4, 9);
  });

  test('a stock that holds the rod among others holds it, and nothing but findings is told', () => {
    expect(level({ 'rods.stock': [45, 50] }, 'rod-not-in-stock')).toBe('silent');
    expect(factsOf(worked).every((f) => typeof f === 'object')).toBe(true);
  });

  test('an unknown thread that the rod does reach is no stop', () => {
    expect(level({ ...noThread, 'rods.length.top': 35.6 }, 'rod-too-short')).toBe('silent');
    expect(level({ ...noThread, 'rods.length.top': 35.5 }, 'rod-too-short')).toBe('stop');
  });
});

describe('both ends of a double-ended lug, and the line of its rods, in full', () => {
  // As above: way 37.5; 54 long they stand 20.5 deep and want 41 of 40, 53 long 39.
  const windows = (set: Record<string, unknown>) =>
    factsOf(changed(worked, { ...both, ...set }))
      .filter((f) => f.id === 'rod-window')
      .map((f) => [f.at, f.facts?.['side'], f.facts?.['length']]);

  test('each end has its place, its side and its length', () => {
    expect(windows({ 'rods.length': { top: 52, bottom: 50 } })).toEqual([
      ['middle-lugs-top', 'top', 52],
      ['middle-lugs-bottom', 'bottom', 50],
    ]);
    expect(windows({ 'rods.length': 52, 'hoops.top': null })).toEqual([['middle-lugs-bottom', 'bottom', 52]]);
    expect(windows({ 'rods.length': 52, 'hoops.bottom': null })).toEqual([['middle-lugs-top', 'top', 52]]);
  });
  test('an end without a hoop is asked for nothing when the other has one; a row that serves one end always is', () => {
    const asked = (set: Record<string, unknown>, at: string) =>
      factsOf(changed(worked, set))
        .filter((f) => f.id === 'not-checked' && f.at === at)
        .map((f) => f.facts?.['needs']);
    expect(asked({ ...both, 'rods.length': 52, 'hoops.top': null }, 'middle-lugs-top')).toEqual([]);
    expect(asked({ ...both, 'rods.length': 52, 'hoops.bottom': null }, 'middle-lugs-bottom')).toEqual([]);
    expect(asked({ hoops: { bottom: { ear: 6 } } }, 'top-lugs')).toContain('hoops.top.ear');
  });
  test('without any hoop both ends are asked for', () => {
    const asked = factsOf(changed(worked, { ...both, hoops: null })).filter(
      (f) => f.facts?.['check'] === 'how deep the rods go',
    );
    expect(asked.map((f) => f.facts?.['needs'])).toEqual(['hoops.top.ear', 'hoops.bottom.ear']);
  });
  test.each([
    ['rods-meet', { top: 54, bottom: 53.5 }, 'stop', 40.5, 40, 0.5, 20.5, 20],
    ['rods-nearly-meet', { top: 53, bottom: 53.5 }, 'care', 39.5, 38, -0.5, 19.5, 20],
  ])('%s', (id, length, want, measured, limit, over, top, bottom) => {
    const f = found({ ...both, 'rods.length': length }, id);
    expect(f).toMatchObject({ level: want, at: 'middle-lugs', measured, limit, unit: 'mm' });
    expect(f?.facts).toEqual({ row: 'middle lugs', room: 40, over, top, bottom, reserve: 2, group: 'lugs.rows.0' });
  });
  test('two rows of double-ended lugs, one with shorter castings, and a fitting: each lug is judged by its own rods', () => {
    // The shorter lugs: faces 2 x 15 apart, way 42.5 to either end; 52 long the rods stand 13.5 deep and want 27 of 30.
    const rows = [
      { edge: 'middle', distance: 0 },
      { edge: 'middle', distance: 0, count: 4, first: 10, rod: { face: 15 } },
    ];
    const vent = {
      name: 'vent',
      role: 'vent',
      at: 5,
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill: 12 },
    };
    const met = (length: number) =>
      factsOf(changed(worked, { ...both, 'lugs.rows': rows, 'rods.length': length, fittings: [vent] }))
        .filter((f) => f.id === 'rods-meet' || f.id === 'rods-nearly-meet')
        .map((f) => [f.id, f.at, f.measured]);
    // 54 long: 20.5 deep in the long lugs, 41 of 40; 15.5 in the short, 31 of 30.
    expect(met(54)).toEqual([
      ['rods-meet', 'middle-lugs', 41],
      ['rods-meet', 'middle2-lugs', 31],
    ]);
    expect(met(52)).toEqual([]);
    expect(factsOf(changed(worked, { ...both, 'rods.length': 52 })).every((f) => typeof f === 'object')).toBe(true);
  });
  test('one length alone, or lugs of one end, meet nothing', () => {
    expect(level({ ...both, 'rods.length': { top: 120 } }, 'rods-meet')).toBe('silent');
    const rows = {
      'lugs.rows': [
        { edge: 'top', distance: 30 },
        { edge: 'bottom', distance: 30 },
      ],
      'hoops.bottom': { ear: 6 },
    };
    expect(level({ ...rows, 'rods.length': 60 }, 'rods-meet')).toBe('silent');
  });

  test('a lean is told with what leans where, outward or inward', () => {
    const off = (circle: number) => found({ 'hoops.top.ear-circle': circle }, 'rod-binds');
    expect(off(365.4)).toMatchObject({ level: 'stop', at: 'top-lugs', limit: 2, unit: 'deg' });
    expect(off(365.4)?.facts).toEqual({
      miss: expect.closeTo(4, 9),
      free: 29.5,
      circle: 365.4,
      line: expect.closeTo(357.4, 9),
      side: 'top',
      row: 'top lugs',
      way: 'outward',
      group: 'lugs.rows.0',
    });
    expect(off(349.4)?.facts).toMatchObject({ miss: expect.closeTo(-4, 9), way: 'inward' });
    // 0.6 mm over 29.5: 1.165 deg.
    const leans = found({ 'hoops.top.ear-circle': 358.6 }, 'rod-leans');
    expect(leans).toMatchObject({ level: 'care', at: 'top-lugs', limit: 1, unit: 'deg' });
    expect(leans?.measured).toBeCloseTo(1.1652, 3);
  });
  test('without a gasket the line lies a millimetre further in', () => {
    expect(level({ 'lugs.foot.gasket': null, 'hoops.top.ear-circle': 355.4 }, 'rod-leans')).toBe('silent');
    expect(found({ 'lugs.foot': null, 'hoops.top.ear-circle': 363.4 }, 'rod-binds')?.facts).toMatchObject({
      line: expect.closeTo(355.4, 9),
    });
  });
  test('a rod whose travel eats its whole way has no line to lean on', () => {
    expect(level({ 'rods.travel': 33.5, 'hoops.top.ear-circle': 400 }, 'rod-binds')).toBe('silent');
    expect(found({ 'rods.travel': 33.4, 'hoops.top.ear-circle': 400 }, 'rod-binds')?.facts?.['free']).toBeCloseTo(
      0.1,
      9,
    );
  });

  test('ten ears over eight lugs', () => {
    expect(found({ 'hoops.top.ears': 10 }, 'ears-mismatch')).toMatchObject({
      level: 'stop',
      at: 'hoop-top',
      measured: 8,
      limit: 10,
      unit: '',
      facts: { ears: 10, lugs: 8, side: 'top' },
    });
    expect(level({}, 'ears-mismatch')).toBe('silent');
  });
  // On a pitch of 45 deg the lugs stand at 0, 21 and 25 (= -20): the widest gap, 21, lies between two of them, so the hoop is
  // turned to 33 and misses by 12: the lugs at 0 and at 21, but not those at 25, which miss by 8.
  test('lugs off the ears on both sides', () => {
    const row = (count: number, first: number) => ({ edge: 'top', distance: 38, count, first });
    const f = factsOf(changed(worked, { 'lugs.rows': [row(4, 0), row(2, 115), row(2, 66)] })).find(
      (x) => x.id === 'rod-binds' && x.at === 'hoop-top',
    );
    expect(f?.facts).toMatchObject({
      miss: expect.closeTo(2 * 178.7 * Math.sin((6 * Math.PI) / 180), 9),
      row: 'lug at 66.0 deg',
    });
  });
  // Eight ears 45 deg apart; the second four lugs 5 deg off, 2.5 either way when the hoop is turned to suit.
  const rows = (first: number) => [0, first].map((a) => ({ edge: 'top', distance: 38, count: 4, first: a }));
  test('lugs off the ears: which, and on what circle', () => {
    const f = factsOf(changed(worked, { 'lugs.rows': rows(50) })).find(
      (x) => x.id === 'rod-binds' && x.at === 'hoop-top',
    );
    const miss = 2 * 178.7 * Math.sin((1.25 * Math.PI) / 180);
    expect(f?.facts).toMatchObject({
      miss: expect.closeTo(miss, 9),
      free: 29.5,
      side: 'top',
      way: 'sideways',
      row: 'lug at 50.0 deg',
    });
    expect(f?.facts).toMatchObject({ circle: expect.closeTo(357.4, 9), line: expect.closeTo(357.4, 9) });
    // Without an ear circle the skin's own, 163.7.
    const skin = factsOf(changed(worked, { 'lugs.rows': rows(50), 'hoops.top.ear-circle': null })).find(
      (x) => x.at === 'hoop-top',
    );
    expect(skin?.facts?.['circle']).toBeCloseTo(327.4, 9);
  });
  test('two rows half a pitch apart are a quarter of it off either way, which is let pass without rods', () => {
    expect(level({ rods: null, 'lugs.rows': rows(67.5) }, 'ears-mismatch')).toBe('silent');
  });
  // On a pitch of 45 deg the lugs stand at 0, 10, 19, 28 and 36: the widest gap is the first, the hoop is turned to 27.5 and
  // misses those at 10 and at 0 (= 45) by 17.5.
  test.each([0, 10])(
    'of two that miss as much the one is told that is least like the first, turned by %s deg',
    (turn) => {
      const row = (count: number, first: number) => ({ edge: 'top', distance: 38, count, first: first + turn });
      const f = factsOf(
        changed(worked, { 'lugs.rows': [row(4, 0), row(1, 55), row(1, 154), row(1, 253), row(1, 351)] }),
      ).find((x) => x.id === 'rod-binds' && x.at === 'hoop-top');
      expect(f?.facts).toMatchObject({
        miss: expect.closeTo(2 * 178.7 * Math.sin((8.75 * Math.PI) / 180), 9),
        row: `lug at ${55 + turn}.0 deg`,
      });
    },
  );
  test('each hoop is judged by its own lugs and rods', () => {
    const bottom = { ...rows(45)[0], edge: 'bottom', distance: 28, count: 8 };
    const two = { 'hoops.bottom': { ear: 6, ears: 8 }, 'lugs.rows': [...rows(50), bottom] };
    const facts = factsOf(changed(worked, two)).filter((f) => f.at.startsWith('hoop-'));
    // The bottom lugs are ten nearer their edge: 19.5 free.
    expect(facts.map((f) => [f.id, f.at, f.facts?.['free']])).toEqual([['rod-binds', 'hoop-top', 29.5]]);
    expect(level({ 'hoops.bottom': { ear: 6, ears: 8 } }, 'ears-mismatch')).toBe('silent');
  });
  test.each([33.5, 34])(
    "a rod whose travel of %s mm eats its way leans nowhere, but its lug is still its hoop's",
    (travel) => {
      const off = (set: Raw) => {
        const facts = factsOf(changed(worked, { 'rods.travel': travel, ...set }));
        expect(facts.every((f) => typeof f === 'object')).toBe(true);
        return facts.filter((f) => f.at === 'hoop-top').map((f) => f.id);
      };
      expect(off({ 'lugs.rows': rows(50) })).toEqual([]);
      const three = [0, 160, 320].map((first) => ({ edge: 'top', distance: 38, count: 1, first }));
      expect(off({ 'hoops.top.ears': 3, 'lugs.rows': three })).toEqual(['ears-mismatch']);
    },
  );
  test('without rods, lugs more than a quarter of the pitch off belong to another hoop', () => {
    // Lugs at 0, 160 and 320 over ears 120 deg apart lie 0, 40 and 80 past them: 40 either way at best.
    const three = [0, 160, 320].map((a) => ({ edge: 'top', distance: 38, count: 1, first: a }));
    const f = found({ rods: null, 'hoops.top.ears': 3, 'lugs.rows': three }, 'ears-mismatch');
    expect(f).toMatchObject({ level: 'stop', at: 'hoop-top', limit: 0, unit: 'deg' });
    expect(f?.measured).toBeCloseTo(40, 9);
    expect(f?.facts).toEqual({ ears: 3, lugs: 3, side: 'top', worst: 160 });
    // At 10, 180 and 330 they lie 0, 50 and -40 past them: the widest gap is the 50 between, which leaves 70 to share.
    const gap = [10, 180, 330].map((first) => ({ edge: 'top', distance: 38, count: 1, first }));
    const g = found({ rods: null, 'hoops.top.ears': 3, 'lugs.rows': gap }, 'ears-mismatch');
    expect(g?.measured).toBeCloseTo(35, 9);
    expect(g?.facts?.['worst']).toBe(180);
  });
});

describe('a finding points at the line that holds its first key, or else the next', () => {
  const depth = ['rods.length.top', 'rods.length', 'lugs.rows.0'];
  const lean = ['hoops.top.ear-circle', 'lugs.rows.0.rod', 'lugs.rod'];
  const ears = ['hoops.top.ears', 'lugs.count', 'lugs'];
  const two = { 'lugs.ends': 'both', 'lugs.rows': [{ edge: 'middle', distance: 0 }], 'hoops.bottom': { ear: 6 } };
  const noThread = { 'rods.thread': null, 'lugs.rod.takes': null };
  test.each<[string, string, Record<string, unknown>, readonly string[]]>([
    ['rod-window', 'top-lugs', {}, depth],
    ['rod-window', 'top-lugs', { 'rods.length': null }, ['rods.length.top', 'rods.length', 'lugs.rows.0']],
    ['rod-bottoms', 'top-lugs', { 'rods.length.top': 57 }, depth],
    ['rod-too-short', 'top-lugs', { 'rods.length.top': 35 }, depth],
    ['rod-too-short', 'top-lugs', { ...noThread, 'rods.length.top': 35 }, depth],
    ['rod-holds-little', 'top-lugs', { 'rods.length.top': 44 }, depth],
    ['contradiction', 'top-lugs', { 'rods.threaded': 60 }, depth],
    ['rods-meet', 'middle-lugs', { ...two, 'rods.length': 100 }, ['rods.length', 'lugs.rows.0']],
    ['rod-binds', 'top-lugs', { 'hoops.top.ear-circle': 365.4 }, lean],
    ['ears-mismatch', 'hoop-top', { 'hoops.top.ears': 10 }, ears],
    ['not-checked', 'top-lugs', { 'lugs.rod.standoff': null }, lean],
    ['not-checked', 'hoop-top', { 'hoops.top.ears': null }, ['hoops.top']],
    ['not-checked', 'top-lugs', { 'rods.threaded': null }, ['rods']],
    ['not-checked', 'top-lugs', { 'rods.length': null }, ['rods', 'lugs.rows.0']],
    ['not-checked', 'top-lugs', { 'hoops.top.ear': null }, ['lugs.rows.0', 'rods', 'hoops']],
    ['not-checked', 'top-lugs', noThread, ['rods']],
  ])('%s at %s with %o', (id, at, set, keys) => expect(inTurn(changed(worked, set), id, at, keys)).toEqual(keys));
});
