import type { Thread } from '../model/thread.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { numberedDiameter } from './threads.ts';

/** Holes that let a screw through: tightest, usual and widest of a standard's series, mm. */
export interface ClearanceHoles {
  readonly fine: Mm;
  readonly medium: Mm;
  /** The Unified practice used here has two series only. */
  readonly coarse?: Mm;
  /** What the series are called, in that order. */
  readonly names: readonly string[];
  readonly source: string;
}

/**
 * ISO 273:1979, series fine (H12), medium (H13), coarse (H14), by thread diameter. M3…M8 as reprinted; M3.5 coarse, M2,
 * M2.5, M10 and M12 from memory.
 */
const ISO_273: readonly (readonly [d: Mm, fine: Mm, medium: Mm, coarse: Mm])[] = [
  [2, 2.2, 2.4, 2.6],
  [2.5, 2.7, 2.9, 3.1],
  [3, 3.2, 3.4, 3.6],
  [3.5, 3.7, 3.9, 4.2],
  [4, 4.3, 4.5, 4.8],
  [5, 5.3, 5.5, 5.8],
  [6, 6.4, 6.6, 7],
  [8, 8.4, 9, 10],
  [10, 10.5, 11, 12],
  [12, 13, 13.5, 14.5],
];

/**
 * Close and free fit drills for Unified sizes, US shop practice as in drill charts; #4, 5/16 and 3/8 from memory. ASME
 * B18.2.8 has larger "normal" holes.
 */
const UNIFIED: readonly (readonly [d: Mm, close: Mm, free: Mm])[] = [
  [numberedDiameter(4), 0.116 * MM_PER_INCH, 0.1285 * MM_PER_INCH],
  [numberedDiameter(6), 0.144 * MM_PER_INCH, 0.1495 * MM_PER_INCH],
  [numberedDiameter(8), 0.1695 * MM_PER_INCH, 0.177 * MM_PER_INCH],
  [numberedDiameter(10), 0.196 * MM_PER_INCH, 0.201 * MM_PER_INCH],
  [numberedDiameter(12), 0.221 * MM_PER_INCH, 0.228 * MM_PER_INCH],
  [MM_PER_INCH / 4, 0.257 * MM_PER_INCH, 0.266 * MM_PER_INCH],
  [(5 / 16) * MM_PER_INCH, 0.323 * MM_PER_INCH, 0.332 * MM_PER_INCH],
  [(3 / 8) * MM_PER_INCH, 0.386 * MM_PER_INCH, 0.397 * MM_PER_INCH],
];

/** Diameters this close (mm) are one size, however they were spelled: 12-24 is 5.486 or 5.4864. */
const ONE_SIZE = 0.02;

/**
 * Clearance holes for a screw: its own row of the standard, or, for an odd size, room interpolated between
 * neighbours.
 */
export function clearanceHoles(thread: Thread): ClearanceHoles {
  const d = thread.diameter;
  const unified = UNIFIED.find(([size]) => Math.abs(size - d) < ONE_SIZE);
  if (unified && !thread.name.startsWith('M'))
    return {
      fine: unified[1],
      medium: unified[2],
      names: ['close', 'free'],
      source: 'US shop practice for Unified screws (close and free drill)',
    };
  const names = ['fine', 'medium', 'coarse'];
  const metric = ISO_273.find(([size]) => Math.abs(size - d) < ONE_SIZE);
  if (metric) return { fine: metric[1], medium: metric[2], coarse: metric[3], names, source: 'ISO 273:1979' };
  return {
    fine: d + room(d, 1),
    medium: d + room(d, 2),
    coarse: d + room(d, 3),
    names,
    source: 'derived: between neighbouring sizes of ISO 273:1979',
  };
}

/** The usual hole for a screw (medium or free series), mm. */
export const mediumHole = (thread: Thread): Mm => clearanceHoles(thread).medium;

function room(d: Mm, series: 1 | 2 | 3): Mm {
  const last = ISO_273.length - 1;
  const above = ISO_273.findIndex(([size]) => size > d);
  const i = Math.min(Math.max(above < 0 ? last : above, 1), last);
  const [a, b] = [ISO_273[i - 1] as (typeof ISO_273)[number], ISO_273[i] as (typeof ISO_273)[number]];
  const t = Math.min(1, Math.max(0, (d - a[0]) / (b[0] - a[0])));
  return (1 - t) * (a[series] - a[0]) + t * (b[series] - b[0]);
}
