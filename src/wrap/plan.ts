import type { Stretch } from '../drawing/room.ts';
import type { Drawing, Part } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import type { RodFit } from './rod-card.ts';

/** Tab (mm) that an overlapping seam puts under the next piece, and how far its corners are cut back. */
export const TAB = { width: 12, corner: 3 } as const;
export const tabOf = (jig: Jig): Mm => (jig.wrap.seam === 'overlap' ? TAB.width : 0);

/** Where one panel lies on the shell. */
export interface WrapPiece {
  readonly part: string;
  /** Shell angles and heights it covers. */
  readonly from: Deg;
  readonly to: Deg;
  readonly low: Mm;
  readonly high: Mm;
  /** The shell's edge it is held flush with. */
  readonly edge: 'bottom' | 'top' | 'both' | 'joint';
}

/** The template whole, in panels and for paper. */
export interface WrapPlan {
  /** The template in one piece, kerf applied; origin on the strainer line at the bottom edge. */
  readonly whole: Drawing;
  /** Whether the kerf would swallow a hole: then `whole` lacks it and is not to be written. */
  readonly spoilt: boolean;
  /** The same cut to fit the sheet, at finished size, to be nested. */
  readonly panels: readonly Part[];
  /** The template for paper, drawn for the paper's own thickness. */
  readonly paper: Drawing;
  readonly seam: Deg;
  /** R + k t of the sheet, and the flat length of its full turn. */
  readonly flatRadius: Mm;
  readonly length: Mm;
  /** The same for paper. */
  readonly paperLength: Mm;
  readonly pieces: readonly WrapPiece[];
  /** Cards to hold against the real thing, at finished size, and the same laid out on pages for `wrap.pdf`. */
  readonly cards: readonly Part[];
  readonly cardPages: readonly Drawing[];
}

/** What the template is told besides the jig. */
export interface WrapOptions {
  readonly digest: string;
  /** Rod lengths that fit, for the rod cards. */
  readonly rods?: readonly RodFit[];
  /** What the printed template is stretched by for its printer: words keep clear of the joints that gives. */
  readonly stretch?: Stretch | undefined;
}
