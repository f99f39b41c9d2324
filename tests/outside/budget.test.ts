import { describe, expect, test } from 'vitest';
import { budget } from '../../src/budget/budget.ts';
import { pairGoesOn, pairSpread, pairStraight } from '../../src/budget/chance.ts';
import { shareMet, simulate } from '../../src/budget/simulate.ts';
import { type Spread, spreadOf } from '../../src/budget/spread.ts';
import { findMethod, METHODS, termsOf } from '../../src/data/methods.ts';
import { samplingError } from '../../src/geometry/statistics.ts';
import type { ErrorTerm } from '../../src/model/accuracy.ts';
import type { Jig, Method, Pattern } from '../../src/model/jig.ts';
import type { Layout, Placed } from '../../src/model/layout.ts';

const even = (sigma: number): Spread => ({
  hole: { around: sigma, along: sigma },
  stretch: { around: 0, along: 0 },
  lean: 0,
  place: { around: 0, along: 0 },
});
const upright = { x: 0, y: 25.4 };
const still = { x: 0, y: 0 };

describe('two holes in closed form', () => {
  // c = 1, sigma = 0.5: erf(2) and 1 - exp(-4), and their sixteenth powers.
  test('crooked if need be: 0.995322, sixteen lugs 0.927726', () => {
    const p = pairGoesOn(1, upright, pairSpread(upright, even(0.5)));
    expect(p).toBeCloseTo(0.995322, 6);
    expect(p ** 16).toBeCloseTo(0.927726, 6);
  });

  test('held straight: 0.981684, sixteen lugs 0.743961', () => {
    const p = pairStraight(1, pairSpread(upright, even(0.5)));
    expect(p).toBeCloseTo(0.981684, 6);
    expect(p ** 16).toBeCloseTo(0.743961, 6);
  });

  test('a screw thicker than its hole never goes on', () => {
    expect(pairGoesOn(-0.1, upright, pairSpread(upright, even(0.5)))).toBe(0);
    expect(pairStraight(-0.1, pairSpread(upright, even(0.5)))).toBe(0);
  });

  test('the way the holes lie changes nothing when the errors are even', () => {
    for (const span of [upright, { x: 25.4, y: 0 }, { x: 15, y: -20 }]) {
      expect(pairGoesOn(1, span, pairSpread(span, even(0.5)))).toBeCloseTo(0.995322265, 9);
    }
  });
});

/** Four standard errors: one run in sixteen thousand fails by chance, and the seeds are fixed. */
const agrees = (seen: number, meant: number, samples: number) =>
  expect(Math.abs(seen - meant)).toBeLessThan(4 * samplingError(meant, samples));

describe('simulation against closed form', () => {
  const bores = [
    { at: { x: 0, y: -12.7 }, walk: still },
    { at: { x: 0, y: 12.7 }, walk: still },
  ];

  test('a million two-hole lugs agree within their own sampling error (seed 1)', () => {
    const samples = 1_000_000;
    const needs = simulate(bores, even(0.5), samples, 1);
    for (const reach of [0.4, 0.7, 1, 1.3]) {
      agrees(shareMet(needs.free, reach), pairGoesOn(reach, upright, pairSpread(upright, even(0.5))), samples);
      agrees(shareMet(needs.held, reach), pairStraight(reach, pairSpread(upright, even(0.5))), samples);
    }
  });

  test('uneven errors, stretch and lean agree too (seed 2)', () => {
    const samples = 60_000;
    const spread: Spread = {
      hole: { around: 0.2, along: 0.4 },
      stretch: { around: 0.004, along: 0.01 },
      lean: 0.01,
      place: { around: 0, along: 0 },
    };
    for (const [x, y] of [
      [0, 12.7],
      [15, 0],
      [9, 14],
    ] as const) {
      const span = { x: 2 * x, y: 2 * y };
      const needs = simulate(
        [
          { at: { x: -x, y: -y }, walk: still },
          { at: { x, y }, walk: still },
        ],
        spread,
        samples,
        2,
      );
      for (const reach of [0.3, 0.5, 0.8]) {
        agrees(shareMet(needs.free, reach), pairGoesOn(reach, span, pairSpread(span, spread)), samples);
        agrees(shareMet(needs.held, reach), pairStraight(reach, pairSpread(span, spread)), samples);
      }
    }
  });

  test('the general fit agrees with the closed form where both apply: parallel screws in radial holes (seed 4)', () => {
    const samples = 4000;
    const walk = (20 * 6.6) / 163.7;
    const needs = simulate(
      [
        { at: { x: -20, y: 0 }, walk: { x: walk, y: 0 } },
        { at: { x: 20, y: 0 }, walk: { x: -walk, y: 0 } },
      ],
      even(0.3),
      samples,
      4,
    );
    const span = { x: 40, y: 0 };
    for (const reach of [0.9, 1.1, 1.3]) {
      agrees(shareMet(needs.free, reach), pairGoesOn(reach, span, pairSpread(span, even(0.3)), walk), samples);
    }
  });

  test('holes of a fitting too many for a closed form: more holes, fewer chances; room for all, certainty', () => {
    const corners = [
      [-20, -15],
      [20, -15],
      [20, 15],
      [-20, 15],
    ] as const;
    const of = (n: number) =>
      simulate(
        corners.slice(0, n).map(([x, y]) => ({ at: { x, y }, walk: still })),
        even(0.3),
        2000,
        5,
      );
    const two = shareMet(of(2).free, 0.5);
    const three = shareMet(of(3).free, 0.5);
    const four = shareMet(of(4).free, 0.5);
    expect(two).toBeGreaterThan(three);
    expect(three).toBeGreaterThan(four);
    expect(shareMet(of(4).free, 3)).toBe(1);
    expect(shareMet(of(4).free, 0)).toBe(0);
  });
});

describe('error terms', () => {
  test('each term has an origin, a size and an axis of its own', () => {
    for (const m of METHODS) {
      expect(new Set(m.terms.map((t) => t.id)).size).toBe(m.terms.length);
      for (const t of m.terms) {
        expect(t.source.length).toBeGreaterThan(5);
        expect(t.size).toBeGreaterThan(0);
        expect(t.axis === 'lean').toBe(t.axis === 'lean' && t.unit === 'deg');
      }
    }
  });

  test('independent terms add by squares; an even spread of +-a has a deviation of a / sqrt 3', () => {
    const t = (over: Partial<ErrorTerm>): ErrorTerm => ({
      id: 'x',
      what: 'x',
      axis: 'both',
      each: 'hole',
      spread: 'sigma',
      size: 0.3,
      unit: 'mm',
      source: 'a test',
      ...over,
    });
    const shell = { radius: 100, depth: 150 };
    const s = spreadOf(
      [
        t({}),
        t({ size: 0.4, axis: 'around' }),
        t({ spread: 'within', size: Math.sqrt(3), axis: 'along' }),
        t({ each: 'fitting', size: 0.5 }),
        t({ each: 'shell', unit: 'stretch', axis: 'around', size: 0.01 }),
        t({ unit: 'deg', axis: 'around', each: 'fitting', size: 1 }),
      ],
      shell,
    );
    expect(s.hole.around).toBeCloseTo(0.5, 12);
    expect(s.hole.along).toBeCloseTo(Math.hypot(0.3, 1), 12);
    expect(s.stretch).toEqual({ around: 0.01, along: 0 });
    expect(s.place.along).toBeCloseTo(0.5, 12);
    expect(s.place.around).toBeCloseTo(Math.hypot(0.5, Math.PI, (100 * Math.PI) / 180), 9);
  });

  test('each more exact way is more exact: tape, paper, laser, collar, rotary', () => {
    const sigma = (m: Method) => spreadOf(termsOf(findMethod(m)), { radius: 163.7, depth: 152 }).hole.along;
    const order = (['tape', 'paper-wrap', 'cut-wrap', 'collar', 'rotary'] as const).map(sigma);
    expect([...order].sort((a, b) => b - a)).toEqual(order);
  });
});

const M4 = { text: 'M4 x 16', thread: { name: 'M4', diameter: 4, pitch: 0.7 }, length: 16 };

function drum(holes: Pattern, count: number, method?: Method): { jig: Jig; layout: Layout } {
  const radius = 163.7;
  const shell = {
    radius,
    inside: radius - 6.6,
    wall: 6.6,
    depth: 152,
    girth: 2 * Math.PI * radius,
    rings: {},
    joints: [],
    holes: [],
  };
  const row = { name: 'top', edge: 'top', distance: 36, height: 116, count, first: 0, turned: false, holes } as const;
  const placed: Placed[] = Array.from({ length: count }, (_, i) => ({
    id: `lug-top-${i + 1}`,
    group: 'top',
    role: 'lug',
    angle: (360 * i) / count,
    height: 116,
    edge: 'top',
    turned: false,
    holes: [],
    key: 'lugs.rows.0',
  }));
  const jig = {
    shell,
    rows: [row],
    fittings: [],
    hoops: {},
    assumptions: [],
    lines: { 'lugs.rows.0': 12 },
    ...(method === undefined ? {} : { method }),
  } as unknown as Jig;
  return { jig, layout: { radius, inside: shell.inside, wall: 6.6, depth: 152, placed, holes: [] } };
}

const pair = (drill: number, over: Partial<Pattern> = {}): Pattern => ({
  layout: 'upright',
  points: [
    { across: 0, upright: -12.7 },
    { across: 0, upright: 12.7 },
  ],
  drill,
  screw: M4,
  axes: 'parallel',
  ...over,
});

const exactly = (sigma: number): readonly ErrorTerm[] => [
  {
    id: 'all',
    what: 'all of it',
    axis: 'both',
    each: 'hole',
    spread: 'sigma',
    size: sigma,
    unit: 'mm',
    source: 'a test',
  },
];

describe('the budget of a drum', () => {
  test('sixteen lugs, 6 mm holes for M4, sigma 0.5: the worked example to its last digit', () => {
    const { jig, layout } = drum(pair(6), 16, 'tape');
    const { value } = budget(jig, layout, { terms: { tape: exactly(0.5) } });
    const m = value.methods[0]!;
    expect(m.groups[0]!.goesOn).toEqual({ value: expect.closeTo(0.995322, 6), how: 'closed form' });
    expect(m.groups[0]!.straight!.value).toBeCloseTo(0.981684, 6);
    expect(m.drum.goesOn).toBeCloseTo(0.927726, 6);
    expect(m.drum.straight).toBeCloseTo(0.743961, 6);
  });

  test('the hole it names reaches the level, and 0.01 mm less does not', () => {
    for (const level of [0.8, 0.95, 0.99]) {
      const first = drum(pair(6), 16, 'tape');
      const terms = { tape: exactly(0.5) };
      const named = budget(first.jig, first.layout, { terms, level }).value.methods[0]!.groups[0]!.drillFor_mm;
      for (const which of ['goesOn', 'straight'] as const) {
        const chance = (drill: number) => {
          const d = drum(pair(drill), 16, 'tape');
          return budget(d.jig, d.layout, { terms, level }).value.methods[0]!.drum[which]!;
        };
        expect(chance(named[which]! + 1e-4)).toBeGreaterThanOrEqual(level);
        expect(chance(named[which]! - 0.01)).toBeLessThan(level);
      }
    }
  });

  test('both sides of the limit: just over the level is silent, just under is care, and never stop', () => {
    const terms = { tape: exactly(0.5) };
    const { jig, layout } = drum(pair(6), 16, 'tape');
    expect(budget(jig, layout, { terms, level: 0.9277 }).facts).toEqual([]);
    const { facts } = budget(jig, layout, { terms, level: 0.9278 });
    expect(facts.map((f) => [f.level, f.id, f.at])).toEqual([
      ['care', 'drum-chance-low', 'shell'],
      ['care', 'fitting-chance-low', 'top-lugs'],
    ]);
    expect(facts[1]!.line).toBe(12);
    const hopeless = drum(pair(3), 16, 'tape');
    expect(budget(hopeless.jig, hopeless.layout, { terms }).facts.every((f) => f.level !== 'stop')).toBe(true);
    expect(budget(hopeless.jig, hopeless.layout, { terms }).value.methods[0]!.drum.goesOn).toBe(0);
  });

  test('without a method every way is shown and the drum is "not checked"', () => {
    const { jig, layout } = drum(pair(6), 8);
    const { value, facts } = budget(jig, layout);
    expect(value.methods.map((m) => m.method)).toEqual(['tape', 'paper-wrap', 'cut-wrap', 'collar', 'rotary']);
    expect(facts.map((f) => [f.level, f.id])).toEqual([['note', 'not-checked']]);
    const chances = value.methods.map((m) => m.drum.goesOn!);
    expect([...chances].sort((a, b) => a - b)).toEqual(chances);
  });

  test('a missing screw is not a pass', () => {
    const { screw: _, ...bare } = pair(6);
    const { jig, layout } = drum(bare, 8, 'tape');
    const { value, facts } = budget(jig, layout);
    expect(value.notChecked).toEqual([{ group: 'top-lugs', needs: 'holes.screw' }]);
    expect(
      facts.some((f) => f.id === 'not-checked' && f.at === 'top-lugs' && f.facts?.['needs'] === 'holes.screw'),
    ).toBe(true);
  });

  test('four holes are simulated, and the same seed gives the same report', () => {
    const four = pair(6, {
      layout: 'grid',
      points: [
        { across: -2, upright: -12 },
        { across: 2, upright: -12 },
        { across: -2, upright: 12 },
        { across: 2, upright: 12 },
      ],
      axes: 'radial',
    });
    const { jig, layout } = drum(four, 4, 'cut-wrap');
    const a = budget(jig, layout, { samples: 1000, seed: 9 });
    const g = a.value.methods[0]!.groups[0]!;
    expect(g.goesOn!.how).toBe('simulated');
    expect(g.goesOn!.value).toBeGreaterThanOrEqual(g.straight!.value);
    expect(g.drillFor_mm.straight!).toBeGreaterThan(g.drillFor_mm.goesOn!);
    expect(budget(jig, layout, { samples: 1000, seed: 9 })).toEqual(a);
    const none = budget(jig, layout, { samples: 0 });
    expect(none.value.methods[0]!.drum.goesOn).toBeNull();
    expect(none.facts.map((f) => f.id)).toEqual(['not-checked']);
  });

  test('parallel screws in radial holes lose room across, and a collar that bores parallel keeps it', () => {
    const across = pair(6, {
      layout: 'across',
      points: [
        { across: -20, upright: 0 },
        { across: 20, upright: 0 },
      ],
    });
    const { jig, layout } = drum(across, 8, 'tape');
    const same = exactly(0.3);
    const radial = budget(jig, layout, { terms: { tape: same } }).value.methods[0]!.groups[0]!;
    const parallel = budget(jig, layout, { method: 'collar', terms: { collar: same } }).value.methods[0]!.groups[0]!;
    expect(radial.walk_mm).toBeCloseTo((20 * 6.6) / 163.7, 9);
    expect(parallel.walk_mm).toBe(0);
    expect(parallel.goesOn!.value).toBeGreaterThan(radial.goesOn!.value);
    // Half of the pairs come out too near each other, and those have reach - walk only.
    expect(radial.goesOn!.value).toBeCloseTo((Math.min(1, 0.9999976) + 0.632) / 2, 2);
  });
});
