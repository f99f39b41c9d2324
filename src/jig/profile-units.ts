import { MM_PER_INCH } from '../units/scalar.ts';
import type { JigIssue } from './complaint.ts';

export type ProfileResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly issues: readonly JigIssue[] };

/** No bed or page (mm) is so small on its longer side, nor so large: such figures are in another unit. */
export const BEDS = [100, 10_000] as const;
/** A page of more than 14400 points a side is beyond PDF (ISO 32000-1, annex C.2): 5080 mm. */
export const PAGES = [100, 5_000] as const;

/** Other units a size may have been written in, by the length of one in mm. */
const UNITS = [
  ['inches', MM_PER_INCH],
  ['centimetres', 10],
  ['metres', 1000],
  ['micrometres', 0.001],
] as const;

/** Sizes that cannot be millimetres are sent back, with what they would be in the units that make sense of them. */
export function inMillimetres<T extends { readonly width: number; readonly height: number }>(
  read: ProfileResult<T>,
  what: string,
  [least, most]: readonly [number, number],
): ProfileResult<T> {
  if (!read.ok) return read;
  const { width, height } = read.value;
  const long = Math.max(width, height);
  if (long >= least && long <= most) return read;
  const size = (by: number): string => [width, height].map((v) => Number((v * by).toFixed(1))).join(' x ');
  const meant = UNITS.filter(([, by]) => long * by >= least && long * by <= most / 2);
  const cure =
    meant.length === 0
      ? 'write it in mm'
      : `write it in mm: as ${meant.map(([unit, by]) => `${unit} it is ${size(by)}`).join(', as ')}`;
  return {
    ok: false,
    issues: [
      {
        path: [width >= height ? 'width' : 'height'],
        found: `a ${what} of ${width} x ${height} mm`,
        allowed: `millimetres, ${least} to ${most} on the longer side`,
        try: cure,
      },
    ],
  };
}
