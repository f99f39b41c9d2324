import type { Machine } from '../model/machine.ts';
import { tolerance } from '../units/tolerance.ts';
import { axisSeconds } from './time.ts';

/** A place the bit goes to: X in mm, A in degrees. As a start, an X that is not a number means: wherever it pleases. */
export interface Station {
  readonly x: number;
  readonly a: number;
}

/** Seconds between two stations: A indexes on its own line, X on its own, as the program writes them. */
export type Cost = (p: Station, q: Station) => number;

export const travelCost =
  ({ rapid, acceleration }: Machine): Cost =>
  (p, q) =>
    (Number.isNaN(p.x) ? 0 : axisSeconds(Math.abs(q.x - p.x), rapid.x / 60, acceleration.x)) +
    axisSeconds(Math.abs(q.a - p.a), rapid.a / 60, acceleration.a);

/** Up to this many stations the order is the true optimum (12^2 * 2^12 steps, a few milliseconds). */
export const EXACT_UP_TO = 12;
/** Up to this many every pair is looked at; beyond, only pairs less than `WINDOW` places apart, so work grows in proportion. */
const FULL_UP_TO = 300;
const WINDOW = 24;

/**
 * Indices of the stations in an order of least travel from `start`, not coming back: exact for small sets, else the best
 * of several sweeps improved by turning stretches round and moving short runs.
 */
export function shortestOrder(stations: readonly Station[], start: Station, cost: Cost): number[] {
  if (stations.length <= 1) return stations.map((_, i) => i);
  const legs = new Legs(stations, start, cost);
  if (stations.length <= EXACT_UP_TO) return exactOrder(legs);
  const tries = [serpentine(stations, 'a'), serpentine(stations, 'x')];
  tries.push([...tries[0]!].reverse(), [...tries[1]!].reverse());
  if (stations.length <= FULL_UP_TO) tries.push(nearestFirst(legs));
  // The two most promising are worth improving: more gains under one part in a hundred and costs as much again each.
  const ranked = tries.map((order) => ({ order, length: legs.length(order) })).sort((p, q) => p.length - q.length);
  const better = ranked.slice(0, 2).map(({ order }) => improve(order, legs));
  return legs.length(better[1]!) < legs.length(better[0]!) - tolerance.noise ? better[1]! : better[0]!;
}

/** Travel of an order from the start, seconds. */
export function pathLength(order: readonly number[], stations: readonly Station[], start: Station, cost: Cost): number {
  return new Legs(stations, start, cost).length(order);
}

/** Every leg's seconds, from a table while that is small. Station -1 is the start; one past the end is free. */
class Legs {
  readonly count: number;
  readonly stations: readonly Station[];
  readonly start: Station;
  readonly cost: Cost;
  readonly table: Float64Array | undefined;

  constructor(stations: readonly Station[], start: Station, cost: Cost) {
    this.stations = stations;
    this.start = start;
    this.cost = cost;
    const n = stations.length;
    this.count = n;
    if (n > FULL_UP_TO) return;
    this.table = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) {
        const c = cost(stations[i]!, stations[j]!);
        this.table[i * n + j] = c;
        this.table[j * n + i] = c;
      }
    }
  }

  between(i: number, j: number): number {
    if (this.table && i >= 0) return this.table[i * this.count + j]!;
    return this.cost(i < 0 ? this.start : this.stations[i]!, this.stations[j]!);
  }

  length(order: readonly number[]): number {
    let at = -1;
    let sum = 0;
    for (const i of order) {
      sum += this.between(at, i);
      at = i;
    }
    return sum;
  }
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

/** Turns stretches round (2-opt) and moves runs of up to three (Or-opt) while that saves time. */
function improve(first: readonly number[], legs: Legs): number[] {
  const order = [...first];
  const n = order.length;
  const window = n <= FULL_UP_TO ? n : WINDOW;
  const rounds = n <= FULL_UP_TO ? 20 : 3;
  for (let round = 0; round < rounds; round++) {
    const turned = turnStretches(order, window, legs);
    const moved = moveRuns(order, window, legs);
    if (!turned && !moved) break;
  }
  return order;
}

function turnStretches(order: number[], window: number, legs: Legs): boolean {
  const n = order.length;
  let better = false;
  for (let i = 0; i < n - 1; i++) {
    const before = i === 0 ? -1 : order[i - 1]!;
    for (let j = i + 1; j < Math.min(n, i + window); j++) {
      let gain = legs.between(before, order[i]!) - legs.between(before, order[j]!);
      if (j + 1 < n) gain += legs.between(order[j]!, order[j + 1]!) - legs.between(order[i]!, order[j + 1]!);
      if (gain > tolerance.noise) {
        for (let p = i, q = j; p < q; p++, q--) {
          const keep = order[p]!;
          order[p] = order[q]!;
          order[q] = keep;
        }
        better = true;
      }
    }
  }
  return better;
}

function moveRuns(order: number[], window: number, legs: Legs): boolean {
  const n = order.length;
  const at = (k: number): number => (k < 0 ? -1 : order[k]!);
  let better = false;
  for (let length = 1; length <= 3; length++) {
    for (let i = 0; i + length <= n; i++) {
      const j = i + length - 1;
      let out = legs.between(at(i - 1), at(i));
      if (j + 1 < n) out += legs.between(at(j), at(j + 1)) - legs.between(at(i - 1), at(j + 1));
      if (out <= tolerance.noise) continue;
      const k = placeFor(i, j, out, order, window, legs);
      if (k === undefined) continue;
      const run = order.splice(i, length);
      // A run put in the wrong way round is turned by the next round of stretches.
      order.splice(k < i ? k + 1 : k + 1 - length, 0, ...run);
      better = true;
    }
  }
  return better;
}

/** After which place the run i..j costs less than it saves where it is. */
function placeFor(
  i: number,
  j: number,
  out: number,
  order: readonly number[],
  window: number,
  legs: Legs,
): number | undefined {
  const n = order.length;
  for (let k = Math.max(-1, i - window); k < Math.min(n, j + window); k++) {
    if (k >= i - 1 && k <= j) continue;
    const before = k < 0 ? -1 : order[k]!;
    let into = legs.between(before, order[i]!);
    if (k + 1 < n) into += legs.between(order[j]!, order[k + 1]!) - legs.between(before, order[k + 1]!);
    if (out - into > tolerance.noise) return k;
  }
  return undefined;
}
