import type { Mm } from '../units/scalar.ts';
import type { Sweep } from './sweeps.ts';

/**
 * One place where wood is gone, as lines along X: line j at one angle, layer k at one radius, and on it the stretches of X
 * that the bits have swept, exact along X. The last two layers are the outer and the inner skin.
 */
export interface Site {
  readonly sweeps: readonly Sweep[];
  /** Lines on each layer. */
  readonly lines: number;
  /** Angle of each layer's each line, degrees anticlockwise seen from + X, and the angle it stands for in a sum. */
  readonly turns: Float64Array;
  readonly weights: Float64Array;
  /** Radii of the layers: middles of slabs from the deepest to the outermost, then R, then the inside radius. */
  readonly radii: Float64Array;
  /** Thickness of a slab. */
  readonly slab: Mm;
  /** Up to `STRETCHES` pairs (from, to) for each layer and line. */
  readonly stretches: Float64Array;
  readonly counts: Uint8Array;
  /** Wood gone here, mm^3. */
  readonly volume: number;
}

/** A place while wood is still being taken away. */
export type Grid = Omit<Site, 'volume'>;

/** Stretches kept on a line: bits that overlap unite, and no hole of a drum has more rims beside one another. */
export const STRETCHES = 4;

/** Unites a stretch with those already there. */
export function addStretch(site: Grid, cell: number, from: number, to: number): void {
  const { stretches, counts } = site;
  const base = cell * STRETCHES * 2;
  let n = counts[cell]!;
  let low = from;
  let high = to;
  for (let i = 0; i < n; ) {
    const a = stretches[base + 2 * i]!;
    const b = stretches[base + 2 * i + 1]!;
    if (low >= a && high <= b) return;
    if (low > b || high < a) {
      i++;
      continue;
    }
    low = Math.min(low, a);
    high = Math.max(high, b);
    n--;
    stretches[base + 2 * i] = stretches[base + 2 * n]!;
    stretches[base + 2 * i + 1] = stretches[base + 2 * n + 1]!;
  }
  // Full: the last one is stretched over the gap, which a later bit nearly always fills.
  if (n === STRETCHES) {
    n--;
    low = Math.min(low, stretches[base + 2 * n]!);
    high = Math.max(high, stretches[base + 2 * n + 1]!);
  }
  stretches[base + 2 * n] = low;
  stretches[base + 2 * n + 1] = high;
  counts[cell] = n + 1;
}

/** Length gone on a line. */
export function goneOn(site: Grid, cell: number): Mm {
  const base = cell * STRETCHES * 2;
  let sum = 0;
  for (let i = 0; i < site.counts[cell]!; i++) sum += site.stretches[base + 2 * i + 1]! - site.stretches[base + 2 * i]!;
  return sum;
}

/** Wood gone between the skins, mm^3: the lengths on each layer, over its angles and its thickness. */
export function volumeOf(site: Grid, layers: number): number {
  let volume = 0;
  for (let k = 0; k < layers; k++) {
    let area = 0;
    for (let j = 0; j < site.lines; j++) area += goneOn(site, k * site.lines + j) * site.weights[k * site.lines + j]!;
    volume += area * site.radii[k]!;
  }
  return volume * site.slab;
}
