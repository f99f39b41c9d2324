import { mustBeNear, newInk, putNumber, textOf } from './ink.ts';

/** Digits after the point that `putNumber` can do. */
const SHORT = 6;

/** Used again for every number: a buffer of its own for each would cost more than the number. */
const ink = newInk();

/** A number as a text of its own, by the rules of `putNumber`; more than six digits where a ratio or an angle needs them. */
export function written(value: number, digits: number): string {
  if (digits <= SHORT) {
    ink.length = 0;
    putNumber(ink, value, digits);
    return textOf(ink);
  }
  mustBeNear(value);
  const text = value.toFixed(digits).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}
