import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { leadAt } from './bit.ts';
import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import { drivenMark, markBefore, type Seen } from './seen.ts';
import { SAME_SIZE } from './stations.ts';

/** A bit narrower than the full one by more than this makes another hole (judgement, no source). */
const SMALLER: Mm = 0.3;
/** A centre mark wider than its hole by more than this leaves a crater round it (common practice, no source). */
const CRATER: Mm = 0.3;

/** Size, depth and order of the work at one planned hole. */
export function judgeHole(hole: Hole, s: Seen, bench: Bench, g: Gatherer): void {
  const line = s.main.line;
  const tool = s.main.tool?.id ?? -1;
  if (s.entrance < hole.drill - SAME_SIZE) {
    const only = !(s.clear > 0)
      ? 'hole-only-marked'
      : hole.pilot !== undefined && s.entrance <= hole.pilot + SAME_SIZE
        ? 'hole-only-piloted'
        : 'hole-wrong-size';
    // A program of one bit alone leaves the rest to the others.
    const level = only !== 'hole-wrong-size' && bench.context.partial === true ? 'note' : 'stop';
    g.raise(level, only, { at: hole.id, line, measured: s.entrance, limit: hole.drill, unit: 'mm', facts: { tool } });
  } else if (Math.max(s.widest, s.mouth) > hole.drill + SAME_SIZE)
    // A restart may find nothing left to do here but to break the edge.
    g.raise(bench.context.partial === true && s.main.tool?.kind === 'v-bit' ? 'note' : 'stop', 'hole-wrong-size', {
      at: hole.id,
      line,
      measured: Math.max(s.widest, s.mouth),
      limit: hole.drill,
      unit: 'mm',
      facts: { tool },
    });
  else if (s.clear < hole.drill - SAME_SIZE) {
    const byHand = bench.context.backing === 0 && s.depth > bench.context.shell.wall;
    g.raise(byHand ? 'care' : 'stop', byHand ? 'finish-from-inside' : 'hole-not-through', {
      at: hole.id,
      line,
      measured: s.main.depth,
      limit: s.main.depth + s.short,
      unit: 'mm',
      facts: { short: s.short, tool },
    });
  }
  const mark = s.clear > 0 ? markBefore(s, bench) : 0;
  if (mark > hole.drill + CRATER)
    g.raise('stop', 'mark-wider-than-hole', { at: hole.id, line, measured: mark, limit: hole.drill, unit: 'mm' });
  const driven = drivenMark(s, bench);
  if (driven)
    g.raise('stop', 'v-bit-as-drill', {
      at: hole.id,
      line: driven.line,
      measured: driven.depth,
      limit: leadAt(driven.tool!, driven.radius),
      unit: 'mm',
      facts: { tool: driven.tool!.id },
    });
  judgeOrder(hole, s, bench.context.shell.wall, g);
}

function judgeOrder(hole: Hole, s: Seen, wall: Mm, g: Gatherer): void {
  const drills = s.station.cuts.filter(
    (c) => c.wood && c.kind === 'plunge' && c.tool !== undefined && c.tool.kind !== 'v-bit',
  );
  const fullAt = drills.findIndex((c) => c.radius >= s.main.radius - SMALLER / 2);
  const later = drills.slice(fullAt + 1).find((c) => c.radius < s.main.radius - SMALLER / 2);
  if (fullAt >= 0 && later)
    g.raise('stop', 'full-before-pilot', {
      at: hole.id,
      line: later.line,
      measured: 2 * later.radius,
      limit: 2 * s.main.radius,
      unit: 'mm',
      facts: { full: drills[fullAt]!.line },
    });
  const earlier = drills.slice(0, Math.max(0, fullAt)).some((c) => c.radius < s.main.radius - SMALLER / 2);
  const kind = s.main.tool?.kind;
  const pilot = drills.slice(0, Math.max(0, fullAt)).sort((a, b) => b.depth - a.depth)[0];
  if (
    pilot !== undefined &&
    hole.pilot !== undefined &&
    2 * pilot.radius > hole.pilot - SAME_SIZE &&
    pilot.depth < wall
  )
    g.raise('care', 'pilot-shallow', { at: hole.id, line: pilot.line, measured: pilot.depth, limit: wall, unit: 'mm' });
  if (earlier && (kind === 'brad-point' || kind === 'spur'))
    g.raise('care', 'spur-after-pilot', { at: hole.id, line: s.main.line, facts: { kind } });
  if (
    !earlier &&
    hole.pilot !== undefined &&
    kind === 'twist' &&
    s.main.kind === 'plunge' &&
    s.entrance > hole.pilot + SAME_SIZE
  )
    g.raise('care', 'pilot-left-out', { at: hole.id, line: s.main.line, measured: 0, limit: hole.pilot, unit: 'mm' });
}
