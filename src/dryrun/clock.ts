import type { Machine } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { blender, type Leg } from './blend.ts';
import type { TimeSplit, ToolTime } from './report.ts';
import { A, type Step, X, Y, Z } from './step.ts';
import { axisLimits, feedLength, legOf, moveSeconds } from './time.ts';

/** Adds up the time of a program and where it goes. */
export interface Clock {
  /** Seconds of this step. */
  readonly step: (step: Step) => number;
  /** To be called after the last step: seconds that were still open. */
  readonly finish: () => number;
  readonly split: () => TimeSplit;
  readonly perTool: () => ToolTime[];
  readonly total: () => number;
  readonly moves: () => number;
  readonly pauses: () => number;
  readonly reach: () => Readonly<Record<'x' | 'y' | 'z' | 'a', readonly [number, number] | null>>;
}

/** Tools told apart; a program that names more is no drilling program. */
const MOST_TOOLS = 1000;
const TRACKED = [X, Y, Z, A];

interface Share {
  seconds: number;
  feed: number;
  cut: number;
  least: number;
  most: number;
}

const newShare = (): Share => ({ seconds: 0, feed: 0, cut: 0, least: Infinity, most: 0 });

/** `skin`: radius at which A's corners are rounded in G64. */
export function clock(machine: Machine, skin: Mm): Clock {
  const limits = axisLimits(machine);
  const low = new Float64Array(4).fill(Infinity);
  const high = new Float64Array(4).fill(-Infinity);
  const tools = new Map<number, Share>();
  let here = newShare();
  tools.set(-1, here);
  let rapid = 0;
  let feed = 0;
  let dwell = 0;
  let spinUp = 0;
  let toolChange = 0;
  /** What is left of the spindle's run-up; a dwell after M3 runs beside it. */
  let runUp = 0;
  let turning = false;
  let moves = 0;
  const ahead = blender();
  let running: 'rapid' | 'feed' | 'none' = 'none';
  let pauses = 0;

  function waited(): number {
    const seconds = runUp;
    runUp = 0;
    spinUp += seconds;
    return seconds;
  }

  /** Ends the run of blended moves at rest, unless a move of kind `next` goes on with it. */
  function settle(next: 'rapid' | 'feed' | 'none'): number {
    if (running === 'none' || running === next) return 0;
    const t = ahead.stop();
    if (running === 'rapid') rapid += t;
    else {
      feed += t;
      here.feed += t;
    }
    here.seconds += t;
    running = 'none';
    return t;
  }

  /** Feed a turn, where the tip is below the high spot and X, Y or Z is what moves. */
  function turnFeed(s: Step): void {
    if (!(s.to[Z]! < 0) || !(s.speed > 0) || s.inverse || Number.isNaN(s.feed)) return;
    const perTurn = s.feed / s.speed;
    here.least = Math.min(here.least, perTurn);
    here.most = Math.max(here.most, perTurn);
  }

  /** Seconds of a move that have become certain with it. */
  function moving(kind: 'rapid' | 'feed', leg: Leg | undefined, s: Step): number {
    if (leg === undefined) return moveSeconds(s, limits);
    running = kind;
    return ahead.add(leg);
  }

  function seconds(s: Step): number {
    switch (s.kind) {
      case 'rapid': {
        const leg = legOf(s, limits, skin);
        const before = settle(leg ? 'rapid' : 'none');
        const t = moving('rapid', leg, s);
        rapid += t;
        here.seconds += t;
        return before + t;
      }
      case 'feed':
      case 'arc': {
        const leg = legOf(s, limits, skin);
        const before = settle(leg ? 'feed' : 'none');
        const w = waited();
        const t = moving('feed', leg, s);
        feed += t;
        here.feed += t;
        here.seconds += t + w;
        here.cut += feedLength(s);
        turnFeed(s);
        return before + w + t;
      }
      default:
        return settle('none') + standing(s);
    }
  }

  /** Seconds of a step that moves nothing. */
  function standing(s: Step): number {
    switch (s.kind) {
      case 'dwell':
        dwell += s.seconds;
        here.seconds += s.seconds;
        runUp = Math.max(0, runUp - s.seconds);
        return s.seconds;
      case 'spindle':
        if (s.direction !== 'off' && !turning) runUp = machine.spindle.seconds;
        if (s.direction === 'off') runUp = 0;
        turning = s.direction !== 'off';
        return 0;
      case 'tool':
        turning = false;
        runUp = 0;
        toolChange += machine.toolChangeSeconds;
        here = tools.get(s.tool) ?? newShare();
        if (tools.size < MOST_TOOLS) tools.set(s.tool, here);
        here.seconds += machine.toolChangeSeconds;
        return machine.toolChangeSeconds;
      case 'pause':
        pauses++;
        return 0;
      default:
        return 0;
    }
  }

  return {
    step(s) {
      if (s.kind === 'rapid' || s.kind === 'feed' || s.kind === 'arc') {
        moves++;
        for (let i = 0; i < 4; i++) {
          const v = s.to[TRACKED[i]!]!;
          if (v < low[i]!) low[i] = v;
          if (v > high[i]!) high[i] = v;
        }
      }
      return seconds(s);
    },
    finish: () => settle('none'),
    split: () => ({ rapid, feed, dwell, spinUp, toolChange }),
    perTool: () =>
      [...tools]
        .filter(([, t]) => t.seconds > 0)
        .map(([tool, t]) => ({
          tool,
          seconds: t.seconds,
          feed: t.feed,
          holes: 0,
          cut_mm: t.cut,
          feed_per_turn_mm: t.least <= t.most ? [t.least, t.most] : null,
        })),
    total: () => rapid + feed + dwell + spinUp + toolChange,
    moves: () => moves,
    pauses: () => pauses,
    reach: () => {
      const of = (i: number): readonly [number, number] | null => (low[i]! <= high[i]! ? [low[i]!, high[i]!] : null);
      return { x: of(0), y: of(1), z: of(2), a: of(3) };
    },
  };
}
