import type { Thread } from '../model/thread.ts';
import { MM_PER_INCH } from '../units/scalar.ts';

/**
 * Metric coarse pitches, ISO 261 / ISO 262 (from memory), and Unified sizes, ASME B1.1: a numbered size n has a major
 * diameter of 0.060 + 0.013 n inch.
 */
const METRIC_COARSE: Readonly<Record<string, number>> = {
  '2': 0.4,
  '2.5': 0.45,
  '3': 0.5,
  '3.5': 0.6,
  '4': 0.7,
  '5': 0.8,
  '6': 1,
  '7': 1,
  '8': 1.25,
  '10': 1.5,
  '12': 1.75,
};

/** Threads per inch -> series name, for the sizes a drum meets. */
const UNIFIED_SERIES: Readonly<Record<string, string>> = {
  '4-40': 'UNC',
  '6-32': 'UNC',
  '8-32': 'UNC',
  '8-36': 'UNF',
  '10-24': 'UNC',
  '10-32': 'UNF',
  '12-24': 'UNC',
  '12-28': 'UNF',
  '1/4-20': 'UNC',
  '1/4-28': 'UNF',
  '5/16-18': 'UNC',
  '5/16-24': 'UNF',
  '3/8-16': 'UNC',
  '3/8-24': 'UNF',
};

/** Spellings `parseThread` reads, for messages. */
export const THREAD_SPELLINGS = 'M4, M6 x 0.75, 12-24 UNC, #8-32, 1/4-20, 5.5 mm x 1.06 mm';

/** No screw or rod of a drum is thicker, mm (common practice, no source): beyond it stands another measure or a slip. */
const THICKEST = 50;

/** Major diameter of a Unified numbered size, mm (ASME B1.1, from memory: 0.060 + 0.013 n inch). */
export const numberedDiameter = (n: number): number => (0.06 + 0.013 * n) * MM_PER_INCH;

/**
 * A thread from its name: metric `M4`, `M6 x 0.75`; Unified `12-24`, `#12-24 UNC`, `1/4-20`; any other as
 * `diameter x pitch` in mm. Returns undefined when the words are no thread.
 */
export function parseThread(text: string): Thread | undefined {
  const t = text.trim().replace(/[×X]/g, 'x').replace(/[″”“]/g, '"').replace(/\s+/g, ' ');
  const thread = metric(t) ?? unified(t) ?? byDiameterAndPitch(t);
  return thread && thread.diameter <= THICKEST && thread.pitch < thread.diameter ? thread : undefined;
}

function metric(t: string): Thread | undefined {
  const m = /^m ?(\d+(?:\.\d+)?)(?: ?x ?(\d*\.?\d+))?$/i.exec(t);
  if (!m) return undefined;
  const diameter = Number(m[1]);
  const coarse = METRIC_COARSE[String(diameter)];
  const pitch = m[2] === undefined ? coarse : Number(m[2]);
  if (pitch === undefined || pitch <= 0) return undefined;
  return { name: pitch === coarse ? `M${diameter}` : `M${diameter} x ${pitch}`, diameter, pitch };
}

function unified(t: string): Thread | undefined {
  const m = /^(?:#|no\.? ?)?(\d+|\d+\/\d+)"?-(\d+)(?: ?(unc|unf|unef|uns|un))?$/i.exec(t);
  if (!m) return undefined;
  const size = m[1] as string;
  const perInch = Number(m[2]);
  const [top, under] = size.split('/').map(Number) as [number, number?];
  const diameter = under === undefined ? numberedDiameter(top) : (top / under) * MM_PER_INCH;
  if (under === undefined && top > 14) return undefined;
  if (under === 0 || perInch < 4 || perInch > 80) return undefined;
  const series = UNIFIED_SERIES[`${size}-${perInch}`] ?? m[3]?.toUpperCase();
  return {
    name: `${size}-${perInch}${series === undefined ? '' : ` ${series}`}`,
    diameter,
    pitch: MM_PER_INCH / perInch,
  };
}

function byDiameterAndPitch(t: string): Thread | undefined {
  const m = /^(\d*\.?\d+) ?(?:mm)? ?x ?(\d*\.?\d+) ?(?:mm)?$/.exec(t);
  if (!m) return undefined;
  const [diameter, pitch] = [Number(m[1]), Number(m[2])];
  if (!(pitch > 0)) return undefined;
  return { name: `${diameter} x ${pitch}`, diameter, pitch };
}

/** Same thread: diameters and pitches agree to 0.02 mm (12-24 is 5.486 x 1.058 in any spelling). */
export const isSameThread = (a: Thread, b: Thread): boolean =>
  Math.abs(a.diameter - b.diameter) < 0.02 && Math.abs(a.pitch - b.pitch) < 0.02;
