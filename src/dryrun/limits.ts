import { recommend } from '../feeds/feeds.ts';
import type { Machine, Tool } from '../model/machine.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import type { Gatherer } from './gather.ts';
import { lackOf } from './lacks.ts';
import { BREAKS, DOUBTFUL, RUBS } from './load.ts';
import { A, B, C, type Step, X, Y, Z } from './step.ts';
import { feedLength } from './time.ts';

/** A drill turned so many times faster than advised burns its rim (common practice, no source). */
const FAST = 2.5;

/** A dwell of more seconds may be meant in milliseconds (judgement). */
const LONG_DWELL = 60;

/** Watches what the machine and the bit allow, and what the program must set before it moves. */
export interface LimitWatch {
  readonly step: (step: Step) => void;
  readonly finish: (line: number, ended: boolean) => void;
}

export function watchLimits(bench: Bench, g: Gatherer): LimitWatch {
  const { machine } = bench.context;
  const ranges = axisRanges(machine);
  /** Axes now outside: reported when they leave, not while they stay. */
  const outside = new Set<number>();
  const told = new Set<string>();
  const judgedFeeds = new Set<string>();
  let spindle: Step['direction'] = 'off';
  let spindleLine = 0;
  let pausedTurning = 0;
  let moved = false;
  let paused = false;
  /** A change of bit that nothing has waited for yet. */
  let change: { readonly line: number; readonly tool: number } | undefined;

  const once = (id: string, key: string, raise: () => void): void => {
    if (told.has(`${id} ${key}`)) return;
    if (told.size < 10_000) told.add(`${id} ${key}`);
    raise();
  };

  function step(s: Step): void {
    switch (s.kind) {
      case 'rapid':
      case 'feed':
      case 'arc':
        motion(s);
        return;
      case 'spindle':
        spindle = s.direction;
        spindleLine = s.line;
        if (s.direction !== 'off') speed(s);
        return;
      case 'tool':
        if (pausedTurning > 0 && machine.toolChange === 'hand')
          g.raise('stop', 'hand-change-while-turning', {
            at: `line ${pausedTurning}`,
            line: pausedTurning,
            facts: { tool: s.tool },
          });
        pausedTurning = 0;
        spindle = 'off';
        // The first bit is in before the program starts; for the others a hand needs time.
        if (moved && !paused && machine.toolChange === 'hand') change = { line: s.line, tool: s.tool };
        return;
      case 'pause':
        paused = true;
        change = undefined;
        if (spindle === 'off') return;
        pausedTurning = s.line;
        once('pause-while-turning', '', () =>
          g.raise('care', 'pause-while-turning', { at: `line ${s.line}`, line: s.line }),
        );
        return;
      case 'dwell':
        if (s.seconds > LONG_DWELL)
          once('dwell-long', '', () =>
            g.raise('care', 'dwell-long', {
              at: `line ${s.line}`,
              line: s.line,
              measured: s.seconds,
              limit: LONG_DWELL,
              unit: 's',
            }),
          );
        return;
      case 'end':
        if (spindle !== 'off')
          g.raise('care', 'spindle-left-on', { at: `line ${s.line}`, line: s.line, facts: { started: spindleLine } });
        spindle = 'off';
        return;
      default:
        return;
    }
  }

  function motion(s: Step): void {
    pausedTurning = 0;
    if (change !== undefined) changed(change);
    moved = true;
    paused = false;
    change = undefined;
    const { from, to } = s;
    if (Number.isNaN(from[Z]!) && movesAside(s))
      once('z-unknown', '', () => g.raise('stop', 'z-unknown', { at: `line ${s.line}`, line: s.line }));
    for (let axis = 0; axis < 6; axis++) {
      const range = ranges[axis]!;
      const v = to[axis]!;
      const out = v < range.low - tolerance.same || v > range.high + tolerance.same;
      if (out === outside.has(axis)) continue;
      if (!out) outside.delete(axis);
      else {
        outside.add(axis);
        const limit = v < range.low ? range.low : range.high;
        g.raise('stop', range.id, {
          at: `line ${s.line}`,
          line: s.line,
          measured: v,
          limit,
          unit: axis < 3 ? 'mm' : 'deg',
          facts: { axis: 'XYZABC'[axis]!, side: v < range.low ? 'below' : 'above' },
        });
      }
    }
    const lack = lackOf(s, machine.understands);
    if (lack !== undefined) lacks(s, lack);
    if (s.kind !== 'rapid') feed(s);
  }

  const changed = ({ line, tool }: { readonly line: number; readonly tool: number }): void =>
    once('change-not-awaited', '', () =>
      g.raise('note', 'change-not-awaited', { at: `line ${line}`, line, facts: { tool } }),
    );

  const lacks = (s: Step, what: string): void =>
    once('machine-lacks', what, () =>
      g.raise('care', 'machine-lacks', { at: `line ${s.line}`, line: s.line, facts: { what, machine: machine.name } }),
    );

  /** Every motion but straight up or down, or one whose start aside is not known. */
  const movesAside = (s: Step): boolean => [X, Y, A].some((axis) => !stays(s, axis));

  function speed(s: Step): void {
    const { min, max } = machine.spindle;
    const tool = bench.tools.get(s.tool);
    const raise = (id: string, limit: number): void =>
      once(id, `${s.speed} ${s.tool}`, () =>
        g.raise('stop', id, {
          at: `line ${s.line}`,
          line: s.line,
          measured: s.speed,
          limit,
          unit: 'rev/min',
          facts: { tool: s.tool },
        }),
      );
    if (s.speed < min - tolerance.same) raise('speed-outside-spindle', min);
    else if (s.speed > max + tolerance.same) raise('speed-outside-spindle', max);
    else if (tool?.maxSpeed !== undefined && s.speed > tool.maxSpeed + tolerance.same)
      raise('speed-over-bit', tool.maxSpeed);
  }

  function feed(s: Step): void {
    const length = feedLength(s);
    if (length === 0 || Number.isNaN(s.feed)) return;
    const linear = s.kind === 'arc' || !stays(s, X) || !stays(s, Y) || !stays(s, Z);
    if (!linear) return;
    const rate = s.inverse ? s.feed * length : s.feed;
    if (rate > machine.feed + tolerance.same)
      once('feed-over-machine', String(s.feed), () =>
        g.raise('stop', 'feed-over-machine', {
          at: `line ${s.line}`,
          line: s.line,
          measured: rate,
          limit: machine.feed,
          unit: 'mm/min',
        }),
      );
    const straightDown = s.kind === 'feed' && stays(s, X) && stays(s, Y) && stays(s, A) && s.to[Z]! < s.from[Z]!;
    const tool = bench.tools.get(s.tool);
    if (tool === undefined || !(s.speed > 0) || !(s.to[Z]! < 0)) return;
    // A mill is fed along its way; where A turns as well, its speed at the skin is not along X Y Z.
    const milled = tool.kind === 'end-mill' && !straightDown && stays(s, A);
    if (straightDown || milled) judgeFeed(s, tool, rate);
  }

  function judgeFeed(s: Step, tool: Tool, rate: number): void {
    const key = `${tool.id} ${s.speed} ${rate}`;
    if (judgedFeeds.has(key) || judgedFeeds.size > 1000 || tool.kind === 'v-bit') return;
    judgedFeeds.add(key);
    const advice = recommend({ wood: bench.context.shell.wood, tool, depth: bench.context.shell.wall, machine }).value;
    const perRev = rate / s.speed;
    const ratio = perRev / advice.feedPerRev;
    const raise = (level: 'stop' | 'care', id: string): void =>
      g.raise(level, id, {
        at: `line ${s.line}`,
        line: s.line,
        measured: perRev,
        limit: advice.feedPerRev,
        unit: 'mm',
        facts: { tool: tool.id, kind: tool.kind, diameter: tool.diameter, feed: rate, speed: s.speed },
      });
    if (ratio > BREAKS) raise('stop', 'feed-breaks-bit');
    else if (ratio > DOUBTFUL) raise('care', 'feed-high-for-bit');
    else if (ratio < RUBS) raise('care', 'feed-low-for-bit');
    if (s.speed > FAST * advice.speed && tool.kind !== 'end-mill')
      g.raise('care', 'speed-high-for-bit', {
        at: `line ${s.line}`,
        line: s.line,
        measured: s.speed,
        limit: advice.speed,
        unit: 'rev/min',
        facts: { tool: tool.id, kind: tool.kind, diameter: tool.diameter },
      });
  }

  return {
    step,
    finish(line, ended) {
      if (!ended && spindle !== 'off')
        g.raise('stop', 'spindle-left-on', { at: 'end', line, facts: { started: spindleLine } });
    },
  };
}

/** An axis that no line ever moved has no place, and stays there. */
const stays = (s: Step, axis: number): boolean => Object.is(s.to[axis], s.from[axis]) || s.to[axis] === s.from[axis];

interface Range {
  readonly low: number;
  readonly high: number;
  readonly id: string;
}

function axisRanges(m: Machine): Range[] {
  const ranges: Range[] = [];
  ranges[X] = { low: m.travel.x[0], high: m.travel.x[1], id: 'outside-travel' };
  ranges[Y] = m.hasY
    ? { low: m.travel.y[0], high: m.travel.y[1], id: 'outside-travel' }
    : { low: 0, high: 0, id: 'axis-not-there' };
  ranges[Z] = { low: m.travel.z[0], high: m.travel.z[1], id: 'outside-travel' };
  ranges[A] =
    m.rotary === 'endless'
      ? { low: -Infinity, high: Infinity, id: 'axis-wound' }
      : { low: m.rotary[0], high: m.rotary[1], id: 'axis-wound' };
  ranges[B] = { low: 0, high: 0, id: 'axis-not-there' };
  ranges[C] = ranges[B];
  return ranges;
}
