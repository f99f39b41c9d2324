import type { Shell } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import { type Mm, shorterTurn, wrapDeg } from '../units/scalar.ts';
import { predictChord, type Spot } from './predict.ts';
import type { ReadingErrors } from './reading-errors.ts';
import type { Reading } from './readings.ts';

/** A ring of chords that should go once round the shell. */
export interface Closure {
  readonly readings: readonly Reading[];
  /** The arcs of the chords, added up. */
  readonly sum_mm: Mm;
  /** The girth they should add up to. */
  readonly girth_mm: Mm;
  /** What chance and the tape allow between the two. */
  readonly allowed_mm: Mm;
}

/** Beyond three standard deviations the difference is not chance. */
const SIGMAS = 3;

/**
 * Every ring of chord readings round the shell, and whether it closes: chord L at a rise of h spans an arc of
 * 2 R asin(sqrt(L^2 - h^2) / 2 R), and the arcs of a full turn make the girth. A chord longer than the shell is wide
 * counts as half a turn, and shows.
 */
export function closures(
  readings: readonly Reading[],
  sigma: (r: Reading) => Mm,
  layout: Layout,
  spots: ReadonlyMap<string, Spot>,
  shell: Pick<Shell, 'girth'>,
  errors: ReadingErrors,
): readonly Closure[] {
  const holes = new Map(layout.holes.map((h) => [h.id, h]));
  const chords = readings.filter((r) => r.kind === 'chord');
  return rings(chords, holes).map((ring) => {
    let sum = 0;
    let variance = errors.girth ** 2;
    for (const { reading, forward } of ring) {
      const { arc, slope } = arcOf(reading, holes, spots, layout);
      sum += forward ? arc : -arc;
      variance += (sigma(reading) * slope) ** 2;
    }
    return {
      readings: ring.map((s) => s.reading),
      sum_mm: sum,
      girth_mm: shell.girth,
      allowed_mm: SIGMAS * Math.sqrt(variance),
    };
  });
}

/** Arc that a chord reading spans round the shell, and how steeply it follows the reading. */
function arcOf(
  r: Reading,
  holes: ReadonlyMap<string, Hole>,
  spots: ReadonlyMap<string, Spot>,
  layout: Layout,
): { arc: Mm; slope: number } {
  const [a, b] = [holes.get(r.from)!, holes.get(r.to)!];
  const [sa, sb] = [spots.get(r.from)!, spots.get(r.to)!];
  const body = { radius: layout.radius, depth: layout.depth };
  // Rims off, so that the chord runs from middle to middle.
  const rims =
    predictChord(r, a, b, sa, sb, body).value - predictChord({ ...r, over: 'centres' }, a, b, sa, sb, body).value;
  const rise = sb.height - sa.height;
  const flat = Math.sqrt(Math.max(0, (r.value - rims) ** 2 - rise * rise));
  const half = Math.min(1, flat / (2 * layout.radius));
  const arc = 2 * layout.radius * Math.asin(half);
  return { arc, slope: 1 / Math.max(0.1, Math.sqrt(1 - half * half)) };
}

interface Step {
  readonly reading: Reading;
  readonly to: string;
  /** With growing angle. */
  readonly forward: boolean;
}

/** Chords that span less of the shell than this (deg) say nothing of the way round; nor do those straight across. */
const LEAST_SPAN = 3;
const MOST_SPAN = 150;

/**
 * Rings of chords that go round once: from each chord that crosses the strainer line, the shortest way on round the shell
 * back to its start without crossing the line again. Every hole belongs to at most one ring.
 */
function rings(chords: readonly Reading[], holes: ReadonlyMap<string, Hole>): readonly (readonly Step[])[] {
  const next = new Map<string, Step[]>();
  const crossing: { from: string; step: Step }[] = [];
  for (const reading of chords) {
    const a = holes.get(reading.from)!;
    const b = holes.get(reading.to)!;
    const turn = shorterTurn(a.angle, b.angle);
    if (Math.abs(turn) < LEAST_SPAN || Math.abs(turn) > MOST_SPAN) continue;
    const [from, to] = turn > 0 ? [a, b] : [b, a];
    const step: Step = { reading, to: to.id, forward: true };
    if (wrapDeg(to.angle) < wrapDeg(from.angle)) crossing.push({ from: from.id, step });
    else next.set(from.id, [...(next.get(from.id) ?? []), step]);
  }
  const used = new Set<string>();
  const out: Step[][] = [];
  for (const { from, step } of crossing) {
    const way = shortestWay(step.to, from, next, used);
    if (way === undefined) continue;
    const ring = [step, ...way];
    for (const s of ring) used.add(s.to);
    out.push(ring);
  }
  return out;
}

/** Fewest steps from hole to hole, all with growing angle, past unused holes. */
function shortestWay(
  start: string,
  goal: string,
  next: ReadonlyMap<string, readonly Step[]>,
  used: ReadonlySet<string>,
): readonly Step[] | undefined {
  if (used.has(start) || used.has(goal)) return undefined;
  const came = new Map<string, { from: string; step: Step } | undefined>([[start, undefined]]);
  const queue = [start];
  for (let i = 0; i < queue.length; i++) {
    const at = queue[i]!;
    if (at === goal) break;
    for (const step of next.get(at) ?? []) {
      if (came.has(step.to) || used.has(step.to)) continue;
      came.set(step.to, { from: at, step });
      queue.push(step.to);
    }
  }
  if (!came.has(goal)) return undefined;
  const way: Step[] = [];
  for (let at = goal; ; ) {
    const back = came.get(at);
    if (back === undefined) return way.reverse();
    way.push(back.step);
    at = back.from;
  }
}
