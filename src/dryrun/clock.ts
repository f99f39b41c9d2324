import type { Machine } from '../model/machine.ts';
import type { TimeSplit, ToolTime } from './report.ts';
import { A, type Step, X, Y, Z } from './step.ts';
import { axisLimits, feedLength, moveSeconds } from './time.ts';

/** Adds up the time of a program and where it goes. */
export interface Clock {
  /** Seconds of this step. */
  readonly step: (step: Step) => number;
  readonly split: () => TimeSplit;
  readonly perTool: () => ToolTime[];
  readonly total: () => number;
  readonly moves: () => number;
  readonly pauses: () => number;
  readonly reach: () => Readonly<Record<'x' | 'y' | 'z' | 'a', readonly [number, number] | null>>;
}

const TRACKED = [X, Y, Z, A];

export function clock(machine: Machine): Clock {
  const limits = axisLimits(machine);
  const low = new Float64Array(4).fill(Infinity);
  const high = new Float64Array(4).fill(-Infinity);
  const tools = new Map<number, { seconds: number; feed: number; cut: number }>();
  let here = { seconds: 0, feed: 0, cut: 0 };
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
  let pauses = 0;

  function waited(): number {
    const seconds = runUp;
    runUp = 0;
    spinUp += seconds;
    return seconds;
  }

  function seconds(s: Step): number {
    switch (s.kind) {
      case 'rapid': {
        const t = moveSeconds(s, limits);
        rapid += t;
        return t;
      }
      case 'feed':
      case 'arc': {
        const t = moveSeconds(s, limits);
        const w = waited();
        feed += t;
        here.feed += t;
        here.cut += feedLength(s);
        return t + w;
      }
      case 'dwell':
        dwell += s.seconds;
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
        here = tools.get(s.tool) ?? { seconds: 0, feed: 0, cut: 0 };
        if (tools.size < 1000) tools.set(s.tool, here);
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
      const t = seconds(s);
      here.seconds += t;
      return t;
    },
    split: () => ({ rapid, feed, dwell, spinUp, toolChange }),
    perTool: () =>
      [...tools]
        .filter(([, t]) => t.seconds > 0)
        .map(([tool, t]) => ({ tool, seconds: t.seconds, feed: t.feed, holes: 0, cut_mm: t.cut })),
    total: () => rapid + feed + dwell + spinUp + toolChange,
    moves: () => moves,
    pauses: () => pauses,
    reach: () => {
      const of = (i: number): readonly [number, number] | null => (low[i]! <= high[i]! ? [low[i]!, high[i]!] : null);
      return { x: of(0), y: of(1), z: of(2), a: of(3) };
    },
  };
}
