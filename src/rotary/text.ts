import type { Machine } from '../model/machine.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { BACK_OFF_MM } from './time.ts';
import type { Step, Target } from './types.ts';

export interface TextOptions {
  readonly units: 'mm' | 'in';
  readonly style: 'cycles' | 'long-hand';
  readonly machine: Machine;
}

/** Longest line, characters; the language allows 256 (NISTIR 6556 section 3.3), small displays show fewer. */
const LINE_LIMIT = 79;

/**
 * Program text of the steps, in the subset of RS274/NGC (NISTIR 6556) every controller shares: absolute positions,
 * upper-case words, fixed decimals, no expressions, no arcs. The only place where positions are rounded.
 */
export function programText(steps: readonly Step[], options: TextOptions): string {
  const lines: string[] = [];
  let timed = false;
  for (const step of steps) {
    if (step.kind === 'timed' && !timed) {
      timed = true;
      const [first, ...rest] = stepLines(step, options);
      lines.push(`G93 ${first}`, ...rest);
      continue;
    }
    if (timed && step.kind !== 'timed' && step.kind !== 'comment') {
      timed = false;
      lines.push('G94');
    }
    lines.push(...stepLines(step, options));
  }
  return `${lines.join('\n')}\n`;
}

function stepLines(step: Step, o: TextOptions): string[] {
  switch (step.kind) {
    case 'comment':
      return o.machine.understands.comments === 'none' ? [] : commentLines(step.text);
    case 'setup':
      return [`${o.units === 'in' ? 'G20' : 'G21'} G17 G90 G94 G40 G49 G80 G54`];
    case 'tool':
      return [`T${step.tool.id} M6`];
    case 'length':
      return [`G43 H${step.tool}`];
    case 'spindle':
      return [`S${Math.round(step.speed)} M3`];
    case 'spindle-off':
      return ['M5'];
    case 'dwell':
      return [`G4 P${fixed(step.seconds, 1)}`];
    case 'pause':
      return ['M0'];
    case 'rapid':
      return [`G0${words(step.to, o)}`];
    case 'feed':
      return [`G1${words(step.to, o)} F${feedWord(step.feed, step.to, o)}`];
    case 'timed':
      return [`G1${words(step.to, o)} F${fixed(step.rate, 3)}`];
    case 'drill':
      return o.style === 'cycles' ? cycle(step, o) : longHand(step, o);
    case 'end':
      return ['M2'];
    default: {
      const never: never = step;
      throw new Error(`unknown step ${String(never)}`);
    }
  }
}

type Drill = Extract<Step, { kind: 'drill' }>;

/** R, Z and Q as the text says them, in the program's unit, so that cycle and long-hand output make the same moves. */
function levels(d: Drill, o: TextOptions): { r: number; z: number; q: number; clear: number } {
  const r = printed(d.approach, o);
  const z = printed(d.bottom, o);
  const step = 10 ** -o.machine.understands.decimals;
  // Rounded up, or the last sliver would make one peck too many.
  const q = Math.ceil((r - z) / d.pecks / step - tolerance.noise / step) * step;
  return { r, z, q, clear: printed(d.clearance, o) };
}

/** G98: back to the clearance height. Everything is restated, because leaving a cycle ends what it remembers. */
function cycle(d: Drill, o: TextOptions): string[] {
  const { r, z, q } = levels(d, o);
  const n = (v: number): string => fixed(v, o.machine.understands.decimals);
  const place = `X${length(d.x, o)} Z${n(z)} R${n(r)}`;
  const feed = `F${feedWord(d.feed, { z: 0 }, o)}`;
  return [d.pecks > 1 ? `G98 G83 ${place} Q${n(q)} ${feed}` : `G98 G81 ${place} ${feed}`, 'G80'];
}

/** The cycle's own moves written out; peck k ends at R - k Q, never at the last level less Q. */
function longHand(d: Drill, o: TextOptions): string[] {
  const { r, z, q, clear } = levels(d, o);
  const n = (v: number): string => fixed(v, o.machine.understands.decimals);
  const backOff = o.units === 'in' ? BACK_OFF_MM / MM_PER_INCH : BACK_OFF_MM;
  const feed = feedWord(d.feed, { z: 0 }, o);
  const lines = [`G0 Z${n(r)}`];
  for (let k = 1; k <= d.pecks; k++) {
    if (k > 1) lines.push(`G0 Z${n(r)}`, `G0 Z${n(r - (k - 1) * q + backOff)}`);
    lines.push(`G1 Z${n(k === d.pecks ? z : Math.max(z, r - k * q))} F${feed}`);
  }
  lines.push(`G0 Z${n(clear)}`);
  return lines;
}

/** A position as its text will read, in the program's unit. */
const printed = (mm: Mm, o: TextOptions): number => Number(length(mm, o));

/** A ten-thousandth of an inch is 2.5 micrometres: inches take one decimal more. */
const length = (mm: Mm, o: TextOptions): string => {
  const { decimals } = o.machine.understands;
  return o.units === 'in' ? fixed(mm / MM_PER_INCH, decimals + 1) : fixed(mm, decimals);
};

function words(to: Target, o: TextOptions): string {
  let text = '';
  if (to.x !== undefined) text += ` X${length(to.x, o)}`;
  if (to.y !== undefined) text += ` Y${length(to.y, o)}`;
  if (to.z !== undefined) text += ` Z${length(to.z, o)}`;
  if (to.a !== undefined) text += ` A${fixed(to.a, o.machine.understands.decimals)}`;
  return text;
}

/** Degrees a minute do not change with the unit of length. */
function feedWord(feed: number, to: Target, o: TextOptions): string {
  const linear = to.x !== undefined || to.y !== undefined || to.z !== undefined;
  return linear && o.units === 'in' ? fixed(feed / MM_PER_INCH, 2) : fixed(feed, 1);
}

/**
 * Fixed decimals, never minus nought. Refuses what no machine can go to. By whole numbers, because a bored drum has fifty
 * thousand of them and the built-in formatter takes twice as long.
 */
export function fixed(value: number, decimals: number): string {
  if (!Number.isFinite(value) || Math.abs(value) > 1e6) throw new RangeError(`unwritable number: ${value}`);
  const scale = 10 ** decimals;
  const units = Math.round(Math.abs(value) * scale);
  const sign = value < 0 && units > 0 ? '-' : '';
  if (decimals === 0) return `${sign}${units}`;
  const whole = Math.floor(units / scale);
  return `${sign}${whole}.${String(units - whole * scale).padStart(decimals, '0')}`;
}

/** Plain ASCII without brackets, in lines that fit: a bracket or a newline would end the comment and start to move. */
function commentLines(text: string): string[] {
  const safe = commentSafe(text);
  const lines: string[] = [];
  let line = '';
  for (const word of safe.split(' ').flatMap((w) => chunks(w, LINE_LIMIT - 2))) {
    if (line !== '' && line.length + 1 + word.length > LINE_LIMIT - 2) {
      lines.push(`(${line})`);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(`(${line})`);
  return lines;
}

function chunks(word: string, size: number): string[] {
  const out: string[] = [];
  for (let i = 0; i < word.length; i += size) out.push(word.slice(i, i + size));
  return out;
}

const SPELLED: Readonly<Record<string, string>> = {
  '(': '-',
  ')': '-',
  '%': ' pct',
  ';': ',',
  '°': ' deg',
  '"': ' in',
};

/** The words of a name that may stand in a comment: printable ASCII, no brackets, accents dropped, the rest a dot. */
export const commentSafe = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[()%;°"]/g, (c) => SPELLED[c] ?? '')
    .replace(/\s+/g, ' ')
    .replace(/[^\x20-\x7e]/g, '.')
    .trim()
    .replace(/^msg,/i, 'msg -');
