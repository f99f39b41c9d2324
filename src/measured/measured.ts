import { median } from '../geometry/statistics.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import type { Staged } from '../model/stage.ts';
import { type Mm, toRad, wrapDeg } from '../units/scalar.ts';
import type { Adjusted, Direction, Fitted } from './adjust.ts';
import { closures } from './close.ts';
import { offTurn, patternOf, verdict } from './goes.ts';
import { rimHabits, unitProblem } from './habits.ts';
import { sift } from './misread.ts';
import { READING_ERRORS, type ReadingErrors, readingSigmas } from './reading-errors.ts';
import { type Reading, type ReadingProblem, readReadings } from './readings.ts';
import type { MeasuredHole, MeasuredReport } from './report.ts';
import { tellFindings } from './tell.ts';

/** What the readings are believed by. */
export interface MeasuredOptions {
  readonly errors?: Partial<ReadingErrors>;
}

/**
 * Caliper readings of the drilled shell against the plan: where every hole is and how surely, which readings cannot be
 * right, which fittings go on, and the least damaging cure for the rest.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @param csvText text of `readings.csv`: kind,from,to,reading_mm
 * @param options how far readings are trusted, mm
 * @returns a report in mm and degrees; when the text has faults, `problems` lists them and nothing else is reckoned
 * @throws never
 * @source least squares with the covariance of the readings (textbook); limits named with each finding
 */
export function measured(
  jig: Jig,
  layout: Layout,
  csvText: string,
  options: MeasuredOptions = {},
): Staged<MeasuredReport> {
  const { readings, blank, problems } = readReadings(csvText, layout);
  if (problems.length > 0) return { value: refused(layout, readings.length, blank, problems), facts: [] };
  const errors = { ...READING_ERRORS, ...options.errors };
  const holeOf = new Map(layout.holes.map((h) => [h.id, h]));
  const unit = unitProblem(readings, layout, holeOf);
  if (unit !== undefined) return { value: refused(layout, readings.length, blank, [unit]), facts: [] };
  const impossible = readings.flatMap((reading) => {
    const most = longest(reading, layout, holeOf);
    return reading.value > most ? [{ reading, most_mm: most }] : [];
  });
  const beyond = new Set(impossible.map((i) => i.reading));
  const possible = readings.filter((r) => !beyond.has(r));
  const sifted = sift(possible, layout, jig.shell, errors);
  const { adjusted: a, kept, misreadings } = sifted;
  const places = placesOf(layout, kept, a);
  const touching = new Map(layout.holes.map((h) => [h.id, [] as Fitted[]]));
  for (const f of a.fitted) {
    touching.get(f.reading.from)?.push(f);
    touching.get(f.reading.to)?.push(f);
  }
  const holes = layout.holes.map((h) => holeReport(h, layout, touching.get(h.id)!, a, places.get(h.id)!));
  const isChecked = new Map(holes.map((h) => [h.id, h.crossChecked]));
  const isPlaced = new Map(holes.map((h) => [h.id, h.sigma_mm !== null]));
  const fittings = layout.placed
    .filter((p) => p.holes.length > 1 || (p.holes.length === 1 && patternOf(jig, p)?.screw !== undefined))
    .map((p) => {
      const turned = places.get(p.holes[0]!.id)!.turned;
      const v = verdict(jig, layout, p, a, (id) => isChecked.get(id) === true, turned);
      if (p.holes.every((h) => isPlaced.get(h.id))) return v;
      // Readings that tell the pattern's shape need not tell its place; and a lone hole lets its screw through wherever it
      // is, but an unread one is not a checked one.
      const loose = { ...v, stands: null, uprightMiss_mm: null };
      return p.holes.length === 1 && v.goesOn !== null ? { ...loose, goesOn: null, needs: 'readings' } : loose;
    });
  const spreads = readingSigmas(possible, holeOf, jig.shell, errors);
  const sigmas = new Map(possible.map((r, i) => [r, spreads[i]!]));
  const value: MeasuredReport = {
    problems,
    counts: { read: readings.length, blank, used: kept.length },
    scatter: a.scatter,
    shell: { diameter_mm: 2 * a.body.radius, depth_mm: a.body.depth },
    holes,
    fittings,
    readings: a.fitted.map((f) => ({ ...f.reading, fitted_mm: f.value, residual_mm: f.residual, score: f.score })),
    misreadings,
    impossible,
    rimHabits: rimHabits(possible, layout, holeOf),
    closures: closures(possible, (r) => sigmas.get(r)!, layout, a.spots, jig.shell, errors),
  };
  const facts: readonly Fact[] = tellFindings(layout, value, kept);
  return { value, facts };
}

const refused = (layout: Layout, read: number, blank: number, problems: readonly ReadingProblem[]): MeasuredReport => ({
  problems,
  counts: { read, blank, used: 0 },
  scatter: 1,
  shell: { diameter_mm: 2 * layout.radius, depth_mm: layout.depth },
  holes: [],
  fittings: [],
  readings: [],
  misreadings: [],
  impossible: [],
  rimHabits: [],
  closures: [],
});

/** Slack (mm) on what a shell allows, for one a little larger than its jig file says (judgement, no source). */
const SLACK = 10;

/** The longest a reading of its kind can be on this shell. */
function longest(r: Reading, layout: Layout, holes: ReadonlyMap<string, Hole>): Mm {
  const rims = ((holes.get(r.from)?.drill ?? 0) + (holes.get(r.to)?.drill ?? 0)) / 2;
  return (r.kind === 'edge' ? layout.depth : Math.hypot(2 * layout.radius, layout.depth)) + rims + SLACK;
}

interface Place {
  /** Variance of a hole's way round the shell against the middle of the holes that chords tie it to. */
  readonly around: (hole: string) => number;
  /** Turn of the ring as a whole, mm of arc: taken off, for only the plan knows where the ring starts. */
  readonly turned: Mm;
  /** Whether the ring ties more than one fitting together. */
  readonly ties: boolean;
}

/** Rings of holes that chords tie together, each turned back by its middle hole's way off. */
function placesOf(layout: Layout, kept: readonly Reading[], a: Adjusted): ReadonlyMap<string, Place> {
  const parent = new Map(layout.holes.map((h) => [h.id, h.id]));
  const top = (id: string): string => {
    let at = id;
    while (parent.get(at) !== at) at = parent.get(at)!;
    return at;
  };
  for (const r of kept) if (r.kind === 'chord') parent.set(top(r.from), top(r.to));
  const rings = new Map<string, Hole[]>();
  for (const h of layout.holes) rings.set(top(h.id), [...(rings.get(top(h.id)) ?? []), h]);
  const out = new Map<string, Place>();
  for (const ring of rings.values()) {
    const turned = median(ring.map((h) => aroundOff(h, layout, a)));
    const middle: Direction = ring.map((h) => ({ id: h.id, arc: 1 / ring.length, height: 0 }));
    const withMiddle = a.against(middle);
    const ofMiddle = withMiddle(middle);
    const around = (id: string): number => {
      const own: Direction = [{ id, arc: 1, height: 0 }];
      return Math.max(0, a.variance(own) - 2 * withMiddle(own) + ofMiddle);
    };
    const place = { around, turned, ties: new Set(ring.map((h) => h.fitting)).size > 1 };
    for (const h of ring) out.set(h.id, place);
  }
  return out;
}

const aroundOff = (h: Hole, layout: Layout, a: Adjusted): Mm =>
  layout.radius * toRad(offTurn(h.angle, a.spots.get(h.id)!.angle));

/** A place less sure than this (mm) is none (judgement, no source). */
const LOOSE: Mm = 1;

function holeReport(h: Hole, layout: Layout, touching: readonly Fitted[], a: Adjusted, place: Place): MeasuredHole {
  const spot = a.spots.get(h.id)!;
  const alongSigma = Math.sqrt(a.variance([{ id: h.id, arc: 0, height: 1 }]));
  const aroundSigma = place.ties ? Math.sqrt(place.around(h.id)) : Number.POSITIVE_INFINITY;
  const hasHeight = alongSigma < LOOSE;
  const hasAngle = aroundSigma < LOOSE;
  const turn = offTurn(h.angle, spot.angle);
  const perDegree = toRad(layout.radius);
  const around = hasAngle ? turn * perDegree - place.turned : null;
  const up = hasHeight ? spot.height - h.height : null;
  return {
    id: h.id,
    fitting: h.fitting,
    angle_deg: around === null ? null : wrapDeg(h.angle + around / perDegree),
    height_mm: hasHeight ? spot.height : null,
    off_around_mm: around,
    off_along_mm: up,
    off_mm: around === null || up === null ? null : Math.hypot(around, up),
    sigma_mm: hasAngle && hasHeight ? Math.hypot(aroundSigma, alongSigma) : null,
    readings: touching.length,
    crossChecked: touching.length > 0 && touching.every((f) => f.seen > CHECKED),
  };
}

/** A reading whose error shows by less than this part in the others is not checked by them (judgement, no source). */
const CHECKED = 0.1;
