import { median } from '../geometry/statistics.ts';
import type { Hole, Layout } from '../model/layout.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { plannedSpots, predict } from './predict.ts';
import type { Reading, ReadingProblem } from './readings.ts';

/** Fewer readings than this show no habit (judgement, no source). */
const ENOUGH = 6;

/** Ways of writing that fit the plan when the readings do not, as the factor from the plan to what was written. */
const UNITS: readonly (readonly [factor: number, unit: string, tryThis: string])[] = [
  [1 / MM_PER_INCH, 'inches', 'multiply each reading by 25.4'],
  [1 / 10, 'centimetres', 'multiply each reading by 10'],
];
/**
 * How near the median must come to such a factor: a shell is never out by this part of its size (judgement, no
 * source).
 */
const UNIT_WITHIN = 0.05;

/** All readings in another unit: a fault of the file, named with what to do. */
export function unitProblem(readings: readonly Reading[], layout: Layout, holes: Holes): ReadingProblem | undefined {
  if (readings.length < ENOUGH) return undefined;
  const ratio = median(readings.map((r) => r.value / Math.max(1, planned(r, layout, holes, r.over))));
  const unit = UNITS.find(([factor]) => Math.abs(ratio / factor - 1) < UNIT_WITHIN);
  if (unit === undefined) return undefined;
  return {
    line: readings[0]!.line,
    column: 1,
    found: `readings that look like ${unit[1]} (they are about ${ratio.toFixed(3)} of the plan)`,
    allowed: 'millimetres',
    try: unit[2],
  };
}

/** Readings of one kind that were all taken over rims though they say middles (or the reverse). */
export interface RimHabit {
  readonly kind: Reading['kind'];
  /** How far the readings lie beside the plan as they stand, and as they would over these rims. */
  readonly off_mm: Mm;
  readonly over: 'outside' | 'inside';
  readonly left_mm: Mm;
  readonly readings: number;
}

/**
 * Whether most readings said to run from middle to middle fit the plan far better over the rims. Middle against rim is
 * millimetres, a drilling error tenths, so that the medians tell them apart.
 */
export function rimHabits(readings: readonly Reading[], layout: Layout, holes: Holes): readonly RimHabit[] {
  return (['edge', 'chord'] as const).flatMap((kind): RimHabit[] => {
    const some = readings.filter((r) => r.kind === kind && r.over === 'centres');
    if (some.length < ENOUGH) return [];
    const off = (over: Reading['over']): Mm =>
      median(some.map((r) => Math.abs(r.value - planned(r, layout, holes, over))));
    const asWritten = off('centres');
    const [over, left] = (['outside', 'inside'] as const)
      .map((o) => [o, off(o)] as const)
      .reduce((best, o) => (o[1] < best[1] ? o : best));
    return asWritten > 1 && left < asWritten / 3
      ? [{ kind, off_mm: asWritten, over, left_mm: left, readings: some.length }]
      : [];
  });
}

type Holes = ReadonlyMap<string, Hole>;

function planned(r: Reading, layout: Layout, holes: Holes, over: Reading['over']): Mm {
  const ends = [holes.get(r.from), holes.get(r.to)].filter((h) => h !== undefined);
  return predict({ ...r, over }, holes, plannedSpots(ends), { radius: layout.radius, depth: layout.depth }).value;
}
