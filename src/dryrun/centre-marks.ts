import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import { MISPLACED } from './match.ts';
import { type Made, markAfter, type Seen, where } from './seen.ts';
import { SAME_PLACE, skinGap } from './stations.ts';

/** A centre mark beside its hole leads the bit astray; one far from any hole belongs to no hole of the plan. */
export function tellStray(id: string, s: Seen, planned: readonly Hole[], bench: Bench, g: Gatherer): void {
  let nearest: { hole: Hole; gap: Mm } | undefined;
  for (const hole of planned) {
    const gap = skinGap(s.station, hole, bench.radius);
    if (gap < (nearest?.gap ?? MISPLACED)) nearest = { hole, gap };
  }
  const about = { line: s.main.line, unit: 'mm', facts: where(s) };
  if (nearest)
    g.raise('stop', 'mark-misplaced', { ...about, at: nearest.hole.id, measured: nearest.gap, limit: SAME_PLACE });
  else g.raise('stop', 'mark-extra', { ...about, at: id, measured: s.entrance });
}

const hasSpur = (s: Seen): boolean => s.main.tool?.kind === 'brad-point' || s.main.tool?.kind === 'spur';

/** Where most holes drilled by like bits get a centre mark, one without it was forgotten. A spur follows a pilot too. */
export function tellUnmarked(made: readonly Made[], g: Gatherer): void {
  for (const spurs of [true, false]) {
    const like = made.filter(({ s }) => hasSpur(s) === spurs && s.main.kind === 'plunge');
    const unmarked = like.filter(
      ({ s }) =>
        !s.station.cuts
          .slice(0, s.station.cuts.indexOf(s.main))
          .some((c) => c.wood && c.radius > 0 && c.tool !== s.main.tool && (spurs || c.tool?.kind === 'v-bit')),
    );
    if (unmarked.length * 2 >= like.length) continue;
    for (const { hole, s } of unmarked) g.raise('care', 'mark-left-out', { at: hole.id, line: s.main.line });
  }
}

/** A mark that comes after its hole was forgotten before it. */
export function tellLateMarks(made: readonly Made[], bench: Bench, g: Gatherer): void {
  for (const { hole, s } of made) {
    const late = markAfter(s, bench);
    if (late !== undefined)
      g.raise('care', 'mark-after-hole', { at: hole.id, line: late.line, facts: { hole: s.main.line } });
  }
}
