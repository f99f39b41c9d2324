import type { Shell } from '../model/jig.ts';
import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Reading } from './readings.ts';

/** How far apart good readings fall, and how well the jig file knows the shell. All common practice, no source; settable. */
export interface ReadingErrors {
  /** One reading with a caliper on the rims of drilled wood, mm. */
  readonly caliper: Mm;
  /** The girth as taped, mm. */
  readonly girth: Mm;
  /** The depth as measured, mm; out of square when that is more. */
  readonly depth: Mm;
  /** Out of round, largest less smallest diameter, when the jig does not say, mm. */
  readonly round: Mm;
  /** Plan against shell before anything is read, mm: so wide that it only holds what no reading holds. */
  readonly plan: Mm;
}

export const READING_ERRORS: ReadingErrors = { caliper: 0.1, girth: 1, depth: 0.5, round: 0.5, plan: 10 };

/** Standard deviation of each reading: caliper, the step the readings are given in, and, for long chords, the oval. */
export function readingSigmas(
  readings: readonly Reading[],
  holes: ReadonlyMap<string, Hole>,
  shell: Pick<Shell, 'radius' | 'round'>,
  errors: ReadingErrors,
): readonly Mm[] {
  const step = stepOf(readings);
  const base = Math.hypot(errors.caliper, step / Math.sqrt(12));
  const round = shell.round ?? errors.round;
  return readings.map((r) => {
    if (r.kind === 'edge') return base;
    const a = holes.get(r.from)!;
    const b = holes.get(r.to)!;
    // An oval of +-round / 2 shows whole across the middle and with the cube of shorter chords (derived: s^3 / 24 rho^2).
    const part = Math.abs(Math.sin((((b.angle - a.angle) / 2) * Math.PI) / 180)) ** 3;
    return Math.hypot(base, (round / (2 * Math.SQRT2)) * part);
  });
}

/** Readings all on whole or half millimetres were not read finer than that. */
function stepOf(readings: readonly Reading[]): Mm {
  if (readings.length < 4) return 0;
  const isMultiple = (step: number): boolean =>
    readings.every((r) => Math.abs(r.value / step - Math.round(r.value / step)) < tolerance.same / 10);
  return [1, 0.5, 0.2].find(isMultiple) ?? 0;
}
