import type { Tool } from '../model/machine.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { boreThroughDepth, depthAllRound, reach } from './bore-reach.ts';
import type { Bench } from './context.ts';
import type { Episode } from './episode.ts';
import type { Cut } from './stations.ts';

/** What the stay made: where its middle is on the machine, and the cut. */
export interface Made {
  readonly x: Mm;
  readonly y: Mm;
  readonly a: Deg;
  readonly cut: Cut;
}

export function endEpisode(e: Episode, tool: Tool | undefined, bench: Bench): Made {
  e.active = false;
  const r = tool === undefined ? 0 : tool.diameter / 2;
  const plain = {
    line: e.line,
    lastLine: e.lastLine,
    pauses: 0,
    shell: 0,
    strokes: 1,
    load: e.load,
    again: [],
    wood: e.wood,
    tool,
  };
  if (!e.sideways) {
    const cut: Cut = {
      kind: 'plunge',
      radius: r,
      widths: { along: r, around: r, aroundInside: r },
      depth: e.deepest,
      ...plain,
    };
    return { x: e.x0, y: e.y0, a: e.a0, cut };
  }
  return roundOrLine(e, r, plain, bench);
}

/**
 * Middle and widths of a walk. Across the shell the bit moves by Y, which keeps its axis upright, or by A, which keeps it
 * radial and so draws the inner skin tighter in the ratio of the radii.
 */
function roundOrLine(e: Episode, r: Mm, plain: Omit<Cut, 'kind' | 'radius' | 'widths' | 'depth'>, bench: Bench): Made {
  const x = span(e, 0);
  const y = span(e, 1);
  const a = span(e, 2);
  const turned = toRad((a.high - a.low) / 2);
  const half = (y.high - y.low) / 2;
  const along = (x.high - x.low) / 2 + r;
  const around = half + bench.radius * turned + r;
  const aroundInside = half + bench.inside * turned + r;
  const middle = { x: (x.low + x.high) / 2, y: (y.low + y.high) / 2, a: (a.low + a.high) / 2 };
  const tight = Math.min(along, aroundInside);
  // A bore is about as wide one way as the other; a score or a slot is not.
  const isRound =
    Math.max(along, around) - r > tolerance.same && Math.min(along, around) - r > 0.25 * (Math.max(along, around) - r);
  const widths = { along, around, aroundInside };
  const kind = isRound ? 'bore' : 'line';
  const depth = isRound ? depthAllRound(e, middle, widths, r, bench) : e.deepest;
  const cut: Cut = { kind, radius: isRound ? tight : r, widths, depth, ...plain };
  if (!isRound) return { ...middle, cut };
  const past = boreThroughDepth(cut, middle, bench) - tolerance.same;
  // An odd polygon reaches further on the side of a corner: its pin stands beside the middle of its widths.
  const aside = reach(e, middle, r, bench.inside, past);
  const pin = { ...middle, x: middle.x + aside.u, y: middle.y + aside.v };
  const open = reach(e, pin, r, bench.inside, past);
  const bore = {
    clear: 2 * open.least,
    size: open.least > 0 ? 2 * open.mean : 0,
    widest: 2 * reach(e, middle, r, bench.inside, 0).most,
  };
  return { ...middle, cut: { ...cut, bore } };
}

function span(e: Episode, offset: 0 | 1 | 2): { low: number; high: number } {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < e.count; i++) {
    const v = e.points[i * 4 + offset]!;
    if (v < low) low = v;
    if (v > high) high = v;
  }
  return { low, high };
}
