import type { Hole } from '../model/layout.ts';
import { judgeAir } from './air.ts';
import type { Bench } from './context.ts';
import type { Done } from './done.ts';
import { judgeDrilling } from './drilled.ts';
import type { Gatherer } from './gather.ts';
import { judgeMarks } from './marked.ts';
import { isOwnMirror, type Spot } from './match.ts';
import type { Judged } from './report.ts';
import { isDeep, type Seen, seen } from './seen.ts';
import { SAME_SIZE } from './stations.ts';

/** A bit of a planned hole's size or its pilot's: it was to drill, however far it came. */
const isMeantFor = (s: Seen, planned: readonly Hole[]): boolean => {
  const { tool, radius } = s.main;
  return (
    tool !== undefined &&
    tool.kind !== 'v-bit' &&
    planned.some((h) => [h.drill, h.pilot ?? 0].some((size) => Math.abs(size - 2 * radius) <= SAME_SIZE))
  );
};

/** The places the program worked at against the plan: what is missing, extra, moved, of another size, not through. */
export function judge(done: Done, bench: Bench, g: Gatherer): Judged {
  const planned = bench.context.layout.holes;
  const plan = planned.map((h): Spot => ({ angle: h.angle, height: h.height, size: h.drill }));
  if (plan.length > 0 && isOwnMirror(plan, bench.radius)) g.raise('note', 'mirror-cannot-tell', { at: 'program' });
  const all = done.stations.map((s) => seen(s, bench));
  const cut = all.filter((s): s is Seen => s !== undefined);
  if (cut.some((s) => s.clear > 0 || isDeep(s, bench) || isMeantFor(s, planned)))
    return judgeDrilling(cut, planned, plan, bench, g, done);
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
