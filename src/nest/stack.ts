import { contour } from '../drawing/contour.ts';
import { gapBelow } from '../drawing/meetings.ts';
import { moveShape, signedArea } from '../drawing/paths.ts';
import type { Box } from '../drawing/spans.ts';
import type { Path, Shape } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A piece to place: its outline and its box, alike pieces with one key. */
export interface Piece {
  readonly key: number;
  readonly outer: Shape;
  readonly box: Box;
  /** Same for pieces of the same outline. */
  readonly alike: string;
  readonly turns: boolean;
}

/** Pieces that lie as one block: each with the place of its box's lower left corner in the block. */
export interface Block {
  readonly width: Mm;
  readonly height: Mm;
  readonly turns: boolean;
  readonly members: readonly { readonly key: number; readonly x: Mm; readonly y: Mm }[];
}

/** Fuller than this in its box, a piece gains nothing by being nested. */
const FULL = 0.72;
/** Pieces sink into one another by steps of this, then exactly. Two gaps and any part are thicker, so nothing is jumped over. */
const STEP: Mm = 2;

export const sizeOf = ({ min, max }: Box): { width: Mm; height: Mm } => ({
  width: max.x - min.x,
  height: max.y - min.y,
});

/** Every piece a block of its own. */
export const alone = (pieces: readonly Piece[]): Block[] =>
  pieces.map((p) => ({ ...sizeOf(p.box), turns: p.turns, members: [{ key: p.key, x: 0, y: 0 }] }));

/**
 * Curved pieces sunk into one another in columns no taller than `tallest`, alike ones together, the widest first; pieces
 * that fill their box, or may not turn, stay alone. Between two neighbours there is `gap` mm or more everywhere, exactly.
 */
export function stacked(pieces: readonly Piece[], gap: Mm, tallest: Mm, pitch: Pitches): Block[] {
  const curved = pieces.filter((p) => p.turns && p.outer.kind === 'path' && fill(p) < FULL);
  const rest = pieces.filter((p) => !curved.includes(p));
  const order = [...curved].sort(
    (a, b) =>
      sizeOf(b.box).width - sizeOf(a.box).width ||
      sizeOf(b.box).height - sizeOf(a.box).height ||
      a.alike.localeCompare(b.alike) ||
      a.key - b.key,
  );
  const blocks: Block[] = [];
  let column: { piece: Piece; y: Mm }[] = [];
  const end = (): void => {
    if (column.length > 0) blocks.push(blockOf(column));
    column = [];
  };
  for (const piece of order) {
    const last = column.at(-1);
    let y = last === undefined ? 0 : last.y + pitch(last.piece, piece, gap);
    if (last !== undefined && y + sizeOf(piece.box).height > tallest + tolerance.noise) {
      end();
      y = 0;
    }
    column.push({ piece, y });
  }
  end();
  return [...blocks, ...alone(rest)];
}

const fill = (p: Piece): number => {
  const { width, height } = sizeOf(p.box);
  return Math.abs(signedArea(p.outer)) / (width * height);
};

function blockOf(column: readonly { piece: Piece; y: Mm }[]): Block {
  const width = Math.max(...column.map((c) => sizeOf(c.piece.box).width));
  return {
    width,
    height: Math.max(...column.map((c) => c.y + sizeOf(c.piece.box).height)),
    turns: true,
    members: column.map(({ piece, y }) => ({ key: piece.key, x: (width - sizeOf(piece.box).width) / 2, y })),
  };
}

/** How much higher `upper`'s box may begin than `lower`'s, both centred on one another. */
export type Pitches = (lower: Piece, upper: Piece, gap: Mm) => Mm;

/** Pitches, each pair of outlines reckoned once. */
export function pitches(): Pitches {
  const known = new Map<string, Mm>();
  return (lower, upper, gap) => {
    const key = `${lower.alike}|${upper.alike}|${gap}`;
    const ready = known.get(key);
    if (ready !== undefined) return ready;
    const found = pitchOf(lower, upper, gap);
    known.set(key, found);
    return found;
  };
}

function pitchOf(lower: Piece, upper: Piece, gap: Mm): Mm {
  const below = contour(centred(lower));
  const above = centred(upper) as Path;
  const isFree = (y: Mm): boolean => gapBelow(below, contour(moveShape(above, 0, y)), gap) >= gap;
  let free = sizeOf(lower.box).height + gap;
  let taken = free;
  do {
    free = taken;
    taken -= STEP;
  } while (taken > 0 && isFree(taken));
  for (let i = 0; i < 30 && free - taken > tolerance.same; i++) {
    const y = (free + taken) / 2;
    if (isFree(y)) free = y;
    else taken = y;
  }
  return free;
}

/** The outline with its box's lower edge on y = 0 and its middle on x = 0. */
const centred = ({ outer, box }: Piece): Shape => moveShape(outer, -(box.min.x + box.max.x) / 2, -box.min.y);
