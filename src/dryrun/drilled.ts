import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { leadAt } from './bit.ts';
import type { Bench } from './context.ts';
import type { Done } from './done.ts';
import type { Gatherer } from './gather.ts';
import { MISPLACED, pair, type Spot, spotAt } from './match.ts';
import type { FoundHole, Judged } from './report.ts';
import type { Seen } from './seen.ts';
import { drivenMark, isDeep, markAfter, markBefore } from './seen.ts';
import { shellsDrilled, tellDoubled, tellJobDoubled, tellLeftOut } from './shells.ts';
import { slippedPlan, tellSlip } from './slip.ts';
import { loadsOf, SAME_PLACE, skinGap } from './stations.ts';
import { twinsOf } from './twins.ts';

/** Sizes nearer than this are the same size: what a drill may differ from its name. */
export const SAME_SIZE: Mm = 0.1;
/** A bit narrower than the full one by more than this makes another hole. */
const SMALLER: Mm = 0.3;
/** Tip further below the full depth than this, and the runout: deeper than any allowance (common practice, no source). */
const PAST: Mm = 1;
/** Holes that all end short by nearly as much have one cause. */
const ALIKE: Mm = 1;
/** A centre mark wider than its hole by more than this leaves a crater round it (common practice, no source). */
const CRATER: Mm = 0.3;

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
    else strayMark(id, s, planned, bench, g);
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

/** A centre mark beside its hole leads the bit astray; one far from any hole is the builder's own business. */
function strayMark(id: string, s: Seen, planned: readonly Hole[], bench: Bench, g: Gatherer): void {
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

/** A planned hole and what was made of it. */
interface Made {
  readonly hole: Hole;
  readonly s: Seen;
}

const hasSpur = (s: Seen): boolean => s.main.tool?.kind === 'brad-point' || s.main.tool?.kind === 'spur';

/** Where most holes drilled by like bits get a centre mark, one without it was forgotten. A spur follows a pilot too. */
function tellUnmarked(made: readonly Made[], g: Gatherer): void {
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

function tellLateMarks(made: readonly Made[], bench: Bench, g: Gatherer): void {
  for (const { hole, s } of made) {
    const late = markAfter(s, bench);
    if (late !== undefined)
      g.raise('care', 'mark-after-hole', { at: hole.id, line: late.line, facts: { hole: s.main.line } });
  }
}

/** When every hole ends short by about as much, the zero of Z or the wall is not what was thought. */
function tellShort(made: readonly Made[], planned: readonly Hole[], bench: Bench, g: Gatherer): void {
  const shorts = made.map(({ s }) => s.short);
  const [least, most] = [Math.min(...shorts), Math.max(...shorts)];
  const byHand = bench.context.backing === 0 && made.every(({ s }) => s.depth > bench.context.shell.wall);
  if (made.length < 2 || made.length * 2 < planned.length || byHand) return;
  if (least > tolerance.same && most - least <= ALIKE)
    g.raise('stop', 'job-not-deep', { at: 'program', measured: most, limit: 0, unit: 'mm', facts: { least } });
}

const where = (s: Seen): Record<string, number> => ({
  angle: s.station.angle,
  height: s.station.height,
  x: s.station.x,
  a: s.station.a,
});

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

/** Size, depth and order of the work at one planned hole. */
function judgeHole(hole: Hole, s: Seen, bench: Bench, g: Gatherer): void {
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

/** Said once for the worst hole: depth that forgets the runout, or goes far past what is needed. */
function tellDepths(holes: readonly FoundHole[], cut: readonly Seen[], bench: Bench, g: Gatherer): void {
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

function foundHole(id: string, s: Seen, gap: Mm | null): FoundHole {
  const cuts = s.station.cuts.filter((c) => c.wood);
  return {
    id,
    angle_deg: s.station.angle,
    height_mm: s.station.height,
    diameter_mm: s.clear > 0 ? s.size : s.entrance,
    clear_mm: s.clear,
    entrance_mm: s.entrance,
    through: s.short <= tolerance.same,
    depth_mm: s.depth,
    how: s.main.kind === 'bore' ? 'bored' : s.clear > 0 ? 'drilled' : 'marked',
    tools: [...new Set(cuts.map((c) => c.tool?.id ?? -1))],
    off_mm: gap,
    seconds: s.station.seconds,
    chip_load: loadsOf(s.station),
    first_line: Math.min(...cuts.map((c) => c.line)),
    last_line: Math.max(...cuts.map((c) => c.lastLine)),
  };
}
