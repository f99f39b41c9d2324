import type { ShellPoint } from '../model/frames.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';
import { SAME_PLACE, SAME_SIZE, type Station, skinGap } from './stations.ts';

/** A planned hole with nothing nearer than this is missing, not misplaced (judgement, no source). */
export const MISPLACED: Mm = 12;

/** A hole by place and size; a match looks at nothing else. */
export interface Spot extends ShellPoint {
  readonly size: Mm;
  /** A found one: where the machine stood. */
  readonly machine?: { readonly x: Mm; readonly y: Mm; readonly a: Deg };
}

export const spotAt = (s: Station, size: Mm): Spot => ({
  angle: s.angle,
  height: s.height,
  size,
  machine: { x: s.x, y: s.y, a: s.a },
});

export interface Pairing {
  /** For each planned spot the index of the found one, or -1. */
  readonly found: readonly number[];
  readonly gaps: readonly Mm[];
  /** Indices of found spots that belong to no planned one. */
  readonly extra: readonly number[];
}

/** Nearest pairs first, each spot once, none further apart than `reach`. */
export function pair(planned: readonly Spot[], found: readonly Spot[], radius: Mm, reach: Mm): Pairing {
  const near = finder(found, radius, reach);
  const candidates: { p: number; f: number; gap: Mm }[] = [];
  planned.forEach((spot, p) => {
    for (const { index, gap } of near(spot)) candidates.push({ p, f: index, gap });
  });
  candidates.sort((a, b) => a.gap - b.gap || a.p - b.p || a.f - b.f);
  const found2 = planned.map(() => -1);
  const gaps = planned.map(() => Infinity);
  const taken = new Set<number>();
  for (const { p, f, gap } of candidates) {
    if (found2[p] !== -1 || taken.has(f)) continue;
    found2[p] = f;
    gaps[p] = gap;
    taken.add(f);
  }
  return { found: found2, gaps, extra: found.map((_, i) => i).filter((i) => !taken.has(i)) };
}

/** Spots within `reach` of a place, by height first. */
function finder(spots: readonly Spot[], radius: Mm, reach: Mm): (at: ShellPoint) => { index: number; gap: Mm }[] {
  const order = spots.map((_, i) => i).sort((a, b) => spots[a]!.height - spots[b]!.height);
  const heights = order.map((i) => spots[i]!.height);
  return (at) => {
    const hits: { index: number; gap: Mm }[] = [];
    for (let k = lowerBound(heights, at.height - reach); k < order.length && heights[k]! <= at.height + reach; k++) {
      const gap = skinGap(spots[order[k]!]!, at, radius);
      if (gap <= reach) hits.push({ index: order[k]!, gap });
    }
    return hits;
  };
}

function lowerBound(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Do two holes agree in size, as far as both are known? Each may differ from its name. */
export const sizesAgree = (a: Mm, b: Mm): boolean => !(a > 0 && b > 0) || Math.abs(a - b) <= 2 * SAME_SIZE;

/** Is the plan its own mirror image about the strainer line? Then no dry run can see a wrong sign of A. */
export function isOwnMirror(planned: readonly Spot[], radius: Mm): boolean {
  const mirrored = planned.map((p) => ({ ...p, angle: wrapDeg(-p.angle) }));
  const pairing = pair(mirrored, planned, radius, SAME_PLACE);
  return pairing.found.every((f, p) => f >= 0 && sizesAgree(planned[f]!.size, mirrored[p]!.size));
}
