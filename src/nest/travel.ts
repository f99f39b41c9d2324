import { distance } from '../drawing/spans.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A stop of the head: where a contour is entered and left (the same place when it is closed). */
export interface Stop {
  readonly enter: FlatPoint;
  readonly leave: FlatPoint;
}

/** Way of the head with the beam off, from `home` through the stops in this order. */
export function travelOf(home: FlatPoint, stops: readonly Stop[]): Mm {
  let at = home;
  let sum = 0;
  for (const s of stops) {
    sum += distance(at, s.enter);
    at = s.leave;
  }
  return sum;
}

/** Up to this many stops the best order of all is found. */
const FEW = 12;

/** Beyond this many stops (or without `improve`) only the nearest-neighbour order is made: more would cost time. */
const MANY = 120;
const ROUNDS = 6;

/**
 * An order of the stops with little travel, as indices: always to the nearest next stop, then shortened by moving stretches
 * of it elsewhere and turning them round until nothing gets shorter. Never longer than the nearest-neighbour order.
 */
export function shortOrder(home: FlatPoint, stops: readonly Stop[], improve = true): number[] {
  if (stops.length <= FEW) return best(home, stops);
  const order = nearest(home, stops);
  return !improve || stops.length > MANY ? order : improved(home, stops, order);
}

/** The shortest order there is: the cheapest way to every set of stops, by its last stop (Held and Karp, 1962). */
function best(home: FlatPoint, stops: readonly Stop[]): number[] {
  const n = stops.length;
  if (n === 0) return [];
  const way = waysOf(home, stops);
  const cost = new Float64Array((1 << n) * n).fill(Number.POSITIVE_INFINITY);
  const from = new Int8Array((1 << n) * n).fill(-1);
  for (const [i, s] of stops.entries()) cost[(1 << i) * n + i] = distance(home, s.enter);
  for (let set = 1; set < 1 << n; set++) {
    for (let i = 0; i < n; i++) {
      const c = cost[set * n + i] as number;
      if (c === Number.POSITIVE_INFINITY) continue;
      for (let k = 0; k < n; k++) {
        if (set & (1 << k)) continue;
        const to = (set | (1 << k)) * n + k;
        const sum = c + (way[i * (n + 1) + k] as Mm);
        if (sum < (cost[to] as number)) {
          cost[to] = sum;
          from[to] = i;
        }
      }
    }
  }
  let set = (1 << n) - 1;
  let last = 0;
  for (let i = 1; i < n; i++) if ((cost[set * n + i] as number) < (cost[set * n + last] as number)) last = i;
  const order: number[] = [];
  while (last >= 0) {
    order.unshift(last);
    const before = from[set * n + last] as number;
    set &= ~(1 << last);
    last = before;
  }
  return order;
}

function nearest(home: FlatPoint, stops: readonly Stop[]): number[] {
  const left = new Set(stops.keys());
  const order: number[] = [];
  let at = home;
  while (left.size > 0) {
    let best = -1;
    let least = Number.POSITIVE_INFINITY;
    for (const i of left) {
      const d = distance(at, (stops[i] as Stop).enter);
      if (d < least) {
        least = d;
        best = i;
      }
    }
    left.delete(best);
    order.push(best);
    at = (stops[best] as Stop).leave;
  }
  return order;
}

/** Ways between stops in one flat table, n + 1 by n + 1: from leaving i to entering k; the last row is from home, the last column free. */
function waysOf(home: FlatPoint, stops: readonly Stop[]): Float64Array {
  const n = stops.length;
  const ways = new Float64Array((n + 1) ** 2);
  for (let i = 0; i <= n; i++) {
    const from = i === n ? home : (stops[i] as Stop).leave;
    for (let k = 0; k < n; k++) ways[i * (n + 1) + k] = distance(from, (stops[k] as Stop).enter);
  }
  return ways;
}

/** An order between home and the free end, both of them index n, and the ways between its stops. */
interface Tour {
  readonly n: number;
  readonly ways: Float64Array;
  readonly order: Int32Array;
}

function improved(home: FlatPoint, stops: readonly Stop[], start: readonly number[]): number[] {
  const n = stops.length;
  const tour: Tour = { n, ways: waysOf(home, stops), order: Int32Array.from([n, ...start, n]) };
  for (let round = 0; round < ROUNDS; round++) {
    let gained = turnStretches(tour);
    for (const size of [1, 2, 3]) if (moveStretches(tour, size)) gained = true;
    if (!gained) break;
  }
  return Array.from(tour.order.subarray(1, n + 1));
}

/** Turns stretches round where that is shorter; true when any was. Changes the order. */
function turnStretches({ n, ways, order }: Tour): boolean {
  const m = n + 1;
  const go = (i: number, k: number): Mm => ways[(order[i] as number) * m + (order[k] as number)] as Mm;
  let gained = false;
  for (let i = 1; i <= n; i++) {
    let inside = 0;
    let turned = 0;
    for (let k = i + 1; k <= n; k++) {
      inside += go(k - 1, k);
      turned += go(k, k - 1);
      const now = go(i - 1, i) + inside + go(k, k + 1);
      const then = go(i - 1, k) + turned + go(i, k + 1);
      if (then >= now - tolerance.same) continue;
      order.subarray(i, k + 1).reverse();
      gained = true;
      break;
    }
  }
  return gained;
}

/** Moves runs of `size` stops to where they cost less; true when any moved. Changes the order. */
function moveStretches({ n, ways, order }: Tour, size: number): boolean {
  const m = n + 1;
  let gained = false;
  for (let i = 1; i + size <= n + 1; i++) {
    const first = order[i] as number;
    const last = order[i + size - 1] as number;
    const [before, after] = [order[i - 1] as number, order[i + size] as number];
    const saved = (ways[before * m + first] as Mm) + (ways[last * m + after] as Mm) - (ways[before * m + after] as Mm);
    let place = -1;
    let least = saved - tolerance.same;
    for (let k = 1; k <= n + 1; k++) {
      if (k >= i && k <= i + size) continue;
      const a = order[k - 1] as number;
      const b = order[k] as number;
      const cost = (ways[a * m + first] as Mm) + (ways[last * m + b] as Mm) - (ways[a * m + b] as Mm);
      if (cost < least) [least, place] = [cost, k];
    }
    if (place < 0) continue;
    const run = order.slice(i, i + size);
    if (place > i) {
      order.copyWithin(i, i + size, place);
      order.set(run, place - size);
    } else {
      order.copyWithin(place + size, place, i);
      order.set(run, place);
    }
    gained = true;
  }
  return gained;
}
