import type { Deg, Mm } from '../units/scalar.ts';

/** One hole as `plan.json` and `holes.csv` print it: angle rounded to 5 decimals, mm to 4. */
export interface PlanHole {
  readonly id: string;
  readonly fitting: string;
  readonly role: string;
  /** 0 <= angle < 360. */
  readonly angle_deg: Deg;
  /** Along the outside from the strainer line, growing with the angle. */
  readonly arc_mm: Mm;
  /** Above the bottom edge. */
  readonly height_mm: Mm;
  readonly from_top_mm: Mm;
  readonly drill_mm: Mm;
  readonly pilot_mm: Mm | null;
}
