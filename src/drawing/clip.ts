import type { Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import { tolerance } from '../units/tolerance.ts';
import { contour } from './contour.ts';
import { meetings } from './meetings.ts';
import { rectangle } from './paths.ts';
import { type Box, part, pathOf, pointOn, type Span, shapeBox, spanLength, spansOf } from './spans.ts';

/** Whether the point lies in the box or on its edge. */
const isIn = (box: Box, p: FlatPoint): boolean =>
  p.x >= box.min.x - tolerance.noise &&
  p.x <= box.max.x + tolerance.noise &&
  p.y >= box.min.y - tolerance.noise &&
  p.y <= box.max.y + tolerance.noise;

/** What of a shape lies in the box: itself, open pieces of it, or nothing. Arcs stay arcs. `own` is the shape's box if known. */
export function clipped(shape: Shape, box: Box, own: Box = shapeBox(shape)): Shape[] {
  if (isIn(box, own.min) && isIn(box, own.max)) return [shape];
  if (own.max.x < box.min.x || own.min.x > box.max.x || own.max.y < box.min.y || own.min.y > box.max.y) return [];
  const edges = spansOf(rectangle(shape.layer, 'window', box.min, box.max));
  const runs: Span[][] = [];
  let open: Span[] = [];
  for (const s of contour(shape)) {
    const cuts = edges.flatMap((e) => meetings(s, e).map((m) => Math.max(0, Math.min(1, m.s))));
    const at = [0, ...cuts, 1].sort((a, b) => a - b);
    for (let i = 1; i < at.length; i++) {
      const piece = part(s, at[i - 1] as number, at[i] as number);
      if (spanLength(piece) <= tolerance.join) continue;
      if (isIn(box, pointOn(piece, 0.5))) open.push(piece);
      else if (open.length > 0) {
        runs.push(open);
        open = [];
      }
    }
  }
  if (open.length > 0) runs.push(open);
  return runs.map((run) => pathOf(run, shape, false));
}
