import type { Deg, Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type CutLoad, noLoad } from './load.ts';
import { A, axisOr0, X, Y, Z } from './step.ts';

/** Points of one stay of the bit in the wood, thinned out when there are too many. */
const MOST_POINTS = 4096;

export interface Episode {
  active: boolean;
  line: number;
  lastLine: number;
  /** Machine position where it began, and whether the bit came down from above the skin. */
  x0: Mm;
  y0: Mm;
  a0: Deg;
  fromAbove: boolean;
  deepest: Mm;
  sideways: boolean;
  /** It has touched wood. */
  wood: boolean;
  load: CutLoad;
  /** x, y, a, depth of the tip, four numbers a point. */
  readonly points: Float64Array;
  count: number;
  stride: number;
  skip: number;
}

export const newEpisode = (): Episode => ({
  active: false,
  line: 0,
  lastLine: 0,
  x0: 0,
  y0: 0,
  a0: 0,
  fromAbove: true,
  deepest: -Infinity,
  sideways: false,
  wood: false,
  load: noLoad(),
  points: new Float64Array(MOST_POINTS * 4),
  count: 0,
  stride: 1,
  skip: 0,
});

export function begin(e: Episode, at: Float64Array, line: number): void {
  e.active = true;
  e.line = line;
  e.x0 = axisOr0(at[X]!);
  e.y0 = axisOr0(at[Y]!);
  e.a0 = axisOr0(at[A]!);
  e.fromAbove = !(at[Z]! < -tolerance.same);
  e.deepest = -Infinity;
  e.sideways = false;
  e.wood = false;
  e.load = noLoad();
  e.count = 0;
  e.stride = 1;
  e.skip = 0;
}

export function visit(e: Episode, x: Mm, y: Mm, a: Deg, z: Mm): void {
  if (-z > e.deepest) e.deepest = -z;
  if (e.skip++ % e.stride !== 0) return;
  if (e.count === MOST_POINTS) {
    for (let i = 0; i < MOST_POINTS / 2; i++) e.points.copyWithin(i * 4, i * 8, i * 8 + 4);
    e.count = MOST_POINTS / 2;
    e.stride *= 2;
  }
  const k = e.count * 4;
  e.points[k] = axisOr0(x);
  e.points[k + 1] = axisOr0(y);
  e.points[k + 2] = axisOr0(a);
  e.points[k + 3] = -z;
  e.count++;
}
