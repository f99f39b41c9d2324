import { judgeAir } from './air.ts';
import type { Bench } from './context.ts';
import { judgeDrilling } from './drilled.ts';
import type { Gatherer } from './gather.ts';
import { judgeMarks } from './marked.ts';
import { isOwnMirror, type Spot } from './match.ts';
import type { Judged } from './report.ts';
import { isDeep, type Seen, seen } from './seen.ts';
import type { Station } from './stations.ts';

export interface Done {
  readonly stations: readonly Station[];
  readonly touched: boolean;
  /** The spindle was on at some time. */
  readonly turned: boolean;
  /** Pauses for a hand. */
  readonly pauses: number;
}

/** The places the program worked at against the plan: what is missing, extra, moved, of another size, not through. */
export function judge(done: Done, bench: Bench, g: Gatherer): Judged {
  const planned = bench.context.layout.holes;
  const plan = planned.map((h): Spot => ({ angle: h.angle, height: h.height, size: h.drill }));
  if (plan.length > 0 && isOwnMirror(plan, bench.radius)) g.raise('note', 'mirror-cannot-tell', { at: 'program' });
  const all = done.stations.map((s) => seen(s, bench));
  const cut = all.filter((s): s is Seen => s !== undefined);
  const full = cut.filter((s) => s.clear > 0 || isDeep(s, bench));
  if (full.length > 0) return judgeDrilling(cut, planned, plan, bench, g, done.pauses);
  if (done.touched)
    return judgeMarks(
      done.stations.filter((s) => s.cuts.some((c) => c.wood)),
      planned,
      plan,
      bench,
      g,
    );
  return judgeAir(done, planned, plan, bench, g);
}
