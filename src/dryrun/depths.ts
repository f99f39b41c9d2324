import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import type { FoundHole } from './report.ts';
import { isDeep, type Made, type Seen } from './seen.ts';
import { SAME_PLACE } from './stations.ts';

/**
 * Tip further below the full depth than this, and the runout: deeper than any allowance (common practice, no source).
 */
const PAST: Mm = 1;
/** Holes that all end short by nearly as much have one cause (judgement, no source). */
const ALIKE: Mm = 1;

/** When every hole ends short by about as much, the zero of Z or the wall is not what was thought. */
export function tellShort(made: readonly Made[], planned: readonly Hole[], bench: Bench, g: Gatherer): void {
  const shorts = made.map(({ s }) => s.short);
  const [least, most] = [Math.min(...shorts), Math.max(...shorts)];
  const byHand = bench.context.backing === 0 && made.every(({ s }) => s.depth > bench.context.shell.wall);
  if (made.length < 2 || made.length * 2 < planned.length || byHand) return;
  if (least > tolerance.same && most - least <= ALIKE)
    g.raise('stop', 'job-not-deep', { at: 'program', measured: most, limit: 0, unit: 'mm', facts: { least } });
}

/** Said once for the worst hole: depth that forgets the runout, or goes far past what is needed. */
export function tellDepths(holes: readonly FoundHole[], cut: readonly Seen[], bench: Bench, g: Gatherer): void {
  const { runout } = bench.context;
  const through = cut.filter((s) => s.short <= tolerance.same);
  // Holes to be finished from inside are not through on purpose, and those beside them just so.
  const byHand = bench.context.backing === 0 && cut.some((s) => s.short > tolerance.same && isDeep(s, bench));
  const shallow = byHand
    ? []
    : through.filter((s) => -s.short < runout - tolerance.same).sort((a, b) => b.short - a.short);
  const deep = cut.filter((s) => s.past > runout + PAST + tolerance.same).sort((a, b) => b.past - a.past);
  const idOf = (s: Seen): string =>
    holes.find(
      (h) =>
        h.first_line <= s.main.line &&
        h.last_line >= s.main.line &&
        Math.abs(h.height_mm - s.station.height) < SAME_PLACE,
    )?.id ?? 'program';
  if (shallow[0]) tell('depth-ignores-runout', shallow[0], -shallow[0].short, runout, shallow.length);
  if (deep[0]) tell('depth-past-allowance', deep[0], deep[0].past, runout + PAST, deep.length);
  function tell(id: string, s: Seen, measured: Mm, limit: Mm, count: number): void {
    const facts = { count, all: count > 1 && count === through.length ? 'yes' : 'no' };
    g.raise('care', id, { at: idOf(s), line: s.main.line, measured, limit, unit: 'mm', facts });
  }
}
