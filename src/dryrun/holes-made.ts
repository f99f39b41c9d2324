import type { Tool } from '../model/machine.ts';
import { type Deg, type Mm, shorterTurn, toRad } from '../units/scalar.ts';
import { fits } from './bit.ts';
import type { Bench } from './context.ts';
import { skinPoint } from './place.ts';
import { type Cut, SAME_DEPTH, type Stations, skinGap } from './stations.ts';
import { A, axisOr0, X, Y, Z } from './step.ts';

/** How far from the middle of a bored hole a bit may stand in it. */
const WIDEST_HOLE: Mm = 30;

/** Holes that are air to a bit which goes into them: those the program has made, and those that were there before. */
export interface HolesMade {
  /** The hole at this position of the tool that is already wide and deep enough for the bit. */
  readonly at: (p: Float64Array, tool: Tool | undefined) => Cut | 'old' | undefined;
}

export function holesMade(bench: Bench, places: Stations): HolesMade {
  const isInOld = (x: Mm, y: Mm, a: Deg, r: Mm): boolean =>
    (bench.context.shell.holes ?? []).some(
      (old) => skinGap(old, skinPoint(x, y, a, bench.radius, bench.frame), bench.radius) + r <= old.diameter / 2,
    );

  return {
    at(p, tool) {
      const r = tool === undefined ? 0 : tool.diameter / 2;
      const [x, y, a] = [axisOr0(p[X]!), axisOr0(p[Y]!), axisOr0(p[A]!)];
      if (isInOld(x, y, a, r)) return 'old';
      const station = places.near(x, y, a) ?? places.near(x, y, a, WIDEST_HOLE);
      if (!station) return undefined;
      const around = y - station.y - bench.radius * toRad(shorterTurn(station.a, a));
      const aside = Math.hypot(x - station.x, around);
      const depth = -p[Z]!;
      return station.cuts.find((c) => {
        if (!c.wood || c.kind === 'line') return false;
        if (c.kind === 'plunge' && c.tool !== undefined && tool !== undefined)
          return fits(tool, depth, aside, c.tool, c.depth, SAME_DEPTH);
        return c.radius + SAME_DEPTH >= r + aside && c.depth + SAME_DEPTH >= depth;
      });
    },
  };
}
