import { recommend } from '../feeds/feeds.ts';
import type { Tool } from '../model/machine.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import { type Gatherer, tellEach } from './gather.ts';
import { BREAKS, DOUBTFUL, RUBS } from './load.ts';
import { A, type Step, stays, X, Y, Z } from './step.ts';
import { feedLength } from './time.ts';

/** A drill turned so many times faster than advised burns its rim (common practice, no source). */
const FAST = 2.5;

/** Watches speeds and feeds: what spindle, axes and bit allow, and what is advised for bit and wood. */
export interface RateWatch {
  /** The spindle is started, or its speed changed. */
  readonly speed: (s: Step) => void;
  readonly feed: (s: Step) => void;
}

export function watchRates(bench: Bench, g: Gatherer): RateWatch {
  const { machine } = bench.context;
  const once = tellEach();
  const judgedFeeds = new Set<string>();

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

  return { speed, feed };
}
