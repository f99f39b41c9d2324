import type { Machine } from '../model/machine.ts';
import { tolerance } from '../units/tolerance.ts';
import { moveSeconds } from './time.ts';

/** A place the bit goes to: X in mm, A in degrees. */
export interface Station {
  readonly x: number;
  readonly a: number;
}

/** Seconds between two stations: A indexes on its own line, X on its own, as the program writes them. */
export type Cost = (p: Station, q: Station) => number;

export const travelCost =
  (machine: Machine): Cost =>
  (p, q) =>
    moveSeconds({ x: q.x - p.x }, machine) + moveSeconds({ a: q.a - p.a }, machine);

/** Up to this many stations the order is the true optimum (12^2 * 2^12 steps, a few milliseconds). */
export const EXACT_UP_TO = 12;

/**
 * Indices of the stations in an order of least travel from `start`, not coming back: exact for small sets, else the best
 * of two serpentine sweeps improved by turning stretches round and moving short runs, within a window that keeps the
 * work in proportion to the number of stations.
 */
export function shortestOrder(stations: readonly Station[], start: Station, cost: Cost): number[] {
  const n = stations.length;
  if (n <= 1) return stations.map((_, i) => i);
  if (n <= EXACT_UP_TO) return exactOrder(stations, start, cost);
  const sweeps = [serpentine(stations, 'a'), serpentine(stations, 'x'), serpentine(stations, 'a').reverse()];
  const length = (o: readonly number[]): number => pathLength(o, stations, start, cost);
  let best = sweeps[0]!;
  for (const s of sweeps) if (length(s) < length(best) - tolerance.noise) best = s;
  return improve(best, stations, start, cost);
}

export function pathLength(order: readonly number[], stations: readonly Station[], start: Station, cost: Cost): number {
  let at = start;
  let sum = 0;
  for (const i of order) {
    const next = stations[i]!;
    sum += cost(at, next);
    at = next;
  }
  return sum;
}

/** Dynamic programming over subsets (Held and Karp, 1962). Ties keep the earlier station first. */
export function exactOrder(stations: readonly Station[], start: Station, cost: Cost): number[] {
  const n = stations.length;
  const full = 1 << n;
  const best = new Float64Array(full * n).fill(Number.POSITIVE_INFINITY);
  const from = new Int8Array(full * n).fill(-1);
  const legs = stations.map((p) => stations.map((q) => cost(p, q)));
  for (let i = 0; i < n; i++) best[(1 << i) * n + i] = cost(start, stations[i]!);
  for (let set = 1; set < full; set++) {
    for (let last = 0; last < n; last++) {
      const here = best[set * n + last]!;
      if (here === Number.POSITIVE_INFINITY) continue;
      const row = legs[last]!;
      for (let next = 0; next < n; next++) {
        if (set & (1 << next)) continue;
        const to = (set | (1 << next)) * n + next;
        const there = here + row[next]!;
        if (there < best[to]! - tolerance.noise) {
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

/** Turns stretches round (2-opt) and moves runs of up to three (Or-opt) while that saves time. */
function improve(order: number[], stations: readonly Station[], start: Station, cost: Cost): number[] {
  const n = order.length;
  const window = n <= 300 ? n : 24;
  const rounds = n <= 300 ? 12 : 3;
  const at = (k: number): Station => (k < 0 ? start : stations[order[k]!]!);
  const leg = (i: number, j: number): number => (j >= n ? 0 : cost(at(i), at(j)));
  for (let round = 0; round < rounds; round++) {
    let better = false;
    for (let i = 0; i < n - 1; i++) {
      const before = leg(i - 1, i);
      for (let j = i + 1; j < Math.min(n, i + window); j++) {
        const gain = before + leg(j, j + 1) - cost(at(i - 1), at(j)) - (j + 1 < n ? cost(at(i), at(j + 1)) : 0);
        if (gain > tolerance.noise) {
          reverse(order, i, j);
          better = true;
          break;
        }
      }
    }
    better = moveRuns(order, n, window, at, cost) || better;
    if (!better) break;
  }
  return order;
}

function moveRuns(order: number[], n: number, window: number, at: (k: number) => Station, cost: Cost): boolean {
  let better = false;
  for (let length = 1; length <= 3; length++) {
    for (let i = 0; i + length <= n; i++) {
      const j = i + length - 1;
      const out = cost(at(i - 1), at(i)) + (j + 1 < n ? cost(at(j), at(j + 1)) - cost(at(i - 1), at(j + 1)) : 0);
      if (out <= tolerance.noise) continue;
      for (let k = Math.max(-1, i - window); k < Math.min(n, j + window); k++) {
        if (k >= i - 1 && k <= j) continue;
        const gap = k + 1 < n ? cost(at(k), at(k + 1)) : 0;
        const into = cost(at(k), at(i)) + (k + 1 < n ? cost(at(j), at(k + 1)) : 0) - gap;
        if (out - into > tolerance.noise) {
          const run = order.splice(i, length);
          order.splice(k < i ? k + 1 : k + 1 - length, 0, ...run);
          better = true;
          break;
        }
      }
    }
  }
  return better;
}

function reverse(order: number[], i: number, j: number): void {
  for (let p = i, q = j; p < q; p++, q--) {
    const keep = order[p]!;
    order[p] = order[q]!;
    order[q] = keep;
  }
}
