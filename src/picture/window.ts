import type { Placed } from '../model/layout.ts';
import { type Deg, toDeg, wrapDeg } from '../units/scalar.ts';
import { along } from './outline.ts';

/**
 * Where to cut the shell open for the drawing: in the middle of the gap between feet that lies nearest below the
 * strainer line, so that the strainer's line stands whole near the left. In (-360, 0]; 0 when feet cover the whole turn.
 */
export function openingAngle(placed: readonly Placed[], radius: number): Deg {
  const spans = placed
    .map((p) => {
      const left = p.foot ? along(p.foot.left, radius) : reach(p, radius);
      const right = p.foot ? along(p.foot.right, radius) : reach(p, radius);
      return { from: p.angle - toDeg(left / radius), to: p.angle + toDeg(right / radius) };
    })
    .flatMap((s) => [-360, 0, 360].map((turn) => ({ from: s.from + turn, to: s.to + turn })))
    .sort((a, b) => a.from - b.from);
  let covered = spans[0]?.to ?? -20;
  if (spans.length === 0) return covered;
  const gaps: Deg[] = [];
  for (const span of spans) {
    if (span.from > covered) gaps.push((covered + span.from) / 2);
    covered = Math.max(covered, span.to);
  }
  const below = gaps.filter((middle) => middle <= -1 && middle > -360);
  return below.length === 0 ? 0 : below[below.length - 1]!;
}

/** Half width of a fitting without a foot, from its holes. */
const reach = (p: Placed, radius: number): number =>
  Math.max(0, ...p.holes.map((h) => along(Math.abs(h.across), radius) + h.drill / 2));

/** The copy of `angle` that lies in [from, from + 360). */
export const within = (angle: Deg, from: Deg): Deg => from + wrapDeg(angle - from);
