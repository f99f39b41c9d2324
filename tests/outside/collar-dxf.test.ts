import type { CrossSection, ManifoldToplevel } from 'manifold-3d';
import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import { inShell } from '../../src/collar/frame3.ts';
import type { Vec3 } from '../../src/collar/plan.ts';
import { cutLines } from '../../src/drawing/kerf.ts';
import { bounds, signedArea } from '../../src/drawing/paths.ts';
import type { Part } from '../../src/model/drawing.ts';
import type { Jig } from '../../src/model/jig.ts';
import { toDxf } from '../../src/write/dxf.ts';
import { missOf } from '../helpers/bores.ts';
import { demo, planned, type Raw } from '../helpers/jigs.ts';
import { readDxf } from '../helpers/read-dxf.ts';
import { meets, solidKernel } from '../helpers/solid.ts';

/*
 * The files as a service cuts them: every part's beam lines written as DXF, read by another program, the beam's width put
 * back by a general polygon library, extruded and assembled. What the builder holds in hand must still fit.
 */

interface Ring {
  readonly layer: string;
  readonly points: [number, number][];
  /** Centre and radius of a CIRCLE. */
  readonly circle?: { readonly x: number; readonly y: number; readonly r: number };
}

const CHORD = 0.01;

/** Closed contours of a DXF, arcs in chords: bulge = tan(sweep / 4) (DXF Reference, LWPOLYLINE). */
function ringsOf(text: string): Ring[] {
  return readDxf(text).entities.flatMap((raw): Ring[] => {
    const e = raw as unknown as {
      type: string;
      layer: string;
      vertices?: { x: number; y: number; bulge?: number }[];
      center?: { x: number; y: number };
      radius?: number;
    };
    if (e.type === 'CIRCLE' && e.center && e.radius) {
      const { x, y } = e.center;
      const n = Math.ceil(Math.PI / Math.acos(1 - CHORD / Math.max(e.radius, 2 * CHORD)));
      const points = Array.from({ length: n }, (_, i): [number, number] => [
        x + e.radius! * Math.cos((2 * Math.PI * i) / n),
        y + e.radius! * Math.sin((2 * Math.PI * i) / n),
      ]);
      return [{ layer: e.layer, points, circle: { x, y, r: e.radius } }];
    }
    if (e.type !== 'LWPOLYLINE' || !e.layer.startsWith('CUT')) return [];
    const points: [number, number][] = [];
    const vertices = e.vertices ?? [];
    vertices.forEach((a, i) => {
      points.push([a.x, a.y]);
      const b = vertices[(i + 1) % vertices.length] as { x: number; y: number };
      const sweep = 4 * Math.atan(a.bulge ?? 0);
      if (sweep === 0) return;
      const [dx, dy] = [b.x - a.x, b.y - a.y];
      // Centre to the left of the chord for a positive bulge of less than half a turn.
      const h = 1 / Math.tan(sweep / 2) / 2;
      const [cx, cy] = [a.x + dx / 2 - h * dy, a.y + dy / 2 + h * dx];
      const r = Math.hypot(a.x - cx, a.y - cy);
      const from = Math.atan2(a.y - cy, a.x - cx);
      const n = Math.max(1, Math.ceil(Math.abs(sweep) / (2 * Math.acos(1 - Math.min(0.9, CHORD / r)))));
      for (let k = 1; k < n; k++)
        points.push([cx + r * Math.cos(from + (k * sweep) / n), cy + r * Math.sin(from + (k * sweep) / n)]);
    });
    return [{ layer: e.layer, points }];
  });
}

/** Sides of the disc that stands for the cutter. */
const SIDES = 24;

/**
 * What is left of the sheet when a round cutter as wide as the cut has gone along every line: a disc swept along it,
 * taken away. It leaves its own radius in every corner that it cannot reach.
 */
function afterCut(k: ManifoldToplevel, rings: readonly Ring[], kerf: number): CrossSection {
  const [outline] = rings.filter((r) => r.layer === 'CUT-OUTER');
  if (outline === undefined || rings.filter((r) => r.layer === 'CUT-OUTER').length !== 1)
    throw new Error('one outline, please');
  const area = (r: Ring): CrossSection => new k.CrossSection([r.points], 'EvenOdd');
  // Within an outline the disc runs inside it, within a cut-out outside it: all that it touches goes.
  const kept = area(outline).offset(-kerf / 2, 'Round', 2, SIDES);
  const gone = rings.filter((r) => r !== outline).map((r) => area(r).offset(kerf / 2, 'Round', 2, SIDES));
  return gone.length === 0 ? kept : kept.subtract(k.CrossSection.union(gone));
}

/** Left by a round beam in a square inside corner, r^2 (1 - pi / 4) each, where a foot's four corners meet it. */
const inCorners = (jig: Jig, kerf: number): number =>
  jig.collar.cut === 'router' ? 0.01 : 0.01 + 4 * (1 - Math.PI / 4) * (kerf / 2) ** 2 * jig.collar.thickness;

const CASES: [string, () => Raw, number][] = [
  ['rack tom in two layers', () => demo('jigs/kettle-row-rack-tom.yaml'), 0.25],
  [
    'sectors of thin sheet, wide beam',
    () => ({
      ...demo('jigs/kettle-row-floor-tom.yaml'),
      collar: {
        build: 'sector',
        material: 'birch-ply-3',
        thickness: 3.05,
        bushing: { inside: 5.5, outside: 9, length: 12 },
      },
    }),
    0.4,
  ],
  [
    'cut with a router, clamped by bolts',
    () => ({
      jig: 1,
      name: 'small router',
      shell: { diameter: 200, depth: 140, wall: 5, round: 0.5, edges: 'cut' },
      lugs: {
        count: 5,
        rows: [{ edge: 'top', distance: 40 }],
        holes: { layout: 'upright', spacing: 25.4, drill: 6 },
      },
      collar: {
        material: 'birch-ply-6',
        thickness: 5.8,
        cut: 'router',
        hold: 'bolts',
        bushing: { inside: 6, outside: 10, length: 18 },
      },
    }),
    3,
  ],
];

describe.each(CASES)('%s', (_, raw, kerf) => {
  test('assembles from the files alone, and every bore meets its hole', async () => {
    const k = await solidKernel();
    const { jig: said, layout } = planned(raw());
    const { collar } = said;
    const jig = { ...said, collar: { ...collar, sheet: { ...collar.sheet, kerf } } };
    const { value: plan } = planCollar(jig, layout, { digest: '0123456789' });
    const flat = new Map<string, { readonly section: CrossSection; readonly rings: readonly Ring[] }>();
    for (const part of plan.parts) {
      const { value: shapes, facts } = cutLines(part, kerf, jig.collar.sheet.bridge);
      expect(facts, part.id).toEqual([]);
      const { min, max } = bounds(shapes);
      const rings = ringsOf(toDxf({ title: part.id, min, max, shapes }));
      expect(rings, part.id).toHaveLength(1 + part.inner.length);
      flat.set(part.id, { section: afterCut(k, rings, kerf), rings });
    }
    const bodies = plan.placements.map((p) => {
      const { x, y, z, origin } = p.frame;
      const section = flat.get(p.part)?.section as CrossSection;
      return { p, body: section.extrude(p.thickness).transform([...x, 0, ...y, 0, ...z, 0, ...origin, 1]) };
    });
    for (const { p, body } of bodies) {
      const part = plan.parts.find((q) => q.id === p.part) as Part;
      const net = signedArea(part.outer) - part.inner.reduce((s, h) => s + Math.abs(signedArea(h)), 0);
      expect(Math.abs(body.volume() / p.thickness / net - 1), p.part).toBeLessThan(3e-3);
    }
    for (const [i, a] of bodies.entries())
      for (const b of bodies.slice(i + 1))
        if (a.p.collar === b.p.collar && meets(a.body, b.body))
          expect(a.body.intersect(b.body).volume(), `${a.p.part} in ${b.p.part}`).toBeLessThan(inCorners(jig, kerf));

    let met = 0;
    for (const p of plan.placements.filter((q) => q.part.endsWith('-outer'))) {
      const inner = plan.placements.find((q) => q.part === p.part.replace(/outer$/, 'inner'));
      const part = plan.parts.find((q) => q.id === p.part) as Part;
      const front = flat.get(p.part)?.rings.filter((r) => r.circle !== undefined) ?? [];
      const back = flat.get(inner?.part ?? '')?.rings.filter((r) => r.circle !== undefined) ?? [];
      // Circles in the file carry no names: the one at a hole's place is that hole's.
      for (const h of part.inner) {
        if (h.kind !== 'circle' || h.id === undefined || inner === undefined) continue;
        const hole = layout.holes.find((q) => q.id === h.id);
        if (hole === undefined) throw new Error(h.id);
        const near = (r: Ring): boolean => Math.hypot(r.circle!.x - h.center.x, r.circle!.y - h.center.y) < 0.5;
        const [f, b] = [front.find(near)?.circle, back.find(near)?.circle];
        if (f === undefined || b === undefined) throw new Error(`${h.id} is not in its files`);
        const from: Vec3 = inShell(p.frame, f.x, f.y, p.thickness);
        const miss = missOf({ from, to: inShell(inner.frame, b.x, b.y, 0), diameter: 2 * f.r + kerf }, hole, layout);
        expect(miss.mm, h.id).toBeLessThan(0.01);
        expect(miss.deg, h.id).toBeLessThan(0.01);
        expect(2 * f.r + kerf, h.id).toBeCloseTo(2 * h.radius, 5);
        met++;
      }
    }
    expect(met).toBeGreaterThan(8);
  });
});
