import type { Shell } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { type Adjusted, adjust, type Direction } from './adjust.ts';
import { plannedSpots, predict } from './predict.ts';
import { type ReadingErrors, readingSigmas } from './reading-errors.ts';
import type { Reading } from './readings.ts';

/**
 * Scores beyond this are not chance: 0.1 % two-sided on one reading, the usual level of data snooping (Baarda, A testing
 * procedure for use in geodetic networks, 1968).
 */
const CRITICAL = 3.29;

/**
 * Scores that move together by more than this tell of the same error and cannot say whose it is (judgement, no
 * source).
 */
const TWINS = 0.95;

export interface Misreading {
  readonly reading: Reading;
  /** What the other readings say, and how surely. */
  readonly value: Mm;
  readonly sigma: Mm;
  /** Other readings that could as well be the wrong one; none when it is certain. */
  readonly or: readonly Reading[];
}

export interface Sifted {
  readonly adjusted: Adjusted;
  readonly kept: readonly Reading[];
  readonly misreadings: readonly Misreading[];
}

/**
 * Fits the readings, leaves out the one that fits worst, fits again, until none stands out; then takes back those that
 * the rest, now undisturbed, agree with. Readings that cannot be told apart go together, unless the plan tells them apart.
 */
export function sift(
  readings: readonly Reading[],
  layout: Layout,
  shell: Pick<Shell, 'radius' | 'round' | 'square'>,
  errors: ReadingErrors,
): Sifted {
  const holes = new Map(layout.holes.map((h) => [h.id, h]));
  const sigmas = readingSigmas(readings, holes, shell, errors);
  const sigmaOf = new Map(readings.map((r, i) => [r, sigmas[i]!]));
  const refit = (some: readonly Reading[]): Adjusted =>
    adjust(
      some,
      some.map((r) => sigmaOf.get(r)!),
      layout,
      shell,
      errors,
    );
  const plan = plannedSpots(layout.holes);
  const body = { radius: layout.radius, depth: layout.depth };
  const besidePlan = (r: Reading): Mm => Math.abs(r.value - predict(r, holes, plan, body).value);
  const out = new Map<Reading, readonly Reading[]>();
  let kept = [...readings];
  let now = refit(kept);
  const most = Math.max(3, Math.floor(readings.length / 3));
  while (out.size < most) {
    const worst = worstOf(now);
    if (worst < 0) break;
    const alike = now.alike(worst);
    const twins = now.fitted
      .map((_, i) => i)
      .filter((i) => i !== worst && Math.abs(alike[i]!) > TWINS && Math.abs(now.fitted[i]!.score) > CRITICAL / 2);
    const group = singledOut(
      [worst, ...twins].map((i) => now.fitted[i]!.reading),
      besidePlan,
    );
    for (const r of group)
      out.set(
        r,
        group.filter((o) => o !== r),
      );
    kept = kept.filter((r) => !out.has(r));
    now = refit(kept);
  }
  const expected = (r: Reading): { value: Mm; sigma: Mm } => {
    const p = predict(r, holes, now.spots, now.body);
    const along: Direction = [{ id: r.from, ...p.from }, ...(p.to === undefined ? [] : [{ id: r.to, ...p.to }])];
    return { value: p.value, sigma: Math.sqrt(now.variance(along)) };
  };
  const back = [...out.keys()].filter((r) => {
    const { value, sigma } = expected(r);
    // Only where the rest is sure of it; a loose guess agrees with anything.
    return (
      sigma < 3 * sigmaOf.get(r)! && Math.abs(r.value - value) < 2 * Math.hypot(sigma, sigmaOf.get(r)! * now.scatter)
    );
  });
  if (back.length > 0) {
    for (const r of back) out.delete(r);
    kept = readings.filter((r) => !out.has(r));
    now = refit(kept);
  }
  return {
    adjusted: now,
    kept,
    misreadings: [...out]
      .sort(([p], [q]) => p.line - q.line)
      .map(([reading, or]) => ({ reading, ...expected(reading), or: or.filter((o) => out.has(o)) })),
  };
}

/**
 * Readings that agree with each other and with the plan this well (mm) outvote one that lies this many times as far
 * (judgement, no source).
 */
const ON_PLAN: Mm = 2;
const ASTRAY = 4;

/**
 * Of readings that check only each other, the one astray when all the rest stand on the plan: a hole drilled astray would
 * show in two of them at least. All of them when that does not tell.
 */
function singledOut(group: readonly Reading[], besidePlan: (r: Reading) => Mm): readonly Reading[] {
  if (group.length < 2) return group;
  const ranked = [...group].sort((p, q) => besidePlan(q) - besidePlan(p));
  const next = besidePlan(ranked[1]!);
  return next < ON_PLAN && besidePlan(ranked[0]!) > ASTRAY * next ? [ranked[0]!] : group;
}

function worstOf(a: Adjusted): number {
  let worst = -1;
  let score = CRITICAL;
  for (const [i, f] of a.fitted.entries()) {
    if (Math.abs(f.score) > score) [worst, score] = [i, Math.abs(f.score)];
  }
  return worst;
}
