import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import { findSlip, pair, type Slip, type Spot, share, slipped } from './match.ts';
import { SAME_PLACE } from './stations.ts';

/** Slip of the whole job when it explains more than the plan as it is; said once for all holes. */
export function tellSlip(plan: readonly Spot[], spots: readonly Spot[], bench: Bench, g: Gatherer): Slip {
  const straight = pair(plan, spots, bench.radius, SAME_PLACE);
  const missing = straight.found.filter((f) => f < 0).length;
  if (missing === 0 || straight.extra.length === 0) return { kind: 'none' };
  const shell = { radius: bench.radius, depth: bench.depth, datum: bench.context.datum };
  const slip = findSlip(plan, spots, shell);
  // A slip is named only when it explains more than the plan as it stands.
  if (
    slip === undefined ||
    (slip.kind !== 'scaled' && share(plan, spots, slip, shell) <= share(plan, spots, { kind: 'none' }, shell))
  )
    return { kind: 'none' };
  const at = { at: 'program' };
  switch (slip.kind) {
    case 'mirrored':
      g.raise('stop', 'job-mirrored', { ...at, facts: { turn: slip.turn } });
      break;
    case 'turned':
      g.raise('stop', 'job-turned', { ...at, measured: slip.turn, limit: 0, unit: 'deg' });
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
      g.raise('stop', 'units-mistaken', {
        ...at,
        measured: slip.factor,
        limit: 1,
        facts: { small: slip.factor < 1 ? 'yes' : 'no' },
      });
      break;
    default:
      break;
  }
  return slip;
}

/** The plan as it would lie after the slip. */
export const slippedPlan = (plan: readonly Spot[], slip: Slip, bench: Bench): readonly Spot[] =>
  slip.kind === 'none' || slip.kind === 'scaled' ? plan : plan.map((p) => slipped(slip, p, bench.depth));
