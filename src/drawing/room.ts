import { TAIL } from '../data/strokes.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { PaperProfile, SheetProfile } from '../model/sheet.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { legible } from './lettering.ts';

/** Smallest capital (mm) in a sheet's strip of names. */
const SMALL: Mm = 2.5;
/** Nothing is drawn nearer to the sheet's own edge, whatever the margin. */
const RIM: Mm = 1;
const ABOVE: Mm = 1;

/**
 * Where a sheet's 100 mm check line and its names go: the line along the lower edge of the usable area, the names in the
 * margin below it, or above its end where the margin is too narrow for them.
 */
export function footerOn(sheet: SheetProfile, kerf: Mm): { left: Mm; right: Mm; check: Mm; names: Mm; letter: Mm } {
  const inset = Math.max(sheet.margin, RIM);
  const letter = legible(kerf, SMALL);
  const below = inset - letter - ABOVE / 2;
  const names = below >= TAIL * letter - tolerance.noise ? below : inset + TAIL * letter;
  return { left: inset, right: sheet.width - inset, check: inset, names, letter };
}

/**
 * Where finished parts may lie on a sheet: inside the margin, above the footer, half a kerf further in for the beam.
 */
export function roomOn(sheet: SheetProfile, kerf: Mm): { readonly min: FlatPoint; readonly max: FlatPoint } {
  const inset = sheet.margin + kerf / 2;
  const { check, names, letter } = footerOn(sheet, kerf);
  const top = names < check ? check : names + letter;
  return {
    min: { x: inset, y: top + ABOVE + kerf / 2 },
    max: { x: sheet.width - inset, y: sheet.height - inset },
  };
}

/** Strips of a printed page kept for its check rulers, names and map: below, and to the left. */
export const STRIP = { below: 14, left: 7 } as const;

export interface Tiling {
  /** The page as it is laid: upright or on its side. */
  readonly page: { readonly width: Mm; readonly height: Mm };
  /** What one page shows of the drawing, at the size it will have on paper. */
  readonly tile: { readonly width: Mm; readonly height: Mm };
  readonly columns: number;
  readonly rows: number;
}

/**
 * What a drawing is stretched by, across and up the page, for a printer that shrinks or stretches: 1 for one that
 * does not.
 */
export interface Stretch {
  readonly x: number;
  readonly y: number;
}

/**
 * The page laid upright or on its side, whichever takes fewer tiles for a drawing of this size. A stretch changes how many
 * tiles there are, never how the page lies: it was measured on one that lay so. Undefined when margins and strips leave no
 * more of the page than neighbouring tiles share.
 */
export function tiling(
  paper: PaperProfile,
  width: Mm,
  height: Mm,
  stretch: Stretch = { x: 1, y: 1 },
): Tiling | undefined {
  const count = (length: Mm, one: Mm): number =>
    length <= one ? 1 : Math.ceil((length - paper.overlap) / (one - paper.overlap) - tolerance.noise);
  const ways = [
    { width: paper.width, height: paper.height },
    { width: paper.height, height: paper.width },
  ].flatMap((page): Tiling[] => {
    const tile = {
      width: page.width - 2 * paper.margin - STRIP.left,
      height: page.height - 2 * paper.margin - STRIP.below,
    };
    if (tile.width < 2 * paper.overlap + 10 || tile.height < 2 * paper.overlap + 10) return [];
    return [{ page, tile, columns: count(width, tile.width), rows: count(height, tile.height) }];
  });
  const best = ways.sort((a, b) => a.columns * a.rows - b.columns * b.rows)[0];
  if (best === undefined) return undefined;
  const [columns, rows] = [count(width * stretch.x, best.tile.width), count(height * stretch.y, best.tile.height)];
  return { ...best, columns, rows };
}
