import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import { findSlip, isOwnMirror, pair, type Slip, type Spot, slipped } from './match.ts';
import type { DryRunReport, FoundHole } from './report.ts';
import { type Seen, seen } from './seen.ts';
import { SAME_PLACE, type Station } from './stations.ts';

/** Sizes nearer than this are the same size: what a drill may differ from its name. */
const SAME_SIZE: Mm = 0.1;
/** A planned hole with nothing nearer than this is missing, not misplaced. */
const MISPLACED: Mm = 12;
/** A bit narrower than the full one by more than this makes another hole. */
const SMALLER: Mm = 0.3;
/** Tip further below the full depth than this, and the runout: deeper than any allowance (common practice, no source). */
const PAST: Mm = 3;

export interface Judged {
  readonly kind: DryRunReport['kind'];
  readonly holes: FoundHole[];
  readonly marks: FoundHole[];
  readonly inPlace: number;
}

export interface Done {
  readonly stations: readonly Station[];
  readonly touched: boolean;
  /** The spindle was on at some time. */
  readonly turned: boolean;
}

/** The places the program worked at against the plan: what is missing, extra, moved, of another size, not through. */
export function judge(done: Done, bench: Bench, g: Gatherer): Judged {
  const planned = bench.context.layout.holes;
  const plan = planned.map((h): Spot => ({ angle: h.angle, height: h.height, size: h.drill }));
  if (plan.length > 0 && isOwnMirror(plan, bench.radius)) g.raise('note', 'mirror-cannot-tell', { at: 'program' });
  const all = done.stations.map((s) => seen(s, bench));
  const cut = all.filter((s): s is Seen => s !== undefined);
  const full = cut.filter((s) => s.clear > 0 || isDeep(s, bench));
  if (full.length > 0) return drilling(cut, planned, plan, bench, g);
  if (done.touched)
    return marking(
      done.stations.filter((s) => s.cuts.some((c) => c.wood)),
      planned,
      plan,
      bench,
      g,
    );
  return air(done, planned, plan, bench, g);
}

/** Not a mark: the bit went at least half-way through the wall. */
const isDeep = (s: Seen, bench: Bench): boolean =>
  s.depth > bench.context.shell.wall / 2 && s.main.tool?.kind !== 'v-bit';

/** Slip of the whole job when it explains more than the plan as it is; said once for all holes. */
function tellSlip(plan: readonly Spot[], spots: readonly Spot[], bench: Bench, g: Gatherer): Slip {
  const straight = pair(plan, spots, bench.radius, SAME_PLACE);
  const missing = straight.found.filter((f) => f < 0).length;
  if (missing === 0 || straight.extra.length === 0) return { kind: 'none' };
  const shell = { radius: bench.radius, depth: bench.depth, datum: bench.context.datum };
  const slip = findSlip(plan, spots, shell);
  if (slip === undefined) return { kind: 'none' };
  const at = { at: 'program' };
  switch (slip.kind) {
    case 'mirrored':
      g.raise('stop', 'job-mirrored', { ...at, facts: { turn: slip.turn } });
      break;
    case 'turned':
      g.raise('stop', 'job-turned', { ...at, measured: slip.turn, limit: 0, unit: 'deg' });
      break;
    case 'shifted':
      g.raise('stop', 'job-shifted', { ...at, measured: slip.along, limit: 0, unit: 'mm', facts: { turn: slip.turn } });
      break;
    case 'other-edge':
      g.raise('stop', 'job-from-other-edge', {
        ...at,
        facts: { datum: bench.context.datum, over: slip.turnedOver ? 'yes' : 'no' },
      });
      break;
    case 'scaled':
      g.raise('stop', 'units-mistaken', {
        ...at,
        measured: slip.factor,
        limit: 1,
        facts: { small: slip.factor < 1 ? 'yes' : 'no' },
      });
      break;
    default:
      break;
  }
  return slip;
}

function drilling(
  cut: readonly Seen[],
  planned: readonly Hole[],
  plan: readonly Spot[],
  bench: Bench,
  g: Gatherer,
): Judged {
  const spots = cut.map(
    (s): Spot => ({ angle: s.station.angle, height: s.station.height, size: s.clear > 0 ? s.clear : s.entrance }),
  );
  const slip = tellSlip(plan, spots, bench, g);
  const moved = slip.kind === 'none' || slip.kind === 'scaled' ? plan : plan.map((p) => slipped(slip, p, bench.depth));
  const pairing = pair(moved, spots, bench.radius, MISPLACED);
  const holes: FoundHole[] = [];
  const marks: FoundHole[] = [];
  let inPlace = 0;
  planned.forEach((hole, p) => {
    const f = pairing.found[p]!;
    if (f < 0) {
      if (slip.kind !== 'scaled') missing(hole, bench, g);
      return;
    }
    const s = cut[f]!;
    const gap = pairing.gaps[p]!;
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
    (s.clear > 0 || isDeep(s, bench) ? holes : marks).push(foundHole(hole.id, s, slip.kind === 'none' ? gap : null));
  });
  let extra = 0;
  for (const f of pairing.extra) {
    const s = cut[f]!;
    const counts = s.clear > 0 || isDeep(s, bench);
    const id = `extra-${++extra}`;
    (counts ? holes : marks).push(foundHole(id, s, null));
    if (slip.kind === 'scaled') continue;
    g.raise(counts ? 'stop' : 'care', counts ? 'hole-extra' : 'mark-extra', {
      at: id,
      line: s.main.line,
      measured: s.entrance,
      unit: 'mm',
      facts: where(s),
    });
  }
  tellDepths(holes, cut, bench, g);
  return { kind: 'drilling', holes, marks, inPlace };
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
    g.raise('stop', only, { at: hole.id, line, measured: s.entrance, limit: hole.drill, unit: 'mm', facts: { tool } });
  } else if (s.clear < hole.drill - SAME_SIZE) {
    const byHand = bench.context.backing === 0 && s.depth > bench.context.shell.wall;
    g.raise(byHand ? 'care' : 'stop', byHand ? 'finish-from-inside' : 'hole-not-through', {
      at: hole.id,
      line,
      measured: s.main.depth,
      limit: s.main.depth + s.short,
      unit: 'mm',
      facts: { short: s.short, tool },
    });
  } else if (s.clear > hole.drill + SAME_SIZE)
    g.raise('stop', 'hole-wrong-size', {
      at: hole.id,
      line,
      measured: s.clear,
      limit: hole.drill,
      unit: 'mm',
      facts: { tool },
    });
  judgeOrder(hole, s, g);
}

function judgeOrder(hole: Hole, s: Seen, g: Gatherer): void {
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
  const shallow = through.filter((s) => -s.short < runout - tolerance.same).sort((a, b) => b.short - a.short);
  const deep = through.filter((s) => -s.short > runout + PAST).sort((a, b) => a.short - b.short);
  const idOf = (s: Seen): string =>
    holes.find(
      (h) =>
        h.first_line <= s.main.line &&
        h.last_line >= s.main.line &&
        Math.abs(h.height_mm - s.station.height) < SAME_PLACE,
    )?.id ?? 'program';
  if (shallow[0]) tell('depth-ignores-runout', shallow[0], runout, shallow.length);
  if (deep[0]) tell('depth-past-allowance', deep[0], runout + PAST, deep.length);
  function tell(id: string, s: Seen, limit: Mm, count: number): void {
    g.raise('care', id, { at: idOf(s), line: s.main.line, measured: -s.short, limit, unit: 'mm', facts: { count } });
  }
}

function foundHole(id: string, s: Seen, gap: Mm | null): FoundHole {
  const cuts = s.station.cuts.filter((c) => c.wood);
  return {
    id,
    angle_deg: s.station.angle,
    height_mm: s.station.height,
    diameter_mm: s.clear > 0 ? s.clear : s.entrance,
    entrance_mm: s.entrance,
    through: s.short <= tolerance.same,
    depth_mm: s.depth,
    how: s.main.kind === 'bore' ? 'bored' : s.clear > 0 ? 'drilled' : 'marked',
    tools: [...new Set(cuts.map((c) => c.tool?.id ?? -1))],
    off_mm: gap,
    seconds: s.station.seconds,
    first_line: Math.min(...cuts.map((c) => c.line)),
    last_line: Math.max(...cuts.map((c) => c.lastLine)),
  };
}

/** Nothing deep: centre marks, scored crosses. Each planned hole wants one. */
function marking(
  stations: readonly Station[],
  planned: readonly Hole[],
  plan: readonly Spot[],
  bench: Bench,
  g: Gatherer,
): Judged {
  const spots = stations.map((s): Spot => ({ angle: s.angle, height: s.height, size: 0 }));
  const slip = tellSlip(plan, spots, bench, g);
  const moved = slip.kind === 'none' || slip.kind === 'scaled' ? plan : plan.map((p) => slipped(slip, p, bench.depth));
  const pairing = pair(moved, spots, bench.radius, MISPLACED);
  const marks: FoundHole[] = [];
  let inPlace = 0;
  planned.forEach((hole, p) => {
    const f = pairing.found[p]!;
    if (f < 0 || pairing.gaps[p]! > SAME_PLACE) {
      if (slip.kind === 'none')
        g.raise(bench.context.partial ? 'note' : 'stop', f < 0 ? 'mark-missing' : 'mark-misplaced', {
          at: hole.id,
          measured: f < 0 ? null : pairing.gaps[p]!,
          limit: SAME_PLACE,
          unit: 'mm',
        });
    } else if (slip.kind === 'none') inPlace++;
    if (f >= 0) marks.push(markOf(hole.id, stations[f]!, slip.kind === 'none' ? pairing.gaps[p]! : null));
  });
  pairing.extra.forEach((f, i) => {
    marks.push(markOf(`extra-${i + 1}`, stations[f]!, null));
    if (slip.kind === 'none')
      g.raise('care', 'mark-extra', {
        at: `extra-${i + 1}`,
        line: stations[f]!.cuts[0]!.line,
        facts: { angle: stations[f]!.angle, height: stations[f]!.height },
      });
  });
  g.raise('note', 'marks-only', { at: 'program', measured: marks.length, limit: planned.length });
  return { kind: 'marking', holes: [], marks, inPlace };
}

function markOf(id: string, s: Station, gap: Mm | null): FoundHole {
  const depth = Math.max(...s.cuts.map((c) => c.depth));
  return {
    id,
    angle_deg: s.angle,
    height_mm: s.height,
    diameter_mm: 0,
    entrance_mm: 0,
    through: false,
    depth_mm: depth,
    how: 'marked',
    tools: [...new Set(s.cuts.map((c) => c.tool?.id ?? -1))],
    off_mm: gap,
    seconds: s.seconds,
    first_line: Math.min(...s.cuts.map((c) => c.line)),
    last_line: Math.max(...s.cuts.map((c) => c.lastLine)),
  };
}

/** The wood is never touched: a rehearsal, or a program that drills air. */
function air(done: Done, planned: readonly Hole[], plan: readonly Spot[], bench: Bench, g: Gatherer): Judged {
  const visited = done.stations.filter((s) => s.cuts.length > 0);
  const spots = visited.map((s): Spot => ({ angle: s.angle, height: s.height, size: 0 }));
  const slip = tellSlip(plan, spots, bench, g);
  const pairing = pair(plan, spots, bench.radius, SAME_PLACE);
  const inPlace = pairing.found.filter((f) => f >= 0).length;
  if (visited.length > 0 && (bench.context.rehearse === true || !done.turned)) {
    g.raise('note', 'rehearsal-only', { at: 'program', measured: inPlace, limit: planned.length });
    if (slip.kind === 'none')
      planned.forEach((hole, p) => {
        if (pairing.found[p]! < 0 && bench.context.partial !== true)
          g.raise('stop', 'rehearsal-misses', { at: hole.id, facts: { angle: hole.angle, height: hole.height } });
      });
    return { kind: 'rehearsal', holes: [], marks: [], inPlace };
  }
  if (planned.length > 0)
    g.raise('stop', 'nothing-drilled', { at: 'program', measured: visited.length, limit: planned.length });
  return { kind: 'nothing', holes: [], marks: [], inPlace: 0 };
}
