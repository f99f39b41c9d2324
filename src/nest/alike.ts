import { cutLines } from '../drawing/kerf.ts';
import { moveShape } from '../drawing/paths.ts';
import type { Part, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Staged } from '../model/stage.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** Where a part's own frame is counted from, so that the same part drawn elsewhere has the same key. */
const originOf = ({ outer }: Part): FlatPoint => (outer.kind === 'circle' ? outer.center : outer.start);

/** A shape's numbers from `o`, to float noise. */
function keyOf(shape: Shape, o: FlatPoint): string {
  const grain = (v: Mm): number => Math.round(v / tolerance.noise);
  const at = (p: FlatPoint): string => `${grain(p.x - o.x)},${grain(p.y - o.y)}`;
  if (shape.kind === 'circle') return `o${at(shape.center)},${grain(shape.radius)}`;
  let key = at(shape.start);
  for (const s of shape.segs)
    key += s.kind === 'line' ? ` ${at(s.to)}` : ` ${at(s.to)}${s.ccw ? '(' : ')'}${at(s.center)}`;
  return key;
}

/** A number for every outline, the same for parts of the same outline. */
export function outlines(): (part: Part) => number {
  const known = new Map<string, number>();
  return (part) => {
    const key = keyOf(part.outer, originOf(part));
    const ready = known.get(key) ?? known.size;
    known.set(key, ready);
    return ready;
  };
}

/** `cutLines` for many parts: contours that a part before had too are moved from there. A collar has few kinds of many parts. */
export function cutter(kerf: Mm, bridge: Mm): (part: Part) => Staged<Shape[]> {
  const known = new Map<string, { origin: FlatPoint; shapes: readonly Shape[] }>();
  return (part) => {
    const origin = originOf(part);
    const key = [...part.inner, part.outer].map((s) => keyOf(s, origin)).join('|');
    const like = known.get(key);
    if (like === undefined) {
      const lines = cutLines(part, kerf, bridge);
      // What is refused is refused by name, each part for itself.
      if (lines.facts.length === 0) known.set(key, { origin, shapes: lines.value });
      return lines;
    }
    const [dx, dy] = [origin.x - like.origin.x, origin.y - like.origin.y];
    const own = [...part.inner, part.outer];
    return { value: like.shapes.map((s, i) => named(moveShape(s, dx, dy), own[i] as Shape)), facts: [] };
  };
}

/** A cut line with the names of the contour it belongs to. */
function named(shape: Shape, own: Shape): Shape {
  if (shape.kind === 'path' || own.kind === 'path') return { ...shape, from: own.from };
  const { kind, layer, center, radius } = shape;
  return { ...own, kind, layer, center, radius };
}
