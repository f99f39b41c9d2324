import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import { inShell } from '../../src/collar/frame3.ts';
import type { CollarPlan } from '../../src/collar/plan.ts';
import type { Circle } from '../../src/model/drawing.ts';
import type { Jig } from '../../src/model/jig.ts';
import { planned, type Raw } from '../helpers/jigs.ts';
import { assembled, type Body, CHORD, meets, solidKernel, tube } from '../helpers/solid.ts';

/*
 * Clamping ears put together in a general solid library with a bolt and a nut of the standards' sizes, on the smallest and
 * on the largest shell of a batch: nothing may share room, and every shoe must still be led by its notch.
 */

const R = 177.8;
const drum = (spread: number, collar: Raw = {}, depth = 152): Raw => ({
  jig: 1,
  name: 'clamped batch',
  shell: { diameter: 2 * R, depth, wall: 6.35, round: 0.6, edges: 'cut' },
  lugs: {
    count: 6,
    rows: [{ edge: 'bottom', distance: 40 }],
    holes: { layout: 'upright', spacing: 25.4, drill: 6 },
  },
  batch: { girth: [2 * Math.PI * (R - spread / 2), 2 * Math.PI * (R + spread / 2)], count: 10 },
  collar: { material: 'birch-ply-6', thickness: 5.8, sheet: 'laser-900x600', bushing: BUSHING, ...collar },
});
const BUSHING = { inside: 6, outside: 10, length: 20 };

const planOf = (raw: Raw): { jig: Jig; plan: CollarPlan } => {
  const { jig, layout } = planned(raw);
  return { jig, plan: planCollar(jig, layout, { digest: '0123456789' }).value };
};

const CASES: readonly (readonly [string, Raw])[] = [
  ['a batch 3 mm apart in radius', drum(3)],
  [
    'a wide batch of thin sheet, cut with a router',
    drum(6, { material: 'birch-ply-3', thickness: 3.1, cut: 'router' }),
  ],
  ['asked for, in jointed rings', drum(0.4, { hold: 'bolts', sheet: 'laser-600x400' })],
  ['a shell so shallow that the bolt comes before the ring', drum(3, { hold: 'bolts' }, 75)],
];

describe.each(CASES)('%s', (_, raw) => {
  let k: ManifoldToplevel;
  let jig: Jig;
  let plan: CollarPlan;
  let bodies: Body[];
  beforeAll(async () => {
    k = await solidKernel();
    ({ jig, plan } = planOf(raw));
    bodies = assembled(k, plan);
  });
  const named = (what: RegExp): Body[] => bodies.filter((b) => what.test(b.part.id));
  const rings = (): Body[] => named(/-(lip|ring-\d)/);
  const shared = (a: Manifold, others: readonly Body[]): number =>
    others.reduce((sum, o) => sum + (meets(a, o.body) ? a.intersect(o.body).volume() : 0), 0);
  const angleOf = (b: Body): number =>
    Math.round((Math.atan2(b.placement.frame.z[1], b.placement.frame.z[0]) * 180) / Math.PI);
  const distanceOf = (b: Body): number => Math.hypot(...b.placement.frame.origin.slice(0, 2));
  const out = (b: Body, by: number): Manifold =>
    b.body.translate(by * b.placement.frame.z[0], by * b.placement.frame.z[1], 0);

  test('three ears of two plates and a shoe each, and a bolt and a nut for each to buy; no wedges', () => {
    expect(named(/-ear-back$/)).toHaveLength(3);
    expect(named(/-ear-nut$/)).toHaveLength(3);
    expect(named(/-shoe$/).length % 3).toBe(0);
    expect(named(/wedge/)).toHaveLength(0);
    for (const what of ['bolt for a clamping ear', 'nut, glued']) {
      const s = plan.supplies.find((q) => q.what.startsWith(what));
      expect(s?.quantity, what).toBe(3);
      expect(s?.size).toMatch(/^M6/);
    }
  });

  test('ears share room with nothing, and their backs meet the bottom of the notch', () => {
    for (const ear of named(/-ear-/)) {
      expect(
        shared(
          ear.body,
          bodies.filter((b) => b !== ear),
        ),
      ).toBeLessThan(1e-3);
      if (ear.part.id.endsWith('back')) expect(shared(out(ear, 0.2), rings()), 'pushed out').toBeGreaterThan(0.5);
      // The ring holds it along the axis both ways.
      for (const z of [-0.3, 0.3]) expect(shared(ear.body.translate(0, 0, z), rings())).toBeGreaterThan(0.5);
    }
  });

  test('on the smallest and on the largest shell a bolt through the ear drives the shoe, and nothing is in its way', () => {
    const [small, large] = (jig.batch?.girth ?? [0, 0]).map((g) => g / 2 / Math.PI) as [number, number];
    const oval = (jig.shell.round as number) / 4;
    const length = Number(plan.supplies.find((s) => s.what.startsWith('bolt'))?.size.match(/x (\d+)/)?.[1]);
    for (const back of named(/-ear-back$/).slice(0, 2)) {
      const shoes = named(/-shoe$/).filter((s) => angleOf(s) === angleOf(back));
      const nutPlate = named(/-ear-nut$/).find((e) => angleOf(e) === angleOf(back)) as Body;
      const t = back.placement.thickness;
      const thick = shoes.length * t;
      for (const skin of [small - oval, R, large + oval]) {
        const moved = shoes.map((s) => out(s, skin - R));
        for (const shoe of moved) {
          expect(shared(shoe, [...rings(), ...named(/-ear-/)]), `skin at ${skin}`).toBeLessThan(1e-3);
          expect(shared(shoe, named(/-(inner|outer)$/))).toBeLessThan(1e-3);
        }
        // Led by the notch: the last plate of the stack cannot leave the ring along the axis.
        const last = Math.max(...shoes.map(distanceOf));
        const tail = out(shoes.find((s) => distanceOf(s) === last) as Body, skin - R);
        for (const z of [-0.3, 0.3])
          expect(shared(tail.translate(0, 0, z), rings()), `led at ${skin}`).toBeGreaterThan(0.5);
        // It touches the skin and goes no further.
        const face = moved.reduce((a, b) => a.add(b));
        const wall = (r: number) => tube(k, r, 6.35, jig.shell.depth);
        expect(face.intersect(wall(skin - 3 * CHORD)).volume()).toBeLessThan(1e-3);
        expect(face.intersect(wall(skin + 0.1)).volume()).toBeGreaterThan(0.01);

        // An M6 bolt (its thread's outside 6 mm) from the shoe outwards, and a nut of 10 mm flats and 5.2 mm.
        const hole = back.part.inner[0] as Circle;
        const f = back.placement.frame;
        const [x, y, z] = inShell(f, hole.center.x, hole.center.y, t);
        const ear = Math.hypot(x, y);
        const tip = skin + thick;
        expect(tip + length, 'stands out of the ear to be turned').toBeGreaterThanOrEqual(ear + 9.9);
        const along = (from: number, to: number, r: number, sides: number): Manifold =>
          k.Manifold.cylinder(to - from, r, r, sides)
            // A hexagon's corners point round the shell.
            .rotate(0, 0, 90)
            .rotate(0, 90, 0)
            .translate(from, 0, 0)
            .rotate(0, 0, (Math.atan2(f.z[1], f.z[0]) * 180) / Math.PI)
            .translate(0, 0, z);
        const bolt = along(tip, tip + length, 3, 48);
        expect(
          shared(
            bolt,
            bodies.filter((b) => !shoes.includes(b)),
          ),
        ).toBeLessThan(1e-3);
        const seat = distanceOf(back);
        const nut = along(seat - 5.2, seat, 10 / Math.sqrt(3), 6);
        const turned = along(seat - 5.2, seat, 10 / Math.sqrt(3) + 0.4, 6);
        expect(
          shared(
            nut,
            bodies.filter((b) => !shoes.includes(b)),
          ),
        ).toBeLessThan(1e-3);
        expect(moved.reduce((v, s) => v + (meets(s, nut) ? s.intersect(nut).volume() : 0), 0)).toBeLessThan(1e-3);
        expect(shared(turned, [nutPlate]), 'the seat keeps it from turning').toBeGreaterThan(0.5);
      }
    }
  });

  test('shoes pushed back leave the ring as wide as it is cut: the largest shell slides by', () => {
    const large = (jig.batch?.girth[1] as number) / 2 / Math.PI;
    const ring = large + jig.collar.clearance;
    for (const shoe of named(/-shoe$/)) {
      const away = out(shoe, ring - R);
      expect(shared(away, [...rings(), ...named(/-ear-/)])).toBeLessThan(1e-3);
      expect(away.intersect(tube(k, ring - 2 * CHORD, 6.35, jig.shell.depth)).volume()).toBeLessThan(1e-3);
    }
  });
});

describe('which way the shell is held', () => {
  const has = (raw: Raw, what: RegExp): boolean => planOf(raw).plan.parts.some((p) => what.test(p.id));
  test('wedges for a batch they can follow, bolts for a wider one, or what the jig file says', () => {
    expect(has(drum(1.9), /wedge/)).toBe(true);
    expect(has(drum(1.9), /ear|shoe/)).toBe(false);
    expect(has(drum(2.1), /ear-nut/)).toBe(true);
    expect(has(drum(2.1, { hold: 'wedges' }), /wedge/)).toBe(true);
    expect(has(drum(0, { hold: 'bolts' }), /shoe/)).toBe(true);
  });
  test('every shell of the batch is among those the collar serves', () => {
    for (const spread of [0.4, 3, 5, 9]) {
      const { plan } = planOf(drum(spread));
      expect(plan.serves.girth[0]).toBeLessThanOrEqual(2 * Math.PI * (R - spread / 2) + 1e-6);
      expect(plan.serves.girth[1]).toBeGreaterThanOrEqual(2 * Math.PI * (R + spread / 2) - 1e-6);
    }
  });
});
