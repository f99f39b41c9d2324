import type { FlatPoint } from '../model/frames.ts';
import { type Ink, put, putNumber } from './ink.ts';

/** A nanometre: ends that were one point before rounding are one point after, and contours stay closed to 1e-6 mm. */
export const DIGITS = 6;

/** X and Y of a point, by the group code of its X. */
export function putFlat(ink: Ink, code: 10 | 11, p: FlatPoint): void {
  put(ink, code === 10 ? '\n10\n' : '\n11\n');
  putNumber(ink, p.x, DIGITS);
  put(ink, code === 10 ? '\n20\n' : '\n21\n');
  putNumber(ink, p.y, DIGITS);
}

/** The same with its height, 0. */
export function putPoint(ink: Ink, code: 10 | 11, p: FlatPoint): void {
  putFlat(ink, code, p);
  put(ink, code === 10 ? '\n30\n0' : '\n31\n0');
}
