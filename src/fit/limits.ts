import type { Deg, Mm } from '../units/scalar.ts';

/**
 * The workshop's own limits. All are common practice, no source, and settable; what is plain geometry (a hole over the
 * rim, two feet on one spot) has no limit to set and is not here.
 */
export interface FitLimits {
  /** Turns a rod has bitten when finger tight. */
  readonly firstTurns: number;
  /** Rod or screw diameters of thread engaged at full tension: below `engage` too short, below `engageWell` look twice. */
  readonly engage: number;
  readonly engageWell: number;
  /** Kept free below the tip of a rod at full tension. */
  readonly reserve: Mm;
  /** Lean of a rod: above `lean` look twice, above `bind` it binds. */
  readonly lean: Deg;
  readonly bind: Deg;
  /** Kept free between hoop skirt and lug at full tension. */
  readonly skirtGap: Mm;
  /** Between two feet, and between two holes: look twice below. */
  readonly footGap: Mm;
  readonly land: Mm;
  /** Out of round and out of square that passes without a word. */
  readonly round: Mm;
  readonly square: Mm;
  /** Strap lines of strainer and butt off opposite: above `facing` look twice, above `facingBad` the snares lie askew. */
  readonly facing: Deg;
  readonly facingBad: Deg;
}

export const FIT_LIMITS: FitLimits = Object.freeze({
  firstTurns: 3,
  engage: 1,
  engageWell: 1.5,
  reserve: 2,
  lean: 1,
  bind: 2,
  skirtGap: 1,
  footGap: 1,
  land: 3,
  round: 1,
  square: 1,
  facing: 0.25,
  facingBad: 1,
});
