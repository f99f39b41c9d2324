import type { PlanHole } from '../model/plan.ts';

const COLUMNS = [
  'id',
  'fitting',
  'role',
  'angle_deg',
  'arc_mm',
  'height_mm',
  'from_top_mm',
  'drill_mm',
  'pilot_mm',
] as const;

/**
 * `holes.csv`: one hole a line; `angle_deg` with 5 decimals, mm with 4, an empty pilot where there is none. Decimal
 * point whatever the locale.
 * @param holes as the plan lists them, degrees and mm
 * @returns the file's text, lines ended by LF
 * @throws RangeError for a number that is not finite or over 100 m
 * @source RFC 4180, with LF
 */
export function holesCsv(holes: readonly PlanHole[]): string {
  const lines = holes.map((h) =>
    COLUMNS.map((c) => {
      const v = h[c];
      return v === null ? '' : typeof v === 'number' ? v.toFixed(c === 'angle_deg' ? 5 : 4) : v;
    }).join(','),
  );
  return `${[COLUMNS.join(','), ...lines].join('\n')}\n`;
}
