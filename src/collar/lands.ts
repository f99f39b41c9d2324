import { type Deg, type Mm, toDeg, wrapDeg } from '../units/scalar.ts';
import type { Post } from './plan.ts';
import { halfAngle } from './posts.ts';
import { rules } from './rules.ts';

/** Middle of every free place: each stretch between two neighbouring posts is shared out evenly. */
export function freePlaces(posts: readonly Post[], ref: Deg, radius: Mm, keep: Mm): Deg[] {
  const ends = posts
    .map((p) => ({ at: wrapDeg(p.angle - ref), half: halfAngle(p) + toDeg(keep / radius) }))
    .sort((a, b) => a.at - b.at);
  return ends.flatMap((p, i) => {
    const next = ends[(i + 1) % ends.length] as (typeof ends)[number];
    const from = p.at + p.half;
    const to = (i + 1 < ends.length ? next.at : next.at + 360) - next.half;
    return shared(from, to, radius);
  });
}

/** Middles of equal places along an arc, as many as are at least `place` wide. */
function shared(from: Deg, to: Deg, radius: Mm): Deg[] {
  const count = Math.max(0, Math.floor(((to - from) * Math.PI * radius) / 180 / rules.place));
  return Array.from({ length: count }, (_, k) => from + ((k + 0.5) * (to - from)) / count);
}

/** From `free`, the places nearest to evenly spaced ones, one each; undefined when there are too few. Order of the ideal. */
export function evenly(free: readonly Deg[], count: number): Deg[] | undefined {
  if (free.length < count) return undefined;
  let best: { picks: Deg[]; miss: number } | undefined;
  for (const start of free) {
    const left = [...free];
    const picks: Deg[] = [];
    let miss = 0;
    for (let k = 0; k < count; k++) {
      const want = start + (k * 360) / count;
      let at = 0;
      for (let i = 1; i < left.length; i++) if (away(left[i] as Deg, want) < away(left[at] as Deg, want)) at = i;
      const pick = left.splice(at, 1)[0] as Deg;
      miss = Math.max(miss, away(pick, want));
      picks.push(pick);
    }
    // A later start must be better by more than noise: an even collar has many equal ones, and the first is kept.
    if (best === undefined || miss < best.miss - 0.01) best = { picks, miss };
  }
  return best?.picks;
}

function away(a: Deg, b: Deg): Deg {
  const d = wrapDeg(a - b);
  return Math.min(d, 360 - d);
}

/** A stretch of angles. */
export interface Arc {
  readonly from: Deg;
  readonly to: Deg;
}

/** The widest stretch of `from`..`to` that none of the taken ones touches. */
export function widestFree(from: Deg, to: Deg, taken: readonly Arc[]): Arc {
  let best: Arc = { from, to: from };
  let at = from;
  for (const t of [...taken].sort((a, b) => a.from - b.from)) {
    if (t.from - at > best.to - best.from) best = { from: at, to: t.from };
    at = Math.max(at, t.to);
  }
  return to - at > best.to - best.from ? { from: at, to } : best;
}
