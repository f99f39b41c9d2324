import type { Machine } from '../model/machine.ts';
import { axisSeconds } from './time.ts';

/** A place the bit goes to: X in mm, A in degrees. As a start, an X that is not a number means: wherever it pleases. */
export interface Station {
  readonly x: number;
  readonly a: number;
}

/** Seconds between two stations: A indexes on its own line, X on its own, as the program writes them. */
export type Cost = (p: Station, q: Station) => number;

export const travelCost =
  ({ rapid, acceleration }: Machine): Cost =>
  (p, q) =>
    (Number.isNaN(p.x) ? 0 : axisSeconds(Math.abs(q.x - p.x), rapid.x / 60, acceleration.x)) +
    axisSeconds(Math.abs(q.a - p.a), rapid.a / 60, acceleration.a);

/** Up to this many stations every pair is looked at, from a table. */
export const FULL_UP_TO = 300;

/** Every leg's seconds, from a table while that is small. Station -1 is the start; one past the end is free. */
export class Legs {
  readonly count: number;
  readonly stations: readonly Station[];
  readonly start: Station;
  readonly cost: Cost;
  readonly table: Float64Array | undefined;

  constructor(stations: readonly Station[], start: Station, cost: Cost) {
    this.stations = stations;
    this.start = start;
    this.cost = cost;
    const n = stations.length;
    this.count = n;
    if (n > FULL_UP_TO) return;
    this.table = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) {
        const c = cost(stations[i]!, stations[j]!);
        this.table[i * n + j] = c;
        this.table[j * n + i] = c;
      }
    }
  }

  between(i: number, j: number): number {
    if (this.table && i >= 0) return this.table[i * this.count + j]!;
    return this.cost(i < 0 ? this.start : this.stations[i]!, this.stations[j]!);
  }

  length(order: readonly number[]): number {
    let at = -1;
    let sum = 0;
    for (const i of order) {
      sum += this.between(at, i);
      at = i;
    }
    return sum;
  }
}
