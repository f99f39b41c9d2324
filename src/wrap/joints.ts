import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { CLOSING_ROOM } from './closing.ts';
import type { Block } from './skin.ts';

/** Least way (mm) from a joint to anything drawn: an edge this near a hole tears, and a line on it vanishes. Common practice, no source. */
export const LAND: Mm = 3;

/**
 * Free stretches between `low` and `high` once blocks and their land are taken out, in order. `tab`: what a joint reaches
 * forward under the next piece, where no hole may be.
 */
function freeBetween(blocks: readonly Block[], low: Mm, high: Mm, tab: Mm = 0): (readonly [Mm, Mm])[] {
  const taken = blocks
    .map((b) => [b.from - LAND - tab, b.to + LAND] as const)
    .filter(([a, b]) => b > low && a < high)
    .sort((p, q) => p[0] - q[0]);
  const free: (readonly [Mm, Mm])[] = [];
  let at = low;
  for (const [a, b] of taken) {
    if (a > at) free.push([at, a]);
    at = Math.max(at, b);
  }
  if (at < high) free.push([at, high]);
  return free;
}

/** A place for a joint and how much room it has to the nearest thing. */
interface Spot {
  readonly at: Mm;
  readonly clear: Mm;
}

/** Steps (mm) at which long free stretches are tried. */
const STEP = 20;

function spots(free: readonly (readonly [Mm, Mm])[]): Spot[] {
  return free.flatMap(([a, b]) => {
    const n = Math.max(2, 2 * Math.ceil((b - a) / (2 * STEP)));
    return Array.from({ length: n + 1 }, (_, i) => {
      const at = a + ((b - a) * i) / n;
      return { at, clear: Math.min(at - a, b - at) };
    });
  });
}

export interface Joints {
  /** Where the sheet begins; it ends one turn further. */
  readonly seam: Mm;
  /** Joints between panels, in order, after the seam. */
  readonly cuts: readonly Mm[];
}

/** Cost of a joint near other things, against panels of unequal length (both in fractions of a panel). */
const crowding = (clear: Mm): number => 0.05 / (1 + clear / 5);

/** What it costs to leave the closing mark less room than it wants on either side of the seam. */
const SEAM_ROOM = [
  { room: CLOSING_ROOM.worded, cost: 0.03 },
  { room: CLOSING_ROOM.bare, cost: 0.1 },
] as const;
const seamCrowding = (clear: Mm): number =>
  SEAM_ROOM.reduce((sum, { room, cost }) => sum + (clear + LAND < room ? cost : 0), crowding(clear));

/**
 * Seam and panel joints round one turn: the fewest panels of at most `longest` mm, then the most equal ones, with joints
 * far from everything. `fixed` puts the seam where it is asked for. Undefined when no place is free.
 */
export function jointsAround(blocks: readonly Block[], turn: Mm, longest: Mm, tab: Mm, fixed?: Mm): Joints | undefined {
  // Laid out three turns long, so that whatever reaches over the end is met at both ends.
  const round = [-turn, 0, turn, 2 * turn].flatMap((d) =>
    blocks.map((b) => ({ ...b, from: b.from + d, to: b.to + d })),
  );
  const all = spots(freeBetween(round, 0, 2 * turn, tab));
  const seams = fixed === undefined ? all.filter((s) => s.at < turn) : [{ at: fixed, clear: LAND }];
  const fewest = Math.max(1, Math.ceil(turn / longest - tolerance.noise));
  for (let n = fewest; n <= fewest + 8; n++) {
    let best: (Joints & { cost: number }) | undefined;
    for (const seam of seams) {
      if (best !== undefined && seamCrowding(seam.clear) >= best.cost) continue;
      const inner = all.filter((s) => s.at > seam.at && s.at < seam.at + turn);
      const found = split(seam.at, seam.at + turn, inner, n, longest);
      if (found === undefined) continue;
      const cost = found.cost + seamCrowding(seam.clear);
      if (best === undefined || cost < best.cost - tolerance.noise) best = { seam: seam.at, cuts: found.cuts, cost };
    }
    if (best !== undefined) return { seam: best.seam, cuts: best.cuts };
  }
  return undefined;
}

/** Joints that split the height into the fewest bands of at most `tallest` mm. Undefined when no place is free. */
export function jointsUp(blocks: readonly Block[], depth: Mm, tallest: Mm): readonly Mm[] | undefined {
  const inner = spots(freeBetween(blocks, 0, depth)).filter((s) => s.at > 0 && s.at < depth);
  const fewest = Math.max(1, Math.ceil(depth / tallest - tolerance.noise));
  for (let n = fewest; n <= fewest + 3; n++) {
    const found = split(0, depth, inner, n, tallest);
    if (found !== undefined) return found.cuts;
  }
  return undefined;
}

/** The cheapest n - 1 joints from `a` to `b`, by dynamic programming over the free spots. */
function split(a: Mm, b: Mm, inner: readonly Spot[], n: number, longest: Mm): { cuts: Mm[]; cost: number } | undefined {
  const ideal = (b - a) / n;
  const far = longest + tolerance.noise;
  const cost = (length: Mm, clear: Mm | undefined): number =>
    ((length - ideal) / ideal) ** 2 + (clear === undefined ? 0 : crowding(clear));
  // reach[k][i]: the least cost of k joints, the last of them at spot i, and the spot before it.
  const reach: { cost: number; before: number }[][] = [];
  for (let k = 1; k < n; k++) {
    const last = reach.at(-1);
    reach.push(
      inner.map((spot, i) => {
        let best = { cost: Number.POSITIVE_INFINITY, before: -1 };
        if (last === undefined) {
          return spot.at - a <= far ? { cost: cost(spot.at - a, spot.clear), before: -1 } : best;
        }
        for (let h = i - 1; h >= 0; h--) {
          const length = spot.at - (inner[h] as Spot).at;
          if (length > far) break;
          const sum = (last[h] as { cost: number }).cost + cost(length, spot.clear);
          if (sum < best.cost) best = { cost: sum, before: h };
        }
        return best;
      }),
    );
  }
  if (n === 1) return b - a <= far ? { cuts: [], cost: 0 } : undefined;
  let end = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const [i, spot] of inner.entries()) {
    if (b - spot.at > far) continue;
    const sum = (reach[n - 2]?.[i]?.cost ?? Number.POSITIVE_INFINITY) + cost(b - spot.at, undefined);
    if (sum < least) [least, end] = [sum, i];
  }
  if (end < 0) return undefined;
  const cuts: Mm[] = [];
  for (let k = n - 2, i = end; k >= 0; k--) {
    cuts.unshift((inner[i] as Spot).at);
    i = reach[k]?.[i]?.before ?? -1;
  }
  return { cuts, cost: least };
}
