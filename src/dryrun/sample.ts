import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { A, type Step, X, Y, Z } from './step.ts';

/** The chord of an orbit of 10 mm lies 10 (1 - cos 1.25 deg) = 0.0024 mm inside it. */
const WIDEST: Deg = 2.5;

/** Points along the arc or helix in `step`, no more than `widest` degrees apart, without its start and with its end. */
export function alongArc(step: Step, at: (x: Mm, y: Mm, z: Mm, a: Deg) => void, widest: Deg = WIDEST): void {
  const { from, to, axis0, axis1, axis2 } = step;
  const parts = Math.max(1, Math.ceil(Math.abs(step.sweep) / widest));
  const start = Math.atan2(from[axis1]! - step.center1, from[axis0]! - step.center0);
  const p = Float64Array.from(to);
  for (let i = 1; i <= parts; i++) {
    const t = i / parts;
    const angle = start + toRad(step.sweep) * t;
    p[axis0] = i === parts ? to[axis0]! : step.center0 + step.radius * Math.cos(angle);
    p[axis1] = i === parts ? to[axis1]! : step.center1 + step.radius * Math.sin(angle);
    p[axis2] = between(from[axis2]!, to[axis2]!, t);
    p[A] = between(from[A]!, to[A]!, t);
    at(p[X]!, p[Y]!, p[Z]!, p[A]!);
  }
}

const between = (from: number, to: number, t: number): number => (Number.isNaN(from) ? to : from + (to - from) * t);
