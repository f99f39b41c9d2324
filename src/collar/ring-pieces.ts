import type { CollarSpec } from '../model/jig.ts';
import type { SheetProfile } from '../model/sheet.ts';
import { type Deg, type Mm, toRad, wrapDeg } from '../units/scalar.ts';
import { evenly } from './lands.ts';
import { rules } from './rules.ts';

/** A stretch of ring. `whole` has no ends. */
export type Piece = { readonly whole: true } | { readonly whole: false; readonly from: Deg; readonly to: Deg };

export const isIn = (piece: Piece, angle: Deg): boolean =>
  piece.whole || wrapDeg(angle - piece.from) <= piece.to - piece.from;

/** Size of the box round a piece of ring, standing upright on its middle. */
export function pieceBox(outside: Mm, inside: Mm, sweep: Deg): { readonly width: Mm; readonly height: Mm } {
  const half = toRad(sweep / 2);
  if (sweep >= 360) return { width: 2 * outside, height: 2 * outside };
  const width = sweep >= 180 ? 2 * outside : 2 * outside * Math.sin(half);
  const low = sweep >= 180 ? outside * Math.cos(half) : inside * Math.cos(half);
  return { width, height: outside - low };
}

/** Half a millimetre covers any beam's width. */
const KERF: Mm = 0.5;

export function fitsSheet(box: { readonly width: Mm; readonly height: Mm }, sheet: SheetProfile): boolean {
  const [w, h] = [sheet.width - 2 * sheet.margin - KERF, sheet.height - 2 * sheet.margin - KERF];
  return (box.width <= w && box.height <= h) || (box.width <= h && box.height <= w);
}

/** Layers of a ring without joints. Thin sheet bows: two layers, their grain crossed, hold each other flat. */
export const wholeLayers = (spec: CollarSpec): 1 | 2 => spec.layers ?? (spec.thickness < rules.bowing ? 2 : 1);

/**
 * Sheet a builder would rather waste than make one joint more, mm2: it costs two pins and some truth (judgement, no
 * source).
 */
const JOINT = 15_000;

/** A ring cut into pieces, two layers of them. */
export interface Split {
  readonly pieces: readonly (readonly Piece[])[];
  readonly joints: readonly Deg[];
  /** Sheet, with what the joints are worth, mm2. */
  readonly cost: number;
}

export const WHOLE: Omit<Split, 'cost'> = { pieces: [[{ whole: true }]], joints: [] };

/** Whole rings where the sheet takes them, unless each would waste most of a sheet that pieces would not. */
export function isWhole(outside: Mm, spec: CollarSpec, splitCost = Number.POSITIVE_INFINITY): boolean {
  const { sheet } = spec;
  const box = pieceBox(outside, 0, 360);
  if (!fitsSheet(box, sheet)) return false;
  const side = box.width + sheet.spacing;
  const each =
    Math.floor((sheet.width - 2 * sheet.margin) / side) * Math.floor((sheet.height - 2 * sheet.margin) / side);
  // A tenth of a sheet with a ring on it still takes small parts.
  return (0.9 * sheet.width * sheet.height * wholeLayers(spec)) / Math.max(1, each) <= splitCost;
}

/** Joints of the layer below at even places, of the layer above at odd ones, so that no joint lies over another. */
export function bestSplit(outside: Mm, inside: Mm, free: readonly Deg[], spec: CollarSpec): Split | undefined {
  let best: Split | undefined;
  for (const { n, least } of splitsInOrder(outside, inside, free, spec)) {
    if (best !== undefined && least >= best.cost) break;
    const picks = evenly(free, 2 * n)?.sort((a, b) => a - b);
    if (picks === undefined) continue;
    const pieces = [0, 1].map((layer) => piecesBetween(picks.filter((_, i) => i % 2 === layer)));
    const boxes = pieces.flat().map((p) => pieceBox(outside, inside, p.whole ? 360 : p.to - p.from));
    if (!boxes.every((b) => fitsSheet(b, spec.sheet))) continue;
    const cost = boxes.reduce((sum, b) => sum + b.width * b.height, 0) + JOINT * boxes.length;
    if (best === undefined || cost < best.cost) best = { pieces, joints: picks, cost };
  }
  return best;
}

/**
 * Numbers of pieces worth trying, by what even pieces would cost: a box grows faster than its sweep, so uneven pieces
 * never cost less, and where even ones do not fit the sheet the longest of uneven ones does not either.
 */
function splitsInOrder(outside: Mm, inside: Mm, free: readonly Deg[], spec: CollarSpec) {
  const counts = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
  return (
    counts
      // Three places stay for what holds the shell.
      .filter((n) => free.length >= 2 * n + 3)
      .flatMap((n) => {
        const box = pieceBox(outside, inside, 360 / n);
        return fitsSheet(box, spec.sheet) ? [{ n, least: 2 * n * (box.width * box.height + JOINT) }] : [];
      })
      .sort((a, b) => a.least - b.least)
  );
}

function piecesBetween(joints: readonly Deg[]): Piece[] {
  return joints.map((from, i) => {
    const next = joints[i + 1];
    return { whole: false, from, to: next ?? (joints[0] as Deg) + 360 };
  });
}
