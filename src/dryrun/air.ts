import type { Hole } from '../model/layout.ts';
import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import { pair, type Spot, spotAt } from './match.ts';
import type { Judged } from './report.ts';
import { tellSlip } from './slip.ts';
import { SAME_PLACE, type Station } from './stations.ts';
import { twinsOf } from './twins.ts';

/** The wood is never touched: a rehearsal, or a program that drills air. */
export function judgeAir(
  done: { readonly stations: readonly Station[]; readonly turned: boolean },
  planned: readonly Hole[],
  plan: readonly Spot[],
  bench: Bench,
  g: Gatherer,
): Judged {
  const visited = done.stations.filter((s) => s.cuts.length > 0);
  const spots = visited.map((s) => spotAt(s, 0));
  const slip = tellSlip(plan, spots, bench, g);
  const pairing = pair(plan, spots, bench.radius, SAME_PLACE);
  const twins = twinsOf(planned, bench);
  const inPlace = twins.filter((twin) => pairing.found[twin]! >= 0).length;
  if (visited.length > 0 && (bench.context.rehearse === true || !done.turned)) {
    g.raise('note', 'rehearsal-only', { at: 'program', measured: inPlace, limit: planned.length });
    if (slip.kind === 'none')
      planned.forEach((hole, p) => {
        if (pairing.found[twins[p]!]! < 0 && bench.context.partial !== true)
          g.raise('stop', 'rehearsal-misses', { at: hole.id, facts: { angle: hole.angle, height: hole.height } });
      });
    return { kind: 'rehearsal', holes: [], marks: [], inPlace };
  }
  if (planned.length > 0)
    g.raise('stop', 'nothing-drilled', { at: 'program', measured: visited.length, limit: planned.length });
  return { kind: 'nothing', holes: [], marks: [], inPlace: 0 };
}
