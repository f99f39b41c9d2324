import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import type { Episode } from './episode.ts';
import { throughDepth } from './place.ts';
import type { Cut } from './stations.ts';

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
export function reach(e: Episode, middle: { x: Mm; y: Mm; a: Deg }, r: Mm, skin: Mm, past: Mm): Reach {
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

/** Sectors of the circle that a bore must have passed through. */
const SECTORS = 12;

/** Depth that the outermost turn reached in every direction: a helix that stops early leaves a ramp. */
export function depthAllRound(
  e: Episode,
  middle: { x: Mm; y: Mm; a: Deg },
  widths: Cut['widths'],
  r: Mm,
  bench: Bench,
): Mm {
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
