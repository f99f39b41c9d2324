import type { Machine } from '../model/machine.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import { arcLength } from './arcs.ts';
import type { Leg } from './blend.ts';
import type { Step } from './step.ts';

/** Limits of X Y Z A B C per second and per second squared; Infinity = not limited. */
export interface AxisLimits {
  readonly speed: Float64Array;
  readonly acceleration: Float64Array;
  /** Feed taken for a cut whose F was never set, mm/min. */
  readonly feed: number;
}

export const axisLimits = (m: Machine): AxisLimits => ({
  speed: Float64Array.of(m.rapid.x / 60, m.rapid.y / 60, m.rapid.z / 60, m.rapid.a / 60, Infinity, Infinity),
  acceleration: Float64Array.of(
    m.acceleration.x,
    m.acceleration.y,
    m.acceleration.z,
    m.acceleration.a,
    Infinity,
    Infinity,
  ),
  feed: m.feed,
});

/**
 * Time to go once round a path parameter from 0 to 1 with greatest rate `w` (1/s) and greatest acceleration `q` (1/s^2),
 * at rest at both ends: trapezoid when the rate is reached, triangle when not.
 */
function restToRest(w: number, q: number): number {
  if (w === Infinity && q === Infinity) return 0;
  if (q === Infinity) return 1 / w;
  return w * w <= q ? 1 / w + w / q : 2 / Math.sqrt(q);
}

/** Length in F's sense: along X Y Z if any of them moves, else the root of the squares of the rotary ways (2.1.2.5). */
export function feedLength(step: Step): number {
  const { from, to } = step;
  const x = way(from[0]!, to[0]!);
  const y = way(from[1]!, to[1]!);
  const z = way(from[2]!, to[2]!);
  if (step.kind === 'arc') return arcLength(step.radius, step.sweep, way(from[step.axis2]!, to[step.axis2]!));
  if (x !== 0 || y !== 0 || z !== 0) return Math.sqrt(x * x + y * y + z * z);
  return Math.hypot(way(from[3]!, to[3]!), way(from[4]!, to[4]!), way(from[5]!, to[5]!));
}

/** Way of one axis; from an unknown place it counts as nothing. */
const way = (from: number, to: number): number => {
  const d = to - from;
  return Number.isNaN(d) ? 0 : d;
};

/** Greatest rate and acceleration of the path parameter in the last `rates`: two numbers, kept here to spare an object. */
const rate = { w: Infinity, q: Infinity };

/** Seconds of a motion step, at rest at both ends. All axes start and stop together on the straight path (2.1.2.4). */
export function moveSeconds(step: Step, limits: AxisLimits): number {
  rates(step, limits);
  return rate.w === Infinity && rate.q === Infinity ? 0 : restToRest(rate.w, rate.q);
}

/**
 * A straight move along X Y Z A as a leg that can be blended, A by its way R dA round the skin of radius `skin` (derived),
 * so that a corner is missed by so much on the shell; undefined for any other, which stops at both ends. Greatest speed
 * and acceleration along it are those of the axis that is first at its own limit.
 */
export function legOf(step: Step, limits: AxisLimits, skin: Mm): Leg | undefined {
  const { from, to } = step;
  if (!step.blended || step.kind === 'arc' || way(from[4]!, to[4]!) !== 0 || way(from[5]!, to[5]!) !== 0)
    return undefined;
  const x = way(from[0]!, to[0]!);
  const y = way(from[1]!, to[1]!);
  const z = way(from[2]!, to[2]!);
  const turned = skin * toRad(way(from[3]!, to[3]!));
  const length = Math.sqrt(x * x + y * y + z * z + turned * turned);
  if (length === 0) return undefined;
  rates(step, limits);
  return {
    length,
    speed: rate.w * length,
    acceleration: rate.q * length,
    along: [x / length, y / length, z / length, turned / length],
  };
}

function rates(step: Step, limits: AxisLimits): void {
  let w = Infinity;
  let q = Infinity;
  const { from, to } = step;
  const arc = step.kind === 'arc';
  for (let axis = 0; axis < 6; axis++) {
    const d = Math.abs(way(from[axis]!, to[axis]!));
    if (d === 0 || (arc && (axis === step.axis0 || axis === step.axis1))) continue;
    w = Math.min(w, limits.speed[axis]! / d);
    q = Math.min(q, limits.acceleration[axis]! / d);
  }
  const length = feedLength(step);
  if (arc) {
    const round = Math.abs(step.radius * toRad(step.sweep));
    const acceleration = Math.min(limits.acceleration[step.axis0]!, limits.acceleration[step.axis1]!);
    const speed = Math.min(limits.speed[step.axis0]!, limits.speed[step.axis1]!, Math.sqrt(acceleration * step.radius));
    if (round > 0) {
      w = Math.min(w, speed / round);
      q = Math.min(q, acceleration / round);
    }
  }
  if (step.kind !== 'rapid' && length > 0) {
    const feed = Number.isNaN(step.feed) ? limits.feed : step.feed;
    w = Math.min(w, step.inverse ? step.feed / 60 : feed / 60 / length);
  }
  rate.w = w;
  rate.q = q;
}
