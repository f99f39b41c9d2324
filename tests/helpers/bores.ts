import { inShell } from '../../src/collar/frame3.ts';
import type { CollarPlan, Vec3 } from '../../src/collar/plan.ts';
import type { Hole, Layout } from '../../src/model/layout.ts';
import { dot } from './solid.ts';

export interface FoundBore {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly diameter: number;
}

/** Bores as the plates carry them where they stand: from the outer plate's far face to the inner plate's near face. */
export function boresInPlates(plan: CollarPlan): Map<string, FoundBore> {
  const found = new Map<string, FoundBore>();
  const parts = new Map(plan.parts.map((p) => [p.id, p]));
  for (const p of plan.placements.filter((q) => q.part.endsWith('-outer'))) {
    const inner = plan.placements.find((q) => q.part === p.part.replace(/outer$/, 'inner'));
    parts.get(p.part)?.inner.forEach((h, i) => {
      const g = parts.get(inner?.part ?? '')?.inner[i];
      if (h.kind !== 'circle' || g?.kind !== 'circle' || inner === undefined) throw new Error('a bore is a circle');
      if (h.id === undefined) return;
      if (found.has(h.id)) throw new Error(`two bores claim ${h.id}`);
      found.set(h.id, {
        from: inShell(p.frame, h.center.x, h.center.y, p.thickness),
        to: inShell(inner.frame, g.center.x, g.center.y, 0),
        diameter: 2 * h.radius,
      });
    });
  }
  return found;
}

/** How far a bore's axis misses a planned hole: mm at the skin, and degrees from the way its screw stands. */
export function missOf(bore: FoundBore, hole: Hole, layout: Layout): { mm: number; deg: number } {
  const rad = Math.PI / 180;
  const d = bore.from.map((v, i) => (bore.to[i] as number) - v) as [number, number, number];
  const length = Math.hypot(...d);
  const axis: Vec3 = [d[0] / length, d[1] / length, d[2] / length];
  const at: Vec3 = [
    layout.radius * Math.cos(hole.angle * rad),
    layout.radius * Math.sin(hole.angle * rad),
    hole.height,
  ];
  const line = layout.placed.find((p) => p.id === hole.fitting)?.angle as number;
  const way = (hole.axes === 'radial' ? hole.angle : line) * rad;
  const want: Vec3 = [-Math.cos(way), -Math.sin(way), 0];
  const rel: Vec3 = [at[0] - bore.from[0], at[1] - bore.from[1], at[2] - bore.from[2]];
  const along = dot(rel, axis);
  const mm = Math.hypot(...rel.map((v, i) => v - along * (axis[i] as number)));
  return { mm, deg: Math.acos(Math.min(1, dot(axis, want))) / rad };
}
