import { describe, expect, test } from 'vitest';
import { USUAL_HARDNESS } from '../../src/data/cutting.ts';
import { findMachine } from '../../src/data/machines.ts';
import { findWood, WOOD_IDS } from '../../src/data/wood.ts';
import { recommend } from '../../src/feeds/feeds.ts';
import {
  chipThickness,
  cuttingSpeed,
  cuttingWork,
  feedForTorque,
  pointLength,
  powerOf,
  torqueOf,
} from '../../src/feeds/formulas.ts';
import { lowChipLoad } from '../../src/feeds/mill.ts';
import { stockOf } from '../../src/feeds/stock.ts';
import { feedSayings } from '../../src/say/feeds.ts';
import { sayAll } from '../../src/say/say.ts';

const slow = findMachine('rotary-slow')!;
const fast = findMachine('rotary-fast')!;
const ids = (facts: readonly { id: string; level: string }[]): string[] => facts.map((f) => `${f.level} ${f.id}`);

describe('textbook cutting formulas, worked numbers', () => {
  /** Wood a drill removes, mm3/s. */
  const drilled = (diameter: number, feed: number): number => ((Math.PI * diameter ** 2) / 4) * (feed / 60);
  // L = D / (2 tan(point / 2)), computed by hand for the usual points.
  test.each([
    [60, 0.866025],
    [82, 0.575184],
    [90, 0.5],
    [118, 0.30043],
    [130, 0.233154],
    [135, 0.207107],
    [140, 0.181985],
    [150, 0.133975],
  ])('point length at %i deg is %f of the diameter', (point, part) => {
    expect(pointLength(1, point)).toBeCloseTo(part, 6);
    expect(pointLength(6.35, point)).toBeCloseTo(6.35 * part, 5);
  });
  test('118 deg, radius 3: 1.8026 mm', () => expect(pointLength(6, 118)).toBeCloseTo(1.8026, 4));
  test('rim speed of the drill-press chart: 3/8 in at 1500 is 44.9 m/min, 2 in at 250 is 39.9, 1/4 in at 8000 is 159.6', () => {
    expect(cuttingSpeed(9.525, 1500)).toBeCloseTo(44.9, 1);
    expect(cuttingSpeed(50.8, 250)).toBeCloseTo(39.9, 1);
    expect(cuttingSpeed(6.35, 8000)).toBeCloseTo(159.6, 1);
    // Shop form: rev/min = 3.8197 SFM / D in inch.
    expect(cuttingSpeed(25.4, 381.97)).toBeCloseTo(100 * 0.3048, 3);
  });
  test('uncut chip of a lip: (f / z) sin(half the point)', () => {
    expect(chipThickness(0.1, 118)).toBeCloseTo(0.1 * Math.sin((59 * Math.PI) / 180), 12);
    expect(chipThickness(0.1, 180)).toBeCloseTo(0.1, 12);
  });
  test('6.35 mm brad point, 0.2 mm/rev, 3000 rev/min at 70 J/cm3: 316.7 mm3/s, 22.2 W, 0.0706 N m', () => {
    const removal = drilled(6.35, 0.2 * 3000);
    expect(removal).toBeCloseTo(316.7, 1);
    expect(powerOf(removal, 70)).toBeCloseTo(22.2, 1);
    expect(torqueOf(powerOf(removal, 70), 3000)).toBeCloseTo(0.0706, 4);
    expect(feedForTorque(0.0706, (Math.PI * 6.35 ** 2) / 4, 70)).toBeCloseTo(0.2, 3);
  });
  test('Forest Products Journal 22(11):55-59 (1972): 25.4 mm, 2400 rev/min, 3.728 N m is 937 W, 45.5 J/cm3 with two lips, 91.0 with one', () => {
    const power = 3.728 * 2 * Math.PI * 40;
    expect(power).toBeCloseTo(937, 0);
    expect(power / (drilled(25.4, 2 * 0.508 * 2400) / 1000)).toBeCloseTo(45.5, 1);
    expect(power / (drilled(25.4, 0.508 * 2400) / 1000)).toBeCloseTo(91, 1);
    expect(cuttingWork(0.53)).toBeGreaterThan(45.5);
    expect(cuttingWork(0.53)).toBeLessThan(91);
  });
});

describe('the drill-press chart, both sides of its lines', () => {
  test.each([
    ['twist', 4.8, 'black-cherry', 3000],
    ['twist', 6.4, 'black-cherry', 1500],
    ['twist', 9.5, 'black-cherry', 1500],
    ['twist', 11.1, 'black-cherry', 750],
    ['twist', 9.5, 'douglas-fir-coast', 3000],
    ['twist', 12, 'douglas-fir-coast', 1500],
    ['brad-point', 3.2, 'sugar-maple', 1200],
    ['brad-point', 6.4, 'sugar-maple', 1000],
    ['brad-point', 12.7, 'sugar-maple', 750],
    ['brad-point', 12.7, 'douglas-fir-coast', 1800],
    ['spur', 25.4, 'sugar-maple', 500],
    ['spur', 50.8, 'sugar-maple', 250],
    ['spur', 50.8, 'douglas-fir-coast', 500],
  ] as const)('%s %f in %s: %i rev/min', (kind, diameter, wood, speed) => {
    expect(recommend({ wood, tool: { kind, diameter }, depth: 6 }).value.speed).toBe(speed);
  });
  test('feed per revolution stays in the common 0.1 to 0.5 mm and falls as the wood gets heavier', () => {
    const woods = ['american-basswood', 'black-cherry', 'sugar-maple', 'shagbark-hickory', 'bubinga'];
    for (const diameter of [2, 3, 6, 11, 20]) {
      const feeds = woods.map(
        (wood) => recommend({ wood, tool: { kind: 'twist', diameter }, depth: 6 }).value.feedPerRev,
      );
      expect([...feeds].sort((a, b) => b - a)).toEqual(feeds);
      for (const f of feeds) {
        expect(f).toBeGreaterThan(0.055);
        expect(f).toBeLessThanOrEqual(0.5);
      }
    }
  });
  test('a wood harder than its weight is fed slower: sugar maple, G 0.63 and 6400 N; a softer one faster', () => {
    // By hand: (6400 / 15300)^(1 / 2.09) = 0.6590, mean with 0.63: 0.6443; 0.16 (0.6 / 0.6443)^1.1 = 0.14793 at 6 mm.
    const feed = (wood: string) => recommend({ wood, tool: { kind: 'twist', diameter: 6 }, depth: 6 }).value.feedPerRev;
    expect(feed('sugar-maple')).toBeCloseTo(0.14793, 5);
    // No hardness is published for the panel: by its gravity alone, 0.16 (0.6 / 0.62)^1.1.
    expect(feed('birch-plywood')).toBeCloseTo(0.15433, 4);
    for (const id of WOOD_IDS) {
      const { cutsLike, gravity, hardness } = stockOf(id);
      const { a, b } = USUAL_HARDNESS[findWood(id)!.group === 'softwood' ? 'softwood' : 'hardwood'];
      const harder = hardness === undefined ? 0 : Math.sign(hardness - a * gravity ** b);
      expect(Math.sign(Number((cutsLike - gravity).toFixed(9)))).toBe(harder);
      // Published means stray from the curve by a few tenths at most.
      expect(Math.abs(cutsLike / gravity - 1)).toBeLessThan(0.15);
    }
  });
  test('small cutters: low end of the chart at its own sizes, straight between', () => {
    expect(lowChipLoad(3.175, 'hardwood')).toBeCloseTo(0.05, 9);
    expect(lowChipLoad(6.35, 'mdf')).toBeCloseTo(0.3, 9);
    expect(lowChipLoad((3.175 + 6.35) / 2, 'hardwood')).toBeCloseTo((0.05 + 0.13) / 2, 9);
  });
});

describe('limits act and are named', () => {
  test('a router spindle cannot turn a 6 mm drill slowly enough and proposes boring', () => {
    const r = recommend({ wood: 'black-cherry', tool: { kind: 'twist', diameter: 6 }, depth: 9, machine: fast });
    expect(r.value.speed).toBe(8000);
    expect(r.value.limits).toContain('spindle-min');
    const [found] = sayAll(r.facts, feedSayings);
    expect(found).toMatchObject({
      level: 'stop',
      id: 'spindle-too-fast',
      measured: 8000,
      limit: 1500,
      unit: 'rev/min',
    });
    expect(found!.try).toMatch(/bore/i);
    expect(found!.try).toMatch(/end mill/);
  });
  test('the same drill on a slow spindle is fine, and a 1.5 mm drill is fine on the fast one', () => {
    expect(
      recommend({ wood: 'black-cherry', tool: { kind: 'twist', diameter: 6 }, depth: 9, machine: slow }).facts,
    ).toEqual([]);
    const small = recommend({ wood: 'black-cherry', tool: { kind: 'twist', diameter: 1.5 }, depth: 4, machine: fast });
    expect(small.facts).toEqual([]);
    expect(small.value.limits).toContain('spindle-min');
  });
  test('a mill is held to the slow spindle and keeps its chip', () => {
    const r = recommend({ wood: 'black-cherry', tool: { kind: 'end-mill', diameter: 3.175 }, depth: 8, machine: slow });
    expect(r.value.speed).toBe(6000);
    expect(r.value.limits).toContain('spindle-max');
    expect(r.value.feedPerLip).toBeCloseTo(0.035, 6);
    expect(r.value.feed).toBeCloseTo(6000 * 2 * 0.035, 6);
  });
  test('a slow feed axis turns the spindle down before it thins the chip', () => {
    const lame = { ...fast, feed: 700 };
    const r = recommend({ wood: 'black-cherry', tool: { kind: 'end-mill', diameter: 3.175 }, depth: 8, machine: lame });
    expect(r.value.limits).toContain('machine-feed');
    expect(r.value.feed).toBeCloseTo(700, 6);
    expect(r.value.feedPerLip).toBeCloseTo(0.035, 6);
    const lamer = recommend({
      wood: 'black-cherry',
      tool: { kind: 'end-mill', diameter: 3.175 },
      depth: 8,
      machine: { ...fast, feed: 300 },
    });
    expect(lamer.value.speed).toBe(8000);
    expect(ids(lamer.facts)).toContain('care chip-too-thin');
  });
  test('a big bit is held to the torque of the spindle', () => {
    const r = recommend({ wood: 'sugar-maple', tool: { kind: 'spur', diameter: 50.8 }, depth: 9, machine: slow });
    expect(r.value.limits).toContain('spindle-torque');
    expect(r.value.torque).toBeCloseTo((0.8 * 750) / (2 * Math.PI * 100), 6);
  });
  test('a bit that may not turn so fast is stopped', () => {
    const tool = { kind: 'spur', diameter: 20, maxSpeed: 1500 } as const;
    expect(ids(recommend({ wood: 'black-cherry', tool, depth: 9, machine: fast }).facts)).toContain(
      'stop bit-over-speed',
    );
    expect(
      recommend({ wood: 'douglas-fir-coast', tool: { ...tool, diameter: 12 }, depth: 9, machine: slow }).value.speed,
    ).toBe(1500);
  });
  test('flutes: as deep as they are long is fine, deeper is not', () => {
    const tool = { kind: 'twist', diameter: 6, flute: 12 } as const;
    expect(recommend({ wood: 'black-cherry', tool, depth: 12 }).facts).toEqual([]);
    expect(ids(recommend({ wood: 'black-cherry', tool, depth: 12.1 }).facts)).toEqual(['stop flute-too-short']);
  });
  test('pecks only beyond three diameters, and then no sliver at the end', () => {
    const at = (depth: number) =>
      recommend({ wood: 'black-cherry', tool: { kind: 'twist', diameter: 3 }, depth }).value;
    expect(at(9)).toMatchObject({ peck: null, pecks: 1 });
    expect(at(9.1)).toMatchObject({ pecks: 4 });
    expect(at(9.1).peck! * 4).toBeCloseTo(9.1, 9);
  });
  test('proven numbers win, from the call or from the machine, but not over the machine', () => {
    const tool = { kind: 'twist', diameter: 6 } as const;
    const own = recommend({ wood: 'black-cherry', tool, depth: 9, machine: slow, proven: { speed: 2000, feed: 250 } });
    expect(own.value).toMatchObject({ speed: 2000, feed: 250, feedPerRev: 0.125 });
    expect(own.value.limits).toContain('proven');
    const kept = { ...slow, proven: [{ kind: 'twist' as const, diameter: 6, wood: 'black-cherry', speed: 1800 }] };
    expect(recommend({ wood: 'black-cherry', tool, depth: 9, machine: kept }).value.speed).toBe(1800);
    expect(recommend({ wood: 'sugar-maple', tool, depth: 9, machine: kept }).value.speed).toBe(1500);
    const wild = recommend({
      wood: 'black-cherry',
      tool,
      depth: 9,
      machine: slow,
      proven: { speed: 9000, feed: 9000 },
    });
    expect(ids(wild.facts)).toEqual(['stop speed-outside-machine', 'stop feed-outside-machine']);
    const none = recommend({ wood: 'black-cherry', tool, depth: 9, proven: { peck: 0 } });
    expect(ids(none.facts)).toEqual(['stop zero-pecks']);
  });
  test('every number has a reason and a source, and common practice says so', () => {
    const { reasons } = recommend({
      wood: 'black-cherry',
      tool: { kind: 'twist', diameter: 6 },
      depth: 9,
      machine: slow,
    }).value;
    expect(reasons.map((r) => r.what)).toEqual(['speed', 'feed per revolution', 'pecks', 'load']);
    for (const r of reasons) expect(r.source).toMatch(/common practice/);
    expect(reasons[1]!.source).toMatch(/Wood Handbook FPL-GTR-190, Table 5-3a/);
  });
});
