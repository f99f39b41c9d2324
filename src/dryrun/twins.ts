import type { Hole } from '../model/layout.ts';
import type { Bench } from './context.ts';
import { SAME_PLACE, skinGap } from './stations.ts';

/**
 * For each planned hole the widest one planned in the same place (itself as a rule): a vent under its badge is one hole,
 * and the widest bit makes it for both.
 */
export function twinsOf(planned: readonly Hole[], bench: Bench): number[] {
  const order = planned.map((_, p) => p).sort((a, b) => planned[a]!.height - planned[b]!.height);
  const twins = planned.map((_, p) => p);
  order.forEach((p, i) => {
    for (let k = i + 1; k < order.length && planned[order[k]!]!.height - planned[p]!.height <= SAME_PLACE; k++) {
      const q = order[k]!;
      if (skinGap(planned[p]!, planned[q]!, bench.radius) > SAME_PLACE) continue;
      const [wide, narrow] = planned[q]!.drill > planned[twins[p]!]!.drill ? [q, p] : [twins[p]!, q];
      twins[narrow] = wide;
    }
  });
  return twins.map((twin) => twins[twin]!);
}
