import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bore, Post } from './plan.ts';
import { rules } from './rules.ts';

/** Where guide rings sit: depth of each ring's near face below the bearing edge, growing. */
export interface Stations {
  readonly rings: readonly Mm[];
  /** Deepest bore edge that the last ring still steadies. */
  readonly reach: Mm;
}

interface Band {
  readonly from: Mm;
  readonly to: Mm;
}

/**
 * Rings beyond the lug rows and beyond the deepest bore, none in front of a bore, none more than a span apart, all within
 * the shell. `band` is a ring's height (its layers together).
 */
export function placeRings(posts: readonly Post[], band: Mm, depth: Mm): Stations {
  const bores = posts.flatMap((p) => p.bores);
  const shut = bores.map((b): Band => ({ from: low(b) - rules.ringLand - band, to: high(b) + rules.ringLand }));
  const deepest = Math.max(0, ...bores.map(high));
  const lugs = bores.filter((b) => b.hole.role === 'lug');
  const last = depth - band - 1;
  const wanted = Math.max(rules.firstRing, deepest + rules.ringLand);
  const end = openAbove(wanted, shut, last) ?? openBelow(Math.min(wanted, last), shut, rules.firstRing);
  if (end === undefined) return { rings: [], reach: 0 };
  const rings: Mm[] = [end];
  const beyondLugs = Math.max(rules.firstRing, ...lugs.map((b) => high(b) + rules.ringLand));
  const near = lugs.length > 0 ? openAbove(beyondLugs, shut, end - rules.ringsApart) : undefined;
  if (near !== undefined) rings.unshift(near);
  return { rings: bridged(rings, shut), reach: end + band + rules.overhang };
}

export const low = (b: Bore): Mm => b.s - b.diameter / 2;
export const high = (b: Bore): Mm => b.s + b.diameter / 2;

function bridged(rings: readonly Mm[], shut: readonly Band[]): Mm[] {
  const out: Mm[] = [];
  let from = 0;
  for (const ring of rings) {
    while (ring - from > rules.span) {
      const middle = from + (ring - from) / Math.ceil((ring - from) / rules.span);
      const up = openAbove(middle, shut, ring - rules.firstRing);
      const down = openBelow(middle, shut, from + rules.firstRing);
      const nearest = [up, down]
        .filter((s) => s !== undefined)
        .sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0];
      if (nearest === undefined) break;
      out.push(nearest);
      from = nearest;
    }
    out.push(ring);
    from = ring;
  }
  return out;
}

/** The first open place at or above `from`, not above `limit`. */
function openAbove(from: Mm, shut: readonly Band[], limit: Mm): Mm | undefined {
  let at = from;
  for (const b of [...shut].sort((a, c) => a.from - c.from)) if (at > b.from + tolerance.noise && at < b.to) at = b.to;
  return at <= limit + tolerance.noise ? at : undefined;
}

/** The first open place at or below `from`, not below `limit`. */
function openBelow(from: Mm, shut: readonly Band[], limit: Mm): Mm | undefined {
  let at = from;
  for (const b of [...shut].sort((a, c) => c.to - a.to)) if (at > b.from && at < b.to - tolerance.noise) at = b.from;
  return at >= limit - tolerance.noise ? at : undefined;
}

/** Rings that grip a post: all up to the first one beyond its deepest bore, or all when it reaches beyond the last. */
export function ringsOf(post: Post, rings: readonly Mm[]): readonly Mm[] {
  const deepest = Math.max(...post.bores.map(high));
  const first = rings.findIndex((s) => s >= deepest);
  return first < 0 ? rings : rings.slice(0, first + 1);
}

/** How far a post reaches below the bearing edge: past its last ring, or past its deepest bore. */
export function postEnd(post: Post, rings: readonly Mm[], band: Mm, land: Mm, cap: Mm): Mm {
  const gripping = ringsOf(post, rings);
  const beyondRing = (gripping.at(-1) ?? 0) + band + cap;
  return Math.max(beyondRing, ...post.bores.map((b) => high(b) + land));
}
