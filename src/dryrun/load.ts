import { recommend } from '../feeds/feeds.ts';
import type { Machine, Tool } from '../model/machine.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import type { Bench } from './context.ts';
import { A, type Step, X, Y, Z } from './step.ts';
import { feedLength } from './time.ts';

/**
 * Beyond so many times the advised feed per revolution a bit is likely to break or the shell to split; beyond half as
 * many, or below a quarter of it, look twice. Common practice, no source.
 */
export const BREAKS = 4;
export const DOUBTFUL = 2;
export const RUBS = 0.25;

/** One tool's chip load over the time of the program. */
export interface ToolLoad {
  readonly tool: number;
  /** What this bit bears in this wood, mm a lip; null: no such bit in the jig, or one that only marks. */
  readonly allowed_mm: readonly [Mm, Mm] | null;
  /** Begin of the stretch of time, least and greatest chip in it; stretches without a cut are left out. */
  readonly series: readonly (readonly [seconds: number, least: Mm, most: Mm])[];
}

export interface ChipLoad {
  /** Length of a stretch of time. */
  readonly seconds_each: number;
  readonly tools: readonly ToolLoad[];
}

/** Chip load of one cut in the wood, mm a lip, and when, s; least above most: none was measured. */
export interface CutLoad {
  from: number;
  to: number;
  least: Mm;
  most: Mm;
}

export const noLoad = (): CutLoad => ({ from: Infinity, to: 0, least: Infinity, most: 0 });

export function widenLoad(load: CutLoad, by: CutLoad): void {
  load.from = Math.min(load.from, by.from);
  load.to = Math.max(load.to, by.to);
  load.least = Math.min(load.least, by.least);
  load.most = Math.max(load.most, by.most);
}

/** Chips of one bit in one hole. */
export interface HoleLoad {
  readonly tool: number;
  readonly from_s: number;
  readonly to_s: number;
  readonly least_mm: Mm;
  readonly most_mm: Mm;
}

/**
 * Feed a lip of a feed move, mm: feed / (speed x lips), along the way over the outer skin where A turns. NaN without feed
 * or speed.
 */
export function chipOf(s: Step, tool: Tool, radius: Mm): Mm {
  const tip = feedLength(s);
  const turn = toRad(s.to[A]! - s.from[A]! || 0) * radius;
  const way = s.kind === 'arc' || turn === 0 ? tip : Math.hypot(moved(s, X), moved(s, Y), moved(s, Z), turn);
  // Inverse time: so many such moves a minute. Else the feed is that of X, Y and Z, and A keeps pace.
  const rate = s.inverse ? s.feed * way : tip > 0 ? (s.feed * way) / tip : s.feed;
  return rate / (s.speed * Math.max(1, tool.lips));
}

const moved = (s: Step, axis: number): number => s.to[axis]! - s.from[axis]! || 0;

/** Stretches of time that are told apart; when the program takes longer, each becomes twice as long. */
const STRETCHES = 240;
/** A program with more bits than this is no drilling program. */
const MOST_TOOLS = 100;

interface Bins {
  readonly least: Float64Array;
  readonly most: Float64Array;
}

export interface LoadRecorder {
  readonly add: (tool: number, from: number, to: number, chip: Mm) => void;
  readonly result: (bench: Bench) => ChipLoad;
}

/** Keeps least and greatest chip of each bit for each stretch of time, in memory that does not grow with the program. */
export function recordLoad(): LoadRecorder {
  const tools = new Map<number, Bins>();
  let each = 1;

  function widen(): void {
    each *= 2;
    for (const { least, most } of tools.values()) {
      for (let i = 0; i < STRETCHES; i++) {
        const [p, q] = [2 * i, 2 * i + 1];
        least[i] = p < STRETCHES ? Math.min(least[p]!, least[q]!) : Infinity;
        most[i] = p < STRETCHES ? Math.max(most[p]!, most[q]!) : 0;
      }
    }
  }

  return {
    add(tool, from, to, chip) {
      if (!Number.isFinite(chip) || !Number.isFinite(to)) return;
      while (to >= each * STRETCHES) widen();
      let bins = tools.get(tool);
      if (bins === undefined) {
        if (tools.size >= MOST_TOOLS) return;
        bins = { least: new Float64Array(STRETCHES).fill(Infinity), most: new Float64Array(STRETCHES) };
        tools.set(tool, bins);
      }
      for (let i = Math.floor(from / each); i <= Math.floor(to / each); i++) {
        bins.least[i] = Math.min(bins.least[i]!, chip);
        bins.most[i] = Math.max(bins.most[i]!, chip);
      }
    },
    result: (bench) => ({
      seconds_each: each,
      tools: [...tools].map(([tool, { least, most }]) => ({
        tool,
        allowed_mm: allowed(bench.tools.get(tool), bench.context.machine, bench),
        series: [...least].flatMap((low, i) => (low <= most[i]! ? [[i * each, low, most[i]!] as const] : [])),
      })),
    }),
  };
}

function allowed(tool: Tool | undefined, machine: Machine, bench: Bench): readonly [Mm, Mm] | null {
  if (tool === undefined || tool.kind === 'v-bit') return null;
  const { wood, wall } = bench.context.shell;
  const { feedPerLip } = recommend({ wood, tool, depth: wall, machine }).value;
  return [RUBS * feedPerLip, DOUBTFUL * feedPerLip];
}
