import type { Part } from '../model/drawing.ts';
import type { Hole } from '../model/layout.ts';
import type { Deg, Mm } from '../units/scalar.ts';

/**
 * A point or direction in the shell's own frame: x from the shell's axis to the strainer line, y to 90 deg, z up from
 * the bottom edge.
 */
export type Vec3 = readonly [x: number, y: number, z: number];

/** Where a flat part's own x, y and thickness direction go in the shell's frame. Orthonormal and right-handed. */
export interface Frame3 {
  readonly origin: Vec3;
  readonly x: Vec3;
  readonly y: Vec3;
  readonly z: Vec3;
}

/** One cut piece in its place. The part lies in its x-y plane and fills 0 to `thickness` along its z. */
export interface Placement {
  readonly part: string;
  /** Counted from 1 for parts cut more than once. */
  readonly instance: number;
  /** The collar (or sector) it belongs to. One is on the shell at a time: two may need the same room. */
  readonly collar: string;
  readonly frame: Frame3;
  readonly thickness: Mm;
}

/** A hole through the guide plates: where its axis meets the outside skin, and the way a bit goes (inwards). */
export interface GuideBore {
  readonly holeId: string;
  readonly point: Vec3;
  readonly axis: Vec3;
  /** Of the round hole in the plates: the bushing's outside, or the bit. */
  readonly diameter: Mm;
  /** Bit that goes through the guide, mm. */
  readonly bit: Mm;
  /** Length of guide round the bit. */
  readonly guide: Mm;
  /** Free way between the guide's end and the skin. */
  readonly gap: Mm;
  /** Diameter opened to afterwards, with the collar off, when the bit through the guide is not the last. */
  readonly opensTo?: Mm;
}

export interface Supply {
  readonly what: string;
  readonly quantity: number;
  /** In words with units, e.g. `6 x 10 x 20 mm`. */
  readonly size: string;
}

export interface Reach {
  readonly served: readonly { readonly fitting: string; readonly edge: RimEdge; readonly holes: number }[];
  readonly unserved: readonly { readonly fitting: string; readonly why: string }[];
}

export interface BuildFigures {
  /** Sum of the boxes round the parts, mm2: what a sheet gives up to them when they are not nested into each other. */
  readonly sheetArea: number;
  readonly parts: number;
  /** Shortest guide of all bores. */
  readonly guideLength: Mm;
  /** Twice the standard deviation of a hole's place along the girth and along the axis, mm. */
  readonly accuracy: { readonly around: Mm; readonly along: Mm };
  /** Closing error of the step round the shell, mm along the girth; 0 for a ring. */
  readonly closing: { readonly systematic: Mm; readonly random: Mm };
}

export interface CollarPlan {
  /** False when a finding forbids cutting: then there are no parts. */
  readonly made: boolean;
  readonly build: 'rings' | 'sector';
  readonly parts: readonly Part[];
  readonly placements: readonly Placement[];
  readonly bores: readonly GuideBore[];
  readonly supplies: readonly Supply[];
  readonly steps: readonly string[];
  readonly reach: Reach;
  readonly tradeoff: { readonly rings?: BuildFigures; readonly sector?: BuildFigures };
  /** Sheet of the three ways to lay the collar out, mm2 by the boxes round its parts; what does not go is left out. */
  readonly layouts: { readonly whole?: number; readonly pieces?: number; readonly sector?: number };
  /** Shells this collar serves. */
  readonly serves: Serves;
}

export interface Serves {
  /** Girths it slides over and can be wedged on, mm. */
  readonly girth: readonly [Mm, Mm];
  /** Least girth that the wedges or bolts still hold, whatever the gap the bit then has to cross. */
  readonly held: Mm;
  /** Largest roundness error (largest minus smallest diameter) that still slides over the largest shell. */
  readonly round: Mm;
  /** Diametral play of the bit in a worn bushing at which the hole's place has lost a tenth of a millimetre. */
  readonly wear: Mm;
}

export type RimEdge = 'top' | 'bottom';

/** One bore of a guide post, in the post's frame. */
export interface Bore {
  readonly hole: Hole;
  /** Straight across from the post's line, to the right seen from outside. */
  readonly x: Mm;
  /** Depth below the bearing edge the post stands on. */
  readonly s: Mm;
  readonly diameter: Mm;
  readonly bit: Mm;
  readonly opensTo?: Mm;
}

/** A pair of upright plates, one behind the other, square to the radius at `angle`. */
export interface Post {
  /** Unique in the collar and XML-name safe. */
  readonly id: string;
  readonly fittings: readonly string[];
  readonly angle: Deg;
  readonly edge: RimEdge;
  readonly bores: readonly Bore[];
  /** Distance from the shell's axis to the inner plate's near face, and to the outer plate's. */
  readonly inner: Mm;
  readonly outer: Mm;
  /** Widest bit through the guide. */
  readonly bit: Mm;
  readonly width: Mm;
  /** Width of the inner and of the outer plate where a ring grips it. */
  readonly neck: readonly [inner: Mm, outer: Mm];
}
