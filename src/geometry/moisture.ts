import type { Build } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';

/**
 * Wood and the air round it: equilibrium moisture content from the climate, and change of size from the change in
 * moisture content. Moisture contents are in % of ovendry mass.
 */

/** Above this moisture content (%) wood no longer swells (Wood Handbook FPL-GTR-282, chapter 4: 30 % when unknown). */
const FIBRE_SATURATION = 30;

/** Between these moisture contents (%) the handbook's coefficients are linear (FPL-GTR-190 table 13-5). */
const LINEAR_FROM = 6;
const LINEAR_TO = 14;

/**
 * Change along the grain per % of moisture content: 0.1 to 0.2 % from green (30 %) to ovendry, so 0.15 % / 30
 * (Wood Handbook chapter 4, from memory).
 */
const ALONG_GRAIN = 0.0015 / 30;

/**
 * Three-ply sheets from 7 to 20 %: 0.18 % along and 0.27 % across the face grain, mean of 22 species (a wood-industry
 * reprint of FPL figures). Per % of moisture content.
 */
const PLY_ALONG = 0.0018 / 13;
const PLY_ACROSS = 0.0027 / 13;

/**
 * Equilibrium moisture content of wood: what it takes on in air of one kind when left long enough.
 * @param celsius deg C, -40 to 132; the equation was fitted from about -1, and above 132 a bracket of it passes
 *   through nothing
 * @param humidityPercent relative humidity, 0 to 100 %
 * @returns % of the dry mass; agrees with table 4-2 to its last digit
 * @throws RangeError outside those ranges
 * @source Wood Handbook FPL-GTR-282, equation 4-5 (one and two hydrates), deg C set
 */
export function emc(celsius: number, humidityPercent: number): number {
  if (!(celsius >= -40 && celsius <= 132)) throw new RangeError(`temperature ${celsius} deg C is outside -40…132`);
  if (!(humidityPercent >= 0 && humidityPercent <= 100)) {
    throw new RangeError(`relative humidity ${humidityPercent} % is outside 0…100`);
  }
  const t = celsius;
  const h = humidityPercent / 100;
  const w = 349 + 1.29 * t + 0.0135 * t * t;
  const k = 0.805 + 0.000736 * t - 0.00000273 * t * t;
  const k1 = 6.27 - 0.00938 * t - 0.000303 * t * t;
  const k2 = 1.91 + 0.0407 * t - 0.000293 * t * t;
  const kh = k * h;
  const one = k1 * kh;
  const two = k1 * k2 * kh * kh;
  return (1800 / w) * (kh / (1 - kh) + (one + 2 * two) / (1 + one + two));
}

/**
 * Change of size when wood goes from one moisture content to another.
 *
 * Within 6…14 %: size C (to - from). Outside: size (to - from) / (3000 / S - 30 + from), S the shrinkage in % from
 * green to ovendry, both moisture contents capped at fibre saturation. C = (S / 3000) / (1 - S / 150) is that law at 10
 * %, so its divisor is 1 / C + from - 10 (derived).
 * @param size in any unit
 * @param coefficient change per % of moisture content across the grain, C_T or C_R, e.g. 0.00353; 0 or more
 * @param from moisture content before, %
 * @param to after, %
 * @returns in the unit of `size`; negative when it shrinks
 * @throws never
 * @source Wood Handbook FPL-GTR-190, section with table 13-5
 */
export function movement(size: Mm, coefficient: number, from: number, to: number): Mm {
  // Not the -0 that a shrinking nothing would be.
  if (coefficient === 0) return 0;
  const linear = Math.min(from, to) >= LINEAR_FROM && Math.max(from, to) <= LINEAR_TO;
  if (linear) return size * coefficient * (to - from);
  const start = Math.min(Math.max(from, 0), FIBRE_SATURATION);
  const end = Math.min(Math.max(to, 0), FIBRE_SATURATION);
  return (size * (end - start)) / (1 / coefficient + start - 10);
}

/** Movement across the grain per % of moisture content: along the growth rings, and square to them. */
export interface WoodMovement {
  readonly tangential: number;
  readonly radial: number;
}

/** A shell, its wood and the two moisture contents. */
export interface ShellMovementInput {
  readonly build: Build;
  readonly wood: WoodMovement;
  readonly girth: Mm;
  readonly depth: Mm;
  readonly wall: Mm;
  /** Moisture content before and after, %. */
  readonly from: number;
  readonly to: number;
  /** Pieces in a ring of a segment shell; 12 when not said. */
  readonly segments?: number;
}

/** A change with the least and the most it can be; the way a board was sawn decides between them. */
export interface Change {
  readonly likely: Mm;
  readonly least: Mm;
  readonly most: Mm;
}

/** What a shell does between two moisture contents; grown is positive. */
export interface ShellMovement {
  readonly girth: Change;
  /** Outside diameter: the girth's change over pi. */
  readonly diameter: Change;
  readonly depth: Change;
  readonly wall: Change;
  /** The most that the difference between the largest and the smallest diameter can grow; never negative. */
  readonly outOfRound: Mm;
}

/**
 * How much of the worst mixture of sawing a shell of this build can show round its girth: staves may be mixed freely,
 * segments average over staggered rings, a bent board is one piece, peeled veneer is alike all round. Judgement, no source.
 */
const MIXED_SAWING: Readonly<Record<Build, number>> = { stave: 1, segment: 0.5, 'steam-bent': 0.25, ply: 0 };

/**
 * What a shell does between two moisture contents, by how its grain runs. Stave: grain along the depth, the girth moves
 * across it. Steam-bent: grain round the girth, the depth moves across it. Segment: grain round the girth but for the
 * corners of straight pieces, the depth moves across it. Ply: crossed veneers hold each other; only the wall moves
 * freely.
 * @param input shell, wood and moisture contents
 * @returns changes in mm, each likely, least and most
 * @throws never
 * @source `movement` above; which way the grain runs is geometry (derived)
 */
export function shellMovement(input: ShellMovementInput): ShellMovement {
  const { build, wood, from, to } = input;
  const across: Range = [wood.radial, wood.tangential];
  const along: Range = [ALONG_GRAIN, ALONG_GRAIN];
  const ply: Range = [PLY_ALONG, PLY_ACROSS];
  const grain: Readonly<Record<Build, { girth: Range; depth: Range; wall: Range }>> = {
    stave: { girth: across, depth: along, wall: across },
    'steam-bent': { girth: along, depth: across, wall: across },
    segment: { girth: aroundSegments(across, input.segments ?? 12), depth: across, wall: across },
    // Peeled veneer lies with its growth rings in the sheet: the wall moves radially.
    ply: { girth: ply, depth: ply, wall: [wood.radial, wood.radial] },
  };
  const way = grain[build];
  const girth = change(input.girth, way.girth, from, to);
  return {
    girth,
    diameter: { likely: girth.likely / Math.PI, least: girth.least / Math.PI, most: girth.most / Math.PI },
    depth: change(input.depth, way.depth, from, to),
    wall: change(input.wall, way.wall, from, to),
    outOfRound: MIXED_SAWING[build] * worstOutOfRound(input.girth / (2 * Math.PI), wood, from, to),
  };
}

type Range = readonly [low: number, high: number];

function change(size: Mm, [low, high]: Range, from: number, to: number): Change {
  const a = movement(size, low, from, to);
  const b = movement(size, high, from, to);
  const middle = movement(size, (low + high) / 2, from, to);
  return Math.abs(a) <= Math.abs(b) ? { likely: middle, least: a, most: b } : { likely: middle, least: b, most: a };
}

/**
 * Straight pieces in a ring run with the girth only at their middle; at angle t off it the movement is
 * C_L cos^2 t + C_X sin^2 t, here averaged over -pi/n … pi/n (derived).
 */
function aroundSegments([low, high]: Range, pieces: number): Range {
  const half = Math.PI / Math.max(3, pieces);
  const sin2 = 0.5 - Math.sin(2 * half) / (4 * half);
  return [ALONG_GRAIN * (1 - sin2) + low * sin2, ALONG_GRAIN * (1 - sin2) + high * sin2];
}

/**
 * Two opposite quarters flat-sawn, the other two quarter-sawn. A ring whose wall swells by s cos 2t leaves the round by
 * -R s / 3 cos 2t (inextensional bending of a thin ring; the girth's own swelling drops out), which is 4 R s / 3 between
 * the largest and smallest diameter; s is the second harmonic of a square wave, 4 / pi of half the difference (derived).
 */
function worstOutOfRound(radius: Mm, wood: WoodMovement, from: number, to: number): Mm {
  const difference = Math.abs(movement(1, wood.tangential, from, to) - movement(1, wood.radial, from, to));
  return ((4 / 3) * radius * (4 / Math.PI) * difference) / 2;
}
