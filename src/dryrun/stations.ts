import type { Tool } from '../model/machine.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { toRad, wrapDeg } from '../units/scalar.ts';
import type { Bench } from './context.ts';
import type { CutLoad, HoleLoad } from './load.ts';
import { skinPoint } from './place.ts';

/** One visit of a bit to a place: straight down, round a circle, or along a line. */
export interface Cut {
  readonly kind: 'plunge' | 'bore' | 'line';
  readonly tool: Tool | undefined;
  /** Radius of what the bit sweeps at its full width; for a bore half its tightest width through the wall. */
  readonly radius: Mm;
  /** Half the width of the hole along and around the shell, at the outer and the inner skin. */
  readonly widths: { readonly along: Mm; readonly around: Mm; readonly aroundInside: Mm };
  /** Depth of the tip below Z0 (in the air: negative), down to which the whole width is swept. */
  depth: Mm;
  /**
   * Bores, measured at the inner skin over all directions: least width clear to past it, the circle of the same area, and
   * greatest width.
   */
  bore?: { readonly clear: Mm; readonly size: Mm; readonly widest: Mm };
  /** False: the bit went down in the air, over the shell or beside it. */
  readonly wood: boolean;
  readonly line: number;
  lastLine: number;
  /** Pauses of the program before its last stroke. */
  pauses: number;
  /** Shell in the machine when it was first made, counted from 0 as far as stops tell. */
  shell: number;
  strokes: number;
  readonly load: CutLoad;
  /** Later visits from above that went no deeper: the hole is drilled again, in this shell or the next. */
  readonly again: Again[];
}

export interface Again {
  readonly line: number;
  readonly shell: number;
}

/** A place on the skin that the program visits with a bit. */
export interface Station {
  readonly index: number;
  readonly angle: Deg;
  readonly height: Mm;
  /** Machine position of the axis of the hole; A as written. */
  readonly x: Mm;
  readonly y: Mm;
  readonly a: Deg;
  readonly cuts: Cut[];
  seconds: number;
}

/** Two visits nearer than this belong to one hole (judgement, no source). */
export const SAME_PLACE: Mm = 0.05;
/** A smaller difference of depth is the same depth (judgement, no source). */
export const SAME_DEPTH: Mm = 0.02;
/** Sizes nearer than this are the same size: what a drill may differ from its name (judgement, no source). */
export const SAME_SIZE: Mm = 0.1;
/** More places than this are counted, not kept. */
const MOST_STATIONS = 50_000;
const CELL: Mm = 1;

export interface Stations {
  readonly list: readonly Station[];
  /** The station within `SAME_PLACE` of this tool position, if any. */
  readonly near: (x: Mm, y: Mm, a: Deg, reach?: Mm) => Station | undefined;
  /** The same, or a new one; undefined when there are too many already. */
  readonly at: (x: Mm, y: Mm, a: Deg) => Station | undefined;
  readonly overflowed: () => boolean;
}

export function stations(bench: Bench): Stations {
  const list: Station[] = [];
  const cells = new Map<number, Station[]>();
  const round = 2 * Math.PI * bench.radius;
  const columns = Math.max(1, Math.floor(round / CELL));
  let overflow = false;
  const column = (angle: Deg): number => Math.min(columns - 1, Math.floor((wrapDeg(angle) / 360) * columns));
  const key = (height: Mm, col: number): number => Math.floor(height / CELL) * 100_003 + ((col + columns) % columns);

  function find(angle: Deg, height: Mm, reach: Mm): Station | undefined {
    const cellsOut = Math.max(1, Math.ceil(reach / CELL));
    const col = column(angle);
    let best: Station | undefined;
    let bestGap = reach;
    const look = (some: readonly Station[]): void => {
      for (const s of some) {
        const gap = skinGap(s, { angle, height }, bench.radius);
        if (gap <= bestGap) {
          best = s;
          bestGap = gap;
        }
      }
    };
    // Far out there are more cells than a usual program has places.
    if (list.length < (2 * cellsOut + 1) ** 2) look(list);
    else
      for (let dc = -cellsOut; dc <= cellsOut; dc++)
        for (let dr = -cellsOut; dr <= cellsOut; dr++) look(cells.get(key(height + dr * CELL, col + dc)) ?? []);
    return best;
  }

  function near(x: Mm, y: Mm, a: Deg, reach = SAME_PLACE): Station | undefined {
    const p = skinPoint(x, y, a, bench.radius, bench.frame);
    return find(p.angle, p.height, reach);
  }

  function at(x: Mm, y: Mm, a: Deg): Station | undefined {
    const p = skinPoint(x, y, a, bench.radius, bench.frame);
    const known = find(p.angle, p.height, SAME_PLACE);
    if (known) return known;
    if (list.length >= MOST_STATIONS) {
      overflow = true;
      return undefined;
    }
    const station: Station = { index: list.length, ...p, x, y, a, cuts: [], seconds: 0 };
    list.push(station);
    const k = key(p.height, column(p.angle));
    const cell = cells.get(k);
    if (cell) cell.push(station);
    else cells.set(k, [station]);
    return station;
  }

  return { list, near, at, overflowed: () => overflow };
}

/** Way over the outer skin between two places, mm. */
export function skinGap(p: { angle: Deg; height: Mm }, q: { angle: Deg; height: Mm }, radius: Mm): Mm {
  let turn = Math.abs(wrapDeg(p.angle - q.angle));
  if (turn > 180) turn = 360 - turn;
  return Math.hypot(radius * toRad(turn), p.height - q.height);
}

/** Chip load of each bit that cut here, in the order of the program. */
export const loadsOf = (s: Station): HoleLoad[] =>
  s.cuts
    .filter((c) => c.load.least <= c.load.most)
    .map((c) => ({
      tool: c.tool?.id ?? -1,
      from_s: c.load.from,
      to_s: c.load.to,
      least_mm: c.load.least,
      most_mm: c.load.most,
    }));
