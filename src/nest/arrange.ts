import type { Box } from '../drawing/spans.ts';
import type { Part } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';
import { type Item, packBoxes, type Spot } from './rectangles.ts';
import { alone, type Block, type Piece, pitches, sizeOf, stacked } from './stack.ts';

export interface Laying {
  readonly key: number;
  readonly sheet: number;
  /** Lower left corner of the piece's box, from the lower left of the room. */
  readonly x: Mm;
  readonly y: Mm;
  /** Turned by a quarter, counter-clockwise. */
  readonly turned: boolean;
}

export interface Placeable {
  readonly part: Part;
  readonly box: Box;
  readonly alike: string;
}

/**
 * All pieces on as few sheets of `width` x `height` room as the ways tried find: every piece in its own box, or curved ones
 * sunk into one another in columns as tall as the room is high, or as it is wide. The fullest way wins.
 */
export function arranged(cuts: readonly Placeable[], width: Mm, height: Mm, gap: Mm): Laying[] {
  const pieces = cuts.map(
    ({ part, box, alike }, key): Piece => ({ key, outer: part.outer, box, alike, turns: part.turns }),
  );
  const pitch = pitches();
  const ways = [alone(pieces), stacked(pieces, gap, height, pitch), stacked(pieces, gap, width, pitch)];
  let best: { layings: Laying[]; sheets: number; rest: number } | undefined;
  for (const blocks of ways) {
    const items = blocks.map((b, key): Item => ({ key, width: b.width + gap, height: b.height + gap, turns: b.turns }));
    const spots = packBoxes(items, width + gap, height + gap);
    const layings = spots.flatMap((spot) => unpacked(blocks[spot.key] as Block, spot, pieces));
    const sheets = Math.max(0, ...layings.map((l) => l.sheet + 1));
    const last = layings.filter((l) => l.sheet === sheets - 1);
    // Of as many sheets, the one with the least on the last leaves most to use again.
    const rest = last.reduce((sum, l) => sum + areaOf(pieces[l.key] as Piece), 0);
    if (best === undefined || sheets < best.sheets || (sheets === best.sheets && rest < best.rest))
      best = { layings, sheets, rest };
  }
  return best?.layings ?? [];
}

const areaOf = (p: Piece): number => sizeOf(p.box).width * sizeOf(p.box).height;

function unpacked(block: Block, spot: Spot, pieces: readonly Piece[]): Laying[] {
  return block.members.map(({ key, x, y }) => {
    const { height } = sizeOf((pieces[key] as Piece).box);
    // A quarter turn about the block's corner takes (x, y) to (-y, x); the block then lies left of it by its height.
    return spot.turned
      ? { key, sheet: spot.bin, turned: true, x: spot.x + block.height - y - height, y: spot.y + x }
      : { key, sheet: spot.bin, turned: false, x: spot.x + x, y: spot.y + y };
  });
}
