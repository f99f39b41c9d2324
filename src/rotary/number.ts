/** Powers of ten up to the most decimals a profile may ask for, and one more for inches. */
const SCALES = Float64Array.from({ length: 8 }, (_, n) => 10 ** n);
/** 10^decimals, from a table: raising to a power costs more than printing the number. */
export const scaleOf = (decimals: number): number => SCALES[decimals]!;

/** Fractions as text, made once each: a bored drum has fifty thousand numbers and few thousand different fractions. */
const TAILS: string[][] = [];
const MOST_KEPT_DECIMALS = 5;

/** Fixed decimals (0 to 7), never minus nought. Refuses what no machine can go to. */
export function fixed(value: number, decimals: number): string {
  if (!(Math.abs(value) <= 1e6)) throw new RangeError(`unwritable number: ${value}`);
  const scale = SCALES[decimals]!;
  const units = Math.round(Math.abs(value) * scale);
  const sign = value < 0 && units > 0 ? '-' : '';
  if (decimals === 0) return `${sign}${units}`;
  const whole = Math.floor(units / scale);
  return `${sign}${whole}${tail(units - whole * scale, decimals)}`;
}

function tail(units: number, decimals: number): string {
  if (decimals > MOST_KEPT_DECIMALS) return `.${String(units).padStart(decimals, '0')}`;
  TAILS[decimals] ??= new Array<string>(SCALES[decimals]!);
  const kept = TAILS[decimals]!;
  const known = kept[units];
  if (known !== undefined) return known;
  const made = `.${String(units).padStart(decimals, '0')}`;
  kept[units] = made;
  return made;
}
