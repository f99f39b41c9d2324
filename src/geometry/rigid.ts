import { type Deg, toDeg, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Cones, descend, type Stand } from './rigid-cone.ts';

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
  /**
   * How the miss follows each hole: d(miss) = sum of pull . d(hole). Without an opening hole their lengths
   * add up to 1, within about 1.3 % at the usual precision of the search.
   */
  readonly pull: readonly Vector[];
}

export interface RigidOptions {
  /** `held` keeps the hardware straight: it may shift but not turn. */
  readonly turning?: 'free' | 'held';
  /** Where to start, degrees: 180 asks for the hardware put on upside down. */
  readonly from?: Deg;
  /** Largest part of the answer still unsure, in the unit of the input. */
  readonly within?: number;
}

/**
 * The place of a rigid fitting that makes the greatest miss least. The turn is taken straight for small steps, and the
 * problem posed again about its answer until the turn stands; each pose is a convex problem whose distance from the true
 * least is known. So the answer is the least, not a bound on it.
 *
 * When some holes `open`, the others keep their reach as a hard limit; undefined when they cannot all be met.
 */
export function fitRigid(reaches: readonly Reach[], options: RigidOptions = {}): RigidFit | undefined {
  const hasHard = reaches.some((r) => r.opens) && !reaches.every((r) => r.opens);
  if (!hasHard) return settle(reaches, options, options.from ?? 0, undefined);
  const alone = fitRigid(
    reaches.filter((r) => !r.opens),
    options,
  );
  // Holes met only by touching leave no room to move in.
  if (alone === undefined || alone.miss > -2 * ROOM) return undefined;
  const fit = settle(reaches, options, alone.turn, alone.shift);
  // Where screws have so much room that the poses swing to and fro, no answer is better than one that does not hold.
  const held = ({ opens, reach }: Reach, i: number): boolean =>
    opens === true || !(Math.hypot(fit.off[i]!.x, fit.off[i]!.y) - reach > withinOf(options));
  return reaches.every(held) ? fit : undefined;
}

const withinOf = (options: RigidOptions): number => options.within ?? tolerance.fit;

/** Room (mm) that a start must leave within the hard limits. */
const ROOM = tolerance.same / 2;
/** Poses before giving up; drum hardware needs two or three. */
const MOST_POSES = 8;

function settle(reaches: readonly Reach[], options: RigidOptions, from: Deg, shift: Vector | undefined): RigidFit {
  const within = withinOf(options);
  const pattern = new Posed(reaches, options.turning !== 'held');
  pattern.place(toRad(from), shift);
  // A turn taken straight leaves an error of half its square; each pose squares it again.
  for (let pose = 0; pose < MOST_POSES && pattern.improve(within) > within / 10; pose++);
  const vectors = (x: Float64Array, y: Float64Array): Vector[] => reaches.map((_, i) => ({ x: x[i]!, y: y[i]! }));
  return {
    miss: pattern.miss,
    turn: toDeg(pattern.angle),
    shift: { x: pattern.shiftX, y: pattern.shiftY },
    off: vectors(pattern.dx, pattern.dy),
    pull: vectors(pattern.px, pattern.py),
  };
}

/** The hardware at a pose, as flat numbers. */
class Posed {
  angle = 0;
  shiftX = 0;
  shiftY = 0;
  miss = 0;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  readonly px: Float64Array;
  readonly py: Float64Array;
  private readonly screwX: Float64Array;
  private readonly screwY: Float64Array;
  private readonly holeX: Float64Array;
  private readonly holeY: Float64Array;
  private readonly reach: Float64Array;
  private readonly grow: Float64Array;
  private readonly hasHard: boolean;
  /** Size of the pattern: the turn is reckoned in length at this radius, so that all unknowns are lengths. */
  private readonly arm: number;
  private readonly turns: boolean;

  constructor(reaches: readonly Reach[], turns: boolean) {
    const n = reaches.length;
    this.screwX = Float64Array.from(reaches, (r) => r.screw.x);
    this.screwY = Float64Array.from(reaches, (r) => r.screw.y);
    this.holeX = Float64Array.from(reaches, (r) => r.hole.x);
    this.holeY = Float64Array.from(reaches, (r) => r.hole.y);
    this.reach = Float64Array.from(reaches, (r) => r.reach);
    const some = reaches.some((r) => r.opens);
    this.grow = Float64Array.from(reaches, (r) => (!some || r.opens ? 1 : 0));
    this.hasHard = this.grow.includes(0);
    this.dx = new Float64Array(n);
    this.dy = new Float64Array(n);
    this.px = new Float64Array(n);
    this.py = new Float64Array(n);
    const [mx, my] = [mean(this.screwX), mean(this.screwY)];
    let arm = 0;
    for (let i = 0; i < n; i++) arm = Math.max(arm, Math.hypot(this.screwX[i]! - mx, this.screwY[i]! - my));
    this.arm = arm;
    this.turns = turns && arm > tolerance.same;
  }

  /** Puts the hardware at an angle (radians) and a shift; without a shift, its middle on the middle of the holes. */
  place(angle: number, shift: Vector | undefined): void {
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    const [mx, my] = [mean(this.screwX), mean(this.screwY)];
    this.angle = angle;
    this.shiftX = shift?.x ?? mean(this.holeX) - (c * mx - s * my);
    this.shiftY = shift?.y ?? mean(this.holeY) - (s * mx + c * my);
    for (let i = 0; i < this.dx.length; i++) {
      this.dx[i] = c * this.screwX[i]! - s * this.screwY[i]! + this.shiftX - this.holeX[i]!;
      this.dy[i] = s * this.screwX[i]! + c * this.screwY[i]! + this.shiftY - this.holeY[i]!;
    }
  }

  /** Moves to the best pose near this one; returns what taking the turn straight leaves open. */
  improve(within: number): number {
    const n = this.dx.length;
    // Turning about the middle of the standing screws keeps shift and turn apart.
    const midX = mean(this.dx) + mean(this.holeX);
    const midY = mean(this.dy) + mean(this.holeY);
    const ax = new Float64Array(n);
    const ay = new Float64Array(n);
    if (this.turns) {
      for (let i = 0; i < n; i++) {
        ax[i] = -(this.dy[i]! + this.holeY[i]! - midY) / this.arm;
        ay[i] = (this.dx[i]! + this.holeX[i]! - midX) / this.arm;
      }
    }
    const cones: Cones = { x: this.dx, y: this.dy, ax, ay, reach: this.reach, grow: this.grow, turns: this.turns };
    let spread = 0;
    for (let i = 0; i < n; i++) spread = Math.max(spread, Math.hypot(this.dx[i]!, this.dy[i]!));
    if (spread <= within / 4) {
      // Every screw stands on its hole's middle: nothing to gain, and no direction to lean in.
      this.miss = worst(cones, ZERO, 1);
      return 0;
    }
    const start = this.hasHard ? withRoom(cones, spread, within) : ZERO;
    const weight = (2 * n) / spread;
    const end = descend(cones, { ...start, miss: worst(cones, start, 1) + spread, weight }, within);
    this.readPulls(cones, end);
    const turn = this.turns ? end.turn / this.arm : 0;
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    const rx = this.shiftX - midX;
    const ry = this.shiftY - midY;
    this.place(this.angle + turn, {
      x: midX + c * rx - s * ry + end.shiftX,
      y: midY + s * rx + c * ry + end.shiftY,
    });
    this.miss = worst({ ...cones, x: this.dx, y: this.dy }, ZERO, 1);
    return (turn * turn * this.arm) / 2;
  }

  /** Multipliers of the cones: d = screw - hole, so the miss falls when a hole goes the way its screw misses. */
  private readPulls(c: Cones, end: Stand): void {
    for (let i = 0; i < c.x.length; i++) {
      const x = c.x[i]! + end.shiftX + end.turn * c.ax[i]!;
      const y = c.y[i]! + end.shiftY + end.turn * c.ay[i]!;
      const r = c.reach[i]! + c.grow[i]! * end.miss;
      const pull = 2 / (end.weight * (r * r - x * x - y * y));
      this.px[i] = -pull * x;
      this.py[i] = -pull * y;
    }
  }
}

const ZERO: Stand = { shiftX: 0, shiftY: 0, turn: 0, miss: 0, weight: 0 };

/** Greatest |d| - reach over the cones whose reach grows (1) or is hard (0). */
function worst(c: Cones, s: Stand, grow: 0 | 1): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < c.x.length; i++) {
    if (c.grow[i] !== grow) continue;
    const x = c.x[i]! + s.shiftX + s.turn * c.ax[i]!;
    const y = c.y[i]! + s.shiftY + s.turn * c.ay[i]!;
    most = Math.max(most, Math.hypot(x, y) - c.reach[i]!);
  }
  return most;
}

/** The nearest thing to this pose with room inside every hard limit: the turn of the last pose may have used it up. */
function withRoom(c: Cones, spread: number, within: number): Stand {
  if (worst(c, ZERO, 0) < -ROOM) return ZERO;
  const hard = (a: Float64Array): Float64Array => a.filter((_, i) => c.grow[i] === 0);
  const some: Cones = {
    x: hard(c.x),
    y: hard(c.y),
    ax: hard(c.ax),
    ay: hard(c.ay),
    reach: hard(c.reach),
    grow: hard(c.grow).fill(1),
    // One hole leaves the turn open; a shift brings its screw in.
    turns: c.turns && c.grow.filter((g) => g === 0).length > 1,
  };
  const weight = (2 * some.x.length) / spread;
  return descend(some, { ...ZERO, miss: worst(c, ZERO, 0) + spread, weight }, within, -ROOM);
}

function mean(a: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]!;
  return sum / a.length;
}
