import { type Deg, MM_PER_INCH, type Mm } from './scalar.ts';

/** What a bare number means in a jig file. */
export type FileUnits = 'mm' | 'in';

/** A number in mm or degrees, or why there is none. */
export type Reading = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly why: string };

/** Spellings `readLength` takes, for messages. */
export const LENGTH_SPELLINGS =
  '34 mm, 3.4 cm, 1.5 in, 1-1/2 in, 1 1/2", or a bare number or fraction in the file\'s units';
export const ANGLE_SPELLINGS = '22.5 deg or a bare number of degrees';

const MM_PER_UNIT: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  in: MM_PER_INCH,
  inch: MM_PER_INCH,
  inches: MM_PER_INCH,
  '"': MM_PER_INCH,
};

const VULGAR: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8', // biome-ignore format: one row
};

const NUMBER = /^([+-]?)(?:(\d+)[ -](\d+)\/(\d+)|(\d+)\/(\d+)|(\d+\.?\d*|\.\d+)(e[+-]?\d+)?)$/i;

/**
 * A length from any spelling a builder uses: `34 mm`, `3.4 cm`, `1.5 in`, `1-1/2 in`, `1 1/2"`, `3/4`, `34`. Exact:
 * rounded to 1e-9 mm, so that 14 in is 355.6 and not 355.59999999999997.
 * @param raw text or number
 * @param units what a bare number means
 * @returns mm, of either sign; or why not: NaN, infinite, exponent, two units, division by zero, decimal comma
 * @throws never
 * @source 1 in = 25.4 mm by definition (international yard and pound agreement, 1959)
 */
export function readLength(raw: unknown, units: FileUnits): Reading {
  if (typeof raw === 'number') return finite(raw * (units === 'in' ? MM_PER_INCH : 1));
  if (typeof raw !== 'string') return no('it is not a length');
  const text = tidy(raw);
  const unit = /(?:mm|cm|inches|inch|in|")$/i.exec(text)?.[0]?.toLowerCase();
  const number = (unit === undefined ? text : text.slice(0, -unit.length)).trim();
  const factor = MM_PER_UNIT[unit ?? units];
  const value = readNumber(number);
  if (typeof value === 'string') return no(value);
  return finite(value * (factor as number));
}

/**
 * An angle: `22.5 deg`, `22.5°` or a bare number.
 * @param raw text or number
 * @returns degrees, not wrapped; or why not
 * @throws never
 * @source derived: the spellings of the jig file
 */
export function readAngle(raw: unknown): Reading {
  if (typeof raw === 'number') return finite(raw);
  if (typeof raw !== 'string') return no('it is not an angle');
  const value = readNumber(
    tidy(raw)
      .replace(/(?:degrees|degree|deg|°)$/i, '')
      .trim(),
  );
  return typeof value === 'string' ? no(value) : finite(value);
}

export const inInches = (mm: Mm): number => mm / MM_PER_INCH;

/** Rounded to 1e-9: float dust of the unit factor goes, nothing a bench could see does. */
const clean = (value: number): number => Math.round(value * 1e9) / 1e9 + 0;

const no = (why: string): Reading => ({ ok: false, why });

function finite(value: Mm | Deg): Reading {
  if (Number.isNaN(value)) return no('it is not a number');
  if (!Number.isFinite(value) || Math.abs(value) > 1e9) return no('it is far too large');
  return { ok: true, value: clean(value) };
}

function tidy(raw: string): string {
  return raw
    .replace(/(\d?)([½¼¾⅛⅜⅝⅞])/g, (_, before, f) => `${before}${before === '' ? '' : ' '}${VULGAR[f]}`)
    .replace(/[″”“]|''/g, '"')
    .replace(/[−–]/g, '-')
    .trim()
    .replace(/\s+/g, ' ');
}

/** A number or mixed fraction; a sentence when it is neither. */
function readNumber(text: string): number | string {
  if (text === '') return 'the number is missing';
  if (/^[+-]?\d+,\d+$/.test(text)) return `a decimal comma is not read; write ${text.replace(',', '.')}`;
  const m = NUMBER.exec(text);
  if (!m) return 'it is not a number with at most one unit';
  if (m[8] !== undefined) return 'write the number without an exponent';
  const sign = m[1] === '-' ? -1 : 1;
  if (m[7] !== undefined) return sign * Number(m[7]);
  const [whole, top, under] = m[2] === undefined ? [0, Number(m[5]), Number(m[6])] : [m[2], m[3], m[4]].map(Number);
  if (under === 0) return 'a fraction cannot have 0 below its line';
  return sign * ((whole as number) + (top as number) / (under as number));
}
