import { choleskySolve } from './least-squares.ts';

/**
 * min m over (shift x, shift y, turn) with |d_i| <= reach_i + grow_i m, d_i = (x_i + shift x + turn ax_i, y_i + shift y +
 * turn ay_i): a second-order cone problem in at most four unknowns. Flat numbers, because a simulation solves it ten
 * thousand times.
 */
export interface Cones {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly ax: Float64Array;
  readonly ay: Float64Array;
  readonly reach: Float64Array;
  /** 1: the miss widens this reach; 0: the reach is a hard limit. */
  readonly grow: Float64Array;
  readonly turns: boolean;
}

/** Where the problem stands: shift, turn, miss, and the barrier's weight it was last centred for. */
export interface Stand {
  shiftX: number;
  shiftY: number;
  turn: number;
  miss: number;
  weight: number;
}

/** Growth of the barrier's weight from one point of the path to the next. */
const PATH_STEP = 30;
/** Newton's decrement squared below which a point is on the path (the barrier has no unit). */
const NEWTON_DONE = 1 / 1024;
/** Step length below which float error, not the problem, stops the search. */
const STEP_GIVES_UP = 2 ** -30;
/** Newton steps at one weight; twenty are many. */
const MOST_STEPS = 50;

/**
 * Follows the barrier's central path from a strictly feasible start to within `within` of the least miss: at weight t the
 * miss is at most 2 n / t above it (Boyd and Vandenberghe, Convex Optimization, section 11.3). Stops early once the miss
 * is below `enough`.
 */
export function descend(c: Cones, from: Stand, within: number, enough = Number.NEGATIVE_INFINITY): Stand {
  const n = c.x.length;
  const size = c.turns ? 4 : 3;
  const s = { ...from };
  const step = new Float64Array(size);
  const gradient = new Float64Array(size);
  const hessian = new Float64Array(size * size);
  const last = (2 * n) / within;
  for (let t = from.weight; ; t = Math.min(last, t * PATH_STEP)) {
    for (let k = 0; k < MOST_STEPS; k++) {
      slopes(c, s, t, gradient, hessian);
      if (!choleskySolve(hessian, size, gradient, step)) break;
      let decrement = 0;
      for (let j = 0; j < size; j++) decrement += gradient[j]! * step[j]!;
      if (decrement < NEWTON_DONE) break;
      const long = stepLength(c, s, step, t, decrement);
      if (long === 0) break;
      s.shiftX -= long * step[0]!;
      s.shiftY -= long * step[1]!;
      if (c.turns) s.turn -= long * step[2]!;
      s.miss -= long * step[size - 1]!;
      if (s.miss < enough) return s;
    }
    s.weight = t;
    // A weight that is no number, or nought, of a hole that is nowhere or infinitely far, ends it too.
    if (!(t > 0 && t < last)) return s;
  }
}

/** Gradient and Hessian (lower half) of t m - sum log(r_i^2 - |d_i|^2). */
function slopes(c: Cones, s: Stand, t: number, gradient: Float64Array, hessian: Float64Array): void {
  const size = gradient.length;
  const e = size - 1;
  gradient.fill(0);
  hessian.fill(0);
  gradient[e] = t;
  for (let i = 0; i < c.x.length; i++) {
    const ax = c.ax[i]!;
    const ay = c.ay[i]!;
    const x = c.x[i]! + s.shiftX + s.turn * ax;
    const y = c.y[i]! + s.shiftY + s.turn * ay;
    const g = c.grow[i]!;
    const r = c.reach[i]! + g * s.miss;
    const u = r * r - x * x - y * y;
    // Half of grad u is (-x, -y, -d.a, g r); the barrier's Hessian is 4 h h' / u^2 less (second derivative of u) / u.
    const turn = -(x * ax + y * ay);
    const grow = g * r;
    const a = 4 / (u * u);
    const b = 2 / u;
    gradient[0]! += b * x;
    gradient[1]! += b * y;
    gradient[e]! -= b * grow;
    hessian[0]! += a * x * x + b;
    hessian[size]! += a * x * y;
    hessian[size + 1]! += a * y * y + b;
    hessian[e * size]! -= a * grow * x;
    hessian[e * size + 1]! -= a * grow * y;
    hessian[e * size + e]! += a * grow * grow - b * g;
    if (size === 4) {
      gradient[2]! -= b * turn;
      hessian[8]! += b * ax - a * turn * x;
      hessian[9]! += b * ay - a * turn * y;
      hessian[10]! += a * turn * turn + b * (ax * ax + ay * ay);
      hessian[14]! += a * grow * turn;
    }
  }
}

/** Halved until the barrier falls by a tenth of what Newton promises; 0 when float error leaves nothing to gain. */
function stepLength(c: Cones, s: Stand, step: Float64Array, t: number, decrement: number): number {
  const turn = c.turns ? step[2]! : 0;
  const miss = step[step.length - 1]!;
  const now = barrier(c, t, s.shiftX, s.shiftY, s.turn, s.miss);
  for (let long = 1; long > STEP_GIVES_UP; long /= 2) {
    const to = barrier(
      c,
      t,
      s.shiftX - long * step[0]!,
      s.shiftY - long * step[1]!,
      s.turn - long * turn,
      s.miss - long * miss,
    );
    if (to <= now - 0.1 * long * decrement) return long;
  }
  return 0;
}

function barrier(c: Cones, t: number, shiftX: number, shiftY: number, turn: number, miss: number): number {
  let sum = t * miss;
  for (let i = 0; i < c.x.length; i++) {
    const x = c.x[i]! + shiftX + turn * c.ax[i]!;
    const y = c.y[i]! + shiftY + turn * c.ay[i]!;
    const r = c.reach[i]! + c.grow[i]! * miss;
    const u = r * r - x * x - y * y;
    if (!(u > 0) || r <= 0) return Number.POSITIVE_INFINITY;
    sum -= Math.log(u);
  }
  return sum;
}
