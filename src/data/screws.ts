import type { Thread } from '../model/thread.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';

/** Plain washers, ISO 7089:2000 (as reprinted; M3.5 from memory): thread, largest outside diameter, thickness, mm. */
const WASHERS: readonly (readonly [d: Mm, outside: Mm, thickness: Mm])[] = [
  [3, 7, 0.5],
  [3.5, 8, 0.5],
  [4, 9, 0.8],
  [5, 10, 1],
  [6, 12, 1.6],
];

/** Outside diameter of the plain washer for a screw, mm: ISO 7089, next size up; twice the diameter beyond M6. */
export const washerOutside = (thread: Thread): Mm =>
  WASHERS.find(([d]) => thread.diameter <= d)?.[1] ?? 2 * thread.diameter;

/**
 * Heights of hexagon nuts by screw diameter, mm: ISO 4032 for metric, ASME B18.6.3 machine screw nuts for numbered and
 * quarter-inch screws (both from memory).
 */
const NUTS: readonly (readonly [d: Mm, height: Mm])[] = [
  [2.845, 2.38],
  [3, 2.4],
  [3.505, 2.78],
  [4, 3.2],
  [4.166, 3.18],
  [4.826, 3.18],
  [5, 4.7],
  [5.486, 3.97],
  [6, 5.2],
  [6.35, 4.76],
  [8, 6.8],
];

/** Height of a nut for this screw, mm; eight tenths of the diameter where no table has it (common practice, no source). */
export const nutHeight = (thread: Thread): Mm =>
  NUTS.find(([d]) => Math.abs(d - thread.diameter) < SAME_THREAD)?.[1] ?? Math.round(8 * thread.diameter) / 10;

/** Diameters this near (mm) are the same screw. */
const SAME_THREAD = 0.03;

/** Usual lengths under the head: metric screws (ISO 888, from memory), mm. */
const METRIC_LENGTHS: readonly Mm[] = [
  5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80,
];

/** Usual lengths under the head: inch machine screws (common practice, no source), in eighths. */
const INCH_EIGHTHS: readonly number[] = [2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24, 28, 32];

const isMetric = (thread: Thread): boolean => thread.name.startsWith('M') || !thread.name.includes('-');

/** Lengths under the head a shop sells for this thread, mm, shortest first. */
const screwLengths = (thread: Thread): readonly Mm[] =>
  isMetric(thread) ? METRIC_LENGTHS : INCH_EIGHTHS.map((n) => (n / 8) * MM_PER_INCH);

/** The sold lengths within [from, to] mm. */
export const screwLengthsWithin = (thread: Thread, from: Mm, to: Mm): readonly Mm[] =>
  screwLengths(thread).filter((l) => l >= from && l <= to);

/** A length as it is sold: `16 mm`, or `5/8 in` for an inch screw. */
export function screwLengthName(thread: Thread, length: Mm): string {
  if (isMetric(thread)) return `${Math.round(length * 10) / 10} mm`;
  let [top, under] = [Math.round((length / MM_PER_INCH) * 8), 8];
  while (top % 2 === 0 && under > 1) [top, under] = [top / 2, under / 2];
  const whole = Math.floor(top / under);
  const rest = top - whole * under;
  return rest === 0 ? `${whole} in` : `${whole === 0 ? '' : `${whole}-`}${rest}/${under} in`;
}
