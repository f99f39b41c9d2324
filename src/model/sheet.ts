import type { Mm } from '../units/scalar.ts';
import type { Layer } from './drawing.ts';

/** A cutting bed and the sheet that lies on it. */
export interface SheetProfile {
  readonly name: string;
  readonly width: Mm;
  readonly height: Mm;
  /** Left free all round. */
  readonly margin: Mm;
  /** Least gap between two parts. */
  readonly spacing: Mm;
  /** Narrowest strip of material that survives the cut. */
  readonly bridge: Mm;
  /** Beam or cutter width measured by the builder; overrides the material's. */
  readonly kerf?: Mm;
  /** How fast this laser goes; what is not given is assumed. */
  readonly speeds?: Partial<LaserSpeeds>;
  /** How the service wants its layers to look; what is not given keeps our own scheme. */
  readonly lines?: LineStyles;
}

/** Speeds of the head in mm/s by what it does, and seconds to break through. */
export interface LaserSpeeds {
  readonly cut: number;
  readonly score: number;
  readonly engrave: number;
  readonly travel: number;
  readonly pierce: number;
}

/** Colour (`#rrggbb`) and line width (mm) by layer, as a service sorts its passes. */
export type LineStyles = Readonly<Partial<Record<Layer, { readonly colour?: string; readonly weight?: Mm }>>>;

export interface PaperProfile {
  readonly name: string;
  readonly width: Mm;
  readonly height: Mm;
  readonly margin: Mm;
  readonly overlap: Mm;
}

export interface SheetMaterial {
  readonly name: string;
  readonly thickness: Mm;
  /** Neutral line as a fraction of the thickness from the inner face. */
  readonly neutral: number;
  /** Width the beam removes. */
  readonly kerf: Mm;
  /** Added to a slot so that the sheet slides in. */
  readonly fit: Mm;
  /** Smallest radius it bends to without breaking; undefined when it is not for wrapping. */
  readonly bends?: Mm;
  readonly source: string;
}
