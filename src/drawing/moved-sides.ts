import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Box, distance, distanceTo, near, type Span } from './spans.ts';

/** Ends closer than this (mm) are one corner: a hundredth of the join tolerance, far above float noise. */
export const CORNER = tolerance.join / 100;

/** The span moved by `right` to the right of travel; undefined for an arc that shrinks to nothing. */
export function moved(s: Span, right: Mm): Span | undefined {
  if (s.kind === 'line') {
    const l = distance(s.a, s.b);
    if (l <= tolerance.noise) return undefined;
    const dx = (right * (s.b.y - s.a.y)) / l;
    const dy = (-right * (s.b.x - s.a.x)) / l;
    return { kind: 'line', a: { x: s.a.x + dx, y: s.a.y + dy }, b: { x: s.b.x + dx, y: s.b.y + dy } };
  }
  const radius = s.radius + (s.sweep > 0 ? right : -right);
  if (radius <= CORNER) return undefined;
  const out = (p: FlatPoint): FlatPoint => ({
    x: s.center.x + ((p.x - s.center.x) * radius) / s.radius,
    y: s.center.y + ((p.y - s.center.y) * radius) / s.radius,
  });
  return { ...s, a: out(s.a), b: out(s.b), radius };
}

/** Unit direction of travel at the start (`t` = 0) or the end (`t` = 1). */
export function heading(s: Span, t: 0 | 1): readonly [number, number] {
  if (s.kind === 'line') {
    const l = distance(s.a, s.b);
    return [(s.b.x - s.a.x) / l, (s.b.y - s.a.y) / l];
  }
  const p = t === 0 ? s.a : s.b;
  const sign = s.sweep > 0 ? 1 : -1;
  return [(-sign * (p.y - s.center.y)) / s.radius, (sign * (p.x - s.center.x)) / s.radius];
}

/** Whether the moved sides gape at this corner, so that an arc must join them. */
export function gapes(before: Span, after: Span, right: Mm): boolean {
  const [ux, uy] = heading(before, 1);
  const [vx, vy] = heading(after, 0);
  const cross = ux * vy - uy * vx;
  const back = ux * vx + uy * vy < 0 && Math.abs(cross) <= tolerance.noise;
  return back || cross * right > 0;
}

/** Ends of neighbours that differ by float noise made the same point. */
export const meetingEnds = (loop: readonly Span[]): Span[] =>
  loop.map((s, i) => ({ ...s, a: (loop[(i + loop.length - 1) % loop.length] as Span).b }));

/** Whether a point lies nearer to the original than `d`. */
export function tooNear(p: FlatPoint, original: readonly Span[], boxes: readonly Box[], d: Mm): boolean {
  const box = { min: p, max: p };
  for (const [i, s] of original.entries()) {
    if (near(box, boxes[i] as Box, d) && distanceTo(s, p) < d - tolerance.noise) return true;
  }
  return false;
}

/** Pairs i < j of boxes that touch, by a sweep along x. */
export function closePairs(boxes: readonly Box[]): (readonly [number, number])[] {
  const order = boxes.map((_, i) => i).sort((a, b) => (boxes[a] as Box).min.x - (boxes[b] as Box).min.x);
  const pairs: (readonly [number, number])[] = [];
  let open: number[] = [];
  for (const i of order) {
    const box = boxes[i] as Box;
    open = open.filter((k) => (boxes[k] as Box).max.x + tolerance.noise >= box.min.x);
    for (const k of open) {
      if (near(box, boxes[k] as Box, tolerance.noise)) pairs.push(i < k ? [i, k] : [k, i]);
    }
    open.push(i);
  }
  return pairs;
}
