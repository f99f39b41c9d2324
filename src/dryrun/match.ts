import type { ShellPoint } from '../model/frames.ts';
import { type Mm, shorterTurn, wrapDeg } from '../units/scalar.ts';
import { SAME_PLACE, skinGap } from './stations.ts';

/** A planned hole with nothing nearer than this is missing, not misplaced. */
export const MISPLACED: Mm = 12;

/** A hole by place and size; a match looks at nothing else. */
export interface Spot extends ShellPoint {
  readonly size: Mm;
}

export interface Pairing {
  /** For each planned spot the index of the found one, or -1. */
  readonly found: readonly number[];
  readonly gaps: readonly Mm[];
  /** Indices of found spots that belong to no planned one. */
  readonly extra: readonly number[];
}

/** Nearest pairs first, each spot once, none further apart than `reach`. */
export function pair(planned: readonly Spot[], found: readonly Spot[], radius: Mm, reach: Mm): Pairing {
  const near = finder(found, radius, reach);
  const candidates: { p: number; f: number; gap: Mm }[] = [];
  planned.forEach((spot, p) => {
    for (const { index, gap } of near(spot)) candidates.push({ p, f: index, gap });
  });
  candidates.sort((a, b) => a.gap - b.gap || a.p - b.p || a.f - b.f);
  const found2 = planned.map(() => -1);
  const gaps = planned.map(() => Infinity);
  const taken = new Set<number>();
  for (const { p, f, gap } of candidates) {
    if (found2[p] !== -1 || taken.has(f)) continue;
    found2[p] = f;
    gaps[p] = gap;
    taken.add(f);
  }
  return { found: found2, gaps, extra: found.map((_, i) => i).filter((i) => !taken.has(i)) };
}

/** Spots within `reach` of a place, by height first. */
function finder(spots: readonly Spot[], radius: Mm, reach: Mm): (at: ShellPoint) => { index: number; gap: Mm }[] {
  const order = spots.map((_, i) => i).sort((a, b) => spots[a]!.height - spots[b]!.height);
  const heights = order.map((i) => spots[i]!.height);
  return (at) => {
    const hits: { index: number; gap: Mm }[] = [];
    for (let k = lowerBound(heights, at.height - reach); k < order.length && heights[k]! <= at.height + reach; k++) {
      const gap = skinGap(spots[order[k]!]!, at, radius);
      if (gap <= reach) hits.push({ index: order[k]!, gap });
    }
    return hits;
  };
}

function lowerBound(sorted: readonly number[], value: number): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** How the whole job may have gone wrong: planned places moved by this are where the holes are. */
export type Slip =
  | { readonly kind: 'none' }
  | { readonly kind: 'mirrored'; readonly turn: number }
  | { readonly kind: 'turned'; readonly turn: number }
  | { readonly kind: 'shifted'; readonly along: Mm; readonly turn: number }
  /** X counted from the other edge; `turnedOver`: the whole shell end for end, so that A counts the other way too. */
  | { readonly kind: 'other-edge'; readonly turnedOver: boolean }
  | { readonly kind: 'scaled'; readonly factor: number };

export function slipped(slip: Slip, p: Spot, depth: Mm): Spot {
  switch (slip.kind) {
    case 'none':
      return p;
    case 'mirrored':
      return { ...p, angle: wrapDeg(slip.turn - p.angle) };
    case 'turned':
      return { ...p, angle: wrapDeg(p.angle + slip.turn) };
    case 'shifted':
      return { ...p, angle: wrapDeg(p.angle + slip.turn), height: p.height + slip.along };
    case 'other-edge':
      return { ...p, height: depth - p.height, angle: slip.turnedOver ? wrapDeg(-p.angle) : p.angle };
    case 'scaled':
      return p;
    default: {
      const never: never = slip;
      throw new Error(`unknown slip ${String(never)}`);
    }
  }
}

/** Share of the planned holes that a slip must explain before it is named. */
const SHARE = 0.9;
/** Places tried for a turn or a shift: enough for any drum, and bounded. */
const MOST_TRIES = 4000;

/**
 * The slip of the whole job that puts the found holes on the planned ones, tried from the plainest to the least likely;
 * undefined when none does. `heightOf` gives the height of a scaled X in the frame of the datum edge.
 */
export function findSlip(
  planned: readonly Spot[],
  found: readonly Spot[],
  shell: { radius: Mm; depth: Mm; datum: 'top' | 'bottom' },
): Slip | undefined {
  if (found.length < 2 || planned.length < 2) return undefined;
  const fits = (slip: Slip): boolean => share(planned, found, slip, shell) >= SHARE;
  const scaled = ([1 / 25.4, 25.4] as const).find((factor) => scaleShare(planned, found, factor, shell) >= SHARE);
  const plain: Slip[] = [
    { kind: 'mirrored', turn: 0 },
    { kind: 'other-edge', turnedOver: true },
    { kind: 'other-edge', turnedOver: false },
  ];
  const best = plain
    .map((slip) => ({ slip, share: share(planned, found, slip, shell) }))
    .sort((a, b) => b.share - a.share)[0]!;
  if (best.share >= SHARE) return best.slip;
  if (scaled !== undefined) return { kind: 'scaled', factor: scaled };
  // One found hole, tried against every planned one, gives every turn and shift there can be.
  const f = found[0]!;
  const tries: Slip[] = [];
  for (const p of planned.slice(0, MOST_TRIES)) {
    const level = Math.abs(p.height - f.height) <= SAME_PLACE;
    if (level) {
      tries.push({ kind: 'turned', turn: shorterTurn(p.angle, f.angle) });
      tries.push({ kind: 'mirrored', turn: wrapDeg(f.angle + p.angle) });
    } else tries.push({ kind: 'shifted', along: f.height - p.height, turn: shorterTurn(p.angle, f.angle) });
  }
  tries.sort((a, b) => weight(a) - weight(b));
  return tries.find(fits);
}

/** The smallest slip is the likeliest; a mirror is less likely than a turn. */
function weight(slip: Slip): number {
  switch (slip.kind) {
    case 'turned':
      return Math.abs(slip.turn);
    case 'shifted':
      return Math.abs(slip.along) + 1000 * Math.abs(slip.turn);
    case 'mirrored':
      return 1000 + slip.turn;
    default:
      return 0;
  }
}

/** Share of planned and found holes that agree in place and size once the plan has slipped so. */
export function share(
  planned: readonly Spot[],
  found: readonly Spot[],
  slip: Slip,
  shell: { radius: Mm; depth: Mm },
): number {
  const moved = planned.map((p) => slipped(slip, p, shell.depth));
  const pairing = pair(moved, found, shell.radius, SAME_PLACE);
  // Sizes must agree as well, where they are known: a mirror of the places alone may be chance.
  const hits = pairing.found.filter((f, p) => f >= 0 && sizesAgree(planned[p]!.size, found[f]!.size)).length;
  return hits / Math.max(planned.length, found.length);
}

const sizesAgree = (a: Mm, b: Mm): boolean => !(a > 0 && b > 0) || Math.abs(a - b) <= 0.2;

/** X counted from the datum edge, `factor` times too large: inches read as millimetres, or the other way. */
function scaleShare(
  planned: readonly Spot[],
  found: readonly Spot[],
  factor: number,
  shell: { radius: Mm; depth: Mm; datum: 'top' | 'bottom' },
): number {
  const x = (height: Mm): Mm => (shell.datum === 'bottom' ? height : shell.depth - height);
  const moved = planned.map((p) => ({ ...p, height: x(x(p.height) * factor) }));
  const pairing = pair(moved, found, shell.radius, SAME_PLACE);
  return pairing.found.filter((f) => f >= 0).length / Math.max(planned.length, found.length);
}

/** Is the plan its own mirror image about the strainer line? Then no dry run can see a wrong sign of A. */
export function isOwnMirror(planned: readonly Spot[], radius: Mm): boolean {
  const mirrored = planned.map((p) => ({ ...p, angle: wrapDeg(-p.angle) }));
  const pairing = pair(mirrored, planned, radius, SAME_PLACE);
  return pairing.found.every((f, p) => f >= 0 && sizesAgree(planned[f]!.size, mirrored[p]!.size));
}
