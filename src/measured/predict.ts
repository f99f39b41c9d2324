import type { Hole } from '../model/layout.ts';
import { type Mm, type Rad, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Reading } from './readings.ts';

/** Where a hole is taken to be while the readings are fitted. Angle in radians, not wrapped. */
export interface Spot {
  angle: Rad;
  height: Mm;
}

export interface Body {
  radius: Mm;
  depth: Mm;
}

/** What a reading would be, and how it follows the angle and height of its two holes and the shell's size. */
export interface Predicted {
  readonly value: Mm;
  readonly from: { readonly arc: number; readonly height: number };
  readonly to?: { readonly arc: number; readonly height: number };
  readonly radius: number;
  readonly depth: number;
}

/** Side of the hole the caliper touches: away from the other end, towards it, or its middle. */
const SIDE = { outside: 1, inside: -1, centres: 0 } as const;

/** What a reading would be with the holes where `spots` has them. */
export function predict(
  r: Reading,
  holes: ReadonlyMap<string, Hole>,
  spots: ReadonlyMap<string, Spot>,
  body: Body,
): Predicted {
  const [a, at] = [holes.get(r.from)!, spots.get(r.from)!];
  return r.kind === 'edge'
    ? predictEdge(r, a, at, body)
    : predictChord(r, a, holes.get(r.to)!, at, spots.get(r.to)!, body);
}

/** An edge reading runs along the shell: height, or depth less height, to the near rim, the middle or the far rim. */
function predictEdge(r: Reading, hole: Hole, spot: Spot, body: Body): Predicted {
  const rim = (SIDE[r.over] * hole.drill) / 2;
  return r.to === 'bottom'
    ? { value: spot.height + rim, from: { arc: 0, height: 1 }, radius: 0, depth: 0 }
    : { value: body.depth - spot.height + rim, from: { arc: 0, height: -1 }, radius: 0, depth: 1 };
}

/**
 * A chord runs straight from skin to skin: L^2 = 4 R^2 sin^2(turn / 2) + rise^2. Rims lie on the outside skin, on the side
 * of the hole that the chord points to within the tangent plane: round the shell by R sin(turn), along it by the rise.
 */
export function predictChord(r: Reading, a: Hole, b: Hole, sa: Spot, sb: Spot, body: Body): Predicted {
  const side = SIDE[r.over];
  const turn = sb.angle - sa.angle;
  const across = body.radius * Math.sin(turn);
  const up = sb.height - sa.height;
  const length = Math.hypot(across, up);
  // Straight opposite each other the chord points into the hole, and no rim is nearer than another.
  const dx = length > tolerance.same ? (side * across) / length : 0;
  const dy = length > tolerance.same ? (side * up) / length : 0;
  const rim = (hole: Hole): Rad => Math.asin((dx * hole.drill) / 2 / body.radius);
  const wide = turn + rim(a) + rim(b);
  const rise = up + (dy * (a.drill + b.drill)) / 2;
  const half = 2 * body.radius * Math.sin(wide / 2);
  const value = Math.hypot(half, rise);
  // Two holes on one spot: no direction, so no slope.
  const by = value > tolerance.same ? 1 / value : 0;
  // Slopes against the arc R0 angle, in mm a mm: d(half^2)/d(turn) = 2 R^2 sin(turn).
  const arc = body.radius * Math.sin(wide) * by;
  return {
    value,
    from: { arc: -arc, height: -rise * by },
    to: { arc, height: rise * by },
    radius: ((half * half) / body.radius) * by,
    depth: 0,
  };
}

/** Every hole where the plan has it. */
export const plannedSpots = (holes: readonly Hole[]): Map<string, Spot> =>
  new Map(holes.map((h) => [h.id, { angle: toRad(h.angle), height: h.height }]));
