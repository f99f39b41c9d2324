import type { Shell } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { type Adjusted, adjust, type Direction, type ReadingErrors, readingSigmas } from './adjust.ts';
import { predictChord, predictEdge } from './predict.ts';
import type { Reading } from './readings.ts';

/**
 * Scores beyond this are not chance: 0.1 % two-sided on one reading, the usual level of data snooping (Baarda, A testing
 * procedure for use in geodetic networks, 1968).
 */
const CRITICAL = 3.29;

/** Scores that move together by more than this tell of the same error and cannot say whose it is. */
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
 * the rest, now undisturbed, agree with. Readings that cannot be told apart go together.
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
    const group = [worst, ...twins].map((i) => now.fitted[i]!.reading);
    for (const r of group)
      out.set(
        r,
        group.filter((o) => o !== r),
      );
    kept = kept.filter((r) => !out.has(r));
    now = refit(kept);
  }
  const expected = (r: Reading): { value: Mm; sigma: Mm } => {
    const at = (id: string) => now.spots.get(id)!;
    const p =
      r.kind === 'edge'
        ? predictEdge(r, holes.get(r.from)!, at(r.from), now.body)
        : predictChord(r, holes.get(r.from)!, holes.get(r.to)!, at(r.from), at(r.to), now.body);
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

function worstOf(a: Adjusted): number {
  let worst = -1;
  let score = CRITICAL;
  for (const [i, f] of a.fitted.entries()) {
    if (Math.abs(f.score) > score) [worst, score] = [i, Math.abs(f.score)];
  }
  return worst;
}
