import type { Mm } from '../units/scalar.ts';

/** Something with a box on the unrolled shell; `left` lies in [0, girth), `right` may pass the girth. */
export interface Boxed {
  readonly left: Mm;
  readonly right: Mm;
  readonly down: Mm;
  readonly up: Mm;
}

/**
 * Calls `meet(a, b, shift)` once for every two boxes nearer than `reach` to each other on the unrolled shell, with
 * wrap-around: `b` moved by `shift` (0, or one girth either way) lies beside `a`. A sweep along the girth in order of
 * left sides: the work grows with the number of neighbours, not with all pairs.
 */
export function eachNeighbours<T extends Boxed>(
  items: readonly T[],
  girth: Mm,
  reach: Mm,
  meet: (a: T, b: T, shift: Mm) => void,
): void {
  const order = items.map((_, i) => i).sort((i, j) => at(items, i).left - at(items, j).left || i - j);
  const n = order.length;
  for (let k = 0; k < n; k++) {
    const i = order[k] as number;
    const a = at(items, i);
    for (let step = 1; step < n; step++) {
      const turn = k + step >= n ? girth : 0;
      const j = order[(k + step) % n] as number;
      const b = at(items, j);
      if (b.left + turn > a.right + reach) break;
      // A pair that meets on both sides of a narrow girth is told once, the first time round.
      if (turn > 0 && a.left <= b.right + reach) continue;
      if (b.down > a.up + reach || a.down > b.up + reach) continue;
      if (i < j) meet(a, b, turn);
      else meet(b, a, -turn);
    }
  }
}

const at = <T>(items: readonly T[], i: number): T => items[i] as T;
