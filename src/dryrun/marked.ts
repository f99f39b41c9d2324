import type { Hole } from '../model/layout.ts';
import type { Bench } from './context.ts';
import { markOf } from './found.ts';
import type { Gatherer } from './gather.ts';
import { MISPLACED, pair, type Spot, spotAt } from './match.ts';
import type { FoundHole, Judged } from './report.ts';
import { slippedPlan, tellSlip } from './slip.ts';
import { SAME_PLACE, type Station } from './stations.ts';
import { twinsOf } from './twins.ts';

/** Nothing deep: centre marks, scored crosses. Each planned hole wants one. */
export function judgeMarks(
  stations: readonly Station[],
  planned: readonly Hole[],
  plan: readonly Spot[],
  bench: Bench,
  g: Gatherer,
): Judged {
  const spots = stations.map((s) => spotAt(s, 0));
  const slip = tellSlip(plan, spots, bench, g);
  const pairing = pair(slippedPlan(plan, slip, bench), spots, bench.radius, MISPLACED);
  const twins = twinsOf(planned, bench);
  const marks: FoundHole[] = [];
  let inPlace = 0;
  planned.forEach((hole, p) => {
    const twin = twins[p]!;
    const f = pairing.found[twin]!;
    if (f < 0 || pairing.gaps[twin]! > SAME_PLACE) {
      if (slip.kind === 'none')
        g.raise(bench.context.partial ? 'note' : 'stop', f < 0 ? 'mark-missing' : 'mark-misplaced', {
          at: hole.id,
          measured: f < 0 ? null : pairing.gaps[twin]!,
          limit: SAME_PLACE,
          unit: 'mm',
        });
    } else if (slip.kind === 'none') inPlace++;
    if (f >= 0) marks.push(markOf(hole.id, stations[f]!, slip.kind === 'none' ? pairing.gaps[twin]! : null));
  });
  pairing.extra.forEach((f, i) => {
    marks.push(markOf(`extra-${i + 1}`, stations[f]!, null));
    if (slip.kind === 'none')
      g.raise('note', 'mark-extra', {
        at: `extra-${i + 1}`,
        line: stations[f]!.cuts[0]!.line,
        facts: { angle: stations[f]!.angle, height: stations[f]!.height },
      });
  });
  g.raise('note', 'marks-only', { at: 'program', measured: marks.length, limit: planned.length });
  return { kind: 'marking', holes: [], marks, inPlace };
}
