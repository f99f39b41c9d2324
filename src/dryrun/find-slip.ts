import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import { pair, type Spot, sizesAgree } from './match.ts';
import { skinPoint } from './place.ts';
import { SCALES, type Scaled, type Slip, slipped, slipsToTry } from './slips.ts';
import { SAME_PLACE } from './stations.ts';

/** Share of the planned holes that a slip must explain before it is named (judgement, no source). */
const SHARE = 0.9;
/**
 * Places 25.4 times too near or far need not be met so nearly: a bore is entered beside its middle, and that way is
 * scaled as well. No sound place comes so near by chance.
 */
const SCALED_REACH: Mm = 6;

/** What explains the whole job, and what explains it just as well. */
export interface Explained {
  readonly slip: Slip;
  readonly or: Slip | undefined;
}

/**
 * The slip of the whole job that puts most found holes on planned ones, the plainest of those that put as many;
 * undefined when none explains more than no slip at all.
 */
export function findSlip(planned: readonly Spot[], found: readonly Spot[], bench: Bench): Explained | undefined {
  if (found.length < 2 || planned.length < 2) return undefined;
  const least = Math.max(SHARE - tolerance.noise, share(planned, found, { kind: 'none' }, bench));
  const told = slipsToTry(planned, found, bench)
    .map((slip) => ({
      slip,
      hits:
        slip.kind === 'scaled'
          ? scaleShare(planned, found, slip, SAME_PLACE, bench)
          : share(planned, found, slip, bench),
    }))
    .filter(({ hits }) => hits > least)
    .sort((a, b) => b.hits - a.hits || weight(a.slip) - weight(b.slip));
  const best = told[0];
  if (best !== undefined)
    return {
      slip: best.slip,
      or: told.find((t) => t.hits === best.hits && t.slip.kind !== best.slip.kind)?.slip,
    };
  const slip = SCALES.find((scale) => scaleShare(planned, found, scale, SCALED_REACH, bench) >= SHARE);
  return slip && { slip, or: undefined };
}

/** The smallest slip is the likeliest; a mirror about some line is less likely than a turn. */
function weight(slip: Slip): number {
  switch (slip.kind) {
    case 'turned':
      return 10 + Math.abs(slip.turn);
    case 'shifted':
      return 10 + Math.abs(slip.along) + 1000 * Math.abs(slip.turn);
    case 'mirrored':
      return slip.turn === 0 ? 0 : 1000 + slip.turn;
    case 'scaled':
      return SCALES.includes(slip) ? 1 : 2000 + Math.abs(Math.log(slip.lengths * slip.angles));
    default:
      return 1;
  }
}

/** Share of planned and found holes that agree in place and size once the plan has slipped so. */
function share(planned: readonly Spot[], found: readonly Spot[], slip: Slip, bench: Bench): number {
  const moved = planned.map((p) => slipped(slip, p, bench.depth));
  const pairing = pair(moved, found, bench.radius, SAME_PLACE);
  // Sizes must agree as well, where they are known: a mirror of the places alone may be chance.
  const hits = pairing.found.filter((f, p) => f >= 0 && sizesAgree(planned[p]!.size, found[f]!.size)).length;
  return hits / Math.max(planned.length, found.length);
}

/** The same once what the machine was told has its right size. */
function scaleShare(planned: readonly Spot[], found: readonly Spot[], slip: Scaled, reach: Mm, bench: Bench): number {
  const meant = found.map((f) => {
    const { x, y, a } = f.machine ?? { x: 0, y: 0, a: 0 };
    return { ...f, ...skinPoint(x / slip.lengths, y / slip.lengths, a / slip.angles, bench.radius, bench.frame) };
  });
  const pairing = pair(planned, meant, bench.radius, reach);
  return pairing.found.filter((f) => f >= 0).length / Math.max(planned.length, found.length);
}
