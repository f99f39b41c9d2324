import { contour } from '../drawing/contour.ts';
import { type Chain, chainOf } from '../drawing/meetings.ts';
import { pointOn, spanLength } from '../drawing/spans.ts';
import type { Mm } from '../units/scalar.ts';
import { laid, type Quarter } from './laying.ts';
import { CELL, grown, type Mask, maskOf } from './map.ts';
import { type Piece, sizeOf } from './piece.ts';

/** An outline in one quarter turn, its box's lower left corner at the origin. */
export interface Body {
  readonly width: Mm;
  readonly height: Mm;
  readonly chain: Chain;
  /** Points along the outline no further apart than half a square of the map: x, y, x, y ... */
  readonly points: Float64Array;
  readonly mask: () => Mask;
  /** The mask with all that is nearer than the gap of this nest. */
  readonly grown: () => Mask;
}

export type Bodies = (piece: Piece, quarter: Quarter) => Body;

/** Bodies, those of like outlines made once and only when asked for. */
export function bodies(gap: Mm): Bodies {
  const known = new Map<number, Body>();
  return (piece, quarter) => {
    const key = 4 * piece.alike + quarter;
    const ready = known.get(key);
    if (ready !== undefined) return ready;
    const made = bodyOf(piece, quarter, gap);
    known.set(key, made);
    return made;
  };
}

function bodyOf(piece: Piece, quarter: Quarter, gap: Mm): Body {
  const size = sizeOf(piece.box);
  const [width, height] = quarter % 2 === 1 ? [size.height, size.width] : [size.width, size.height];
  const spans = contour(laid(piece.outer, piece.box, { x: 0, y: 0, quarter }));
  const chain = chainOf(spans);
  const counts = spans.map((s) => Math.max(1, Math.ceil((2 * spanLength(s)) / CELL)));
  const points = new Float64Array(2 * counts.reduce((sum, n) => sum + n, 0));
  let at = 0;
  for (const [k, s] of spans.entries()) {
    const n = counts[k] as number;
    for (let i = 0; i < n; i++) {
      const p = pointOn(s, i / n);
      points[at++] = p.x;
      points[at++] = p.y;
    }
  }
  const mask = once(() => maskOf(points, width, height));
  return { width, height, chain, points, mask, grown: once(() => grown(mask(), gap)) };
}

function once<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}
