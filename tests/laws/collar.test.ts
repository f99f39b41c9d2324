import { fc, test as prop } from '@fast-check/vitest';
import { areaPathsD, differenceD, FillRule } from 'clipper2-ts';
import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import { kerfOf } from '../../src/collar/kerf.ts';
import type { CollarPlan, Placement, Vec3 } from '../../src/collar/plan.ts';
import { cutLines } from '../../src/drawing/kerf.ts';
import type { Part } from '../../src/model/drawing.ts';
import type { Jig } from '../../src/model/jig.ts';
import { areaOf, polygonOf, seeded } from '../helpers/flat.ts';
import { demo, planned, type Raw } from '../helpers/jigs.ts';

const plan = (raw: unknown, change: (jig: Jig) => Jig = (j) => j): CollarPlan => {
  const { jig, layout } = planned(raw);
  return planCollar(change(jig), layout, { digest: 'abcdef0123456789' }).value;
};

const drum = (count: number, turn = 0, more: Raw = {}): Raw => ({
  jig: 1,
  name: 'law',
  shell: { diameter: 355.6, depth: 165, wall: 6, round: 0.4, edges: 'cut' },
  lugs: {
    count,
    first: 180 / count + turn,
    rows: [
      { edge: 'top', distance: 38 },
      { edge: 'bottom', distance: 42 },
    ],
    holes: { layout: 'upright', spacing: 26, drill: 6, pilot: 3 },
  },
  fittings: [
    {
      name: 'vent',
      role: 'vent',
      at: (90 + turn) % 360,
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill: 11 },
    },
  ],
  collar: { material: 'birch-ply-6', thickness: 5.8, sheet: 'laser-600x400' },
  ...more,
});

/** Cut lines as text, to a thousandth of a micrometre. */
const cut = (p: Part): string =>
  JSON.stringify([p.outer, ...p.inner], (_, v) => (typeof v === 'number' ? Number(v.toFixed(6)) + 0 : v));

const turned = (v: Vec3, deg: number): Vec3 => {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return [c * v[0] - s * v[1], s * v[0] + c * v[1], v[2]];
};

describe('turning the jig turns the collar', () => {
  const a = plan(drum(8));
  prop.prop([fc.double({ min: 0.01, max: 359, noNaN: true })], { seed: 5, numRuns: 6 })(
    'parts keep their shapes, frames turn',
    (deg) => {
      const b = plan(drum(8, deg));
      expect(b.parts.map((p) => p.id)).toEqual(a.parts.map((p) => p.id));
      for (const [i, p] of a.parts.entries()) expect(cut(b.parts[i] as Part), p.id).toBe(cut(p));
      for (const [i, p] of a.placements.entries()) {
        const q = b.placements[i] as Placement;
        for (const key of ['origin', 'x', 'y', 'z'] as const) {
          const want = turned(p.frame[key], deg);
          for (const n of [0, 1, 2]) expect(q.frame[key][n]).toBeCloseTo(want[n] as number, 6);
        }
      }
    },
  );
});

describe('counting', () => {
  test('twice the lugs is twice the guide plates', () => {
    const plates = (p: CollarPlan): number => p.parts.filter((q) => /lug-.*-(inner|outer)$/.test(q.id)).length;
    expect(plates(plan(drum(5)))).toBe(2 * 2 * 5);
    expect(plates(plan(drum(10)))).toBe(2 * plates(plan(drum(5))));
  });
  test('two bores for every hole: one in each plate of its pair', () => {
    const p = plan(demo('jigs/kettle-row-snare.yaml'));
    const circles = p.parts.filter((q) => /-(inner|outer)$/.test(q.id)).flatMap((q) => q.inner);
    expect(circles.length).toBe(2 * p.bores.length);
    const ids = circles.flatMap((c) => (c.kind === 'circle' && c.id !== undefined ? [c.id] : []));
    expect(new Set(ids).size).toBe(ids.length);
    expect([...ids].sort()).toEqual(p.bores.map((b) => b.holeId).sort());
  });
});

describe('what is cut is what is meant', () => {
  test("the beam's width never changes a part: parts are at finished size", () => {
    const kerf =
      (k: number) =>
      (j: Jig): Jig => ({
        ...j,
        collar: { ...j.collar, material: { ...j.collar.material, kerf: k }, sheet: { ...j.collar.sheet, kerf: k } },
      });
    const [a, b] = [plan(drum(8), kerf(0.05)), plan(drum(8), kerf(0.45))];
    expect(a.parts.map(cut)).toEqual(b.parts.map(cut));
    expect(a.placements).toEqual(b.placements);
  });
  test('the fit widens slots and nothing else: every bore stays', () => {
    const fitOf =
      (f: number) =>
      (j: Jig): Jig => ({ ...j, collar: { ...j.collar, material: { ...j.collar.material, fit: f } } });
    const [a, b] = [plan(drum(8), fitOf(0)), plan(drum(8), fitOf(0.3))];
    expect(a.bores).toEqual(b.bores);
    expect(a.parts.map(cut)).not.toEqual(b.parts.map(cut));
  });
  test('the same input gives the same plan', () => {
    expect(JSON.stringify(plan(drum(10)))).toBe(JSON.stringify(plan(drum(10))));
  });
  test('every ring says which build it is for, however small and crowded', () => {
    const small = { diameter: 200, depth: 140, wall: 5, round: 0.4, edges: 'cut' };
    for (const raw of [drum(10), drum(5, 0, { shell: small }), drum(16)]) {
      const { jig, layout } = planned(raw);
      const strokes = (digest: string): Map<string, number> =>
        new Map(
          planCollar(jig, layout, { digest })
            .value.parts.filter((p) => /-(lip|ring)/.test(p.id))
            .map((p) => [p.id, p.marks.length]),
        );
      // Eight letters of four strokes or of one: a part that carries the digest has more of them.
      const [many, few] = [strokes('EEEEEEEE'), strokes('llllllll')];
      for (const [id, n] of many) expect(n, id).toBeGreaterThan(few.get(id) as number);
    }
  });
  test('every number is finite and every part has one closed outline, counter-clockwise', () => {
    for (const raw of [drum(8), demo('jigs/kettle-row-rack-tom.yaml')]) {
      const p = plan(raw);
      expect(JSON.stringify(p)).not.toMatch(/null|NaN/);
      for (const q of p.parts) {
        expect(q.outer.layer, q.id).toBe('CUT-OUTER');
        for (const s of q.inner) expect(s.layer, q.id).toBe('CUT-INNER');
        // A part that says nothing is a part that gets mixed up.
        if (!q.id.endsWith('wedge'))
          expect(q.marks.filter((m) => m.from === 'lettering').length, q.id).toBeGreaterThan(8);
        for (const s of q.marks) expect(['ENGRAVE', 'SCORE'], q.id).toContain(s.layer);
      }
      expect(new Set(p.parts.map((q) => q.id)).size).toBe(p.parts.length);
    }
  });
});

describe('any drum', () => {
  // Seeds 1 to 24: shells, patterns, sheets and ways of cutting nobody chose.
  const anyDrum = (seed: number): Raw => {
    const r = seeded(seed);
    const pick = <T>(a: readonly T[]): T => a[Math.floor(r() * a.length)] as T;
    const holes = (): Raw => {
      const layout = pick(['single', 'upright', 'across', 'grid']);
      const more: Raw =
        layout === 'grid'
          ? { columns: 2, rows: 2, across: 14 + 50 * r(), upright: 14 + 40 * r() }
          : layout === 'single'
            ? {}
            : { spacing: 14 + 30 * r() };
      return { layout, ...more, drill: pick([3, 5, 6, 8, 12]), axes: pick(['parallel', 'radial']) };
    };
    const thin = r() < 0.4;
    return {
      jig: 1,
      name: `any ${seed}`,
      shell: { diameter: 150 + 500 * r(), depth: 90 + 400 * r(), wall: 3 + 9 * r(), round: 0.8 * r(), edges: 'cut' },
      lugs: {
        count: Math.ceil(14 * r()),
        rows: pick([
          [{ edge: 'top', distance: 35 }],
          [
            { edge: 'top', distance: 35 },
            { edge: 'bottom', distance: 45 },
          ],
          [{ edge: 'middle', distance: 0 }],
        ]),
        holes: holes(),
      },
      fittings: Array.from({ length: Math.floor(4 * r()) }, (_, i) => ({
        name: `f${i}`,
        role: 'other',
        at: 360 * r(),
        edge: pick(['top', 'bottom', 'middle']),
        distance: 20 + 50 * r(),
        holes: holes(),
      })),
      collar: {
        material: thin ? 'birch-ply-3' : 'birch-ply-6',
        thickness: thin ? 3.1 : 5.8,
        sheet: pick(['laser-600x400', 'laser-900x600']),
        build: pick(['rings', 'sector']),
        cut: pick(['laser', 'router']),
        hold: pick(['wedges', 'bolts']),
        layers: pick([1, 2]),
      },
    };
  };

  test('every part is sound: cut-outs lie apart inside the outline, no strip thinner than the sheet bears', () => {
    let parts = 0;
    // Of 101 a row of lugs comes twice: its posts meet each other, and the sectors of the second round need names of their own.
    for (const seed of [...Array.from({ length: 24 }, (_, i) => i + 1), 101]) {
      const { jig, layout } = planned(anyDrum(seed));
      const p = planCollar(jig, layout, { digest: '' }).value;
      const alike = new Set<string>();
      expect(new Set(p.parts.map((q) => q.id)).size, `seed ${seed}`).toBe(p.parts.length);
      for (const q of p.parts) {
        const key = cut(q);
        if (alike.has(key)) continue;
        alike.add(key);
        parts++;
        const outer = polygonOf(q.outer, 0.01);
        const inner = q.inner.map((s) => polygonOf(s, 0.01));
        const left = areaPathsD(differenceD([outer], inner, FillRule.NonZero, 6));
        const sum = areaOf([outer]) - inner.reduce((s, i) => s + areaOf([i]), 0);
        expect(Math.abs(left / sum - 1), `seed ${seed} ${q.id}`).toBeLessThan(1e-3);
        expect(cutLines(q, kerfOf(jig.collar, p.parts), jig.collar.sheet.bridge).facts, `seed ${seed} ${q.id}`).toEqual(
          [],
        );
      }
      // A hole is guided or named with a reason.
      const lost = new Set(p.reach.unserved.map((u) => u.fitting));
      const guided = new Set(p.bores.map((b) => b.holeId));
      for (const h of layout.holes) expect(guided.has(h.id) || lost.has(h.fitting), `seed ${seed} ${h.id}`).toBe(true);
    }
    expect(parts).toBeGreaterThan(200);
  });
});
