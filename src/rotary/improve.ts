import { tolerance } from '../units/tolerance.ts';
import { FULL_UP_TO, type Legs } from './legs.ts';

/** In larger sets only places less than this far apart are tried, so that work grows in proportion. */
const WINDOW = 24;

/** Turns stretches round (2-opt) and moves runs of up to three (Or-opt) while that saves time. */
export function improve(first: readonly number[], legs: Legs): number[] {
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
      const place = placeFor(i, j, out, order, window, legs);
      if (!place) continue;
      const run = order.splice(i, length);
      order.splice(
        place.after < i ? place.after + 1 : place.after + 1 - length,
        0,
        ...(place.turned ? run.reverse() : run),
      );
      better = true;
    }
  }
  return better;
}

interface Place {
  readonly after: number;
  readonly turned: boolean;
}

/** Where, and which way round, the run i..j costs less than it saves where it is. */
function placeFor(
  i: number,
  j: number,
  out: number,
  order: readonly number[],
  window: number,
  legs: Legs,
): Place | undefined {
  const n = order.length;
  const [first, last] = [order[i]!, order[j]!];
  for (let k = Math.max(-1, i - window); k < Math.min(n, j + window); k++) {
    if (k >= i - 1 && k <= j) continue;
    const before = k < 0 ? -1 : order[k]!;
    let ahead = legs.between(before, first);
    let turned = legs.between(before, last);
    if (k + 1 < n) {
      const next = order[k + 1]!;
      const gap = legs.between(before, next);
      ahead += legs.between(last, next) - gap;
      turned += legs.between(first, next) - gap;
    }
    if (out - Math.min(ahead, turned) > tolerance.noise) return { after: k, turned: turned < ahead };
  }
  return undefined;
}
