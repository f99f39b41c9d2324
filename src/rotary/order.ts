import { tolerance } from '../units/tolerance.ts';
import { improve } from './improve.ts';
import { type Cost, FULL_UP_TO, Legs, type Station } from './legs.ts';

/** Up to this many stations the order is the true optimum (12^2 * 2^12 steps, a few milliseconds). */
const EXACT_UP_TO = 12;
const IMPROVE_ALL_UP_TO = 30;
/**
 * Indices of the stations in an order of least travel from `start`, not coming back: exact for small sets, else the best
 * of several sweeps improved by turning stretches round and moving short runs.
 */
export function shortestOrder(stations: readonly Station[], start: Station, cost: Cost): number[] {
  if (stations.length <= 1) return stations.map((_, i) => i);
  const legs = new Legs(stations, start, cost);
  if (stations.length <= EXACT_UP_TO) return exactOrder(legs);
  return goodOrder(stations, legs);
}

/** The heuristic alone, for sets too large to be sure of; small sets are given it only to measure it. */
export function goodOrder(stations: readonly Station[], legs: Legs): number[] {
  const tries = [serpentine(stations, 'a'), serpentine(stations, 'x')];
  tries.push([...tries[0]!].reverse(), [...tries[1]!].reverse());
  if (stations.length <= FULL_UP_TO) tries.push(nearestFirst(legs));
  // Improving costs much more than trying: of a large set only the most promising are worth it.
  const ranked = tries.map((order) => ({ order, length: legs.length(order) })).sort((p, q) => p.length - q.length);
  const improved = ranked.slice(0, stations.length <= IMPROVE_ALL_UP_TO ? ranked.length : 2).map(({ order }) => {
    const better = improve(order, legs);
    return { order: better, length: legs.length(better) };
  });
  return improved.reduce((best, next) => (next.length < best.length - tolerance.noise ? next : best)).order;
}

/** Travel of an order from the start, seconds. */
export function pathLength(order: readonly number[], stations: readonly Station[], start: Station, cost: Cost): number {
  return new Legs(stations, start, cost).length(order);
}

/** Dynamic programming over subsets (Held and Karp, 1962). Ties keep the earlier station first. */
function exactOrder(legs: Legs): number[] {
  const n = legs.count;
  const full = 1 << n;
  const best = new Float64Array(full * n).fill(Number.POSITIVE_INFINITY);
  const from = new Int8Array(full * n).fill(-1);
  for (let i = 0; i < n; i++) best[(1 << i) * n + i] = legs.between(-1, i);
  const table = legs.table!;
  const noise = tolerance.noise;
  for (let set = 1; set < full; set++) {
    for (let last = 0; last < n; last++) {
      if ((set & (1 << last)) === 0) continue;
      const here = best[set * n + last]!;
      for (let next = 0; next < n; next++) {
        if (set & (1 << next)) continue;
        const to = (set | (1 << next)) * n + next;
        const there = here + table[last * n + next]!;
        if (there < best[to]! - noise) {
          best[to] = there;
          from[to] = last;
        }
      }
    }
  }
  let last = 0;
  const all = full - 1;
  for (let i = 1; i < n; i++) if (best[all * n + i]! < best[all * n + last]! - tolerance.noise) last = i;
  const order: number[] = [];
  for (let set = all; last >= 0; ) {
    order.push(last);
    const before = from[set * n + last]!;
    set &= ~(1 << last);
    last = before;
  }
  return order.reverse();
}

/** Column by column, turning round at each end. */
function serpentine(stations: readonly Station[], by: 'a' | 'x'): number[] {
  const across = by === 'a' ? 'x' : 'a';
  const sorted = stations
    .map((s, i) => ({ s, i }))
    .sort((p, q) => p.s[by] - q.s[by] || p.s[across] - q.s[across] || p.i - q.i);
  const order: number[] = [];
  let up = true;
  for (let k = 0; k < sorted.length; ) {
    let end = k;
    while (end < sorted.length && sorted[end]!.s[by] - sorted[k]!.s[by] < tolerance.same) end++;
    const column = sorted.slice(k, end).map((e) => e.i);
    order.push(...(up ? column : column.reverse()));
    up = !up;
    k = end;
  }
  return order;
}

/** Always on to the nearest. */
function nearestFirst(legs: Legs): number[] {
  const left = new Set(Array.from({ length: legs.count }, (_, i) => i));
  const order: number[] = [];
  let at = -1;
  while (left.size > 0) {
    let near = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const i of left) {
      const c = legs.between(at, i);
      if (c < least - tolerance.noise) {
        near = i;
        least = c;
      }
    }
    order.push(near);
    left.delete(near);
    at = near;
  }
  return order;
}
