import { placeShape } from '../drawing/paths.ts';
import type { Box } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';

/** Quarter turns, counter-clockwise. */
export type Quarter = 0 | 1 | 2 | 3;

/** Where a piece lies: its turned box's lower left corner, from the lower left of the room. */
export interface Laying {
  readonly key: number;
  readonly sheet: number;
  readonly x: Mm;
  readonly y: Mm;
  readonly quarter: Quarter;
}

/** A shape of a piece whose own box is `box`, laid so. */
export function laid<S extends Shape>(shape: S, box: Box, { x, y, quarter }: Pick<Laying, 'x' | 'y' | 'quarter'>): S {
  const { min, max } = box;
  // Lower left corner of the box after the turn about the origin.
  const corner = [min, { x: -max.y, y: min.x }, { x: -max.x, y: -max.y }, { x: min.y, y: -max.x }][
    quarter
  ] as Box['min'];
  return placeShape(shape, 90 * quarter, x - corner.x, y - corner.y);
}
