import type { Layer, Path, Seg } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A corner of a contour and how the line comes to it: straight, or round the origin. */
export interface Step extends FlatPoint {
  readonly round?: 'ccw' | 'cw';
}

const ORIGIN: FlatPoint = { x: 0, y: 0 };

/** Point `u` to the left of the ray at `angle`, `r` along it: a place beside a fitting's line, seen from above. */
export function beside(angle: Deg, u: Mm, r: Mm): FlatPoint {
  const [c, s] = [Math.cos(toRad(angle)), Math.sin(toRad(angle))];
  return { x: r * c - u * s, y: r * s + u * c };
}

/** Half-side distance of a circle of radius `r` at `u` beside the ray: where a notch's flank meets the round edge. */
export const onRound = (r: Mm, u: Mm): Mm => Math.sqrt(r * r - u * u);

/**
 * Closed contour through the steps; the first step's `round` says how the last point comes back to it. With `relief` > 0
 * every square corner that a round cutter cannot reach gets a round of that radius whose edge passes through the corner,
 * so that the neighbour seats. Corners turning right are inside corners of an outline; turning left, of a cut-out.
 */
export function contour(layer: Layer, from: string, steps: readonly Step[], relief: Mm, cutout: boolean): Path {
  const n = steps.length;
  const points: Step[] = [];
  const arcs = new Map<Step, { center: FlatPoint; ccw: boolean }>();
  for (let i = 0; i < n; i++) {
    const here = steps[i] as Step;
    const last = steps[(i + n - 1) % n] as Step;
    const next = steps[(i + 1) % n] as Step;
    if (relief <= 0 || here.round || next.round) {
      points.push(here);
      continue;
    }
    const [ax, ay, al] = unit(last, here);
    const [bx, by, bl] = unit(here, next);
    const turn = ax * by - ay * bx;
    if ((cutout ? turn : -turn) < 0.9) {
      points.push(here);
      continue;
    }
    const back = Math.min(Math.SQRT2 * relief, 0.49 * al, 0.49 * bl);
    const enter: Step = { x: here.x - back * ax, y: here.y - back * ay };
    const leave: Step = { x: here.x + back * bx, y: here.y + back * by };
    points.push(enter, leave);
    arcs.set(leave, { center: { x: (enter.x + leave.x) / 2, y: (enter.y + leave.y) / 2 }, ccw: turn > 0 });
  }
  const start = points[0] as Step;
  const segs: Seg[] = [...points.slice(1), start].map((p) => {
    const to = { x: p.x, y: p.y };
    const arc = arcs.get(p);
    if (arc) return { kind: 'arc', to, ...arc };
    return p.round ? { kind: 'arc', to, center: ORIGIN, ccw: p.round === 'ccw' } : { kind: 'line', to };
  });
  return { kind: 'path', layer, from, start: { x: start.x, y: start.y }, segs, closed: true };
}

function unit(a: FlatPoint, b: FlatPoint): readonly [number, number, number] {
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  return length < tolerance.noise ? [0, 0, 0] : [(b.x - a.x) / length, (b.y - a.y) / length, length];
}

/** A cut into a ring's inner edge at an angle: corners (beside, out) in the order of growing angle, from edge to edge. */
export interface Notch {
  readonly angle: Deg;
  readonly corners: (inside: Mm) => readonly (readonly [u: Mm, r: Mm])[];
}

/** The inner edge of a ring with its notches, walked with growing angle (`ccw`) or against it; arcs lead to each notch. */
export function notchedEdge(notches: readonly Notch[], inside: Mm, way: 'ccw' | 'cw'): Step[] {
  const inOrder = way === 'ccw' ? notches : [...notches].reverse();
  return inOrder.flatMap((n) => {
    const corners = n.corners(inside).map(([u, r]) => beside(n.angle, u, r));
    if (way === 'cw') corners.reverse();
    return corners.map((p, i): Step => (i === 0 ? { ...p, round: way } : p));
  });
}
