import type { Path, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm, Rad } from '../units/scalar.ts';

/** One piece of a path with everything a measurement needs. Every meter and writer walks these, so they cannot disagree. */
export type Span =
  | { readonly kind: 'line'; readonly a: FlatPoint; readonly b: FlatPoint }
  | {
      readonly kind: 'arc';
      readonly a: FlatPoint;
      readonly b: FlatPoint;
      readonly center: FlatPoint;
      readonly radius: Mm;
      /** Direction of `a` seen from the centre. */
      readonly start: Rad;
      /** Signed, counter-clockwise positive; ends that coincide make a full turn. */
      readonly sweep: Rad;
    };

export type ArcSpan = Extract<Span, { kind: 'arc' }>;

const TURN = 2 * Math.PI;

/** Plain root of squares: no coordinate here comes near to where `Math.hypot`'s care, which costs ten times as much, matters. */
export const distance = (a: FlatPoint, b: FlatPoint): Mm => Math.sqrt((b.x - a.x) ** 2 + (b.y - a.y) ** 2);

export function arcSpan(a: FlatPoint, b: FlatPoint, center: FlatPoint, ccw: boolean): ArcSpan {
  const start = Math.atan2(a.y - center.y, a.x - center.x);
  const end = Math.atan2(b.y - center.y, b.x - center.x);
  let sweep = ccw ? end - start : start - end;
  while (sweep <= 0) sweep += TURN;
  while (sweep > TURN) sweep -= TURN;
  return { kind: 'arc', a, b, center, radius: distance(center, a), start, sweep: ccw ? sweep : -sweep };
}

/** The path piece by piece, in order of travel. */
export function spansOf(path: Path): Span[] {
  const spans: Span[] = [];
  let a = path.start;
  for (const seg of path.segs) {
    spans.push(seg.kind === 'line' ? { kind: 'line', a, b: seg.to } : arcSpan(a, seg.to, seg.center, seg.ccw));
    a = seg.to;
  }
  return spans;
}

/** Back from spans to a path. Ends of neighbours must meet; the last returns to the start when `closed`. */
export function pathOf(spans: readonly Span[], like: Pick<Path, 'layer' | 'from'>, closed: boolean): Path {
  const first = spans[0];
  if (first === undefined) throw new RangeError('a path needs at least one span');
  return {
    kind: 'path',
    layer: like.layer,
    from: like.from,
    start: first.a,
    closed,
    segs: spans.map((s) =>
      s.kind === 'line' ? { kind: 'line', to: s.b } : { kind: 'arc', to: s.b, center: s.center, ccw: s.sweep > 0 },
    ),
  };
}

export const spanLength = (s: Span): Mm => (s.kind === 'line' ? distance(s.a, s.b) : s.radius * Math.abs(s.sweep));

/** Point at parameter t, 0 at `a` to 1 at `b`. */
export function pointOn(s: Span, t: number): FlatPoint {
  if (s.kind === 'line') return { x: s.a.x + t * (s.b.x - s.a.x), y: s.a.y + t * (s.b.y - s.a.y) };
  const at = s.start + t * s.sweep;
  return { x: s.center.x + s.radius * Math.cos(at), y: s.center.y + s.radius * Math.sin(at) };
}

/** The piece of a span between two parameters. */
export function part(s: Span, t0: number, t1: number): Span {
  if (t0 === 0 && t1 === 1) return s;
  const a = t0 === 0 ? s.a : pointOn(s, t0);
  const b = t1 === 1 ? s.b : pointOn(s, t1);
  if (s.kind === 'line') return { kind: 'line', a, b };
  return { ...s, a, b, start: s.start + t0 * s.sweep, sweep: (t1 - t0) * s.sweep };
}

/** Where direction `angle` (radians, from the centre) lies on the arc: 0..1, or beyond 1 when it is not on it. */
export function turnAlong(s: ArcSpan, angle: Rad): number {
  let d = s.sweep > 0 ? angle - s.start : s.start - angle;
  d %= TURN;
  if (d < 0) d += TURN;
  return d / Math.abs(s.sweep);
}

/** Least distance from a point to a span. */
export function distanceTo(s: Span, p: FlatPoint): Mm {
  if (s.kind === 'line') {
    const dx = s.b.x - s.a.x;
    const dy = s.b.y - s.a.y;
    const ll = dx * dx + dy * dy;
    const t = ll === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - s.a.x) * dx + (p.y - s.a.y) * dy) / ll));
    return Math.sqrt((p.x - s.a.x - t * dx) ** 2 + (p.y - s.a.y - t * dy) ** 2);
  }
  const t = turnAlong(s, Math.atan2(p.y - s.center.y, p.x - s.center.x));
  return t <= 1 ? Math.abs(distance(p, s.center) - s.radius) : Math.min(distance(p, s.a), distance(p, s.b));
}

export interface Box {
  readonly min: FlatPoint;
  readonly max: FlatPoint;
}

/** Tight box of a span: an arc reaches its centre's east, north, west or south only where it passes there. */
export function spanBox(s: Span): Box {
  let x0 = Math.min(s.a.x, s.b.x);
  let x1 = Math.max(s.a.x, s.b.x);
  let y0 = Math.min(s.a.y, s.b.y);
  let y1 = Math.max(s.a.y, s.b.y);
  if (s.kind === 'arc') {
    const passes = (quarter: number): boolean => turnAlong(s, (quarter * Math.PI) / 2) <= 1;
    if (passes(0)) x1 = Math.max(x1, s.center.x + s.radius);
    if (passes(1)) y1 = Math.max(y1, s.center.y + s.radius);
    if (passes(2)) x0 = Math.min(x0, s.center.x - s.radius);
    if (passes(3)) y0 = Math.min(y0, s.center.y - s.radius);
  }
  return { min: { x: x0, y: y0 }, max: { x: x1, y: y1 } };
}

export function shapeBox(shape: Shape): Box {
  if (shape.kind === 'circle') {
    const { center: c, radius: r } = shape;
    return { min: { x: c.x - r, y: c.y - r }, max: { x: c.x + r, y: c.y + r } };
  }
  // Most shapes are letters, made of lines alone: their points are their box.
  let { x: x0, y: y0 } = shape.start;
  let [x1, y1] = [x0, y0];
  let a = shape.start;
  for (const s of shape.segs) {
    const box = s.kind === 'line' ? undefined : spanBox(arcSpan(a, s.to, s.center, s.ccw));
    const [min, max] = box === undefined ? [s.to, s.to] : [box.min, box.max];
    if (min.x < x0) x0 = min.x;
    if (max.x > x1) x1 = max.x;
    if (min.y < y0) y0 = min.y;
    if (max.y > y1) y1 = max.y;
    a = s.to;
  }
  return { min: { x: x0, y: y0 }, max: { x: x1, y: y1 } };
}

/** The smallest box round several. Throws RangeError when there are none: nothing has no place. */
export function join(boxes: readonly Box[]): Box {
  if (boxes.length === 0) throw new RangeError('no box round nothing');
  let x0 = Number.POSITIVE_INFINITY;
  let y0 = Number.POSITIVE_INFINITY;
  let x1 = Number.NEGATIVE_INFINITY;
  let y1 = Number.NEGATIVE_INFINITY;
  for (const b of boxes) {
    x0 = Math.min(x0, b.min.x);
    y0 = Math.min(y0, b.min.y);
    x1 = Math.max(x1, b.max.x);
    y1 = Math.max(y1, b.max.y);
  }
  return { min: { x: x0, y: y0 }, max: { x: x1, y: y1 } };
}

/** Whether two boxes come within `gap` of each other. */
export const near = (a: Box, b: Box, gap: Mm): boolean =>
  a.min.x - gap <= b.max.x && b.min.x - gap <= a.max.x && a.min.y - gap <= b.max.y && b.min.y - gap <= a.max.y;
