import type { ShellPoint } from '../model/frames.ts';
import { type Deg, MM_PER_INCH, type Mm, shorterTurn, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import { skinPoint } from './place.ts';
import { SAME_PLACE, type Station, skinGap } from './stations.ts';

/** A planned hole with nothing nearer than this is missing, not misplaced. */
export const MISPLACED: Mm = 12;

/** A hole by place and size; a match looks at nothing else. */
export interface Spot extends ShellPoint {
  readonly size: Mm;
  /** A found one: where the machine stood. */
  readonly machine?: { readonly x: Mm; readonly y: Mm; readonly a: Deg };
}

export const spotAt = (s: Station, size: Mm): Spot => ({
  angle: s.angle,
  height: s.height,
  size,
  machine: { x: s.x, y: s.y, a: s.a },
});

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
  /** All of it `by` beside the axis, which shows as a turn on the skin. */
  | { readonly kind: 'beside'; readonly by: Mm; readonly turn: number }
  | { readonly kind: 'shifted'; readonly along: Mm; readonly turn: number }
  /** X counted from the other edge; `turnedOver`: the whole shell end for end, so that A counts the other way too. */
  | { readonly kind: 'other-edge'; readonly turnedOver: boolean }
  /** Every X and Y so many times what it should be, and every A: another unit, or a scale left on. */
  | { readonly kind: 'scaled'; readonly lengths: number; readonly angles: number };

export function slipped(slip: Slip, p: Spot, depth: Mm): Spot {
  switch (slip.kind) {
    case 'none':
    case 'scaled':
      return p;
    case 'mirrored':
      return { ...p, angle: wrapDeg(slip.turn - p.angle) };
    case 'turned':
    case 'beside':
      return { ...p, angle: wrapDeg(p.angle + slip.turn) };
    case 'shifted':
      return { ...p, angle: wrapDeg(p.angle + slip.turn), height: p.height + slip.along };
    case 'other-edge':
      return { ...p, height: depth - p.height, angle: slip.turnedOver ? wrapDeg(-p.angle) : p.angle };
    default: {
      const never: never = slip;
      throw new Error(`unknown slip ${String(never)}`);
    }
  }
}

/** Share of the planned holes that a slip must explain before it is named. */
const SHARE = 0.9;
/** Pairs of a try and a hole looked at for a turn or a shift: enough for any drum, and bounded. */
const MOST_WORK = 400_000;
/**
 * Places 25.4 times too near or far need not be met so nearly: a bore is entered beside its middle, and that way is
 * scaled as well. No sound place comes so near by chance.
 */
const SCALED_REACH: Mm = 6;

/** What explains the whole job, and what explains it just as well. */
export interface Explained {
  readonly slip: Slip;
  readonly or: Slip | undefined;
}

/**
 * The slip of the whole job that puts most found holes on planned ones, the plainest of those that put as many;
 * undefined when none explains more than no slip at all.
 */
export function findSlip(planned: readonly Spot[], found: readonly Spot[], bench: Bench): Explained | undefined {
  if (found.length < 2 || planned.length < 2) return undefined;
  const least = Math.max(SHARE - tolerance.noise, share(planned, found, { kind: 'none' }, bench));
  const told = [...plainSlips(found, bench), ...turnsAndShifts(planned, found), ...scales(planned, found, bench)]
    .map((slip) => ({
      slip,
      hits:
        slip.kind === 'scaled'
          ? scaleShare(planned, found, slip, SAME_PLACE, bench)
          : share(planned, found, slip, bench),
    }))
    .filter(({ hits }) => hits > least)
    .sort((a, b) => b.hits - a.hits || weight(a.slip) - weight(b.slip));
  const best = told[0];
  if (best !== undefined)
    return {
      slip: best.slip,
      or: told.find((t) => t.hits === best.hits && t.slip.kind !== best.slip.kind)?.slip,
    };
  const slip = SCALES.find((scale) => scaleShare(planned, found, scale, SCALED_REACH, bench) >= SHARE);
  return slip && { slip, or: undefined };
}

type Scaled = Extract<Slip, { kind: 'scaled' }>;
const SCALES: readonly Scaled[] = [
  { kind: 'scaled', lengths: 1 / MM_PER_INCH, angles: 1 },
  { kind: 'scaled', lengths: MM_PER_INCH, angles: 1 },
];

function plainSlips(found: readonly Spot[], bench: Bench): Slip[] {
  const ys = found.map((f) => f.machine?.y ?? 0).sort((a, b) => a - b);
  const by = ys[ys.length >> 1]!;
  const turn = shorterTurn(0, skinPoint(0, by, 0, bench.radius, bench.frame).angle);
  return [
    { kind: 'mirrored', turn: 0 },
    { kind: 'other-edge', turnedOver: true },
    { kind: 'other-edge', turnedOver: false },
    ...SCALES,
    ...(Math.abs(by) > SAME_PLACE ? [{ kind: 'beside', by, turn } as const] : []),
  ];
}

/** Three found holes to try: one may be the hole that is wrong on its own account. */
const samples = (found: readonly Spot[]): Set<Spot> => new Set([found[0]!, found[found.length >> 1]!, found.at(-1)!]);

/** A found hole, tried against every planned one, gives every turn and shift there can be. */
function turnsAndShifts(planned: readonly Spot[], found: readonly Spot[]): Slip[] {
  const tries: Slip[] = [];
  for (const f of samples(found))
    for (const p of planned.slice(0, Math.ceil(MOST_WORK / 3 / planned.length))) {
      const turn = shorterTurn(p.angle, f.angle);
      if (Math.abs(p.height - f.height) <= SAME_PLACE)
        tries.push({ kind: 'turned', turn }, { kind: 'mirrored', turn: wrapDeg(f.angle + p.angle) });
      else tries.push({ kind: 'shifted', along: f.height - p.height, turn });
    }
  return tries;
}

/** A found hole against every planned one gives every scale of A, and of X, there can be. */
function scales(planned: readonly Spot[], found: readonly Spot[], { depth, frame }: Bench): Slip[] {
  const sense = (frame.datum === 'bottom') === (frame.a === 'iso') ? 1 : -1;
  const tries: Slip[] = [];
  const add = (ratio: number, make: (ratio: number) => Scaled): void => {
    if (ratio > 0 && Number.isFinite(ratio) && Math.abs(ratio - 1) > tolerance.same) tries.push(make(ratio));
  };
  for (const { machine, height } of samples(found)) {
    if (machine === undefined) continue;
    for (const p of planned.slice(0, Math.ceil(MOST_WORK / 9 / planned.length))) {
      if (Math.abs(p.height - height) <= SAME_PLACE)
        for (const turn of [p.angle, p.angle - 360])
          add(machine.a / (sense * turn), (angles) => ({ kind: 'scaled', lengths: 1, angles }));
      const x = frame.datum === 'bottom' ? p.height : depth - p.height;
      add(machine.x / x, (lengths) => ({ kind: 'scaled', lengths, angles: 1 }));
    }
  }
  return tries;
}

/** The smallest slip is the likeliest; a mirror about some line is less likely than a turn. */
function weight(slip: Slip): number {
  switch (slip.kind) {
    case 'turned':
      return 10 + Math.abs(slip.turn);
    case 'shifted':
      return 10 + Math.abs(slip.along) + 1000 * Math.abs(slip.turn);
    case 'mirrored':
      return slip.turn === 0 ? 0 : 1000 + slip.turn;
    case 'scaled':
      return SCALES.includes(slip) ? 1 : 2000 + Math.abs(Math.log(slip.lengths * slip.angles));
    default:
      return 1;
  }
}

/** Share of planned and found holes that agree in place and size once the plan has slipped so. */
function share(planned: readonly Spot[], found: readonly Spot[], slip: Slip, bench: Bench): number {
  const moved = planned.map((p) => slipped(slip, p, bench.depth));
  const pairing = pair(moved, found, bench.radius, SAME_PLACE);
  // Sizes must agree as well, where they are known: a mirror of the places alone may be chance.
  const hits = pairing.found.filter((f, p) => f >= 0 && sizesAgree(planned[p]!.size, found[f]!.size)).length;
  return hits / Math.max(planned.length, found.length);
}

const sizesAgree = (a: Mm, b: Mm): boolean => !(a > 0 && b > 0) || Math.abs(a - b) <= 0.2;

/** The same once what the machine was told has its right size. */
function scaleShare(planned: readonly Spot[], found: readonly Spot[], slip: Scaled, reach: Mm, bench: Bench): number {
  const meant = found.map((f) => {
    const { x, y, a } = f.machine ?? { x: 0, y: 0, a: 0 };
    return { ...f, ...skinPoint(x / slip.lengths, y / slip.lengths, a / slip.angles, bench.radius, bench.frame) };
  });
  const pairing = pair(planned, meant, bench.radius, reach);
  return pairing.found.filter((f) => f >= 0).length / Math.max(planned.length, found.length);
}

/** Is the plan its own mirror image about the strainer line? Then no dry run can see a wrong sign of A. */
export function isOwnMirror(planned: readonly Spot[], radius: Mm): boolean {
  const mirrored = planned.map((p) => ({ ...p, angle: wrapDeg(-p.angle) }));
  const pairing = pair(mirrored, planned, radius, SAME_PLACE);
  return pairing.found.every((f, p) => f >= 0 && sizesAgree(planned[f]!.size, mirrored[p]!.size));
}
