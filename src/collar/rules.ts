import type { CollarSpec } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';

/**
 * Figures of the collar's design. All are common practice without a source unless a line says otherwise; each stands
 * here once so that a builder can argue with it.
 */
export const rules = Object.freeze({
  /** Free way for chips between guide and shell, of the bit's diameter (half to one). */
  chipGap: 0.75,
  leastGap: 0.5,
  /** Guide length, of the bit's diameter: under this a bit leans. */
  guide: 3,
  /** Material left round a bore. */
  land: 4,
  /** A ring never comes nearer to a bore's edge than this, so that a chuck and a bushing's collar pass. */
  ringLand: 3,
  /** Least depth between the bearing edge and the first guide ring: nearer, the collar rocks on its lip. */
  firstRing: 20,
  /** Longest stretch of a post between two rings. */
  span: 120,
  /** Furthest a bore may stand beyond the last ring. */
  overhang: 40,
  /** Two rings nearer than this are one. */
  ringsApart: 60,
  /** The lip goes this far in beyond the wall. */
  lipInside: 3,
  /** Least width of a wedge pocket and its land along the ring, and of a joint with its pins. */
  place: 38,
  pin: 4,
  /** A larger bit's spurs eat a bare plate, and three of its diameters make every ring wider: it is piloted instead. */
  largestBare: 8,
  /** A pilot that a brad point's spur and a twist drill's point both find. */
  pilot: 3,
  /** Wall of a bushing below which it is not made. */
  bushingWall: 1,
  /** Bits break through this far into the backing. */
  through: 2,
  /** Smaller than this a ring binds even on a round shell: paint, chips and damp take it. */
  slide: 0.2,
  /** Most that a bushing's bore may be wider than its bit and still count as its size. */
  bushingSlack: 0.25,
  /** Change of the gap (largest to smallest shell) up to which a driven wedge is short enough to stay in its place. */
  wedgeRange: 2,
  /** A whole ring of thinner sheet is glued of two layers, so that it does not bow. */
  bowing: 4,
});

/**
 * The clamping bolt: M6, fully threaded (ISO 4017). Nut: 10 mm across flats, up to 5.2 mm high (ISO 4032, from memory);
 * hole: ISO 273, medium.
 */
export const BOLT = Object.freeze({ name: 'M6', diameter: 6, hole: 6.6, flats: 10, nut: 5.2 });

/** Sizes that follow from the sheet. */
export interface Stock {
  /** Measured thickness. */
  readonly t: Mm;
  /** Added to a slot so that the sheet slides in. */
  readonly fit: Mm;
  /** Hoop of ring left outside every post. */
  readonly web: Mm;
  /** How deep a ring reaches into a post's side slots. */
  readonly grip: Mm;
  /** Ledge on which the inner plate rests. */
  readonly ledge: Mm;
  /** Radius of the relief in inside corners; 0 for a beam. */
  readonly relief: Mm;
  /** Narrowest strip of the sheet that survives its cutting. */
  readonly bridge: Mm;
}

/** A small cutter of an eighth of an inch is what most builders own (judgement, no source). */
const CUTTER: Mm = 3.175;
/** No router cuts sheet with a thinner one; a beam is thinner than this (judgement, no source). */
export const LEAST_CUTTER: Mm = 0.8;
const SHADE: Mm = 0.1;

/** Widest cutter whose two corner reliefs go side by side into the end of a slot as wide as the sheet is thick. */
export const widestCutter = (spec: CollarSpec): Mm =>
  2 * ((0.49 * (spec.thickness + spec.material.fit)) / Math.SQRT2 - SHADE);

/**
 * Width of what cuts the collar: the beam, or the cutter; where the profile names a beam and no cutter, one is
 * assumed.
 */
export const cutWidth = (spec: CollarSpec): Mm =>
  spec.cut === 'laser' || isCutterSaid(spec) ? saidWidth(spec) : Math.min(CUTTER, widestCutter(spec));

const saidWidth = (spec: CollarSpec): Mm => spec.sheet.kerf ?? spec.material.kerf;
export const isCutterSaid = (spec: CollarSpec): boolean => saidWidth(spec) >= LEAST_CUTTER;

export function stockOf(spec: CollarSpec): Stock {
  const t = spec.thickness;
  // A shade more than the cutter's own radius, so that the cutter's path keeps an arc to follow.
  const relief = spec.cut === 'router' ? cutWidth(spec) / 2 + SHADE : 0;
  return {
    t,
    fit: spec.material.fit,
    web: Math.max(2 * t, 10),
    grip: Math.max(t, 5),
    // Its inner corner's relief must leave some of it to rest on.
    ledge: Math.max(t / 2, 2.5, 2 * spec.sheet.bridge, 3 * relief),
    relief,
    bridge: spec.sheet.bridge,
  };
}

/** A beam's cut tapers, so that a bushing touches at corners only: it is bedded there, not pressed. */
export const isBedded = (spec: CollarSpec): boolean =>
  (spec.bushing?.fit ?? (spec.cut === 'laser' ? 'bedded' : 'pressed')) === 'bedded';

/** How much wider than the bushing its seat is: what a sheet's own slots are wider, for glue, or nothing. */
export const seatGap = (spec: CollarSpec): Mm => (isBedded(spec) ? Math.max(0, spec.material.fit) : 0);

/** Room between two bores or a bore and an edge: the land, or what the sheet's bridge and thickness ask. */
export const landOf = (spec: CollarSpec): Mm => Math.max(rules.land, spec.sheet.bridge, 0.6 * spec.thickness);
