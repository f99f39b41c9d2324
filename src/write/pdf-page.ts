import { contour } from '../drawing/contour.ts';
import { type Box, near, pointOn, type Span, shapeBox } from '../drawing/spans.ts';
import type { Layer, Shape } from '../model/drawing.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { type Ink, newInk, put, putNumber, textOf } from './ink.ts';

/** PDF counts in 1/72 inch (ISO 32000-1, 8.3.2.3). */
export const POINTS_PER_MM = 72 / MM_PER_INCH;

/** Three decimals of a point: a third of a micrometre. */
const DIGITS = 3;

/** Line widths on paper, mm. */
const WIDTH: Readonly<Record<Layer, Mm>> = {
  ENGRAVE: 0.25,
  REFERENCE: 0.2,
  SCORE: 0.15,
  'CUT-INNER': 0.2,
  'CUT-OUTER': 0.3,
};

/**
 * How drawing millimetres come onto the page: printed place = offset + scale * drawing place, in mm from the lower
 * left.
 */
export interface Placement {
  readonly dx: Mm;
  readonly dy: Mm;
  readonly scaleX: number;
  readonly scaleY: number;
}

/** Operators that stroke the shapes which reach into `window` (drawing mm), clipped to it. ISO 32000-1, 8.5. */
export function strokes(shapes: readonly (readonly [Shape, Box])[], window: Box, place: Placement): string {
  const ink = newInk();
  const at = (x: Mm, y: Mm, then: string): void => {
    putNumber(ink, (place.dx + place.scaleX * x) * POINTS_PER_MM, DIGITS);
    put(ink, ' ');
    putNumber(ink, (place.dy + place.scaleY * y) * POINTS_PER_MM, DIGITS);
    put(ink, then);
  };
  // Half a line more all round: an outline on the window's own edge is printed whole.
  const more = WIDTH['CUT-OUTER'] / 2;
  const [x0, y0, x1, y1] = [window.min.x - more, window.min.y - more, window.max.x + more, window.max.y + more];
  put(ink, 'q\n');
  at(x0, y0, ' m ');
  at(x1, y0, ' l ');
  at(x1, y1, ' l ');
  at(x0, y1, ' l h W n\n1 J 1 j\n');
  let width: Mm | undefined;
  for (const [shape, box] of shapes) {
    if (!near(box, window, 1)) continue;
    if (WIDTH[shape.layer] !== width) {
      width = WIDTH[shape.layer];
      putNumber(ink, width * POINTS_PER_MM, DIGITS);
      put(ink, ' w\n');
    }
    const spans = contour(shape);
    const first = spans[0];
    if (first === undefined) continue;
    at(first.a.x, first.a.y, ' m');
    for (const s of spans) draw(ink, s, at);
    put(ink, shape.kind === 'circle' || shape.closed ? ' h S\n' : ' S\n');
  }
  put(ink, 'Q');
  return textOf(ink);
}

/** A cubic stands in for at most an eighth of a turn: it strays less than 5 millionths of the radius. */
const WIDEST = Math.PI / 4;

function draw(ink: Ink, s: Span, at: (x: Mm, y: Mm, then: string) => void): void {
  if (s.kind === 'line') {
    put(ink, ' ');
    at(s.b.x, s.b.y, ' l');
    return;
  }
  const parts = Math.ceil(Math.abs(s.sweep) / WIDEST - 1 / 1024);
  const reach = (4 / 3) * Math.tan(s.sweep / parts / 4) * s.radius;
  const beside = (angle: number, by: number): void =>
    at(
      s.center.x + s.radius * Math.cos(angle) - by * Math.sin(angle),
      s.center.y + s.radius * Math.sin(angle) + by * Math.cos(angle),
      ' ',
    );
  for (let i = 1; i <= parts; i++) {
    const end = i === parts ? s.b : pointOn(s, i / parts);
    put(ink, ' ');
    beside(s.start + (s.sweep * (i - 1)) / parts, reach);
    beside(s.start + (s.sweep * i) / parts, -reach);
    at(end.x, end.y, ' c');
  }
}

/** Each shape with its box, reckoned once for all pages. */
export const boxed = (shapes: readonly Shape[]): (readonly [Shape, Box])[] =>
  shapes.map((s) => [s, shapeBox(s)] as const);
