import { isApart } from '../drawing/meetings.ts';
import { signedArea } from '../drawing/paths.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bodies, Body } from './body.ts';
import { CELL } from './map.ts';
import { type Piece, sizeOf } from './piece.ts';

/** Pieces that lie as one block: each with the place of its box's lower left corner in the block. */
export interface Block {
  readonly width: Mm;
  readonly height: Mm;
  readonly turns: boolean;
  readonly members: readonly { readonly key: number; readonly x: Mm; readonly y: Mm }[];
}

/** Fuller than this in its box, a piece gains nothing by being nested. */
const FULL = 0.72;
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
      a.alike - b.alike ||
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
export function pitches(body: Bodies): Pitches {
  const known = new Map<string, Mm>();
  return (lower, upper, gap) => {
    const key = `${lower.alike} ${upper.alike} ${gap}`;
    const ready = known.get(key);
    if (ready !== undefined) return ready;
    const found = pitchOf(body(lower, 0), body(upper, 0), gap);
    known.set(key, found);
    return found;
  };
}

/** Lowered from above until no more than `gap` is left: where the outlines would touch, and from there up to what is free. */
function pitchOf(lower: Body, upper: Body, gap: Mm): Mm {
  const dx = (lower.width - upper.width) / 2;
  const isFree = (y: Mm): boolean => isApart(lower.chain, upper.chain, dx, y, gap);
  const highest = lower.height + gap;
  let taken = touching(lower, upper, dx) - CELL;
  let free = taken;
  let step = gap + CELL;
  do {
    taken = free;
    free = Math.min(highest, free + step);
    step *= 2;
  } while (free < highest && !isFree(free));
  while (free - taken > tolerance.same) {
    const y = (free + taken) / 2;
    if (isFree(y)) free = y;
    else taken = y;
  }
  return free;
}

/** How high the upper outline stands when, let down upright, it touches the lower one: to about the distance of their points. */
function touching(lower: Body, upper: Body, dx: Mm): Mm {
  const tops = profile(lower, 0, 1);
  const feet = profile(upper, dx, -1);
  let y = 0;
  for (const [column, top] of tops) y = Math.max(y, top + (feet.get(column) ?? Number.NEGATIVE_INFINITY));
  return y;
}

/** By column of the map: how far the outline reaches up (`sign` 1) or down (-1). */
function profile(body: Body, dx: Mm, sign: 1 | -1): Map<number, Mm> {
  const reach = new Map<number, Mm>();
  for (let i = 0; i < body.points.length; i += 2) {
    const column = Math.floor(((body.points[i] as number) + dx) / CELL);
    const y = sign * (body.points[i + 1] as number);
    if (y > (reach.get(column) ?? Number.NEGATIVE_INFINITY)) reach.set(column, y);
  }
  return reach;
}
