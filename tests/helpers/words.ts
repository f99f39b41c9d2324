import { contour } from '../../src/drawing/contour.ts';
import { letters } from '../../src/drawing/lettering.ts';
import { distanceTo, near, pointOn, type Span, shapeBox } from '../../src/drawing/spans.ts';
import type { Shape } from '../../src/model/drawing.ts';

/** Places of a shape's ends and corners. */
const places = (s: Shape) => contour(s).flatMap((span) => [span.a, span.b]);

/** Whether the text stands there, level or upright, in letters of that height: every stroke of it, at one place. */
export function reads(shapes: readonly Shape[], text: string, height: number): boolean {
  const strokes = shapes.filter((s) => s.layer === 'ENGRAVE').map(places);
  return [0, 90].some((turn) => {
    const wanted = letters(text, { x: 0, y: 0 }, height, { turn }).map(places);
    const first = wanted[0]?.[0];
    if (first === undefined) return false;
    return strokes.some(([at]) => {
      const [dx, dy] = at === undefined ? [0, 0] : [at.x - first.x, at.y - first.y];
      return wanted.every((w) =>
        strokes.some(
          (s) =>
            s.length === w.length &&
            s.every((p, i) => Math.hypot(p.x - dx - (w[i]?.x ?? 0), p.y - dy - (w[i]?.y ?? 0)) < 0.01),
        ),
      );
    });
  });
}

const touch = (a: readonly Span[], b: readonly Span[], gap: number): boolean =>
  a.some((p) => b.some((q) => [0, 0.25, 0.5, 0.75, 1].some((t) => distanceTo(q, pointOn(p, t)) < gap)));

/** Engraved strokes nearer than `gap` to any line that is not engraved, told by place. */
export function overprinted(shapes: readonly Shape[], gap = 0.2): string[] {
  const words = shapes.filter((s) => s.layer === 'ENGRAVE');
  const others = shapes.filter((s) => s.layer !== 'ENGRAVE').map((s) => ({ s, box: shapeBox(s), spans: contour(s) }));
  return words.flatMap((w) => {
    const [box, spans] = [shapeBox(w), contour(w)];
    const hit = others.find((o) => near(o.box, box, gap) && touch(spans, o.spans, gap));
    return hit === undefined
      ? []
      : [`${hit.s.layer} ${hit.s.from} at ${box.min.x.toFixed(0)}, ${box.min.y.toFixed(0)}`];
  });
}
