/** Beyond this no sheet, shell or page reaches; a number out there is a fault, not a place. */
const FAR = 1e5;
/** Up to so many digits are put together from whole numbers, at half the cost of the general way. */
const SHORT = 6;
const MILLION = 10 ** SHORT;

/** 0 to 999 as three digits, and the same without zeros at the end. */
const DIGITS = Array.from({ length: 1000 }, (_, i) => String(i).padStart(3, '0'));
const ENDS = DIGITS.map((d) => d.replace(/0+$/, ''));

/**
 * The one door by which a coordinate becomes text: plain decimals, no exponent, never `-0`, trailing zeros dropped.
 * Throws RangeError for a number no machine can go to, so that no file ever holds `NaN`.
 */
export function written(value: number, digits: number): string {
  if (!(Math.abs(value) <= FAR)) throw new RangeError(`unwritable coordinate: ${value}`);
  if (digits > SHORT) {
    const text = value.toFixed(digits);
    const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
    return short === '-0' ? '0' : short;
  }
  const scale = 10 ** digits;
  const steps = Math.round(value * scale);
  const size = Math.abs(steps);
  const whole = Math.floor(size / scale);
  const text = steps < 0 ? `-${whole}` : `${whole}`;
  const part = (size - whole * scale) * (MILLION / scale);
  if (part === 0) return text;
  const high = Math.floor(part / 1000);
  const low = part - 1000 * high;
  return low === 0 ? `${text}.${ENDS[high]}` : `${text}.${DIGITS[high]}${ENDS[low]}`;
}
