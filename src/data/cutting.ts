import type { ToolKind } from '../model/machine.ts';
import type { Mm, Rpm } from '../units/scalar.ts';

/** One line of the drill-press chart: bits up to `upTo`, in soft and in hard wood. */
export interface SpeedRow {
  readonly upTo: Mm;
  readonly soft: Rpm;
  readonly hard: Rpm;
}

/**
 * Drill-press speeds, widely reprinted on workshop walls, origin unknown: common practice. Sizes between two lines of
 * the chart take the slower. Stepped drills turn as twist drills of their full diameter; a V bit only dots the skin.
 */
export const DRILL_SPEEDS: Readonly<Record<Exclude<ToolKind, 'end-mill'>, readonly SpeedRow[]>> = {
  twist: [
    { upTo: 4.8, soft: 3000, hard: 3000 },
    { upTo: 9.6, soft: 3000, hard: 1500 },
    { upTo: 15.9, soft: 1500, hard: 750 },
    { upTo: 25.4, soft: 750, hard: 500 },
  ],
  stepped: [
    { upTo: 4.8, soft: 3000, hard: 3000 },
    { upTo: 9.6, soft: 3000, hard: 1500 },
    { upTo: 15.9, soft: 1500, hard: 750 },
    { upTo: 25.4, soft: 750, hard: 500 },
  ],
  'brad-point': [
    { upTo: 3.2, soft: 1800, hard: 1200 },
    { upTo: 6.4, soft: 1800, hard: 1000 },
    { upTo: 12.7, soft: 1800, hard: 750 },
    { upTo: 15.9, soft: 1800, hard: 500 },
    { upTo: 25.4, soft: 1000, hard: 250 },
  ],
  spur: [
    { upTo: 9.6, soft: 2400, hard: 700 },
    { upTo: 15.9, soft: 2400, hard: 500 },
    { upTo: 25.4, soft: 1500, hard: 500 },
    { upTo: 31.8, soft: 1000, hard: 250 },
    { upTo: 51, soft: 500, hard: 250 },
  ],
  'v-bit': [{ upTo: 25.4, soft: 3000, hard: 3000 }],
};

/**
 * Rim speeds the chart itself reaches: 9.5 mm twist at 1500 rev/min in hard wood is 44.8 m/min, at 3000 in soft 89.5.
 * Beyond them the rim burns before it cuts (derived from the chart, common practice).
 */
export const RIM_LIMIT = { soft: 90, hard: 45 } as const;

/** Below this specific gravity a botanical hardwood drills like a softwood (judgement, no source). */
export const SOFT_BELOW = 0.45;

/**
 * Feed of a drill, mm a revolution, common practice, no source: 0.1 for small bits to 0.3 in hard wood, up to 0.5 in
 * soft. Set at specific gravity 0.60 and scaled by (0.60 / G)^1.1, which reaches 0.5 at 0.37: cutting work grows with
 * G^1 to G^1.25 (crushing and bending strength against specific gravity, Forest Products Laboratory report 1303, 1941).
 */
export const DRILL_FEED = {
  small: 0.1,
  large: 0.3,
  smallAt: 3,
  largeAt: 13,
  most: 0.5,
  gravity: 0.6,
  power: 1.1,
} as const;

/**
 * Side hardness at 12 % moisture content usual at a specific gravity, N: a G^b (Wood Handbook FPL-GTR-282, Table 5-11a,
 * from memory). A wood harder than its weight lets expect is fed slower, a softer one faster.
 */
export const USUAL_HARDNESS = {
  hardwood: { a: 15_300, b: 2.09 },
  softwood: { a: 8_590, b: 1.49 },
} as const;

/** Chip thinner than this (mm) rubs and burns instead of cutting (common practice, no source: 0.025 to 0.05). */
export const THINNEST_CHIP: Mm = 0.025;

export type MillColumn = 'hardwood' | 'softwood' | 'plywood' | 'mdf';

/**
 * Feed per tooth of two-flute spiral cutters at a cut one diameter deep, low and high end, mm. Envelope of three
 * charts in common use, common practice, no source; the low end is for small machines.
 */
export const CHIP_LOADS: readonly (Readonly<Record<MillColumn, readonly [Mm, Mm]>> & { readonly diameter: Mm })[] = [
  { diameter: 3.175, hardwood: [0.05, 0.13], softwood: [0.08, 0.15], plywood: [0.08, 0.15], mdf: [0.1, 0.18] },
  { diameter: 6.35, hardwood: [0.13, 0.28], softwood: [0.13, 0.33], plywood: [0.15, 0.33], mdf: [0.3, 0.41] },
  { diameter: 9.525, hardwood: [0.15, 0.46], softwood: [0.15, 0.51], plywood: [0.38, 0.51], mdf: [0.43, 0.58] },
  { diameter: 12.7, hardwood: [0.18, 0.53], softwood: [0.18, 0.58], plywood: [0.46, 0.58], mdf: [0.51, 0.69] },
];

/** A light rotary set-up takes less than the low end of the chart (judgement, no source). */
export const LIGHT_MACHINE = 0.7;

/** Speed asked of a small mill in wood, where the spindle reaches it (common practice, no source: 12000 to 18000). */
export const MILL_SPEED: Rpm = 16000;

/** A helix goes down this part of the cutter's diameter each turn (common practice, no source). */
export const HELIX_PITCH = 0.5;

/**
 * Work to cut away a volume of wood, J/cm3 (= MJ/m3), at specific gravity 0.53. Derived: a 25.4 mm spur bit at 2400
 * rev/min and 0.508 mm chips took 3.728 N m across the grain (Forest Products Journal 22(11):55-59, 1972), which is 45.5
 * with two lips or 91.0 with one; the abstract does not say which, so the middle. Scales with specific gravity.
 */
export const CUTTING_WORK = { joulesPerCm3: 70, gravity: 0.53 } as const;

/**
 * Thrust, N per mm of diameter, at a 0.508 mm chip and specific gravity 0.53 (same test); the exponent: judgement, no
 * source.
 */
export const THRUST = { perMm: 24, chip: 0.508, power: 0.8, gravity: 0.53 } as const;

/** Share of the rated power a spindle should be asked for (common practice, no source). */
export const SPINDLE_SHARE = 0.8;

/**
 * A hole deeper than this many diameters is drilled in pecks; each re-entry chews the rim (common practice, no
 * source).
 */
export const PECK_BEYOND = 3;

/** Diameters the tables cover, mm. */
export const DIAMETER_RANGE: Readonly<Record<ToolKind, readonly [Mm, Mm]>> = {
  twist: [0.5, 25.4],
  stepped: [1, 25.4],
  'brad-point': [2, 25.4],
  spur: [5, 51],
  'end-mill': [1, 25.4],
  'v-bit': [1, 25.4],
};
