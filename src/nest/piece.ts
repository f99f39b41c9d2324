import type { Box } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';

/** A piece to place: its outline and its box, alike pieces with one key. */
export interface Piece {
  readonly key: number;
  readonly outer: Shape;
  readonly box: Box;
  /** Same for pieces of the same outline. */
  readonly alike: number;
  readonly turns: boolean;
}

export const sizeOf = ({ min, max }: Box): { width: Mm; height: Mm } => ({
  width: max.x - min.x,
  height: max.y - min.y,
});
