import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import type { CollarPlan } from '../../src/collar/plan.ts';
import { bounds } from '../../src/drawing/paths.ts';
import { roomOn } from '../../src/drawing/room.ts';
import { makeCollar } from '../../src/jobs/flat.ts';
import type { Circle, Part, Path } from '../../src/model/drawing.ts';
import type { Fact } from '../../src/model/finding.ts';
import { nest } from '../../src/nest/nest.ts';
import { collarSayings } from '../../src/say/collar.ts';
import { fitSayings } from '../../src/say/fit.ts';
import { planned, type Raw } from '../helpers/jigs.ts';
import { readDxf } from '../helpers/read-dxf.ts';
import { bodyOf, solidKernel } from '../helpers/solid.ts';

const R = 177.8;
const base = (more: Raw = {}, collar: Raw = {}): Raw => ({
  jig: 1,
  name: 'Collar bench 14 x 6',
  shell: { diameter: 2 * R, depth: 152, wall: 6.35, round: 0.4, edges: 'cut' },
  lugs: {
    count: 8,
    rows: [
      { edge: 'top', distance: 40 },
      { edge: 'bottom', distance: 40 },
    ],
    holes: { layout: 'upright', spacing: 25.4, drill: 6 },
  },
  collar: { material: 'birch-ply-6', thickness: 5.8, sheet: 'laser-900x600', ...collar },
  ...more,
});

function run(raw: Raw): { plan: CollarPlan; facts: readonly Fact[]; ids: string[] } {
  const { jig, layout } = planned(raw);
  const { value: plan, facts } = planCollar(jig, layout, { digest: 'abcdef0123456789' });
  // Every finding has a sentence, and the sentence has no hole in it.
  for (const f of facts) {
    const saying = collarSayings[f.id] ?? fitSayings[f.id];
    expect(saying, f.id).toBeDefined();
    for (const text of [saying?.text(f), saying?.try(f)]) expect(text, f.id).not.toMatch(/\?|undefined|NaN|Infinity/);
  }
  return { plan, facts, ids: facts.map((f) => f.id) };
}

const found = (raw: Raw, id: string): Fact | undefined => run(raw).facts.find((f) => f.id === id);
const part = (plan: CollarPlan, id: string): Part => {
  const p = plan.parts.find((q) => q.id === id);
  if (p === undefined) throw new Error(`${id} not in ${plan.parts.map((q) => q.id).join(' ')}`);
  return p;
};
const xs = (p: Path): number[] => [p.start, ...p.segs.map((s) => s.to)].map((q) => q.x);
const ys = (p: Path): number[] => [p.start, ...p.segs.map((s) => s.to)].map((q) => q.y);

describe('sizes', () => {
  const { plan, facts } = run(base());

  test('a sound collar raises nothing above a note', () => {
    expect(facts.filter((f) => f.level !== 'note')).toEqual([]);
    expect(plan.made).toBe(true);
  });

  test('a ring is one clearance larger than the shell, the lip spans the wall', () => {
    const ring = part(plan, 'collar-top-ring-1').inner[0] as Path;
    const arcs = ring.segs.filter((s) => s.kind === 'arc');
    for (const a of arcs) expect(Math.hypot(a.to.x, a.to.y)).toBeCloseTo(R + 0.5, 9);
    expect(arcs.length).toBeGreaterThanOrEqual(8 + 3);
    const lip = part(plan, 'collar-top-lip').inner[0] as Circle;
    expect(lip.radius).toBeLessThan(R - 6.35 - 0.4 / 2);
  });

  test('a batch: the ring fits its largest shell', () => {
    const girth = 2 * Math.PI * (R + 0.7);
    const batch = run(base({ batch: { girth: [2 * Math.PI * (R - 0.3), girth], count: 10 } })).plan;
    const arc = (part(batch, 'collar-top-ring-1').inner[0] as Path).segs.find((s) => s.kind === 'arc');
    expect(Math.hypot(arc?.to.x as number, arc?.to.y as number)).toBeCloseTo(R + 0.7 + 0.5, 9);
    expect(batch.serves.girth[1]).toBeGreaterThan(girth);
    expect(batch.serves.girth[0]).toBeLessThanOrEqual(2 * Math.PI * (R - 0.3));
  });

  test('guide of three bits, chip gap of three quarters of one', () => {
    for (const b of plan.bores) {
      expect(b.guide).toBeCloseTo(18, 9);
      expect(b.gap).toBeCloseTo(4.5, 9);
      expect(b.bit).toBe(6);
    }
    // Three times a small bit is less than two plates: the plates are the guide.
    const small = run(base({}, { thickness: 5.8 })).plan;
    expect(Math.min(...small.bores.map((b) => b.guide))).toBeGreaterThanOrEqual(2 * 5.8);
  });

  test("heights come from the uprights: a sheet of another thickness moves no bore from its plate's shoulder", () => {
    const at = (p: CollarPlan): number[] =>
      (part(p, 'collar-lug-bottom-1-outer').inner as Circle[]).map((c) => c.center.y).sort((a, b) => a - b);
    const thin = run(base({}, { thickness: 5.5 })).plan;
    expect(at(plan)).toEqual(at(thin));
    expect(at(plan)[0]).toBeCloseTo(40 - 12.7, 9);
    expect(at(plan)[1]).toBeCloseTo(40 + 12.7, 9);
    // The shoulder is the line y = 0, and the foot is as long as the lip is thick.
    const outline = part(plan, 'collar-lug-bottom-1-outer').outer as Path;
    expect(Math.min(...ys(outline))).toBeCloseTo(-5.8, 9);
    expect(ys(outline)).toContain(0);
  });

  test('side slots take the sheet and its fit', () => {
    const outline = part(plan, 'collar-lug-top-1-outer').outer as Path;
    const levels = [...new Set(ys(outline).map((y) => Number(y.toFixed(6))))].sort((a, b) => a - b);
    // From the free end: end, slot's two flanks, shoulder, foot.
    expect(levels).toHaveLength(5);
    expect((levels[2] as number) - (levels[1] as number)).toBeCloseTo(5.8 + 0.1, 6);
  });

  test('a bushing sets the bores, whole and half as long again is no matter', () => {
    const bushed = run(base({}, { bushing: { inside: 6, outside: 10, length: 20, fit: 'pressed' } }));
    expect(bushed.plan.bores.every((b) => b.diameter === 10 && b.guide === 20 && b.bit === 6)).toBe(true);
    expect(bushed.plan.supplies.find((s) => s.what.includes('bushing'))).toMatchObject({
      quantity: 32,
      size: '6 x 10 x 20 mm',
    });
  });

  test("pressed bushings sit in bores of their size, bedded ones in the sheet's fit: as said, or by what cuts", () => {
    const seat = (collar: Raw, fit?: string) => {
      const bushing = { inside: 6.35, outside: 10, length: 20, ...(fit === undefined ? {} : { fit }) };
      const p = run(
        base(
          { lugs: { count: 2, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6.35 } } },
          { bushing, ...collar },
        ),
      ).plan;
      const bought = p.supplies.find((s) => s.what.startsWith('drill bushing'));
      return { d: p.bores[0]?.diameter, what: bought?.what, size: bought?.size };
    };
    expect(seat({}).d).toBeCloseTo(10.1, 9);
    expect(seat({}).what).toContain('bedded');
    expect(seat({ cut: 'router' })).toMatchObject({ d: 10, what: 'drill bushing, pressed in' });
    expect(seat({}, 'pressed').d).toBe(10);
    expect(seat({ cut: 'router' }, 'bedded').d).toBeCloseTo(10.1, 9);
    expect(seat({}).size).toBe('6.35 (1/4 in) x 10 x 20 mm');
  });

  test('a hole too large for the bushing is piloted through it and opened later', () => {
    const vent = {
      name: 'vent',
      role: 'vent',
      at: 0,
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill: 12 },
    };
    const { plan: p } = run(
      base({ fittings: [vent] }, { bushing: { inside: 6, outside: 10, length: 20, fit: 'pressed' } }),
    );
    expect(p.bores.find((b) => b.holeId === 'vent')).toMatchObject({ bit: 3, opensTo: 12, diameter: 10 });
    expect(p.steps.join(' ')).toContain('12 mm');
    expect(p.supplies.some((s) => s.size === '3 x 10 x 20 mm' && s.quantity === 1)).toBe(true);
    const bare = run(base({ fittings: [vent] })).plan;
    expect(bare.bores.find((b) => b.holeId === 'vent')).toMatchObject({ bit: 3, opensTo: 12, diameter: 3 });
    const small = { ...vent, holes: { layout: 'single', drill: 8 } };
    expect(run(base({ fittings: [small] })).plan.bores.find((b) => b.holeId === 'vent')).toMatchObject({ bit: 8 });
  });

  test('rings of thin sheet, or where asked, are two layers over each other with pins through both', () => {
    const small = { diameter: 200, depth: 140, wall: 5, round: 0.4, edges: 'cut' };
    const lugs = { count: 4, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } };
    const layers = (collar: Raw): { ids: string[]; plan: CollarPlan } => {
      const p = run(base({ shell: small, lugs }, collar)).plan;
      return { ids: p.parts.map((q) => q.id).filter((id) => /-(lip|ring)/.test(id)), plan: p };
    };
    const two = ['collar-top-lip-a', 'collar-top-lip-b', 'collar-top-ring-1-a', 'collar-top-ring-1-b'];
    const thin = { material: 'birch-ply-3', thickness: 3.1 };
    expect(layers({}).ids).toEqual(['collar-top-lip', 'collar-top-ring-1']);
    expect(layers({ layers: 2 }).ids).toEqual(two);
    expect(layers(thin).ids).toEqual(two);
    expect(layers({ ...thin, layers: 1 }).ids).toHaveLength(2);
    const { plan: p } = layers({ layers: 2 });
    const pins = (id: string): string[] =>
      part(p, id).inner.flatMap((s) =>
        s.kind === 'circle' && s.radius === 2 ? [`${s.center.x.toFixed(6)} ${s.center.y.toFixed(6)}`] : [],
      );
    expect(pins('collar-top-ring-1-a')).toHaveLength(3);
    expect(pins('collar-top-ring-1-b')).toEqual(pins('collar-top-ring-1-a'));
    expect(p.supplies.find((s) => s.what.includes('dowel'))?.quantity).toBe(2 * 3);
    // The two layers lie on each other, and a foot goes through both.
    const z = two.map((id) => p.placements.find((q) => q.part === id)?.frame.origin[2] as number);
    expect(Math.abs((z[0] as number) - (z[1] as number))).toBeCloseTo(5.8, 9);
    expect(Math.max(...ys(part(p, 'collar-lug-top-1-outer').outer as Path))).toBeCloseTo(11.6, 9);
    expect(p.steps[0]).toMatch(/face grain across/);
    // On a large drum two layers cost less sheet in pieces, and then no joint lies over another.
    const large = run(base({}, { layers: 2 })).plan;
    const ends = ['a', 'b'].map((l) =>
      large.parts.filter((q) => q.id.startsWith(`collar-top-lip-${l}`)).map((q) => q.id),
    );
    expect(ends[0]?.length).toBeGreaterThan(1);
    expect(ends[1]?.length).toBe(ends[0]?.length);
    expect(large.steps[0]).toMatch(/joints between/);
  });

  test('whole rings on a large sheet; on a small one two layers, jointed apart, each piece on the sheet', () => {
    expect(plan.parts.filter((p) => /-(lip|ring)/.test(p.id))).toHaveLength(4);
    const small = run(base({}, { sheet: 'laser-600x400' })).plan;
    const rings = small.parts.filter((p) => /-(lip|ring)/.test(p.id));
    expect(rings.length).toBeGreaterThanOrEqual(16);
    for (const p of rings) {
      const o = p.outer as Path;
      const [w, h] = [Math.max(...xs(o)) - Math.min(...xs(o)), Math.max(...ys(o)) - Math.min(...ys(o))];
      expect(Math.max(w, h)).toBeLessThan(590);
      expect(Math.min(w, h)).toBeLessThan(390);
    }
    const dowels = small.supplies.find((s) => s.what.includes('dowel'));
    const holes = rings.flatMap((p) => p.inner).filter((s) => s.kind === 'circle' && Math.abs(s.radius - 2) < 0.1);
    // Every pin goes through one hole in each of two layers.
    expect(holes.length).toBe(2 * (dowels?.quantity as number));
  });
});

describe('figures for both ways of building', () => {
  test('a sector takes less sheet and errs more, and closes as its steps add up', () => {
    const { plan, facts } = run(base());
    const { rings, sector } = plan.tradeoff;
    if (rings === undefined || sector === undefined) throw new Error('both, please');
    expect(sector.sheetArea).toBeLessThan(rings.sheetArea / 2);
    expect(sector.parts).toBeLessThan(rings.parts);
    expect(sector.accuracy.around).toBeGreaterThan(rings.accuracy.around);
    expect(rings.closing).toEqual({ systematic: 0, random: 0 });
    // n e and sqrt(n) e: four times the steps, four times the one and twice the other.
    const steps = (count: number) =>
      run({ ...base(), lugs: { count, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } } })
        .plan.tradeoff.sector?.closing;
    expect((steps(16)?.systematic as number) / (steps(4)?.systematic as number)).toBeCloseTo(4, 9);
    expect((steps(16)?.random as number) / (steps(4)?.random as number)).toBeCloseTo(2, 9);
    const said = facts.find((f) => f.id === 'collar-builds');
    expect(said?.measured).toBeCloseTo(rings.sheetArea / 100, 9);
    expect(collarSayings['collar-builds']?.text(said as Fact)).toMatch(/As sectors: \d+ parts/);
    expect(facts.some((f) => f.id === 'collar-serves')).toBe(true);
  });
});

describe('parallel holes of a bracket, from plane geometry at R = 177.8 (tilt = asin(c / 2R))', () => {
  test.each([
    [38.1, 6.15064],
    [50.8, 8.213211],
    [63.5, 10.286561],
  ])('holes %f mm apart: each stands %f deg from the radius where it meets the skin', (c, tilt) => {
    const bracket = {
      name: 'bracket',
      role: 'bracket',
      at: 90,
      edge: 'top',
      distance: 60,
      holes: { layout: 'across', spacing: c, drill: 8 },
    };
    const { plan } = run({ ...base({ fittings: [bracket] }), lugs: undefined } as Raw);
    const bores = plan.bores.filter((b) => b.holeId.startsWith('bracket'));
    expect(bores).toHaveLength(2);
    for (const b of bores) {
      const [x, y] = b.point;
      expect(Math.hypot(x, y)).toBeCloseTo(R, 9);
      const cos = -(x * b.axis[0] + y * b.axis[1]) / R;
      expect((Math.acos(cos) * 180) / Math.PI).toBeCloseTo(tilt, 5);
    }
    const [a, b] = bores;
    expect(Math.hypot(...[0, 1, 2].map((i) => (a?.point[i] as number) - (b?.point[i] as number)))).toBeCloseTo(c, 9);
  });
});

describe('a round bore sliced by a flat layer is 2 sqrt(r^2 - h^2) wide', () => {
  test.each([
    [6, 1.5, 5.196152],
    [8, 1.5, 7.416198],
    [8, 3, 5.291503],
    [12, 4.5, 7.937254],
  ])('bore %f at %f mm from its axis: %f', async (d, h, width) => {
    const k = await solidKernel();
    const one = {
      name: 'vent',
      role: 'vent',
      at: 0,
      edge: 'bottom',
      distance: 40,
      holes: { layout: 'single', drill: d - 3 },
    };
    const bushing = { inside: d - 3, outside: d, length: 40, fit: 'pressed' };
    const { plan } = run({ ...base({ fittings: [one] }, { bushing }), lugs: undefined } as Raw);
    const place = plan.placements.find((p) => p.part === 'collar-vent-outer');
    if (place === undefined) throw new Error('no plate');
    const body = bodyOf(k, part(plan, place.part), place);
    // The cut through the plate at that height is two pieces; the bore is the way between them.
    const pieces = body.slice(40 + h).toPolygons();
    expect(pieces).toHaveLength(2);
    const spans = pieces.map((p) => p.map((q) => q[1] as number)).map((q) => [Math.min(...q), Math.max(...q)] as const);
    const [low, high] = spans.sort((a, b) => a[0] - b[0]) as [readonly [number, number], readonly [number, number]];
    // Chords of 0.01 mm on a 6 mm bore shift the cut by at most twice that near its top.
    expect(high[0] - low[1]).toBeGreaterThan(width - 0.05);
    expect(high[0] - low[1]).toBeLessThan(width + 0.001);
  });
});

describe('bad input is named with the limit and the nearest value that works', () => {
  test('a clearance that binds: a quarter of the roundness and 0.2 mm, both sides of the limit', () => {
    const with_ = (clearance: number) =>
      found(
        base({ shell: { diameter: 2 * R, depth: 152, wall: 6.35, round: 1.6, edges: 'cut' } }, { clearance }),
        'collar-binds',
      );
    expect(with_(0.6)).toBeUndefined();
    const f = with_(0.59);
    expect(f).toMatchObject({ level: 'stop', measured: 0.59 });
    expect(f?.limit).toBeCloseTo(0.6, 9);
    expect(run(base({}, { clearance: 0 })).plan.made).toBe(false);
  });

  test('no collar asked for: what is in its way is a note, and nothing is made', () => {
    const raw = base({ shell: { diameter: 2 * R, depth: 152, wall: 6.35, edges: 'uncut' } });
    const asked = run(raw);
    expect(asked.facts.find((f) => f.id === 'no-rim')?.level).toBe('stop');
    expect(asked.plan.made).toBe(false);
    expect(asked.plan.parts).toEqual([]);
    const { collar: _, ...rest } = raw;
    const quiet = run(rest);
    expect(quiet.facts.find((f) => f.id === 'no-rim')?.level).toBe('note');
    expect(quiet.facts.filter((f) => f.level !== 'note')).toEqual([]);
  });

  test('bushings wider than the holes are apart, less a bridge of 2 mm', () => {
    const of = (outside: number) =>
      found(base({}, { bushing: { inside: 6, outside, length: 20, fit: 'pressed' } }), 'bushings-overlap');
    expect(of(23.4)).toBeUndefined();
    const f = of(23.5);
    expect(f?.level).toBe('stop');
    expect(f?.measured).toBeCloseTo(25.4, 9);
    expect(f?.limit).toBeCloseTo(25.5, 9);
    expect(f?.facts?.['largest']).toBeCloseTo(23.4, 9);
  });

  test('a bushing larger than the plate its neighbours leave', () => {
    const raw = (outside: number): Raw => ({
      ...base({}, { bushing: { inside: 6, outside, length: 20, fit: 'pressed' } }),
      lugs: { count: 20, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } },
    });
    const f = found(raw(48), 'bushing-larger-than-plate');
    expect(f?.measured).toBe(48);
    const limit = f?.limit as number;
    expect(limit).toBeGreaterThan(30);
    expect(found(raw(limit - 0.01), 'bushing-larger-than-plate')).toBeUndefined();
    expect(found(raw(limit + 0.05), 'bushing-larger-than-plate')).toBeDefined();
  });

  test('a bushing with no wall, or shorter than a plate', () => {
    expect(
      found(base({}, { bushing: { inside: 6, outside: 7.9, length: 20, fit: 'pressed' } }), 'bushing-wall-thin')?.limit,
    ).toBe(8);
    expect(
      found(base({}, { bushing: { inside: 6, outside: 8, length: 20, fit: 'pressed' } }), 'bushing-wall-thin'),
    ).toBeUndefined();
    expect(
      found(base({}, { bushing: { inside: 6, outside: 10, length: 5, fit: 'pressed' } }), 'bushing-shorter-than-plate')
        ?.limit,
    ).toBe(5.8);
  });

  test('fittings nearer than two plates can sit get a sector; at the named distance they stand beside each other', () => {
    const raw = (angle: number): Raw =>
      base({
        fittings: [
          {
            name: 'spur',
            role: 'spur',
            at: 22.5 + angle,
            edge: 'bottom',
            distance: 60,
            holes: { layout: 'single', drill: 6 },
          },
        ],
      });
    const near = run(raw(6));
    const f = near.facts.find((x) => x.id === 'rows-too-near');
    expect(f?.measured).toBeCloseTo((6 * Math.PI * R) / 180, 6);
    expect(near.plan.reach.unserved).toEqual([]);
    expect(near.plan.placements.some((p) => p.collar === 'bottom-spur')).toBe(true);
    const enough = ((f?.limit as number) / R) * (180 / Math.PI);
    expect(run(raw(enough + 0.01)).ids).not.toContain('rows-too-near');
    expect(run(raw(enough - 0.01)).ids).toContain('rows-too-near');
  });

  test('a sheet of another thickness than its material', () => {
    expect(found(base({}, { thickness: 6.6 }), 'sheet-thicker-than-slot')).toBeUndefined();
    expect(found(base({}, { thickness: 6.7 }), 'sheet-thicker-than-slot')).toMatchObject({
      level: 'stop',
      measured: 6.7,
    });
  });

  test('a thickness nobody measured is not checked', () => {
    const raw = base();
    delete (raw['collar'] as Raw)['thickness'];
    const f = run(raw)
      .facts.filter((x) => x.id === 'not-checked')
      .map((x) => x.facts?.['needs']);
    expect(f).toContain('collar.thickness, measured');
  });

  test('a hole over the lip, and a fitting out of reach', () => {
    const one = (edge: string, distance: number) => ({
      name: 'foot',
      role: 'other',
      at: 0,
      edge,
      distance,
      holes: { layout: 'single', drill: 6 },
    });
    expect(found(base({ fittings: [one('bottom', 4.9)] }), 'bore-over-lip')).toMatchObject({
      at: 'foot',
      measured: 4.9,
      limit: 5,
    });
    expect(found(base({ fittings: [one('bottom', 5.1)] }), 'bore-over-lip')).toBeUndefined();
    const deep = base({
      shell: { diameter: 2 * R, depth: 950, wall: 6.35, round: 0.4, edges: 'cut' },
      fittings: [one('bottom', 900)],
    });
    const far = run(deep);
    expect(far.facts.find((f) => f.id === 'collar-out-of-reach')).toMatchObject({ at: 'foot', level: 'care' });
    expect(far.plan.reach.unserved).toEqual([{ fitting: 'foot', why: 'out of reach of the collar' }]);
    expect(far.plan.made).toBe(true);
  });

  test('rings that no number of pieces brings onto the sheet', () => {
    const f = found(base({}, { sheet: 'laser-600x400', ...{} }), 'ring-larger-than-sheet');
    expect(f).toBeUndefined();
    const crowded: Raw = {
      ...base({}, { sheet: 'laser-600x400' }),
      lugs: { count: 26, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } },
    };
    const { facts, plan } = run(crowded);
    expect(facts.find((x) => x.id === 'ring-larger-than-sheet')).toMatchObject({ level: 'stop', measured: 400 });
    expect(plan.made).toBe(false);
  });

  test('bits too short for guide, gap, wall, point and block: said with the sum', () => {
    const raw = (flute: number): Raw =>
      base({
        rotary: { machine: 'rotary-slow', tools: [{ id: 1, kind: 'brad-point', diameter: 6, lead: 1.2, flute }] },
      });
    // 18 guide + 4.5 gap + 6.35 wall + 1.2 lead + 2 into the block.
    expect(found(raw(32.06), 'collar-bit-short')).toBeUndefined();
    const f = found(raw(32), 'collar-bit-short');
    expect(f).toMatchObject({ level: 'care', measured: 32 });
    expect(f?.limit).toBeCloseTo(32.05, 9);
  });

  test('a guide shorter than three bits', () => {
    expect(
      found(base({}, { bushing: { inside: 6, outside: 10, length: 17.9, fit: 'pressed' } }), 'collar-guide-short'),
    ).toMatchObject({
      measured: 17.9,
      limit: 18,
    });
    expect(
      found(base({}, { bushing: { inside: 6, outside: 10, length: 18, fit: 'pressed' } }), 'collar-guide-short'),
    ).toBeUndefined();
  });

  test('a router needs its cutter said, and one that gets into the slots', () => {
    const { jig, layout } = planned(base({}, { cut: 'router' }));
    const ids = (kerf: number): string[] => {
      const sheet = { ...jig.collar.sheet, kerf };
      return planCollar({ ...jig, collar: { ...jig.collar, sheet } }, layout, { digest: '' }).facts.map((f) => f.id);
    };
    expect(ids(0.25)).toContain('cutter-not-said');
    expect(ids(3)).not.toContain('cutter-not-said');
    expect(ids(3.88)).not.toContain('cutter-wider-than-slot');
    expect(ids(3.9)).toContain('cutter-wider-than-slot');
  });

  test('a router draws its lines for a cutter: the one said, or one that gets into every bore', async () => {
    const lugs = { count: 2, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } };
    const { jig, layout } = planned(base({ lugs }, { cut: 'router' }));
    const drawn = async (kerf: number | undefined): Promise<number> => {
      const sheet = { ...jig.collar.sheet, ...(kerf === undefined ? {} : { kerf }) };
      const collar = { ...jig.collar, sheet };
      const { files, facts } = await makeCollar({ ...jig, collar }, layout, { digest: 'x', solid: false });
      expect(facts.filter((f) => f.level === 'stop')).toEqual([]);
      const radii = files
        .filter((f) => f.name.endsWith('.dxf'))
        .flatMap(
          (f) => readDxf(String(f.data)).entities as unknown as { type: string; layer: string; radius: number }[],
        )
        .filter((e) => e.type === 'CIRCLE' && e.layer === 'CUT-INNER')
        .map((e) => e.radius);
      return 2 * Math.min(...radii);
    };
    // Bores of 6 mm, and nothing rounder that is smaller.
    expect(await drawn(2)).toBeCloseTo(6 - 2, 6);
    expect(await drawn(undefined)).toBeCloseTo(6 - 3.175, 6);
    // The sheet's name stays in the strip along its edge, below all parts, however wide the cutter.
    const sheet = { ...jig.collar.sheet, kerf: 3 };
    const parts = planCollar(jig, layout, { digest: 'x' }).value.parts;
    const shapes = nest(parts, sheet, { kerf: 3, title: 'router', digest: 'x' }).value[0]?.drawing.shapes ?? [];
    const strip = shapes.filter((s) => s.layer === 'ENGRAVE' && bounds([s]).max.y <= roomOn(sheet, 3).min.y);
    expect(strip.length).toBeGreaterThan(20);
  });

  test('a hostile jig neither throws nor makes nonsense', () => {
    for (const more of [
      { shell: { diameter: 60, depth: 20, wall: 3, edges: 'cut' } },
      { shell: { diameter: 900, depth: 600, wall: 10, edges: 'cut' } },
      { lugs: { count: 1, rows: [{ edge: 'middle', distance: 0 }], holes: { layout: 'single', drill: 6 } } },
    ] as Raw[]) {
      const { plan } = run(base(more));
      for (const p of plan.placements)
        for (const v of [...p.frame.origin, ...p.frame.x, ...p.frame.y]) expect(Number.isFinite(v)).toBe(true);
      for (const p of plan.parts) expect(JSON.stringify(p)).not.toContain('null');
    }
  });
});
