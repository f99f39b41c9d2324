import type { Machine } from '../model/machine.ts';
import type { Axis, Step, Target } from './types.ts';

/** Axes in the order their numbers are kept in. */
const AXES: readonly Axis[] = ['x', 'y', 'z', 'a'];

/** One axis alone: `length` at up to `v` a second and `a` a second squared, from standstill to standstill. */
export const axisSeconds = (length: number, v: number, a: number): number =>
  length >= (v * v) / a ? length / v + v / a : 2 * Math.sqrt(length / a);

/** A machine that counts the seconds of the moves it is told to make. */
class Stopwatch {
  seconds = 0;
  readonly #at = [0, 0, 0, 0];
  readonly #speed: readonly number[];
  readonly #push: readonly number[];

  constructor(machine: Machine) {
    this.#speed = AXES.map((axis) => machine.rapid[axis] / 60);
    this.#push = AXES.map((axis) => machine.acceleration[axis]);
  }

  /**
   * Time of a move by constant acceleration, full stop at both ends: with w the largest share of the move a second and
   * q of it a second squared that keep every axis within its limits, 1 / w + w / q, or 2 / sqrt(q) when it never reaches
   * w (textbook kinematics). `feed` in mm/min along XYZ, or deg/min when only A moves; `rate` in moves a minute.
   */
  go(to: Target, feed = Number.POSITIVE_INFINITY, rate = Number.POSITIVE_INFINITY): void {
    let w = rate / 60;
    let q = Number.POSITIVE_INFINITY;
    let squares = 0;
    let turned = 0;
    for (let i = 0; i < 4; i++) {
      const end = to[AXES[i]!];
      if (end === undefined) continue;
      const d = Math.abs(end - this.#at[i]!);
      this.#at[i] = end;
      if (d === 0) continue;
      if (i === 3) turned = d;
      else squares += d * d;
      w = Math.min(w, this.#speed[i]! / d);
      q = Math.min(q, this.#push[i]! / d);
    }
    if (q === Number.POSITIVE_INFINITY) return;
    w = Math.min(w, feed / 60 / (squares > 0 ? Math.sqrt(squares) : turned));
    this.seconds += w * w <= q ? 1 / w + w / q : 2 / Math.sqrt(q);
  }

  /** A turn of a helix: its length at a speed that X and Y reach and whose v^2 / r they can bend round the circle. */
  circle({ orbit, z, feed }: Extract<Step, { kind: 'circle' }>): void {
    const length = Math.hypot(2 * Math.PI * orbit, z - this.#at[2]!);
    const push = Math.min(this.#push[0]!, this.#push[1]!);
    const v = Math.min(feed / 60, this.#speed[0]!, this.#speed[1]!, Math.sqrt(push * orbit));
    this.#at[2] = z;
    this.seconds += axisSeconds(length, v, push);
  }
}

/** Seconds of a step list: moves, dwells, spindle starts and tool changes. Hands at a pause are not counted. */
export function programSeconds(steps: readonly Step[], machine: Machine): number {
  const watch = new Stopwatch(machine);
  addSeconds(steps, machine, watch, new Map());
  return watch.seconds;
}

/** A visit takes as long again as the first time, but for the way to its hole, which is its first move. */
function addSeconds(steps: readonly Step[], machine: Machine, watch: Stopwatch, visits: Map<Step, number>): void {
  for (const s of steps) {
    if (s.kind === 'rapid') watch.go(s.to);
    else if (s.kind === 'feed') watch.go(s.to, s.feed);
    else if (s.kind === 'timed') watch.go(s.to, undefined, s.rate);
    else if (s.kind === 'dwell') watch.seconds += s.seconds;
    else if (s.kind === 'tool') watch.seconds += machine.toolChangeSeconds;
    else if (s.kind === 'circle') watch.circle(s);
    else if (s.kind === 'drill') drillOne(s, watch);
    else if (s.kind === 'visit') {
      const [over, ...rest] = s.steps;
      addSeconds([over!], machine, watch, visits);
      const known = visits.get(s);
      if (known !== undefined) watch.seconds += known;
      else {
        const before = watch.seconds;
        addSeconds(rest, machine, watch, visits);
        visits.set(s, watch.seconds - before);
      }
    }
  }
}

function drillOne(s: Extract<Step, { kind: 'drill' }>, watch: Stopwatch): void {
  const stroke = (s.approach - s.bottom) / s.pecks;
  watch.go({ x: s.x });
  watch.go({ z: s.approach });
  for (let k = 1; k <= s.pecks; k++) {
    if (k > 1) {
      watch.go({ z: s.approach });
      watch.go({ z: s.approach - (k - 1) * stroke + BACK_OFF_MM });
    }
    watch.go({ z: s.approach - k * stroke }, s.feed);
  }
  watch.go({ z: s.clearance });
}

/**
 * Between pecks the bit comes back this short of the bottom: 0.254 mm (0.010 in), the constant the published reference
 * interpreter of NISTIR 6556 uses for G83; the report itself gives no figure.
 */
export const BACK_OFF_MM = 0.254;
