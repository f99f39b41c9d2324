import type { Circle, Layer, Path, Seg, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { arcSpan, type Box, distance, join, shapeBox, spanLength, spansOf } from './spans.ts';

/** Building and measuring flat shapes. Lengths in mm, angles in degrees, y up, counter-clockwise positive. */

const line = (to: FlatPoint): Seg => ({ kind: 'line', to });

/** Closed contour through the points, in their order. At least three. */
export function polygon(layer: Layer, from: string, points: readonly FlatPoint[]): Path {
  const [start, ...rest] = points;
  if (start === undefined || rest.length < 2) throw new RangeError(`${from}: a polygon needs three points`);
  return { kind: 'path', layer, from, start, segs: [...rest, start].map(line), closed: true };
}

/** Open chain through the points. At least two. */
export function chain(layer: Layer, from: string, points: readonly FlatPoint[]): Path {
  const [start, ...rest] = points;
  if (start === undefined || rest.length < 1) throw new RangeError(`${from}: a chain needs two points`);
  return { kind: 'path', layer, from, start, segs: rest.map(line), closed: false };
}

/** Open straight line. */
export const segment = (layer: Layer, from: string, a: FlatPoint, b: FlatPoint): Path => chain(layer, from, [a, b]);

/** Closed, counter-clockwise, from lower left to upper right. */
export const rectangle = (layer: Layer, from: string, min: FlatPoint, max: FlatPoint): Path =>
  polygon(layer, from, [min, { x: max.x, y: min.y }, max, { x: min.x, y: max.y }]);

/** Rectangle with corner radius r; r is cut down to half the shorter side, and 0 gives sharp corners. */
export function roundedRectangle(layer: Layer, from: string, min: FlatPoint, max: FlatPoint, r: Mm): Path {
  const w = max.x - min.x;
  const h = max.y - min.y;
  const q = Math.min(r, w / 2, h / 2);
  if (q <= 0) return rectangle(layer, from, min, max);
  const start = { x: min.x + q, y: min.y };
  const segs: Seg[] = [];
  let at = start;
  const go = (to: FlatPoint): void => {
    if (to.x !== at.x || to.y !== at.y) segs.push(line(to));
    at = to;
  };
  const corner = (to: FlatPoint, center: FlatPoint): void => {
    segs.push({ kind: 'arc', to, center, ccw: true });
    at = to;
  };
  go({ x: max.x - q, y: min.y });
  corner({ x: max.x, y: min.y + q }, { x: max.x - q, y: min.y + q });
  go({ x: max.x, y: max.y - q });
  corner({ x: max.x - q, y: max.y }, { x: max.x - q, y: max.y - q });
  go({ x: min.x + q, y: max.y });
  corner({ x: min.x, y: max.y - q }, { x: min.x + q, y: max.y - q });
  go({ x: min.x, y: min.y + q });
  corner(start, { x: min.x + q, y: min.y + q });
  return { kind: 'path', layer, from, start, segs, closed: true };
}

export const circle = (layer: Layer, from: string, center: FlatPoint, radius: Mm, id?: string): Circle => ({
  kind: 'circle',
  layer,
  center,
  radius,
  from,
  ...(id === undefined ? {} : { id }),
});

/** The point at `angle` (deg) on a circle. Quarter turns come out exact. */
export function polar(center: FlatPoint, radius: Mm, angle: Deg): FlatPoint {
  const [c, s] = cosSin(angle);
  return { x: center.x + radius * c, y: center.y + radius * s };
}

/** The smallest box round all shapes, exact for arcs. Throws RangeError for an empty list. */
export const bounds = (shapes: readonly Shape[]): Box => join(shapes.map(shapeBox));

/** Length of a path, or of a circle's girth. */
export function pathLength(shape: Shape): Mm {
  if (shape.kind === 'circle') return 2 * Math.PI * shape.radius;
  let sum = 0;
  let a = shape.start;
  for (const s of shape.segs) {
    sum += s.kind === 'line' ? distance(a, s.to) : spanLength(arcSpan(a, s.to, s.center, s.ccw));
    a = s.to;
  }
  return sum;
}

/** Area enclosed, counter-clockwise positive; an open path is closed straight. Exact for arcs (circular segments added). */
export function signedArea(shape: Shape): number {
  if (shape.kind === 'circle') return Math.PI * shape.radius ** 2;
  // Taken about the start point, so that a small shape far from the origin keeps its digits.
  const o = shape.start;
  let twice = 0;
  for (const s of spansOf(shape)) {
    twice += (s.a.x - o.x) * (s.b.y - o.y) - (s.b.x - o.x) * (s.a.y - o.y);
    if (s.kind === 'arc') twice += s.radius ** 2 * (s.sweep - Math.sin(s.sweep));
  }
  return twice / 2;
}

function mapPoints(shape: Shape, f: (p: FlatPoint) => FlatPoint): Shape {
  if (shape.kind === 'circle') return { ...shape, center: f(shape.center) };
  return {
    ...shape,
    start: f(shape.start),
    segs: shape.segs.map((s) =>
      s.kind === 'line' ? { kind: 'line', to: f(s.to) } : { ...s, to: f(s.to), center: f(s.center) },
    ),
  };
}

export const moveShape = <S extends Shape>(shape: S, dx: Mm, dy: Mm): S =>
  mapPoints(shape, (p) => ({ x: p.x + dx, y: p.y + dy })) as S;

/** Turned about the origin, counter-clockwise positive and exact for quarter turns, then moved. */
export function placeShape<S extends Shape>(shape: S, deg: Deg, dx: Mm, dy: Mm): S {
  const [c, s] = cosSin(deg);
  return mapPoints(shape, (p) => ({ x: c * p.x - s * p.y + dx, y: s * p.x + c * p.y + dy })) as S;
}

/** The same line in another layer. */
export const onLayer = <S extends Shape>(shape: S, layer: Layer): S => ({ ...shape, layer });

/** The path walked the other way. */
export function reversed(path: Path): Path {
  const starts = [path.start, ...path.segs.map((s) => s.to)];
  const segs = path.segs.map((s, i): Seg => {
    const to = starts[i] as FlatPoint;
    return s.kind === 'line' ? { kind: 'line', to } : { kind: 'arc', to, center: s.center, ccw: !s.ccw };
  });
  return { ...path, start: starts[starts.length - 1] as FlatPoint, segs: segs.reverse() };
}

/** Cosine and sine of an angle in degrees, exact for quarter turns. */
export function cosSin(deg: Deg): readonly [number, number] {
  const quarter = deg / 90;
  if (Number.isInteger(quarter)) {
    const q = ((quarter % 4) + 4) % 4;
    return [[1, 0, -1, 0][q] as number, [0, 1, 0, -1][q] as number];
  }
  return [Math.cos(toRad(deg)), Math.sin(toRad(deg))];
}
