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
  if (improve && stops.length <= FEW) return best(home, stops);
  const order = nearest(home, stops);
  return !improve || stops.length > MANY ? order : improved(home, stops, order);
}

/** The shortest order there is: the cheapest way to every set of stops, by its last stop (Held and Karp, 1962). */
function best(home: FlatPoint, stops: readonly Stop[]): number[] {
  const n = stops.length;
  if (n === 0) return [];
  const way = stops.map((a) => stops.map((b) => distance(a.leave, b.enter)));
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
        const sum = c + ((way[i] as Mm[])[k] as Mm);
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

/** Ways between stops, reckoned once: `way[i][k]` from leaving i to entering k; the last row is from home, the last column free. */
function waysOf(home: FlatPoint, stops: readonly Stop[]): Float64Array[] {
  const rows = [...stops.map((s) => s.leave), home];
  return rows.map((from) => Float64Array.from([...stops.map((s) => distance(from, s.enter)), 0]));
}

function improved(home: FlatPoint, stops: readonly Stop[], start: readonly number[]): number[] {
  const n = stops.length;
  const way = waysOf(home, stops);
  const go = (from: number, to: number): Mm => (way[from] as Float64Array)[to] as Mm;
  // Home before the first stop, and the free end after the last.
  let order = [n, ...start, n];
  const at = (i: number): number => order[i] as number;
  for (let round = 0; round < ROUNDS; round++) {
    let gained = false;
    for (let i = 1; i <= n; i++) {
      let inside = 0;
      let turned = 0;
      for (let k = i + 1; k <= n; k++) {
        inside += go(at(k - 1), at(k));
        turned += go(at(k), at(k - 1));
        const now = go(at(i - 1), at(i)) + inside + go(at(k), at(k + 1));
        const then = go(at(i - 1), at(k)) + turned + go(at(i), at(k + 1));
        if (then < now - tolerance.same) {
          order = [...order.slice(0, i), ...order.slice(i, k + 1).reverse(), ...order.slice(k + 1)];
          gained = true;
          break;
        }
      }
    }
    for (const size of [1, 2, 3]) if (moveStretches(order, size, go)) gained = true;
    if (!gained) break;
  }
  return order.slice(1, -1);
}

/** Moves runs of `size` stops to where they cost less; true when any moved. Changes `order`. */
function moveStretches(order: number[], size: number, go: (from: number, to: number) => Mm): boolean {
  let gained = false;
  const at = (i: number): number => order[i] as number;
  for (let i = 1; i + size < order.length; i++) {
    const [first, last] = [at(i), at(i + size - 1)];
    const saved = go(at(i - 1), first) + go(last, at(i + size)) - go(at(i - 1), at(i + size));
    let place = -1;
    let least = saved - tolerance.same;
    for (let k = 1; k < order.length; k++) {
      if (k >= i && k <= i + size) continue;
      const cost = go(at(k - 1), first) + go(last, at(k)) - go(at(k - 1), at(k));
      if (cost < least) [least, place] = [cost, k];
    }
    if (place < 0) continue;
    const run = order.splice(i, size);
    order.splice(place > i ? place - size : place, 0, ...run);
    gained = true;
  }
  return gained;
}
