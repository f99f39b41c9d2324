import { contour } from '../drawing/contour.ts';
import { type Box, near, pointOn, type Span, shapeBox } from '../drawing/spans.ts';
import type { Layer, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { written } from './number.ts';

/** PDF counts in 1/72 inch (ISO 32000-1, 8.3.2.3). */
export const POINTS_PER_MM = 72 / 25.4;

/** Three decimals of a point: a third of a micrometre. */
const n = (points: number): string => written(points, 3);

/** Line widths on paper, mm. */
const WIDTH: Readonly<Record<Layer, Mm>> = {
  ENGRAVE: 0.25,
  REFERENCE: 0.2,
  SCORE: 0.15,
  'CUT-INNER': 0.2,
  'CUT-OUTER': 0.3,
};

/** How drawing millimetres come onto the page: printed place = offset + scale * drawing place, in mm from the lower left. */
export interface Placement {
  readonly dx: Mm;
  readonly dy: Mm;
  readonly scaleX: number;
  readonly scaleY: number;
}

/** Operators that stroke the shapes which reach into `window` (drawing mm), clipped to it. ISO 32000-1, 8.5. */
export function strokes(shapes: readonly (readonly [Shape, Box])[], window: Box, place: Placement): string {
  const at = (p: FlatPoint): string =>
    `${n((place.dx + place.scaleX * p.x) * POINTS_PER_MM)} ${n((place.dy + place.scaleY * p.y) * POINTS_PER_MM)}`;
  // Half a line more all round: an outline on the window's own edge is printed whole.
  const more = WIDTH['CUT-OUTER'] / 2;
  const [x0, y0, x1, y1] = [window.min.x - more, window.min.y - more, window.max.x + more, window.max.y + more];
  const corner = [
    { x: x0, y: y0 },
    { x: x1, y: y0 },
    { x: x1, y: y1 },
    { x: x0, y: y1 },
  ];
  const lines = ['q', `${corner.map((p, i) => `${at(p)} ${i === 0 ? 'm' : 'l'}`).join(' ')} h W n`, '1 J 1 j'];
  let width: Mm | undefined;
  for (const [shape, box] of shapes) {
    if (!near(box, window, 1)) continue;
    if (WIDTH[shape.layer] !== width) {
      width = WIDTH[shape.layer];
      lines.push(`${n(width * POINTS_PER_MM)} w`);
    }
    const spans = contour(shape);
    const first = spans[0];
    if (first === undefined) continue;
    const close = shape.kind === 'circle' || shape.closed ? ' h S' : ' S';
    lines.push(`${at(first.a)} m ${spans.map((s) => drawn(s, at)).join(' ')}${close}`);
  }
  lines.push('Q');
  return lines.join('\n');
}

/** A cubic stands in for at most an eighth of a turn: it strays less than 5 millionths of the radius. */
const WIDEST = Math.PI / 4;

function drawn(s: Span, at: (p: FlatPoint) => string): string {
  if (s.kind === 'line') return `${at(s.b)} l`;
  const parts = Math.ceil(Math.abs(s.sweep) / WIDEST - 1 / 1024);
  const reach = (4 / 3) * Math.tan(s.sweep / parts / 4) * s.radius;
  const beside = (angle: number, by: number): FlatPoint => ({
    x: s.center.x + s.radius * Math.cos(angle) - by * Math.sin(angle),
    y: s.center.y + s.radius * Math.sin(angle) + by * Math.cos(angle),
  });
  return Array.from({ length: parts }, (_, i) => {
    const from = s.start + (s.sweep * i) / parts;
    const to = s.start + (s.sweep * (i + 1)) / parts;
    const end = i === parts - 1 ? s.b : pointOn(s, (i + 1) / parts);
    return `${at(beside(from, reach))} ${at(beside(to, -reach))} ${at(end)} c`;
  }).join(' ');
}

/** Each shape with its box, reckoned once for all pages. */
export const boxed = (shapes: readonly Shape[]): (readonly [Shape, Box])[] =>
  shapes.map((s) => [s, shapeBox(s)] as const);
