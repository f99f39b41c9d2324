import type { Machine } from '../model/machine.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { commentLines } from './comment.ts';
import { fixed, scaleOf } from './number.ts';
import { BACK_OFF_MM } from './time.ts';
import type { Step, Target } from './types.ts';

export interface TextOptions {
  readonly units: 'mm' | 'in';
  readonly style: 'cycles' | 'long-hand';
  readonly machine: Machine;
}

/**
 * Program text of the steps, in the subset of RS274/NGC (NISTIR 6556) that controllers share: absolute positions,
 * upper-case words, fixed decimals, no expressions; arcs, cycles, inverse time, comments and line numbers only as the
 * machine's profile says. The only place where positions are rounded.
 */
export function programText(steps: readonly Step[], options: TextOptions): string {
  const lines: string[] = [];
  addLines(steps, options, lines, new Map());
  const { lineNumbers } = options.machine.understands;
  return `${(lineNumbers ? lines.map(numbered()) : lines).join('\n')}\n`;
}

function addLines(
  steps: readonly Step[],
  o: TextOptions,
  lines: string[],
  visits: Map<Step, readonly [from: number, to: number]>,
): void {
  let timed = false;
  for (const step of steps) {
    if (timed && step.kind !== 'timed' && step.kind !== 'comment') {
      timed = false;
      lines.push('G94');
    }
    if (step.kind === 'visit') {
      const known = visits.get(step);
      const from = lines.length;
      if (known) for (let i = known[0]; i < known[1]; i++) lines.push(lines[i]!);
      else {
        addLines(step.steps, o, lines, visits);
        visits.set(step, [from, lines.length]);
      }
      continue;
    }
    const made = stepLines(step, o);
    const text = step.kind === 'timed' && !timed ? `G93 ${made}` : made;
    timed ||= step.kind === 'timed';
    if (typeof text === 'string') lines.push(text);
    else lines.push(...text);
  }
}

/** Most a line number may be: five digits (NISTIR 6556 section 3.3.1). They may repeat: a long program starts again. */
const LAST_NUMBER = 99_999;

/** Every line that does something begins with N and its number; comments keep none. */
function numbered(): (line: string) => string {
  let n = 0;
  return (line) => {
    if (line.startsWith('(') || line.startsWith(';')) return line;
    n = n === LAST_NUMBER ? 1 : n + 1;
    return `N${n} ${line}`;
  };
}

function stepLines(step: Exclude<Step, { kind: 'visit' }>, o: TextOptions): string | string[] {
  switch (step.kind) {
    case 'comment':
      return commentLines(step.text, o.machine.understands.comments);
    case 'setup':
      return `${o.units === 'in' ? 'G20' : 'G21'} G17 G90 G94 G40 G49 G80 G54`;
    case 'tool':
      return `T${step.tool.id} M6`;
    case 'length':
      return `G43 H${step.tool}`;
    case 'spindle':
      return `S${Math.round(step.speed)} M3`;
    case 'spindle-off':
      return 'M5';
    case 'dwell':
      // Rounded up: a spindle still running up burns the first hole.
      return `G4 P${up(step.seconds, Math.min(1, o.machine.understands.decimals))}`;
    case 'pause':
      return 'M0';
    case 'rapid':
      return `G0${words(step.to, o)}`;
    case 'feed':
      return `G1${words(step.to, o)} F${feedWord(step.feed, step.to, o)}`;
    case 'timed':
      return `G1${words(step.to, o)} F${down(step.rate, Math.min(3, o.machine.understands.decimals))}`;
    case 'circle':
      return circle(step, o);
    case 'drill':
      return o.style === 'cycles' ? cycle(step, o) : longHand(step, o);
    case 'end':
      return 'M2';
    default: {
      const never: never = step;
      throw new Error(`unknown step ${String(never)}`);
    }
  }
}

type Drill = Extract<Step, { kind: 'drill' }>;

/**
 * A turn anticlockwise round the middle, back to where it began: a full circle, whose ends lie at the same distance from
 * the middle however few decimals there are.
 */
function circle(c: Extract<Step, { kind: 'circle' }>, o: TextOptions): string {
  const way = `X${length(c.x + c.orbit, o)} Y${length(c.y, o)} Z${length(c.z, o)}`;
  return `G3 ${way} I${length(-c.orbit, o)} J${length(0, o)} F${feedWord(c.feed, { z: c.z }, o)}`;
}

/** R, Z and Q as the text says them, in the program's unit, so that cycle and long-hand output make the same moves. */
function levels(d: Drill, o: TextOptions): { r: number; z: number; q: number; clear: number } {
  const r = printed(d.approach, o);
  const z = printed(d.bottom, o);
  const step = 10 ** -places(o);
  // Rounded up, or the last sliver would make one peck too many.
  const q = Math.ceil((r - z) / d.pecks / step - tolerance.noise / step) * step;
  return { r, z, q, clear: printed(d.clearance, o) };
}

/** G98: back to the clearance height. Everything is restated, because leaving a cycle ends what it remembers. */
function cycle(d: Drill, o: TextOptions): string[] {
  const { r, z, q } = levels(d, o);
  const n = (v: number): string => fixed(v, places(o));
  const place = `X${length(d.x, o)} Z${n(z)} R${n(r)}`;
  const feed = `F${feedWord(d.feed, { z: 0 }, o)}`;
  return [d.pecks > 1 ? `G98 G83 ${place} Q${n(q)} ${feed}` : `G98 G81 ${place} ${feed}`, 'G80'];
}

/** The cycle's own moves written out; peck k ends at R - k Q, never at the last level less Q. */
function longHand(d: Drill, o: TextOptions): string[] {
  const { r, z, q, clear } = levels(d, o);
  const n = (v: number): string => fixed(v, places(o));
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
const places = (o: TextOptions): number => o.machine.understands.decimals + (o.units === 'in' ? 1 : 0);

const length = (mm: Mm, o: TextOptions): string => fixed(o.units === 'in' ? mm / MM_PER_INCH : mm, places(o));

function words(to: Target, o: TextOptions): string {
  const { x, y, z, a } = to;
  let text = '';
  if (x !== undefined) text += ` X${length(x, o)}`;
  if (y !== undefined) text += ` Y${length(y, o)}`;
  if (z !== undefined) text += ` Z${length(z, o)}`;
  if (a !== undefined) text += ` A${fixed(a, o.machine.understands.decimals)}`;
  return text;
}

/** Degrees a minute do not change with the unit of length. */
function feedWord(feed: number, to: Target, o: TextOptions): string {
  const linear = to.x !== undefined || to.y !== undefined || to.z !== undefined;
  const inches = linear && o.units === 'in';
  return down(inches ? feed / MM_PER_INCH : feed, Math.min(inches ? 2 : 1, places(o)));
}

/** A rate rounded down, or it would pass the machine's own limit; but never to nought, which does not move. */
function down(value: number, decimals: number): string {
  const scale = scaleOf(decimals);
  return fixed(Math.max(1, Math.floor(value * scale * (1 + tolerance.noise))) / scale, decimals);
}

/** Seconds rounded up: a spindle still running up burns the first hole. */
function up(value: number, decimals: number): string {
  const scale = 10 ** decimals;
  return fixed(Math.ceil(value * scale * (1 - tolerance.noise)) / scale, decimals);
}
