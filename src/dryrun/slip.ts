import type { Bench } from './context.ts';
import { findSlip } from './find-slip.ts';
import type { Gatherer } from './gather.ts';
import { pair, type Spot } from './match.ts';
import { SCALES, type Scaled, type Slip, slipped } from './slips.ts';
import { SAME_PLACE } from './stations.ts';

/** Slip of the whole job when it explains more than the plan as it is; said once for all holes. */
export function tellSlip(plan: readonly Spot[], spots: readonly Spot[], bench: Bench, g: Gatherer): Slip {
  const straight = pair(plan, spots, bench.radius, SAME_PLACE);
  const missing = straight.found.filter((f) => f < 0).length;
  if (missing === 0 || straight.extra.length === 0) return { kind: 'none' };
  const explained = findSlip(plan, spots, bench);
  if (explained === undefined) return { kind: 'none' };
  const { slip, or } = explained;
  const at = { at: 'program' };
  switch (slip.kind) {
    case 'mirrored':
      g.raise('stop', 'job-mirrored', {
        ...at,
        facts: { turn: slip.turn, ...(or?.kind === 'turned' ? { or: or.turn } : {}) },
      });
      break;
    case 'turned':
      g.raise('stop', 'job-turned', { ...at, measured: slip.turn, limit: 0, unit: 'deg' });
      break;
    case 'beside':
      g.raise('stop', 'job-beside-axis', {
        ...at,
        measured: slip.by,
        limit: 0,
        unit: 'mm',
        facts: { turn: slip.turn },
      });
      break;
    case 'shifted':
      g.raise('stop', 'job-shifted', { ...at, measured: slip.along, limit: 0, unit: 'mm', facts: { turn: slip.turn } });
      break;
    case 'other-edge':
      g.raise('stop', 'job-from-other-edge', {
        ...at,
        facts: { datum: bench.context.datum, over: slip.turnedOver ? 'yes' : 'no' },
      });
      break;
    case 'scaled':
      tellScale(slip, g);
      break;
    default:
      break;
  }
  return slip;
}

function tellScale({ lengths, angles }: Scaled, g: Gatherer): void {
  const inches = SCALES.some((scale) => scale.lengths === lengths);
  const factor = angles === 1 ? lengths : angles;
  g.raise('stop', inches ? 'units-mistaken' : angles === 1 ? 'lengths-scaled' : 'angles-scaled', {
    at: 'program',
    measured: factor,
    limit: 1,
    facts: { small: factor < 1 ? 'yes' : 'no' },
  });
}

/** The plan as it would lie after the slip. */
export const slippedPlan = (plan: readonly Spot[], slip: Slip, bench: Bench): readonly Spot[] =>
  slip.kind === 'none' || slip.kind === 'scaled' ? plan : plan.map((p) => slipped(slip, p, bench.depth));
