import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toDeg, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A turn of the whole layout on its shell, and the least wood it leaves between any hole and what it should miss. */
export interface LayoutTurn {
  /** To the right seen from outside, in (-180, 180]. */
  readonly by: Deg;
  readonly clearance: Mm;
}

/** Angles of the layout's turn that put a hole on something: centre and half width. */
interface Forbidden {
  readonly centre: Deg;
  readonly half: Deg;
}

/**
 * The turn of the whole layout that clears joints, ring joints and old holes by the most; of equal ones the smallest.
 * Exact: every hole forbids an interval of turns for everything it should miss; the best turn is the middle of the widest
 * gap that the intervals leave. Undefined when there is nothing to miss, or when they leave no gap.
 */
export function bestTurn(jig: Jig, layout: Layout): LayoutTurn | undefined {
  const forbidden = forbiddenTurns(jig, layout);
  if (forbidden.length === 0) return undefined;
  const gaps = gapsBetween(forbidden);
  let best: LayoutTurn | undefined;
  for (const { from, to } of gaps) {
    const by = shorterTurn(0, (from + to) / 2);
    const clearance = (((to - from) / 2) * Math.PI * layout.radius) / 180;
    if (clearance <= tolerance.same) continue;
    const better =
      !best ||
      clearance > best.clearance + tolerance.same ||
      (clearance > best.clearance - tolerance.same && Math.abs(by) < Math.abs(best.by));
    if (better) best = { by, clearance };
  }
  return best;
}

function forbiddenTurns(jig: Jig, layout: Layout): Forbidden[] {
  const { shell } = jig;
  const { radius, depth } = layout;
  const wide = (half: Mm): Deg => toDeg(Math.asin(Math.min(1, half / radius)));
  const found: Forbidden[] = [];
  for (const hole of layout.holes) {
    const r = hole.drill / 2;
    const miss = (angle: Deg, half: Mm) => found.push({ centre: wrapDeg(angle - hole.angle), half: wide(half) });
    for (const joint of shell.joints) miss(joint, r);
    for (const side of ['top', 'bottom'] as const) {
      const ring = shell.rings[side];
      const within = ring && (side === 'top' ? hole.height + r > depth - ring.width : hole.height - r < ring.width);
      if (ring?.joint !== undefined && within) miss(ring.joint, r);
    }
    for (const old of shell.holes) {
      const reach = r + old.diameter / 2;
      const up = Math.abs(old.height - hole.height);
      if (up < reach) miss(old.angle, Math.sqrt(reach * reach - up * up));
    }
  }
  return found;
}

/** What a set of intervals on the circle leaves free. */
function gapsBetween(forbidden: readonly Forbidden[]): { from: Deg; to: Deg }[] {
  const ends = forbidden
    .map(({ centre, half }) => ({ from: centre - half, to: centre + half }))
    .sort((a, b) => a.from - b.from);
  const first = ends[0] as { from: Deg; to: Deg };
  const gaps: { from: Deg; to: Deg }[] = [];
  let reached = Math.max(first.to, ...ends.map((e) => e.to - 360));
  for (const e of ends) {
    if (e.from > reached) gaps.push({ from: reached, to: e.from });
    reached = Math.max(reached, e.to);
  }
  if (first.from + 360 > reached) gaps.push({ from: reached, to: first.from + 360 });
  return gaps;
}
