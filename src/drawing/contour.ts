import type { Circle, Shape } from '../model/drawing.ts';
import { arcSpan, type Span, spansOf } from './spans.ts';

/** A circle or path as spans. */
export const contour = (shape: Shape): Span[] => (shape.kind === 'path' ? spansOf(shape) : halves(shape));

function halves(c: Circle): Span[] {
  const east = { x: c.center.x + c.radius, y: c.center.y };
  const west = { x: c.center.x - c.radius, y: c.center.y };
  return [arcSpan(east, west, c.center, true), arcSpan(west, east, c.center, true)];
}
