import { roomOn, type Stretch, tiling } from '../drawing/room.ts';
import type { Box } from '../drawing/spans.ts';
import type { PaperProfile, SheetProfile } from '../model/sheet.ts';
import type { Mm } from '../units/scalar.ts';
import { type Joints, jointsAround, jointsUp } from './joints.ts';
import type { Block } from './skin.ts';

export interface Cutting {
  /** Flat place where the sheet begins (at most 0) and the joints after it, up to one turn on. */
  readonly start: Mm;
  readonly cuts: readonly Mm[];
  /** Joints between bands, heights. */
  readonly bands: readonly Mm[];
  /** Outlines had to be crossed. */
  readonly crossed: boolean;
}

export interface CuttingInput {
  readonly around: readonly Block[];
  readonly up: readonly Block[];
  readonly turn: Mm;
  readonly depth: Mm;
  readonly sheet: SheetProfile;
  readonly kerf: Mm;
  /** Tab that lies under the next piece; 0 for a butt joint. */
  readonly tab: Mm;
  readonly seamAt?: Mm;
}

/** A wrap in more pieces than this is a puzzle, not a template. */
const MOST = 40;

/**
 * Seam, panel joints and bands: the fewest pieces that fit the sheet lying or turned, with joints that keep off holes, and
 * off outlines and lines too where that can be had. Undefined when no piece of the wrap fits the sheet.
 */
export function cutting(input: CuttingInput): Cutting | undefined {
  const room = roomOn(input.sheet, input.kerf);
  const [w, h] = [room.max.x - room.min.x, room.max.y - room.min.y];
  for (const crossed of [false, true]) {
    const keep = (b: Block): boolean => b.hard || !crossed;
    const around = input.around.filter(keep);
    const up = input.up.filter(keep);
    const pieces = (c: Cutting): number => (c.cuts.length + 1) * (c.bands.length + 1);
    const ways: Cutting[] = [];
    for (const [long, tall] of w === h
      ? [[w, h]]
      : [
          [w, h],
          [h, w],
        ]) {
      const longest = (long as Mm) - input.tab;
      if (longest <= 0) continue;
      const least = Math.ceil(input.turn / longest) * Math.ceil(input.depth / (tall as Mm));
      if (least > MOST || ways.some((c) => pieces(c) <= least)) continue;
      const bands = jointsUp(up, input.depth, tall as Mm);
      const joints = bands && jointsAround(around, input.turn, longest, input.tab, input.seamAt);
      if (bands !== undefined && joints !== undefined) ways.push({ ...fromSeam(joints, input.turn), bands, crossed });
    }
    ways.sort((a, b) => pieces(a) - pieces(b) || a.bands.length - b.bands.length);
    if (ways[0] !== undefined) return ways[0];
  }
  return undefined;
}

/** The sheet's turn laid so that the strainer line (x = 0) is on it: it begins at or left of it. */
function fromSeam({ seam, cuts }: Joints, turn: Mm): { start: Mm; cuts: Mm[] } {
  const turns = Math.ceil(seam / turn);
  return { start: seam - turns * turn, cuts: cuts.map((c) => c - turns * turn) };
}

export interface Piece {
  readonly window: Box;
  /** From 0, to the right, and from 0, upwards. */
  readonly column: number;
  readonly band: number;
}

/** The pieces, band by band from the bottom, each from left to right. */
export function piecesOf(c: Cutting, turn: Mm, depth: Mm): Piece[] {
  const xs = [c.start, ...c.cuts, c.start + turn];
  const ys = [0, ...c.bands, depth];
  return ys.slice(1).flatMap((high, band) =>
    xs.slice(1).map((right, column) => ({
      window: { min: { x: xs[column] as Mm, y: ys[band] as Mm }, max: { x: right, y: high } },
      column,
      band,
    })),
  );
}

/** What each printed page shows of the template between its joints with its neighbours, so that every page says which way is up. */
export function tilesOf(paper: PaperProfile, start: Mm, turn: Mm, depth: Mm, stretch: Stretch = { x: 1, y: 1 }): Box[] {
  const tiles = tiling(paper, turn, depth, stretch);
  if (tiles === undefined) return [{ min: { x: start, y: 0 }, max: { x: start + turn, y: depth } }];
  const joints = (from: Mm, length: Mm, count: number, tile: Mm, by: number): Mm[] => [
    from,
    ...Array.from({ length: count - 1 }, (_, i) => from + ((i + 1) * (tile - paper.overlap) + paper.overlap / 2) / by),
    from + length,
  ];
  const xs = joints(start, turn, tiles.columns, tiles.tile.width, stretch.x);
  const ys = joints(0, depth, tiles.rows, tiles.tile.height, stretch.y);
  return ys
    .slice(1)
    .flatMap((high, j) =>
      xs.slice(1).map((right, i) => ({ min: { x: xs[i] as Mm, y: ys[j] as Mm }, max: { x: right, y: high } })),
    );
}
