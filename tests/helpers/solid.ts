import Module, { type CrossSection, type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { CollarPlan, Placement, Vec3 } from '../../src/collar/plan.ts';
import type { Part, Shape } from '../../src/model/drawing.ts';
import { polygonOf } from './flat.ts';

/** Chord error of the bodies, mm. Round holes come out smaller by this, never larger. */
export const CHORD = 0.01;

let kernel: Promise<ManifoldToplevel> | undefined;

/** The general solid library, ready. */
export function solidKernel(): Promise<ManifoldToplevel> {
  kernel ??= Module().then((m) => {
    m.setup();
    return m;
  });
  return kernel;
}

const ring = (shape: Shape): [number, number][] => polygonOf(shape, CHORD).map((p) => [p.x, p.y]);

/** A cut piece as a body: its flat outline extruded by the sheet and put where the assembly says. */
export function bodyOf(k: ManifoldToplevel, part: Part, p: Placement): Manifold {
  const outer = new k.CrossSection([ring(part.outer)], 'EvenOdd');
  const inner = part.inner.map((i) => new k.CrossSection([ring(i)], 'EvenOdd'));
  const flat = inner.length > 0 ? outer.subtract(k.CrossSection.union(inner)) : outer;
  const { x, y, z, origin } = p.frame;
  return flat.extrude(p.thickness).transform([...x, 0, ...y, 0, ...z, 0, ...origin, 1]);
}

export interface Body {
  readonly id: string;
  readonly part: Part;
  readonly placement: Placement;
  readonly body: Manifold;
}

export function assembled(k: ManifoldToplevel, plan: CollarPlan): Body[] {
  const parts = new Map(plan.parts.map((p) => [p.id, p]));
  return plan.placements.map((placement) => {
    const part = parts.get(placement.part);
    if (part === undefined) throw new Error(`no part ${placement.part}`);
    return { id: `${part.id} ${placement.instance}`, part, placement, body: bodyOf(k, part, placement) };
  });
}

export const meets = (a: Manifold, b: Manifold): boolean => {
  const [p, q] = [a.boundingBox(), b.boundingBox()];
  return [0, 1, 2].every(
    (i) => (p.min[i] as number) < (q.max[i] as number) && (q.min[i] as number) < (p.max[i] as number),
  );
};

/** A shell's section, oval by `round` (largest less smallest diameter), its large axis along x. */
export function annulus(k: ManifoldToplevel, radius: number, wall: number, round = 0): CrossSection {
  const [a, b] = [radius + round / 4, radius - round / 4];
  const n = 360;
  const oval = (p: number, q: number): [number, number][] =>
    Array.from({ length: n }, (_, i) => [p * Math.cos((2 * Math.PI * i) / n), q * Math.sin((2 * Math.PI * i) / n)]);
  return new k.CrossSection([oval(a, b)], 'EvenOdd').subtract(
    new k.CrossSection([oval(a - wall, b - wall)], 'EvenOdd'),
  );
}

/** A drum shell as a tube standing on z = 0. */
export const tube = (k: ManifoldToplevel, radius: number, wall: number, depth: number, round = 0): Manifold =>
  annulus(k, radius, wall, round).extrude(depth);

export const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
