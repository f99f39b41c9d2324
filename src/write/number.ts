/** Beyond this no sheet, shell or page reaches; a number out there is a fault, not a place. */
const FAR = 1e5;
/** ECMAScript writes numbers from 1e-6 up without an exponent. */
const SHORT = 6;

/**
 * The one door by which a coordinate becomes text: plain decimals, no exponent, never `-0`, trailing zeros dropped.
 * Throws RangeError for a number no machine can go to, so that no file ever holds `NaN`.
 */
export function written(value: number, digits: number): string {
  if (!Number.isFinite(value) || Math.abs(value) > FAR) throw new RangeError(`unwritable coordinate: ${value}`);
  if (digits <= SHORT) {
    // The shortest decimal of a number rounded so has no more than `digits` places, and none below 1e-6 has an exponent.
    const scale = 10 ** digits;
    return String(Math.round(value * scale) / scale || 0);
  }
  const text = value.toFixed(digits);
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}
