import type { Box } from '../drawing/spans.ts';
import type { Part } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { bodies } from './body.ts';
import { type Bed, filled } from './fill.ts';
import type { Laying } from './laying.ts';
import { type Piece, sizeOf } from './piece.ts';
import { type Item, packBoxes, packLow, type Spot } from './rectangles.ts';
import { alone, type Block, type Pitches, pitches, stacked } from './stack.ts';

export interface Placeable {
  readonly part: Part;
  readonly box: Box;
  /** Same number for parts of the same outline. */
  readonly alike: number;
}

/**
 * All pieces on as few sheets of `width` x `height` room as the ways tried find: every piece in its own box, or curved ones
 * sunk into one another in columns as tall as the room is high, or as it is wide. The fullest way wins.
 */
export function arranged(cuts: readonly Placeable[], width: Mm, height: Mm, gap: Mm): Laying[] {
  const pieces = cuts.map(
    ({ part, box, alike }, key): Piece => ({ key, outer: part.outer, box, alike, turns: part.turns }),
  );
  const body = bodies(gap);
  const pitch = pitches(body);
  const ways = [alone(pieces), stacked(pieces, gap, height, pitch), stacked(pieces, gap, width, pitch)];
  let best: { layings: Laying[]; sheets: number; rest: number } | undefined;
  const fits = (b: Block): boolean =>
    (b.width <= width + tolerance.noise && b.height <= height + tolerance.noise) ||
    (b.turns && b.height <= width + tolerance.noise && b.width <= height + tolerance.noise);
  for (const blocks of ways) {
    // A column as tall as the room may be wider than it; then this way is none.
    if (!blocks.every(fits)) continue;
    const items = blocks.map((b, key): Item => ({ key, width: b.width + gap, height: b.height + gap, turns: b.turns }));
    const spots = packBoxes(items, width + gap, height + gap);
    const layings = spots.flatMap((spot) => unpacked(blocks[spot.key] as Block, spot, pieces));
    const sheets = Math.max(0, ...layings.map((l) => l.sheet + 1));
    const last = layings.filter((l) => l.sheet === sheets - 1);
    // Of as many sheets, the one with the least on the last has the best chance to be rid of it.
    const rest = last.reduce((sum, l) => sum + areaOf(pieces[l.key] as Piece), 0);
    if (best === undefined || sheets < best.sheets || (sheets === best.sheets && rest < best.rest)) {
      best = { layings, sheets, rest };
    }
  }
  return best === undefined
    ? []
    : lastTidied(filled(best.layings, pieces, { width, height, gap }, body), pieces, { width, height, gap }, pitch);
}

/** Fractions of the room's height that columns on the last sheet are tried at. */
const HEIGHTS = [1, 3 / 4, 1 / 2, 1 / 3, 1 / 4];

/**
 * The last sheet laid anew so that its parts take the least of it, counted as a strip right across the room or right up it:
 * the rest of the sheet stays whole for another job.
 */
function lastTidied(layings: readonly Laying[], pieces: readonly Piece[], bed: Bed, pitch: Pitches): Laying[] {
  const { width, height, gap } = bed;
  const sheet = Math.max(0, ...layings.map((l) => l.sheet));
  const own = layings.filter((l) => l.sheet === sheet);
  const stays = layings.filter((l) => l.sheet !== sheet);
  const few = own.map((l) => pieces[l.key] as Piece);
  let best = own;
  let least = stripOf(own, pieces, width, height);
  for (const blocks of [alone(few), ...HEIGHTS.map((f) => stacked(few, gap, f * height, pitch))]) {
    const items = blocks.map((b, key): Item => ({ key, width: b.width + gap, height: b.height + gap, turns: b.turns }));
    if (items.some((i) => !fits(i, width + gap, height + gap))) continue;
    for (const order of [byHeight, byArea]) {
      const spots = packLow([...items].sort(order), width + gap, height + gap);
      if (spots.some((s) => s.bin > 0)) continue;
      const tried = spots
        .flatMap((spot) => unpacked(blocks[spot.key] as Block, spot, pieces))
        .map((l) => ({ ...l, sheet }));
      const strip = stripOf(tried, pieces, width, height);
      if (strip < least - tolerance.same) {
        best = tried;
        least = strip;
      }
    }
  }
  return [...stays, ...best];
}

const byHeight = (a: Item, b: Item): number =>
  Math.min(b.width, b.height) - Math.min(a.width, a.height) ||
  Math.max(b.width, b.height) - Math.max(a.width, a.height) ||
  a.key - b.key;
const byArea = (a: Item, b: Item): number => b.width * b.height - a.width * a.height || a.key - b.key;

const fits = (i: Item, w: Mm, h: Mm): boolean =>
  (i.width <= w + tolerance.noise && i.height <= h + tolerance.noise) ||
  (i.turns && i.height <= w + tolerance.noise && i.width <= h + tolerance.noise);

/** Area of the smaller strip, across the room or up it, that holds these pieces. */
function stripOf(own: readonly Laying[], pieces: readonly Piece[], width: Mm, height: Mm): number {
  let [right, top] = [0, 0];
  for (const l of own) {
    const size = sizeOf((pieces[l.key] as Piece).box);
    const [w, h] = l.quarter % 2 === 1 ? [size.height, size.width] : [size.width, size.height];
    right = Math.max(right, l.x + w);
    top = Math.max(top, l.y + h);
  }
  return Math.min(right * height, top * width);
}

const areaOf = (p: Piece): number => sizeOf(p.box).width * sizeOf(p.box).height;

function unpacked(block: Block, spot: Spot, pieces: readonly Piece[]): Laying[] {
  return block.members.map(({ key, x, y }) => {
    const { height } = sizeOf((pieces[key] as Piece).box);
    // A quarter turn about the block's corner takes (x, y) to (-y, x); the block then lies left of it by its height.
    return spot.turned
      ? { key, sheet: spot.bin, quarter: 1 as const, x: spot.x + block.height - y - height, y: spot.y + x }
      : { key, sheet: spot.bin, quarter: 0 as const, x: spot.x + x, y: spot.y + y };
  });
}
