import Flatbush from 'flatbush';
import type { Mm } from '../units/scalar.ts';

/** Something with a box on the unrolled shell. */
export interface Boxed {
  readonly left: Mm;
  readonly right: Mm;
  readonly down: Mm;
  readonly up: Mm;
}

/**
 * Boxes on the unrolled shell, asked for what lies near a place without looking at all of them: a packed tree from a kept
 * library, as forty lines of ours would be a sweep that slows where many boxes share a height.
 */
export interface Ground<T extends Boxed> {
  readonly items: readonly T[];
  readonly girth: Mm;
  /** A tree cannot be made of nothing. */
  readonly tree?: Flatbush;
}

/** `left` of every item lies within one girth of [0, girth); `right` may pass the girth. */
export function ground<T extends Boxed>(items: readonly T[], girth: Mm): Ground<T> {
  if (items.length === 0) return { items, girth };
  const tree = new Flatbush(items.length);
  for (const b of items) tree.add(b.left, b.down, b.right, b.up);
  tree.finish();
  return { items, girth, tree };
}

/**
 * Calls `meet(b, shift)` for every item nearer than `reach` to the box, with wrap-around: `b` moved by `shift` (0, or one
 * girth either way) lies beside it. Each once, in the order of the items. `wanted` leaves out items by index.
 */
export function eachNear<T extends Boxed>(
  { items, girth, tree }: Ground<T>,
  box: Boxed,
  reach: Mm,
  meet: (b: T, shift: Mm) => void,
  wanted?: (index: number) => boolean,
): void {
  if (!tree) return;
  const [down, up] = [box.down - reach, box.up + reach];
  const search = (shift: Mm): number[] =>
    tree.search(box.left - shift - reach, down, box.right - shift + reach, up, wanted);
  const here = search(0).map((i) => ({ i, shift: 0 }));
  const round = [girth, -girth]
    // Only what comes near the ends of [0, girth) can meet something from beyond them.
    .filter((shift) => box.right - shift + reach >= tree.minX && box.left - shift - reach <= tree.maxX)
    .flatMap((shift) => search(shift).map((i) => ({ i, shift })));
  const met = [...here, ...round].sort((a, b) => a.i - b.i);
  // On a narrow girth a pair may meet on both sides; it is told once.
  met.forEach(({ i, shift }, k) => {
    if (met[k - 1]?.i !== i) meet(items[i] as T, shift);
  });
}

/** `meet(a, b, shift)` once for every two items nearer than `reach` to each other; `a` comes before `b` in the list. */
export function eachPair<T extends Boxed>(on: Ground<T>, reach: Mm, meet: (a: T, b: T, shift: Mm) => void): void {
  on.items.forEach((a, i) => {
    eachNear(
      on,
      a,
      reach,
      (b, shift) => meet(a, b, shift),
      (j) => j > i,
    );
  });
}
