import { tolerance } from '../units/tolerance.ts';

/**
 * Motion in G64, where corners may be rounded: each straight move enters and leaves at the greatest speed its corners
 * and the room for speeding up and slowing down allow.
 */
export interface Leg {
  /** mm, over the skin where A turns. */
  readonly length: number;
  /** Greatest speed, mm/s, and acceleration, mm/s^2, along it. */
  readonly speed: number;
  readonly acceleration: number;
  /** Unit vector along X, Y, Z and round the skin. */
  readonly along: readonly [number, number, number, number];
}

/** How far a rounded corner may leave the point, mm (judgement, no source: controllers let it be set). */
const CORNER_GAP = 0.05;

/**
 * Seconds for a length L from speed v0 to v1 under greatest speed V and acceleration A. Needs |v1^2 - v0^2| <= 2 A L.
 * The peak, if V is not reached, is sqrt((2 A L + v0^2 + v1^2) / 2).
 */
export function secondsBetween(length: number, v0: number, v1: number, speed: number, acceleration: number): number {
  if (length <= 0) return 0;
  const peak = Math.min(speed, Math.sqrt((2 * acceleration * length + v0 * v0 + v1 * v1) / 2));
  const ramps = (2 * peak * peak - v0 * v0 - v1 * v1) / (2 * acceleration);
  return (peak - v0) / acceleration + (peak - v1) / acceleration + Math.max(0, length - ramps) / peak;
}

/**
 * Greatest speed through a corner that may be missed by `gap`: sqrt(A gap s / (1 - s)), s = sin(half the angle between the
 * legs); 0 where the way turns back, Infinity straight on.
 */
export function cornerSpeed(acceleration: number, gap: number, halfSine: number): number {
  return halfSine >= 1 ? Infinity : Math.sqrt((acceleration * gap * halfSine) / (1 - halfSine));
}

function between(a: Leg, b: Leg): number {
  const cosine = a.along[0] * b.along[0] + a.along[1] * b.along[1] + a.along[2] * b.along[2] + a.along[3] * b.along[3];
  // The angle between the legs is 180 degrees straight on: its half's sine is sqrt((1 + cos of the turn) / 2).
  const halfSine = cosine >= 1 - tolerance.noise ? 1 : Math.sqrt(Math.max(0, (1 + cosine) / 2));
  return Math.min(a.speed, b.speed, cornerSpeed(Math.min(a.acceleration, b.acceleration), CORNER_GAP, halfSine));
}

/** Legs looked ahead over; a controller sees no further, and memory stays bounded. */
const WINDOW = 128;

/** Takes legs one by one and gives the seconds that have become certain. */
export interface Blender {
  readonly add: (leg: Leg) => number;
  /** The way ends here at rest. */
  readonly stop: () => number;
}

export function blender(): Blender {
  let legs: Leg[] = [];
  let entry = 0;

  /** Seconds of the first `count` legs; the window as a whole ends at rest. */
  function settle(count: number): number {
    const n = legs.length;
    const exits = new Float64Array(n);
    for (let i = n - 2; i >= 0; i--) {
      const next = legs[i + 1]!;
      exits[i] = Math.min(between(legs[i]!, next), Math.sqrt(exits[i + 1]! ** 2 + 2 * next.acceleration * next.length));
    }
    let seconds = 0;
    for (let i = 0; i < count; i++) {
      const leg = legs[i]!;
      const exit = Math.min(exits[i]!, Math.sqrt(entry * entry + 2 * leg.acceleration * leg.length));
      seconds += secondsBetween(leg.length, entry, exit, leg.speed, leg.acceleration);
      entry = exit;
    }
    legs = legs.slice(count);
    return seconds;
  }

  return {
    add(leg) {
      legs.push(leg);
      return legs.length < WINDOW ? 0 : settle(WINDOW / 2);
    },
    stop() {
      const seconds = legs.length === 0 ? 0 : settle(legs.length);
      entry = 0;
      return seconds;
    },
  };
}
