import type { Jig, Limits } from '../model/jig.ts';

/**
 * The workshop's own limits, every one filled in. All are common practice, no source, and settable; what is plain geometry
 * (a hole over the rim, two feet on one spot) has no limit to set and is not here.
 */
export type FitLimits = Required<Limits>;

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

/** Common practice, with what the jig file says otherwise. */
export const limitsOf = (jig: Jig): FitLimits => ({ ...FIT_LIMITS, ...jig.limits });
