import type { Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import { distance, spansOf } from './spans.ts';

/** Whether the point lies within the closed shape (its line counts as either). Exact for arcs: turns seen from the point are summed. */
export function isInside(shape: Shape, p: FlatPoint): boolean {
  if (shape.kind === 'circle') return distance(shape.center, p) < shape.radius;
  let turns = 0;
  for (const s of spansOf(shape)) {
    const [ax, ay, bx, by] = [s.a.x - p.x, s.a.y - p.y, s.b.x - p.x, s.b.y - p.y];
    let turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
    // Between an arc and its chord the point is seen from the chord's other side: a whole turn more or less.
    if (s.kind === 'arc' && betweenArcAndChord(s, p)) turn += s.sweep > 0 ? 2 * Math.PI : -2 * Math.PI;
    turns += turn;
  }
  return Math.abs(turns) > Math.PI;
}

function betweenArcAndChord(s: Extract<ReturnType<typeof spansOf>[number], { kind: 'arc' }>, p: FlatPoint): boolean {
  if (distance(s.center, p) >= s.radius) return false;
  const cross = (s.b.x - s.a.x) * (p.y - s.a.y) - (s.b.y - s.a.y) * (p.x - s.a.x);
  // The arc bulges to the right of its chord when it runs counter-clockwise, whatever its length.
  return s.sweep > 0 ? cross < 0 : cross > 0;
}
