import fc from 'fast-check';
import { parseThread } from '../../src/data/threads.ts';
import { type FileUnits, readAngle, readLength } from '../../src/units/length.ts';
import type { Fuzzed } from './suite.ts';

/** A length as a builder writes it, and the same as a fraction of whole numbers. */
interface Written {
  readonly text: string;
  readonly units: FileUnits;
  /** Millimetres, exactly: top over bottom, in decimal digits; null for text that may be anything. */
  readonly exact: readonly [top: string, bottom: string] | null;
}

/** The international inch is 254/10 mm by definition (yard and pound agreement, 1959); no float is used here. */
const UNITS: Readonly<Record<string, readonly [bigint, bigint]>> = {
  mm: [1n, 1n],
  MM: [1n, 1n],
  cm: [10n, 1n],
  in: [254n, 10n],
  inch: [254n, 10n],
  inches: [254n, 10n],
  '"': [254n, 10n],
  '″': [254n, 10n],
  '”': [254n, 10n],
  "''": [254n, 10n],
};
const VULGAR: Readonly<Record<string, readonly [bigint, bigint]>> = {
  '½': [1n, 2n],
  '¼': [1n, 4n],
  '¾': [3n, 4n],
  '⅛': [1n, 8n],
  '⅜': [3n, 8n],
  '⅝': [5n, 8n],
  '⅞': [7n, 8n],
};

interface Parts {
  readonly sign: string;
  readonly whole: number;
  readonly digits: string;
  readonly top: number;
  readonly bottom: number;
  readonly vulgar: string;
  readonly form: 'decimal' | 'fraction' | 'mixed' | 'hyphened' | 'vulgar' | 'vulgar-alone';
  readonly unit: string;
  readonly gap: string;
  readonly units: FileUnits;
}

const sound: fc.Arbitrary<Written> = fc
  .record<Parts>({
    sign: fc.constantFrom('', '', '', '-', '+', '−'),
    whole: fc.nat(9999),
    digits: fc.stringMatching(/^\d{0,6}$/),
    top: fc.nat(999),
    bottom: fc.integer({ min: 1, max: 999 }),
    vulgar: fc.constantFrom(...Object.keys(VULGAR)),
    form: fc.constantFrom('decimal', 'fraction', 'mixed', 'hyphened', 'vulgar', 'vulgar-alone'),
    unit: fc.constantFrom('', ...Object.keys(UNITS)),
    gap: fc.constantFrom('', ' ', '  ', '\u00a0', '\t'),
    units: fc.constantFrom('mm', 'in'),
  })
  .map((p) => {
    const [number, top, bottom] = spelt(p);
    const [a, b] = UNITS[p.unit === '' ? p.units : p.unit]!;
    const negative = p.sign === '-' || p.sign === '−';
    return {
      text: `${p.sign}${number}${p.gap}${p.unit}`,
      units: p.units,
      exact: [String((negative ? -top : top) * a), String(bottom * b)],
    };
  });

function spelt(p: Parts): [string, bigint, bigint] {
  const [w, t, b] = [BigInt(p.whole), BigInt(p.top), BigInt(p.bottom)];
  const [vt, vb] = VULGAR[p.vulgar]!;
  switch (p.form) {
    case 'decimal':
      return [
        p.digits === '' ? `${p.whole}` : `${p.whole}.${p.digits}`,
        BigInt(`${p.whole}${p.digits}`),
        10n ** BigInt(p.digits.length),
      ];
    case 'fraction':
      return [`${p.top}/${p.bottom}`, t, b];
    case 'mixed':
      return [`${p.whole} ${p.top}/${p.bottom}`, w * b + t, b];
    case 'hyphened':
      return [`${p.whole}-${p.top}/${p.bottom}`, w * b + t, b];
    case 'vulgar':
      return [`${p.whole}${p.vulgar}`, w * vb + vt, vb];
    case 'vulgar-alone':
      return [p.vulgar, vt, vb];
    default: {
      const never: never = p.form;
      throw new Error(`unknown form ${String(never)}`);
    }
  }
}

const piece = fc.constantFrom(
  ...'0123456789.,-+/ "″′½⅞\'eE',
  'mm',
  'cm',
  'in',
  'inch',
  ' ',
  'ft',
  'm',
  '1/2',
  '−',
  'x',
  '٣',
  '１',
);
const anything: fc.Arbitrary<Written> = fc.record({
  text: fc.oneof(
    fc.array(piece, { maxLength: 8 }).map((p) => p.join('')),
    fc.string({ maxLength: 12, unit: 'binary' }),
  ),
  units: fc.constantFrom('mm', 'in'),
  exact: fc.constant(null),
});

/**
 * Lengths, angles and threads: what is written in a known spelling is the fraction it stands for; what is read reads back
 * the same when printed; what is not is refused in words, and nothing but one number with one unit is ever read.
 */
export const lengths: Fuzzed<Written> = {
  name: 'lengths',
  short: 500,
  inputs: fc.oneof({ weight: 2, arbitrary: sound }, { weight: 1, arbitrary: anything }),
  holds({ text, units, exact }) {
    const read = readLength(text, units);
    if (exact !== null) {
      if (!read.ok) throw new Error(`${text} is refused: ${read.why}`);
      // Rounded to 1e-9 mm, and a float of a few metres carries about 1e-12 of its own.
      const scale = 1_000_000_000_000n;
      const want = Number((BigInt(exact[0]) * scale) / BigInt(exact[1])) / 1e12;
      if (Math.abs(read.value - want) > 6e-10 + 4e-16 * Math.abs(want))
        throw new Error(`${text} is ${read.value}, not ${want} mm`);
    }
    for (const r of [read, readAngle(text)]) {
      if (!r.ok && r.why.trim() === '') throw new Error(`${text} is refused without a word`);
      if (r.ok && !Number.isFinite(r.value)) throw new Error(`${text} is ${r.value}`);
    }
    if (read.ok) {
      const again = readLength(`${read.value.toFixed(9)} mm`, units);
      if (!again.ok || again.value !== read.value) throw new Error(`${read.value} reads back ${JSON.stringify(again)}`);
      // A unit's letters, a number's signs, and the fractions' own characters.
      const rest = text.replace(/mm|cm|inches|inch|in|''|["″”“]|[\d.+\-−–/\s½¼¾⅛⅜⅝⅞]/gi, '');
      if (rest !== '' || !/[\d½¼¾⅛⅜⅝⅞]/.test(text)) throw new Error(`${JSON.stringify(text)} was read as a length`);
    }
    const thread = parseThread(text);
    if (thread !== undefined && !(thread.pitch > 0 && thread.diameter > thread.pitch && thread.diameter <= 50))
      throw new Error(`${text} is a thread ${JSON.stringify(thread)}`);
  },
};
