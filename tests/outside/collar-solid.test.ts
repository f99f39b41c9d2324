import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import type { CollarPlan, Vec3 } from '../../src/collar/plan.ts';
import { signedArea } from '../../src/drawing/paths.ts';
import type { Jig } from '../../src/model/jig.ts';
import type { Layout } from '../../src/model/layout.ts';
import { boresInPlates, missOf } from '../helpers/bores.ts';
import { demo, planned } from '../helpers/jigs.ts';
import { annulus, assembled, type Body, CHORD, meets, solidKernel, tube } from '../helpers/solid.ts';

/*
 * The collar put together from its flat parts alone (extruded by the sheet, placed by the assembly's frames) in a general
 * solid library, which knows nothing of collars: what interpenetrates, what is loose and what a bit meets is its verdict.
 */

/** What stands round the shell. */
interface Standing {
  readonly tag: string;
  readonly up: boolean;
  readonly lip: readonly Body[];
  readonly rings: readonly Body[];
  readonly all: readonly Body[];
}

interface Case {
  readonly jig: Jig;
  readonly layout: Layout;
  readonly plan: CollarPlan;
  readonly bodies: readonly Body[];
  readonly standing: readonly Standing[];
}

const SMALL = {
  jig: 1,
  name: 'small whole rings',
  shell: { diameter: '200 mm', depth: 140, wall: 5, round: 0.5, edges: 'cut' },
  lugs: {
    count: 4,
    rows: [{ edge: 'top', distance: 40 }],
    holes: { layout: 'across', spacing: 24, drill: 6, pilot: 3, axes: 'parallel' },
  },
  fittings: [
    {
      name: 'leg',
      role: 'leg',
      at: [0, 120],
      edge: 'bottom',
      distance: 60,
      holes: { layout: 'grid', columns: 2, rows: 2, across: 60, upright: 30, drill: 5, axes: 'radial' },
    },
  ],
  collar: { material: 'birch-ply-3', thickness: 3.1, cut: 'router', sheet: 'laser-600x400' },
};

const CASES: readonly (readonly [string, () => unknown])[] = [
  ['snare in two staggered layers, parallel holes, bushings', () => demo('jigs/kettle-row-snare.yaml')],
  ['rack tom, radial holes, masts over both hoops', () => demo('jigs/kettle-row-rack-tom.yaml')],
  ['whole rings of thin sheet, router cut, parallel and radial holes beside the line', () => SMALL],
];

const isPlate = (b: Body): boolean => /-(inner|outer)$/.test(b.part.id);

/** Volume a body shares with several others that share none among themselves. */
const sharedBy = (body: Manifold, others: readonly Body[]): number =>
  others.reduce((sum, o) => sum + (meets(body, o.body) ? body.intersect(o.body).volume() : 0), 0);

describe.each(CASES)('%s', (_, raw) => {
  let k: ManifoldToplevel;
  let c: Case;
  beforeAll(async () => {
    k = await solidKernel();
    const { jig, layout } = planned(raw());
    const { value: plan } = planCollar(jig, layout, { digest: '0123456789' });
    const bodies = assembled(k, plan);
    const standing = [...new Set(bodies.map((b) => b.placement.collar))].map((tag): Standing => {
      const own = bodies.filter((b) => b.placement.collar === tag);
      const lip = own.filter((b) => b.part.id.includes('-lip'));
      const rings = [...lip, ...own.filter((b) => /-ring-\d/.test(b.part.id))];
      const up = lip.some((b) => b.body.boundingBox().min[2] < -1e-6);
      return { tag, up, lip, rings, all: [...rings, ...own.filter(isPlate)] };
    });
    c = { jig, layout, plan, bodies, standing };
  });
  const tags = (): string[] => c.standing.map((s) => s.tag);
  const of = (tag: string): Body[] => c.bodies.filter((b) => b.placement.collar === tag);

  test('every fitting is served and every part is placed as often as it is cut', () => {
    expect(c.plan.made).toBe(true);
    expect(c.plan.reach.unserved).toEqual([]);
    expect(c.plan.bores.map((b) => b.holeId).sort()).toEqual(c.layout.holes.map((h) => h.id).sort());
    for (const p of c.plan.parts)
      expect(c.plan.placements.filter((q) => q.part === p.id).length, p.id).toBe(p.quantity);
  });

  test('bodies are watertight, with the volume of their flat parts and a hole for every cut-out', () => {
    for (const b of c.bodies) {
      expect(b.body.status(), b.id).toBe('NoError');
      expect(b.body.genus(), b.id).toBe(b.part.inner.length);
      const area = signedArea(b.part.outer) - b.part.inner.reduce((s, i) => s + Math.abs(signedArea(i)), 0);
      // Chords lose at most their error along the whole girth of the cuts.
      expect(Math.abs(b.body.volume() / (area * b.placement.thickness) - 1), b.id).toBeLessThan(2e-3);
    }
  });

  test('no two parts of a collar share room', () => {
    for (const tag of tags()) {
      const bodies = of(tag);
      for (const [i, a] of bodies.entries())
        for (const b of bodies.slice(i + 1))
          if (meets(a.body, b.body)) expect(a.body.intersect(b.body).volume(), `${a.id} in ${b.id}`).toBeLessThan(1e-3);
    }
  });

  test('every plate is caught by the lip and by a ring: none can turn about the shell, lift or go further out', () => {
    const loose = c.jig.collar.material.fit + 0.1;
    for (const { tag, rings } of c.standing) {
      // Lugs are alike: two of a row stand for all.
      for (const b of of(tag).filter((p) => isPlate(p) && !/lug-\w+-([3-9]|1\d)/.test(p.id))) {
        const f = b.placement.frame;
        const pushed = (d: Vec3): number => sharedBy(b.body.translate(d[0] * loose, d[1] * loose, d[2] * loose), rings);
        const back = (d: Vec3): Vec3 => [-d[0], -d[1], -d[2]];
        for (const way of [f.x, back(f.x), f.y, back(f.y), f.z])
          expect(pushed(way), `${b.id} ${way}`).toBeGreaterThan(0.05);
      }
    }
  });

  test('feet fill their slots in the lip to its far face, and no further', () => {
    for (const tag of tags()) {
      const lips = of(tag).filter((b) => b.part.id.includes('-lip'));
      const z = lips.map((l) => l.body.boundingBox());
      const [low, high] = [Math.min(...z.map((b) => b.min[2])), Math.max(...z.map((b) => b.max[2]))];
      for (const b of of(tag).filter(isPlate)) {
        const box = b.body.boundingBox();
        expect(low < 0 ? box.min[2] - low : high - box.max[2], b.id).toBeCloseTo(0, 6);
      }
    }
  });

  test('the largest, the smallest and the most oval shell slide in to the lip; one larger by the clearance does not', () => {
    const { radius, wall, round = 0 } = c.jig.shell;
    const [small, large] = c.jig.batch?.girth.map((g) => g / 2 / Math.PI) ?? [radius, radius];
    for (const { up, all } of c.standing) {
      // Everything on the shell's side of the rim, seen along the axis: what a tube pushed in from afar would meet.
      const normal = up ? ([0, 0, 1] as const) : ([0, 0, -1] as const);
      const shadows = all
        .map((b) => b.body.trimByPlane([...normal], up ? 1e-6 : -c.jig.shell.depth + 1e-6))
        .filter((b) => !b.isEmpty())
        .map((b) => b.project());
      const shared = (r: number, oval: number, turn = 0): number => {
        const shell = annulus(k, r, wall, oval).rotate(turn);
        return shadows.reduce((sum, shadow) => sum + shell.intersect(shadow).area(), 0);
      };
      expect(shared(large as number, 0)).toBeLessThan(1e-3);
      expect(shared(small as number, 0)).toBeLessThan(1e-3);
      for (const turn of [0, 40, 90]) expect(shared(large as number, round, turn)).toBeLessThan(1e-3);
      expect(shared((large as number) + c.jig.collar.clearance + 0.05, 0)).toBeGreaterThan(1);
    }
  });

  test('the lip stands under the whole wall between the posts', () => {
    const { radius, wall, depth, round = 0 } = c.jig.shell;
    for (const { up, lip } of c.standing) {
      // A sliver of wall pushed a tenth into the lip must be in it with its whole section: only the joints' gaps are in the air.
      const sliver = tube(k, radius, wall, 0.1, round).translate(0, 0, up ? -0.1 : depth);
      expect(sharedBy(sliver, lip) / sliver.volume()).toBeGreaterThan(0.999);
    }
  });

  test('each bore, taken from the two plates where they stand, meets its planned hole', () => {
    const found = boresInPlates(c.plan);
    expect(found.size).toBe(c.layout.holes.length);
    for (const h of c.layout.holes) {
      const bore = found.get(h.id);
      if (bore === undefined) throw new Error(h.id);
      const miss = missOf(bore, h, c.layout);
      expect(miss.mm, h.id).toBeLessThan(0.01);
      expect(miss.deg, h.id).toBeLessThan(0.01);
      // Bedded bushings have the sheet's own fit round them.
      const { bushing, material } = c.jig.collar;
      const seat = bushing === undefined ? undefined : bushing.outside + material.fit;
      expect(bore.diameter, h.id).toBeCloseTo(seat ?? (h.drill > 8 ? 3 : (h.pilot ?? h.drill)), 9);
    }
  });

  test('a bit reaches every hole: nothing of the collar stands in the bore, before it or behind it', () => {
    for (const { tag, all } of c.standing) {
      const edge = tag.startsWith('top') ? 'top' : 'bottom';
      const served = new Set(c.plan.reach.served.filter((s) => s.edge === edge).map((s) => s.fitting));
      const holes = new Set(c.layout.holes.filter((h) => served.has(h.fitting)).map((h) => h.id));
      let rods = 0;
      for (const b of c.plan.bores.filter((x) => holes.has(x.holeId))) {
        const out = Math.atan2(-b.axis[1], -b.axis[0]) * (180 / Math.PI);
        // Thinner than the bore by the chord error of both bodies.
        const rod = k.Manifold.cylinder(120, b.diameter / 2 - 3 * CHORD, b.diameter / 2 - 3 * CHORD, 48);
        rods++;
        const there = rod
          .rotate(0, 90, 0)
          .rotate(0, 0, out)
          .translate([...b.point]);
        expect(sharedBy(there, all), b.holeId).toBeLessThan(1e-3);
      }
      expect(rods).toBeGreaterThan(0);
    }
  });

  test('the plates go into the guide rings from inside, as the steps say, and the rings let them', () => {
    for (const { tag } of c.standing) {
      const guides = of(tag).filter((b) => /-ring-/.test(b.part.id));
      const plates = of(tag).filter((p) => isPlate(p) && !/lug-\w+-([3-9]|1\d)/.test(p.id));
      for (const p of plates) {
        const out = p.placement.frame.z;
        for (const back of [1, 4, 12, 40]) {
          const on = p.body.translate(-back * out[0], -back * out[1], 0);
          for (const g of guides)
            if (meets(on, g.body))
              expect(on.intersect(g.body).volume(), `${p.id} ${back} in ${g.id}`).toBeLessThan(1e-3);
        }
      }
    }
  });
});

describe('sectors', () => {
  const sectorOf = (raw: Record<string, unknown>) =>
    planned({ ...raw, collar: { ...((raw['collar'] as object | undefined) ?? {}), build: 'sector' } });

  test.each(['snare', 'floor-tom', 'rack-tom'])(
    '%s: stand on the shell, share no room, and meet their holes',
    async (name) => {
      const k = await solidKernel();
      const { jig, layout } = sectorOf(demo(`jigs/kettle-row-${name}.yaml`));
      const { value: plan } = planCollar(jig, layout, { digest: '0123456789' });
      expect(plan.made).toBe(true);
      expect(plan.reach.unserved).toEqual([]);
      expect(plan.bores.map((b) => b.holeId).sort()).toEqual(layout.holes.map((h) => h.id).sort());
      const bodies = assembled(k, plan);
      // Smaller by the chords of both bodies: a sector lies on the skin itself.
      const shell = tube(k, jig.shell.radius - 2.5 * CHORD, jig.shell.wall - 5 * CHORD, jig.shell.depth);
      for (const [i, a] of bodies.entries()) {
        expect(a.body.status(), a.id).toBe('NoError');
        expect(a.body.intersect(shell).volume(), a.id).toBeLessThan(1e-3);
        for (const b of bodies.slice(i + 1)) {
          if (a.placement.collar !== b.placement.collar || !meets(a.body, b.body)) continue;
          expect(a.body.intersect(b.body).volume(), `${a.id} in ${b.id}`).toBeLessThan(1e-3);
        }
      }
      const found = boresInPlates(plan);
      expect(found.size).toBeGreaterThan(4);
      for (const [id, bore] of found) {
        const hole = layout.holes.find((h) => h.id === id);
        if (hole === undefined) throw new Error(id);
        expect(missOf(bore, hole, layout).mm, id).toBeLessThan(0.01);
        expect(missOf(bore, hole, layout).deg, id).toBeLessThan(0.01);
      }
      // The two lines of plates that step round a row stand exactly one pitch apart.
      const turns = plan.placements.filter((p) => p.collar === 'top-lugs' && p.part.endsWith('-outer'));
      const at = turns.map((p) => Math.atan2(p.frame.z[1], p.frame.z[0]) * (180 / Math.PI));
      const count = jig.rows[0]?.count as number;
      expect(Math.abs((at[1] as number) - (at[0] as number))).toBeCloseTo(360 / count, 9);
    },
  );
});
