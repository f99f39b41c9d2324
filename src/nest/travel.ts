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

function improved(home: FlatPoint, stops: readonly Stop[], start: readonly number[]): number[] {
  let order = [...start];
  const stop = (i: number): Stop => stops[order[i] as number] as Stop;
  const before = (i: number): FlatPoint => (i === 0 ? home : stop(i - 1).leave);
  const step = (a: FlatPoint, i: number): Mm => (i < order.length ? distance(a, stop(i).enter) : 0);
  for (let round = 0; round < ROUNDS; round++) {
    let gained = false;
    for (let i = 0; i < order.length; i++) {
      let inside = 0;
      let turned = 0;
      for (let k = i; k < order.length; k++) {
        if (k > i) {
          inside += distance(stop(k - 1).leave, stop(k).enter);
          turned += distance(stop(k).leave, stop(k - 1).enter);
        }
        const now = distance(before(i), stop(i).enter) + inside + step(stop(k).leave, k + 1);
        const then = distance(before(i), stop(k).enter) + turned + step(stop(i).leave, k + 1);
        if (k > i && then < now - tolerance.same) {
          order = [...order.slice(0, i), ...order.slice(i, k + 1).reverse(), ...order.slice(k + 1)];
          gained = true;
          break;
        }
      }
    }
    if (moveStretches(order, home, stops)) gained = true;
    if (!gained) break;
  }
  return order;
}

/** Moves runs of one to three stops to where they cost less; true when any moved. Changes `order`. */
function moveStretches(order: number[], home: FlatPoint, stops: readonly Stop[]): boolean {
  let gained = false;
  const s = (k: number): Stop => stops[order[k] as number] as Stop;
  const from = (k: number): FlatPoint => (k === 0 ? home : s(k - 1).leave);
  const go = (a: FlatPoint, k: number): Mm => (k < order.length ? distance(a, s(k).enter) : 0);
  for (const size of [1, 2, 3]) {
    for (let i = 0; i + size <= order.length; i++) {
      const [first, last] = [s(i), s(i + size - 1)];
      const saved = distance(from(i), first.enter) + go(last.leave, i + size) - go(from(i), i + size);
      let best: { k: number; cost: Mm } | undefined;
      for (let k = 0; k <= order.length; k++) {
        if (k >= i && k <= i + size) continue;
        const cost = distance(from(k), first.enter) + go(last.leave, k) - go(from(k), k);
        if (cost < (best?.cost ?? saved - tolerance.same)) best = { k, cost };
      }
      if (best === undefined) continue;
      const run = order.splice(i, size);
      order.splice(best.k > i ? best.k - size : best.k, 0, ...run);
      gained = true;
    }
  }
  return gained;
}
