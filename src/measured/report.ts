import type { Deg, Mm } from '../units/scalar.ts';
import type { Closure } from './close.ts';
import type { FittingVerdict } from './goes.ts';
import type { RimHabit } from './habits.ts';
import type { Misreading } from './misread.ts';
import type { Reading, ReadingProblem } from './readings.ts';

export interface MeasuredHole {
  readonly id: string;
  readonly fitting: string;
  /** Null when no reading says where it is round the shell. Turned so that the middle hole is where the plan has it. */
  readonly angle_deg: Deg | null;
  readonly height_mm: Mm | null;
  /** Beside the plan: to the right, and up. */
  readonly off_around_mm: Mm | null;
  readonly off_along_mm: Mm | null;
  readonly off_mm: Mm | null;
  /** Standard deviation of its place among the holes it was measured with. */
  readonly sigma_mm: Mm | null;
  /** How many readings touch it, and whether each of them is checked by others. */
  readonly readings: number;
  readonly crossChecked: boolean;
}

export interface TestedReading extends Reading {
  readonly fitted_mm: Mm;
  readonly residual_mm: Mm;
  /** Residual over its standard deviation; 0 when nothing else checks the reading. */
  readonly score: number;
}

/** Where the holes are and what to do about it; lengths in mm, angles in degrees. */
export interface MeasuredReport {
  /** Lines that could not be read; when there are any, nothing else was reckoned. */
  readonly problems: readonly ReadingProblem[];
  readonly counts: { readonly read: number; readonly blank: number; readonly used: number };
  /** How many times as wide as supposed (0.1 mm) the readings scatter; at least 1. */
  readonly scatter: number;
  readonly shell: { readonly diameter_mm: Mm; readonly depth_mm: Mm };
  readonly holes: readonly MeasuredHole[];
  /** All that is screwed on; a vent or a lone hole without a screw has nothing that must go on. */
  readonly fittings: readonly FittingVerdict[];
  readonly readings: readonly TestedReading[];
  readonly misreadings: readonly Misreading[];
  /** Readings longer than this shell allows. */
  readonly impossible: readonly { readonly reading: Reading; readonly most_mm: Mm }[];
  /** Readings that say middles and fit the plan only over rims. */
  readonly rimHabits: readonly RimHabit[];
  readonly closures: readonly Closure[];
}
