import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tellLateMarks, tellStray, tellUnmarked } from './centre-marks.ts';
import type { Bench } from './context.ts';
import { tellDepths, tellShort } from './depths.ts';
import type { Done } from './done.ts';
import { foundHole } from './found.ts';
import type { Gatherer } from './gather.ts';
import { judgeHole } from './judge-hole.ts';
import { MISPLACED, pair, type Spot, spotAt } from './match.ts';
import type { FoundHole, Judged } from './report.ts';
import { isDeep, type Seen, where } from './seen.ts';
import { shellsDrilled, tellDoubled, tellJobDoubled, tellLeftOut } from './shells.ts';
import { slippedPlan, tellSlip } from './slip.ts';
import { SAME_PLACE, SAME_SIZE, skinGap } from './stations.ts';
import { twinsOf } from './twins.ts';

/** Holes right through, or meant to be, against the plan. */
export function judgeDrilling(
  cut: readonly Seen[],
  planned: readonly Hole[],
  plan: readonly Spot[],
  bench: Bench,
  g: Gatherer,
  done: Pick<Done, 'intoLast'>,
): Judged {
  const spots = cut.map((s) => spotAt(s.station, s.drilled));
  const slip = tellSlip(plan, spots, bench, g);
  const pairing = pair(slippedPlan(plan, slip, bench), spots, bench.radius, MISPLACED);
  const twins = twinsOf(planned, bench);
  const shells = shellsDrilled(cut, bench.context.partial === true);
  if (shells > 1) {
    g.raise('note', 'several-shells', { at: 'program', measured: shells });
    for (const { line, depth, tool, kind } of done.intoLast)
      g.raise('stop', 'rapid-into-wood', {
        at: `line ${line}`,
        line,
        measured: depth,
        unit: 'mm',
        facts: { tool, kind },
      });
  }
  const twice = tellJobDoubled(cut, shells, g);
  const holes: FoundHole[] = [];
  const marks: FoundHole[] = [];
  let inPlace = 0;
  planned.forEach((hole, p) => {
    const twin = twins[p]!;
    const f = pairing.found[twin]!;
    if (f < 0) {
      if (slip.kind !== 'scaled') missing(hole, bench, g);
      return;
    }
    const s = cut[f]!;
    const gap = pairing.gaps[twin]!;
    const entry = foundHole(hole.id, s, slip.kind === 'none' ? gap : null);
    if (twin !== p) {
      if (slip.kind === 'none' && gap <= SAME_PLACE) inPlace++;
      holes.push(entry);
      return;
    }
    if (gap > SAME_PLACE && slip.kind !== 'scaled')
      g.raise('stop', 'hole-misplaced', {
        at: hole.id,
        measured: gap,
        limit: SAME_PLACE,
        unit: 'mm',
        line: s.main.line,
        facts: where(s),
      });
    else if (slip.kind === 'none') inPlace++;
    judgeHole(hole, s, bench, g);
    tellLeftOut(hole.id, s, shells, g);
    if (!twice) tellDoubled(hole.id, s, twins.filter((q) => q === p).length, shells, g);
    (s.clear > 0 || isDeep(s, bench) ? holes : marks).push(entry);
  });
  let extra = 0;
  for (const f of pairing.extra) {
    const s = cut[f]!;
    const counts = s.clear > 0 || isDeep(s, bench);
    const id = `extra-${++extra}`;
    (counts ? holes : marks).push(foundHole(id, s, null));
    if (!twice) tellDoubled(id, s, 1, shells, g);
    if (slip.kind === 'scaled') continue;
    const own = counts && slip.kind === 'none' ? besidePilot(s) : undefined;
    if (own !== undefined)
      g.raise('stop', 'hole-misplaced', {
        at: own.id,
        line: s.main.line,
        measured: skinGap(s.station, own, bench.radius),
        limit: SAME_PLACE,
        unit: 'mm',
        facts: where(s),
      });
    else if (counts)
      g.raise('stop', 'hole-extra', { at: id, line: s.main.line, measured: s.entrance, unit: 'mm', facts: where(s) });
    else tellStray(id, s, planned, bench, g);
  }
  /** The planned hole of this size nearest by, of which nothing but its pilot is in place. */
  function besidePilot(s: Seen): Hole | undefined {
    const gap = (hole: Hole): Mm => skinGap(s.station, hole, bench.radius);
    return planned
      .filter((hole, p) => {
        const there = cut[pairing.found[twins[p]!]!];
        const piloted = there !== undefined && there.entrance < hole.drill - SAME_SIZE;
        return piloted && Math.abs(s.entrance - hole.drill) <= SAME_SIZE && gap(hole) <= MISPLACED;
      })
      .sort((one, other) => gap(one) - gap(other))[0];
  }
  const made = planned.flatMap((hole, p) => {
    const s = cut[pairing.found[twins[p]!]!];
    return s && twins[p] === p ? [{ hole, s }] : [];
  });
  if (bench.context.partial !== true) tellUnmarked(made, g);
  tellLateMarks(made, bench, g);
  tellShort(made, planned, bench, g);
  tellDepths(holes, cut, bench, g);
  return { kind: 'drilling', holes, marks, inPlace };
}

function missing(hole: Hole, bench: Bench, g: Gatherer): void {
  const level = bench.context.partial === true ? 'note' : 'stop';
  g.raise(level, 'hole-missing', {
    at: hole.id,
    measured: 0,
    limit: hole.drill,
    unit: 'mm',
    facts: { angle: hole.angle, height: hole.height },
  });
}
