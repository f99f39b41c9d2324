import type { Tool } from '../model/machine.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import { throughDepth } from './place.ts';
import type { Cut } from './stations.ts';
import { A, X, Y, Z } from './step.ts';

/** Points of one stay of the bit in the wood, thinned out when there are too many. */
const MOST_POINTS = 4096;

export interface Episode {
  active: boolean;
  line: number;
  lastLine: number;
  /** Machine position where it began, and whether the bit came down from above the skin. */
  x0: Mm;
  y0: Mm;
  a0: Deg;
  fromAbove: boolean;
  deepest: Mm;
  sideways: boolean;
  /** It has touched wood. */
  wood: boolean;
  /** Chip load and its time. */
  load: Cut['load'];
  /** x, y, a, depth of the tip, four numbers a point. */
  readonly points: Float64Array;
  count: number;
  stride: number;
  skip: number;
}

const noLoad = (): Cut['load'] => ({ from: Infinity, to: 0, least: Infinity, most: 0 });

export const newEpisode = (): Episode => ({
  active: false,
  line: 0,
  lastLine: 0,
  x0: 0,
  y0: 0,
  a0: 0,
  fromAbove: true,
  deepest: -Infinity,
  sideways: false,
  wood: false,
  load: noLoad(),
  points: new Float64Array(MOST_POINTS * 4),
  count: 0,
  stride: 1,
  skip: 0,
});

const known = (value: number): number => (Number.isNaN(value) ? 0 : value);

export function begin(e: Episode, at: Float64Array, line: number): void {
  e.active = true;
  e.line = line;
  e.x0 = known(at[X]!);
  e.y0 = known(at[Y]!);
  e.a0 = known(at[A]!);
  e.fromAbove = !(at[Z]! < -tolerance.same);
  e.deepest = -Infinity;
  e.sideways = false;
  e.wood = false;
  e.load = noLoad();
  e.count = 0;
  e.stride = 1;
  e.skip = 0;
}

export function visit(e: Episode, x: Mm, y: Mm, a: Deg, z: Mm): void {
  if (-z > e.deepest) e.deepest = -z;
  if (e.skip++ % e.stride !== 0) return;
  if (e.count === MOST_POINTS) {
    for (let i = 0; i < MOST_POINTS / 2; i++) e.points.copyWithin(i * 4, i * 8, i * 8 + 4);
    e.count = MOST_POINTS / 2;
    e.stride *= 2;
  }
  const k = e.count * 4;
  e.points[k] = known(x);
  e.points[k + 1] = known(y);
  e.points[k + 2] = known(a);
  e.points[k + 3] = -z;
  e.count++;
}

/** What the stay made: where its middle is on the machine, and the cut. */
export interface Made {
  readonly x: Mm;
  readonly y: Mm;
  readonly a: Deg;
  readonly cut: Cut;
}

/** Sectors of the circle that a bore must have passed through. */
const SECTORS = 12;

export function endEpisode(e: Episode, tool: Tool | undefined, bench: Bench): Made {
  e.active = false;
  const r = tool === undefined ? 0 : tool.diameter / 2;
  const plain = {
    line: e.line,
    lastLine: e.lastLine,
    pauses: 0,
    shell: 0,
    strokes: 1,
    load: e.load,
    again: [],
    wood: e.wood,
    tool,
  };
  if (!e.sideways) {
    const cut: Cut = {
      kind: 'plunge',
      radius: r,
      widths: { along: r, around: r, aroundInside: r },
      depth: e.deepest,
      ...plain,
    };
    return { x: e.x0, y: e.y0, a: e.a0, cut };
  }
  return roundOrLine(e, r, plain, bench);
}

/**
 * Middle and widths of a walk. Across the shell the bit moves by Y, which keeps its axis upright, or by A, which keeps it
 * radial and so draws the inner skin tighter in the ratio of the radii.
 */
function roundOrLine(e: Episode, r: Mm, plain: Omit<Cut, 'kind' | 'radius' | 'widths' | 'depth'>, bench: Bench): Made {
  const x = span(e, 0);
  const y = span(e, 1);
  const a = span(e, 2);
  const turned = toRad((a.high - a.low) / 2);
  const half = (y.high - y.low) / 2;
  const along = (x.high - x.low) / 2 + r;
  const around = half + bench.radius * turned + r;
  const aroundInside = half + bench.inside * turned + r;
  const middle = { x: (x.low + x.high) / 2, y: (y.low + y.high) / 2, a: (a.low + a.high) / 2 };
  const tight = Math.min(along, aroundInside);
  // A bore is about as wide one way as the other; a score or a slot is not.
  const isRound =
    Math.max(along, around) - r > tolerance.same && Math.min(along, around) - r > 0.25 * (Math.max(along, around) - r);
  const widths = { along, around, aroundInside };
  const kind = isRound ? 'bore' : 'line';
  const depth = isRound ? depthAllRound(e, middle, widths, r, bench) : e.deepest;
  const cut: Cut = { kind, radius: isRound ? tight : r, widths, depth, ...plain };
  if (!isRound) return { ...middle, cut };
  const past = boreThroughDepth(cut, middle, bench) - tolerance.same;
  // An odd polygon reaches further on the side of a corner: its pin stands beside the middle of its widths.
  const aside = reach(e, middle, r, bench.inside, past);
  const pin = { ...middle, x: middle.x + aside.u, y: middle.y + aside.v };
  const open = reach(e, pin, r, bench.inside, past);
  const bore = {
    clear: 2 * open.least,
    size: open.least > 0 ? 2 * open.mean : 0,
    widest: 2 * reach(e, middle, r, bench.inside, 0).most,
  };
  return { ...middle, cut: { ...cut, bore } };
}

function span(e: Episode, offset: 0 | 1 | 2): { low: number; high: number } {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < e.count; i++) {
    const v = e.points[i * 4 + offset]!;
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return { low, high };
}

/** Directions in which a bore is measured. */
const RAYS = 72;
const COSINES = Float64Array.from({ length: RAYS }, (_, i) => Math.cos((2 * Math.PI * i) / RAYS));
const SINES = Float64Array.from({ length: RAYS }, (_, i) => Math.sin((2 * Math.PI * i) / RAYS));

/** Radius cleared in the direction where it is least, where it is most, and of the circle of the same area. */
interface Reach {
  readonly least: Mm;
  readonly most: Mm;
  readonly mean: Mm;
  /** Way from the middle to the middle of what is clear: the first harmonic of the rays. */
  readonly u: Mm;
  readonly v: Mm;
}

/**
 * How far from the middle the bit has cleared, deeper than `past`, at the skin of radius `skin`. Between two stands the bit goes straight: what it clears is the ground between two
 * circles, exact on every ray.
 */
function reach(e: Episode, middle: { x: Mm; y: Mm; a: Deg }, r: Mm, skin: Mm, past: Mm): Reach {
  if (r <= 0) return { least: 0, most: 0, mean: 0, u: 0, v: 0 };
  const far = new Float64Array(RAYS);
  let [pu, pv, pd] = [0, 0, Number.NaN];
  for (let i = 0; i < e.count; i++) {
    const u = e.points[i * 4]! - middle.x;
    const v = e.points[i * 4 + 1]! - middle.y - skin * toRad(e.points[i * 4 + 2]! - middle.a);
    const d = e.points[i * 4 + 3]!;
    if (pd >= past || d >= past) {
      // Only the part of the way that is deep enough counts.
      const from = pd < past ? (past - pd) / (d - pd) : 0;
      const to = d < past ? (past - pd) / (d - pd) : 1;
      const begin = Number.isNaN(pd) ? 1 : from;
      clearWay(far, r, pu + (u - pu) * begin, pv + (v - pv) * begin, pu + (u - pu) * to, pv + (v - pv) * to);
    }
    [pu, pv, pd] = [u, v, d];
  }
  let least = Infinity;
  let most = 0;
  let squares = 0;
  let [su, sv] = [0, 0];
  far.forEach((t, k) => {
    su += t * COSINES[k]!;
    sv += t * SINES[k]!;
    least = Math.min(least, t);
    most = Math.max(most, t);
    squares += t * t;
  });
  return { least, most, mean: Math.sqrt(squares / RAYS), u: (2 * su) / RAYS, v: (2 * sv) / RAYS };
}

/** Lengthens each ray to where a circle of radius r leaves it on its way from p to q. */
function clearWay(far: Float64Array, r: Mm, pu: Mm, pv: Mm, qu: Mm, qv: Mm): void {
  const [du, dv] = [qu - pu, qv - pv];
  const length = Math.hypot(du, dv);
  for (let k = 0; k < RAYS; k++) {
    const [c, s] = [COSINES[k]!, SINES[k]!];
    // At q: q.ray + sqrt(r^2 - (q x ray)^2).
    const aside = qu * s - qv * c;
    if (aside < r && aside > -r) far[k] = Math.max(far[k]!, qu * c + qv * s + Math.sqrt(r * r - aside * aside));
    if (length <= tolerance.noise) continue;
    const start = pu * s - pv * c;
    if (start < r && start > -r) far[k] = Math.max(far[k]!, pu * c + pv * s + Math.sqrt(r * r - start * start));
    // On the way: the line r outside it, on either side, where its foot lies between p and q.
    const across = (du * s - dv * c) / length;
    const offset = (du * pv - dv * pu) / length;
    for (const side of [r, -r]) {
      const t = (offset + side) / across;
      const foot = (t * (du * c + dv * s) - (pu * du + pv * dv)) / length;
      if (t > far[k]! && foot >= 0 && foot <= length) far[k] = t;
    }
  }
}

/** Depth that the outermost turn reached in every direction: a helix that stops early leaves a ramp. */
function depthAllRound(e: Episode, middle: { x: Mm; y: Mm; a: Deg }, widths: Cut['widths'], r: Mm, bench: Bench): Mm {
  const reached = new Float64Array(SECTORS).fill(-Infinity);
  const rx = widths.along - r;
  const rv = widths.around - r;
  let step = 0;
  let px = 0;
  let pv = 0;
  let pd = 0;
  for (let i = 0; i < e.count; i++) {
    const u = (e.points[i * 4]! - middle.x) / rx;
    const v = (e.points[i * 4 + 1]! - middle.y + bench.radius * toRad(e.points[i * 4 + 2]! - middle.a)) / rv;
    const d = e.points[i * 4 + 3]!;
    // Chords are walked in small steps, so that a coarse polygon passes through every sector.
    const parts = step++ === 0 ? 1 : Math.max(1, Math.ceil(Math.hypot(u - px, v - pv) / 0.2));
    for (let p = 1; p <= parts; p++) {
      const t = p / parts;
      const cu = px + (u - px) * t;
      const cv = pv + (v - pv) * t;
      if (step === 1 || cu * cu + cv * cv >= 0.8) {
        const sector = Math.min(SECTORS - 1, Math.floor(((Math.atan2(cv, cu) + Math.PI) / (2 * Math.PI)) * SECTORS));
        reached[sector] = Math.max(reached[sector]!, pd + (d - pd) * t);
      }
    }
    px = u;
    pv = v;
    pd = d;
  }
  return reached.reduce((least, d) => Math.min(least, d), Infinity);
}

/** Depth the tip of a bore must reach so that its flat end is through all round: by Y the whole hole, by A only the bit. */
export const boreThroughDepth = (cut: Cut, at: { readonly x: Mm; readonly y: Mm }, bench: Bench): Mm => {
  const r = cut.tool === undefined ? 0 : cut.tool.diameter / 2;
  const byA = cut.widths.around - cut.widths.aroundInside > tolerance.same;
  return throughDepth(byA ? r : cut.radius, bench.radius, bench.insideAt(at.x, cut.radius), at.y);
};
