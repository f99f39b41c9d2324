import type { Machine } from '../model/machine.ts';
import type { Axis, Step, Target } from './types.ts';

/**
 * Time of a move by constant acceleration, full stop at both ends: with w the largest share of the move a second and q
 * of it a second squared that keep every axis within its limits, 1 / w + w / q, or 2 / sqrt(q) when it never reaches w
 * (textbook kinematics).
 */
export function moveSeconds(delta: Target, machine: Machine, asked = Number.POSITIVE_INFINITY): number {
  let w = asked;
  let q = Number.POSITIVE_INFINITY;
  for (const axis of ['x', 'y', 'z', 'a'] as const) {
    const d = Math.abs(delta[axis] ?? 0);
    if (d === 0) continue;
    w = Math.min(w, machine.rapid[axis] / 60 / d);
    q = Math.min(q, machine.acceleration[axis] / d);
  }
  if (q === Number.POSITIVE_INFINITY) return 0;
  return w * w <= q ? 1 / w + w / q : 2 / Math.sqrt(q);
}

/** Seconds of a step list: moves, dwells, spindle starts and tool changes. Hands at a pause are not counted. */
export function programSeconds(steps: readonly Step[], machine: Machine): number {
  const at: Record<Axis, number> = { x: 0, y: 0, z: 0, a: 0 };
  let seconds = 0;
  const go = (to: Target, rate?: (length: number) => number): void => {
    const delta: Partial<Record<Axis, number>> = {};
    for (const axis of ['x', 'y', 'z', 'a'] as const) {
      const end = to[axis];
      if (end === undefined) continue;
      delta[axis] = end - at[axis];
      at[axis] = end;
    }
    const linear = Math.hypot(delta.x ?? 0, delta.y ?? 0, delta.z ?? 0);
    const length = linear > 0 ? linear : Math.abs(delta.a ?? 0);
    if (length > 0) seconds += moveSeconds(delta, machine, rate?.(length));
  };
  for (const s of steps) {
    if (s.kind === 'rapid') go(s.to);
    else if (s.kind === 'feed') go(s.to, (length) => s.feed / 60 / length);
    else if (s.kind === 'timed') go(s.to, () => s.rate / 60);
    else if (s.kind === 'dwell') seconds += s.seconds;
    else if (s.kind === 'tool') seconds += machine.toolChangeSeconds;
    else if (s.kind === 'drill') {
      const byFeed = (length: number): number => s.feed / 60 / length;
      go({ x: s.x });
      go({ z: s.approach });
      const stroke = (s.approach - s.bottom) / s.pecks;
      for (let k = 1; k <= s.pecks; k++) {
        if (k > 1) {
          go({ z: s.approach });
          go({ z: s.approach - (k - 1) * stroke + BACK_OFF_MM });
        }
        go({ z: s.approach - k * stroke }, byFeed);
      }
      go({ z: s.clearance });
    }
  }
  return seconds;
}

/**
 * Between pecks the bit comes back this short of the bottom: 0.254 mm (0.010 in), the constant the published reference
 * interpreter of NISTIR 6556 uses for G83; the report itself gives no figure.
 */
export const BACK_OFF_MM = 0.254;
