import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import type { Frame3, Vec3 } from './plan.ts';

const cosSin = (deg: Deg): readonly [number, number] => [Math.cos(toRad(deg)), Math.sin(toRad(deg))];

/** A flat ring (or a piece of one) lying square to the shell's axis, its own x turned to `turn`, its lower face at `z`. */
export function lying(turn: Deg, z: Mm): Frame3 {
  const [c, s] = cosSin(turn);
  return { origin: [0, 0, z], x: [c, s, 0], y: [-s, c, 0], z: [0, 0, 1] };
}

/**
 * A plate standing square to the radius at `angle`, its near face at distance `r` from the axis: x to the right seen
 * from outside, y up from height `z`, thickness outwards.
 */
export function standing(angle: Deg, r: Mm, z: Mm): Frame3 {
  const [c, s] = cosSin(angle);
  return { origin: [r * c, r * s, z], x: [-s, c, 0], y: [0, 0, 1], z: [c, s, 0] };
}

/**
 * A plate standing in the plane of the axis and the radius at `angle`: x outwards from distance `r`, y up from height `z`
 * or, when `down`, down from it; centred on that plane.
 */
export function radial(angle: Deg, r: Mm, z: Mm, thickness: Mm, down: boolean): Frame3 {
  const [c, s] = cosSin(angle);
  const across: Vec3 = down ? [-s, c, 0] : [s, -c, 0];
  const half = thickness / 2;
  return {
    origin: [r * c - half * across[0], r * s - half * across[1], z],
    x: [c, s, 0],
    y: [0, 0, down ? -1 : 1],
    z: across,
  };
}

/** A point of a placed part in the shell's frame. */
export const inShell = (f: Frame3, x: Mm, y: Mm, z: Mm): Vec3 => [
  f.origin[0] + x * f.x[0] + y * f.y[0] + z * f.z[0],
  f.origin[1] + x * f.x[1] + y * f.y[1] + z * f.z[1],
  f.origin[2] + x * f.x[2] + y * f.y[2] + z * f.z[2],
];
