import { type Deg, toDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { choleskySolve } from './least-squares.ts';

/** A vector on the fitting's own plane: x across to the right, y upright. */
export interface Vector {
  readonly x: number;
  readonly y: number;
}

/** A screw of the hardware and the drilled hole it must pass. */
export interface Reach {
  /** Screw on the hardware. */
  readonly screw: Vector;
  /** Hole as it is. */
  readonly hole: Vector;
  /** How far the screw may sit from the hole's middle: half of hole less screw. Negative when it is too thick. */
  readonly reach: number;
  /** A hole that may be opened: its `reach` counts only as a start, and the fit makes the rest as small as it can. */
  readonly opens?: boolean;
}

export interface RigidFit {
  /** Greatest of |screw - hole| - reach over the holes; the fitting goes on when it is not above zero. */
  readonly miss: number;
  /** Hardware to shell: turned by `turn` about its origin, then shifted. */
  readonly turn: Deg;
  readonly shift: Vector;
  /** Screw minus hole where the hardware then stands. */
  readonly off: readonly Vector[];
  /** How the miss follows each hole: d(miss) = sum of pull . d(hole). Their lengths add up to 1 when no hole `opens`. */
  readonly pull: readonly Vector[];
}

export interface RigidOptions {
  /** `false` holds the hardware straight: it may shift but not turn. */
  readonly turning?: 'free' | 'held';
  /** Where to start, degrees: 180 asks for the hardware put on upside down. */
  readonly from?: Deg;
  /** Largest part of the answer still unsure, in the unit of the input. */
  readonly within?: number;
}

/**
 * The place of a rigid fitting that makes the greatest miss least. The turn is taken straight for small steps, and the
 * problem re-posed about its answer until the turn stands; each step is a second-order cone problem in shift, turn and
 * miss, solved by Newton's method along its barrier's central path (Boyd and Vandenberghe, Convex Optimization, section
 * 11.3), whose distance from the true least is known: 2 n / t. So the answer is the least, not a bound on it.
 *
 * When some holes `open`, the others keep their reach as a hard limit; undefined when they cannot all be met.
 */
export function fitRigid(reaches: readonly Reach[], options: RigidOptions = {}): RigidFit | undefined {
  const within = options.within ?? tolerance.fit;
  if (reaches.some((r) => r.opens) && !reaches.every((r) => r.opens)) {
    const rest = reaches.filter((r) => !r.opens);
    const alone = fitRigid(rest, options);
    // Holes met only by touching leave no room to move in.
    if (alone === undefined || alone.miss > -tolerance.same) return undefined;
    return settle(reaches, options, within, alone.turn, alone.shift);
  }
  return settle(reaches, options, within, options.from ?? 0, undefined);
}

function settle(
  reaches: readonly Reach[],
  options: RigidOptions,
  within: number,
  from: Deg,
  start: Vector | undefined,
): RigidFit {
  const n = reaches.length;
  const problem = new Barrier(reaches, options.turning !== 'held');
  problem.place((from * Math.PI) / 180, start);
  // A turn taken straight leaves an error of half its square; each round squares it again. Drum hardware needs two.
  for (let round = 0; round < 8 && problem.least(within) > within / 10; round++);
  const off: Vector[] = [];
  const pull: Vector[] = [];
  for (let i = 0; i < n; i++) {
    off.push({ x: problem.dx[i]!, y: problem.dy[i]! });
    pull.push({ x: problem.px[i]!, y: problem.py[i]! });
  }
  return { miss: problem.miss, turn: toDeg(problem.angle), shift: { x: problem.sx, y: problem.sy }, off, pull };
}

/** Growth of the barrier's weight from one point of the path to the next. */
const PATH_STEP = 30;

/**
 * min m over shift and small turn, with |d_i| <= reach_i + grow_i m, d_i = (1 + turn J) q_i + shift - hole_i, q_i the
 * screws where they stand now. Kept as flat numbers because a simulation solves it ten thousand times.
 */
class Barrier {
  readonly n: number;
  /** Screws on the hardware, and where they stand after the pose. */
  private readonly hx: Float64Array;
  private readonly hy: Float64Array;
  private readonly qx: Float64Array;
  private readonly qy: Float64Array;
  private readonly cx: Float64Array;
  private readonly cy: Float64Array;
  private readonly reach: Float64Array;
  private readonly grow: Float64Array;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
  /** Size of the pattern: the turn is reckoned in length at this radius, so that all unknowns are lengths. */
  private readonly arm: number;
  private readonly turns: boolean;
  angle = 0;
  sx = 0;
  sy = 0;
  miss = 0;

  constructor(reaches: readonly Reach[], turns: boolean) {
    const n = reaches.length;
    this.n = n;
    this.hx = Float64Array.from(reaches, (r) => r.screw.x);
    this.hy = Float64Array.from(reaches, (r) => r.screw.y);
    this.cx = Float64Array.from(reaches, (r) => r.hole.x);
    this.cy = Float64Array.from(reaches, (r) => r.hole.y);
    this.reach = Float64Array.from(reaches, (r) => r.reach);
    const some = reaches.some((r) => r.opens);
    this.grow = Float64Array.from(reaches, (r) => (!some || r.opens ? 1 : 0));
    this.qx = new Float64Array(n);
    this.qy = new Float64Array(n);
    this.dx = new Float64Array(n);
    this.dy = new Float64Array(n);
    this.px = new Float64Array(n);
    this.py = new Float64Array(n);
    let mx = 0;
    let my = 0;
    for (let i = 0; i < n; i++) {
      mx += this.hx[i]! / n;
      my += this.hy[i]! / n;
    }
    let arm = 0;
    for (let i = 0; i < n; i++) arm = Math.max(arm, Math.hypot(this.hx[i]! - mx, this.hy[i]! - my));
    this.arm = arm;
    this.turns = turns && arm > tolerance.same;
  }

  /** Puts the hardware at an angle (radians) and a shift; without a shift, its middle on the middle of the holes. */
  place(angle: number, shift: Vector | undefined): void {
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    this.angle = angle;
    let x = shift?.x ?? 0;
    let y = shift?.y ?? 0;
    if (shift === undefined) {
      for (let i = 0; i < this.n; i++) {
        x += (this.cx[i]! - (c * this.hx[i]! - s * this.hy[i]!)) / this.n;
        y += (this.cy[i]! - (s * this.hx[i]! + c * this.hy[i]!)) / this.n;
      }
    }
    this.sx = x;
    this.sy = y;
    for (let i = 0; i < this.n; i++) {
      this.qx[i] = c * this.hx[i]! - s * this.hy[i]! + x;
      this.qy[i] = s * this.hx[i]! + c * this.hy[i]! + y;
      this.dx[i] = this.qx[i]! - this.cx[i]!;
      this.dy[i] = this.qy[i]! - this.cy[i]!;
    }
  }

  /** One convex problem about the present pose. Moves the pose to its answer; returns what taking the turn straight leaves open. */
  least(within: number): number {
    const { n, dx, dy, reach, grow } = this;
    const size = this.turns ? 4 : 3;
    // The middle of the screws as they stand: turning about it keeps shift and turn apart.
    let mx = 0;
    let my = 0;
    for (let i = 0; i < n; i++) {
      mx += this.qx[i]! / n;
      my += this.qy[i]! / n;
    }
    const ax = new Float64Array(n);
    const ay = new Float64Array(n);
    if (this.turns) {
      for (let i = 0; i < n; i++) {
        ax[i] = -(this.qy[i]! - my) / this.arm;
        ay[i] = (this.qx[i]! - mx) / this.arm;
      }
    }
    const ex = Float64Array.from(dx);
    const ey = Float64Array.from(dy);
    const z = new Float64Array(4);
    let m = Number.NEGATIVE_INFINITY;
    let spread = 0;
    for (let i = 0; i < n; i++) {
      const d = Math.hypot(ex[i]!, ey[i]!);
      if (grow[i] === 1) m = Math.max(m, d - reach[i]!);
      spread = Math.max(spread, d);
    }
    if (spread <= within / 4) {
      // Every screw stands on its hole's middle: nothing to gain, and no direction to lean in.
      this.miss = m;
      return 0;
    }
    m += spread;
    const step = new Float64Array(size);
    const gradient = new Float64Array(size);
    const hessian = new Float64Array(size * size);
    const value = (t: number, shiftX: number, shiftY: number, turn: number, top: number): number => {
      let sum = t * top;
      for (let i = 0; i < n; i++) {
        const x = dx[i]! + shiftX + turn * ax[i]!;
        const y = dy[i]! + shiftY + turn * ay[i]!;
        const r = reach[i]! + grow[i]! * top;
        const u = r * r - x * x - y * y;
        if (!(u > 0) || r <= 0) return Number.POSITIVE_INFINITY;
        sum -= Math.log(u);
      }
      return sum;
    };
    const last = (2 * n) / within;
    for (let t = (2 * n) / spread; ; t = Math.min(last, t * PATH_STEP)) {
      for (let k = 0; k < 50; k++) {
        gradient.fill(0);
        hessian.fill(0);
        gradient[size - 1] = t;
        for (let i = 0; i < n; i++) {
          const x = dx[i]! + z[0]! + z[3]! * ax[i]!;
          const y = dy[i]! + z[1]! + z[3]! * ay[i]!;
          const g = grow[i]!;
          const r = reach[i]! + g * m;
          const u = r * r - x * x - y * y;
          // Half of grad u; the barrier's gradient is -2 h / u, its Hessian 4 h h' / u^2 - (second derivative of u) / u.
          const h0 = -x;
          const h1 = -y;
          const h2 = -(x * ax[i]! + y * ay[i]!);
          const hm = g * r;
          const a = 4 / (u * u);
          const b = 2 / u;
          const e = size - 1;
          gradient[0]! -= b * h0;
          gradient[1]! -= b * h1;
          gradient[e]! -= b * hm;
          hessian[0]! += a * h0 * h0 + b;
          hessian[size]! += a * h0 * h1;
          hessian[size + 1]! += a * h1 * h1 + b;
          hessian[e * size]! += a * hm * h0;
          hessian[e * size + 1]! += a * hm * h1;
          hessian[e * size + e]! += a * hm * hm - b * g;
          if (size === 4) {
            gradient[2]! -= b * h2;
            hessian[8]! += a * h2 * h0 + b * ax[i]!;
            hessian[9]! += a * h2 * h1 + b * ay[i]!;
            hessian[10]! += a * h2 * h2 + b * (ax[i]! * ax[i]! + ay[i]! * ay[i]!);
            hessian[14]! += a * hm * h2;
          }
        }
        if (!choleskySolve(hessian, size, gradient, step)) break;
        let decrement = 0;
        for (let j = 0; j < size; j++) decrement += gradient[j]! * step[j]!;
        if (decrement < NEWTON_DONE) break;
        const turnStep = size === 4 ? step[2]! : 0;
        const now = value(t, z[0]!, z[1]!, z[3]!, m);
        let long = 1;
        for (; long > STEP_GIVES_UP; long /= 2) {
          const to = value(
            t,
            z[0]! - long * step[0]!,
            z[1]! - long * step[1]!,
            z[3]! - long * turnStep,
            m - long * step[size - 1]!,
          );
          if (to <= now - 0.1 * long * decrement) break;
        }
        if (long <= STEP_GIVES_UP) break;
        z[0]! -= long * step[0]!;
        z[1]! -= long * step[1]!;
        z[3]! -= long * turnStep;
        m -= long * step[size - 1]!;
      }
      if (t >= last) {
        this.take(z, m, ax, ay, t, mx, my);
        return this.turns ? (z[3]! * z[3]!) / (2 * this.arm) : 0;
      }
    }
  }

  /** Moves the pose to the answer with the true turn, and reads the pulls off the barrier's multipliers. */
  private take(
    z: Float64Array,
    m: number,
    ax: Float64Array,
    ay: Float64Array,
    t: number,
    mx: number,
    my: number,
  ): void {
    const { n, dx, dy, reach, grow } = this;
    for (let i = 0; i < n; i++) {
      const x = dx[i]! + z[0]! + z[3]! * ax[i]!;
      const y = dy[i]! + z[1]! + z[3]! * ay[i]!;
      const r = reach[i]! + grow[i]! * m;
      const weight = 2 / (t * (r * r - x * x - y * y));
      // d = screw - hole, so the miss falls when the hole goes the way the screw misses.
      this.px[i] = -weight * x;
      this.py[i] = -weight * y;
    }
    // A turn by w about the middle (mx, my) of the standing screws, then the shift, on top of the pose so far.
    const w = this.turns ? z[3]! / this.arm : 0;
    const c = Math.cos(w);
    const s = Math.sin(w);
    const rx = this.sx - mx;
    const ry = this.sy - my;
    this.place(this.angle + w, { x: mx + c * rx - s * ry + z[0]!, y: my + s * rx + c * ry + z[1]! });
    let miss = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < n; i++) {
      if (grow[i] === 1) miss = Math.max(miss, Math.hypot(dx[i]!, dy[i]!) - reach[i]!);
    }
    this.miss = miss;
  }
}

/** Newton's decrement squared below which a point is on the path (the barrier has no unit). */
const NEWTON_DONE = 1 / 1024;
/** Step length below which float error, not the problem, stops the search. */
const STEP_GIVES_UP = 2 ** -30;
