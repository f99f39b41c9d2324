import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A box to place, with the gap to its neighbours already added. */
export interface Item {
  readonly key: number;
  readonly width: Mm;
  readonly height: Mm;
  /** Whether it may lie turned by a quarter. */
  readonly turns: boolean;
}

export interface Spot {
  readonly key: number;
  readonly bin: number;
  readonly x: Mm;
  readonly y: Mm;
  readonly turned: boolean;
}

interface Rect {
  readonly x: Mm;
  readonly y: Mm;
  readonly w: Mm;
  readonly h: Mm;
}

const EPS = tolerance.noise;

/**
 * Boxes into as few bins of one size as a few good orders find. Every order is tried with two rules of choice; fewer bins
 * win, then the emptier last bin. Items must fit a bin on their own. Same input, same answer.
 */
export function packBoxes(items: readonly Item[], width: Mm, height: Mm): Spot[] {
  const long = (i: Item): Mm => Math.max(i.width, i.height);
  const short = (i: Item): Mm => Math.min(i.width, i.height);
  const orders: ((a: Item, b: Item) => number)[] = [
    (a, b) => b.width * b.height - a.width * a.height,
    (a, b) => long(b) - long(a) || short(b) - short(a),
    (a, b) => short(b) - short(a) || long(b) - long(a),
  ];
  let best: { spots: Spot[]; bins: number; rest: number } | undefined;
  for (const order of orders) {
    const sorted = [...items].sort((a, b) => order(a, b) || a.key - b.key);
    for (const rule of [shortSide, lowest]) {
      const spots = fill(sorted, width, height, rule);
      const bins = Math.max(-1, ...spots.map((s) => s.bin)) + 1;
      const rest = areaIn(items, spots, bins - 1);
      if (best === undefined || bins < best.bins || (bins === best.bins && rest < best.rest - EPS))
        best = { spots, bins, rest };
    }
  }
  return best?.spots ?? [];
}

/** Boxes in the order given, each as low as it goes. */
export const packLow = (items: readonly Item[], width: Mm, height: Mm): Spot[] => fill(items, width, height, lowest);

function areaIn(items: readonly Item[], spots: readonly Spot[], bin: number): number {
  const size = new Map(items.map((i) => [i.key, i.width * i.height]));
  return spots.filter((s) => s.bin === bin).reduce((sum, s) => sum + (size.get(s.key) ?? 0), 0);
}

/** How good a place is, smaller is better, in two steps. */
type Rule = (free: Rect, w: Mm, h: Mm) => readonly [number, number];
const shortSide: Rule = (f, w, h) => [Math.min(f.w - w, f.h - h), Math.max(f.w - w, f.h - h)];
const lowest: Rule = (f, _w, h) => [f.y + h, f.x];

function fill(items: readonly Item[], width: Mm, height: Mm, rule: Rule): Spot[] {
  const bins: Rect[][] = [];
  return items.map((item) => {
    for (let bin = 0; ; bin++) {
      if (bin === bins.length) bins.push([{ x: 0, y: 0, w: width, h: height }]);
      const free = bins[bin] as Rect[];
      const spot = choose(item, free, rule);
      if (spot === undefined) {
        if (bin > items.length) throw new RangeError('an item larger than the bin');
        continue;
      }
      const [w, h] = spot.turned ? [item.height, item.width] : [item.width, item.height];
      bins[bin] = cut(free, { x: spot.x, y: spot.y, w, h });
      return { ...spot, key: item.key, bin };
    }
  });
}

function choose(item: Item, free: readonly Rect[], rule: Rule): Pick<Spot, 'x' | 'y' | 'turned'> | undefined {
  let best: { spot: Pick<Spot, 'x' | 'y' | 'turned'>; score: readonly [number, number] } | undefined;
  for (const turned of item.turns ? [false, true] : [false]) {
    const [w, h] = turned ? [item.height, item.width] : [item.width, item.height];
    for (const f of free) {
      if (w > f.w + EPS || h > f.h + EPS) continue;
      const score = rule(f, w, h);
      if (
        best === undefined ||
        score[0] < best.score[0] - EPS ||
        (score[0] < best.score[0] + EPS && score[1] < best.score[1] - EPS)
      ) {
        best = { spot: { x: f.x, y: f.y, turned }, score };
      }
    }
  }
  return best?.spot;
}

/** Largest free rectangles once `taken` is put down; those inside another are dropped. */
function cut(free: readonly Rect[], taken: Rect): Rect[] {
  const kept: Rect[] = [];
  const made: Rect[] = [];
  const [right, top] = [taken.x + taken.w, taken.y + taken.h];
  for (const f of free) {
    const [east, north] = [f.x + f.w, f.y + f.h];
    if (taken.x >= east - EPS || right <= f.x + EPS || taken.y >= north - EPS || top <= f.y + EPS) {
      kept.push(f);
      continue;
    }
    if (taken.x > f.x + EPS) made.push({ x: f.x, y: f.y, w: taken.x - f.x, h: f.h });
    if (right < east - EPS) made.push({ x: right, y: f.y, w: east - right, h: f.h });
    if (taken.y > f.y + EPS) made.push({ x: f.x, y: f.y, w: f.w, h: taken.y - f.y });
    if (top < north - EPS) made.push({ x: f.x, y: top, w: f.w, h: north - top });
  }
  // What is left whole lay in no other before, and what is cut off is part of what was: only the new can lie within others.
  const before = kept.length;
  for (let i = 0; i < made.length; i++) {
    const r = made[i] as Rect;
    let inOther = false;
    for (let k = 0; k < before && !inOther; k++) inOther = isWithin(r, kept[k] as Rect);
    for (let k = 0; k < made.length && !inOther; k++) {
      const other = made[k] as Rect;
      inOther = k !== i && isWithin(r, other) && (k < i || !isWithin(other, r));
    }
    if (!inOther) kept.push(r);
  }
  return kept;
}

const isWithin = (a: Rect, b: Rect): boolean =>
  a.x >= b.x - EPS && a.y >= b.y - EPS && a.x + a.w <= b.x + b.w + EPS && a.y + a.h <= b.y + b.h + EPS;
