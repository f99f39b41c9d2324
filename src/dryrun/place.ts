import type { RotaryFrame } from '../geometry/frames.ts';
import type { ShellPoint } from '../model/frames.ts';
import { type Deg, type Mm, toDeg, wrapDeg } from '../units/scalar.ts';

/**
 * Where on the outside skin a tool at X Y A meets the shell. Off the axis by y the tool meets it asin(y / R) further
 * round: + Y is clockwise seen from + X, against the sense in which A counts (ISO 841).
 */
export function skinPoint(x: Mm, y: Mm, a: Deg, radius: Mm, frame: RotaryFrame): ShellPoint {
  const turned = frame.a === 'iso' ? a : -a;
  const round = turned - toDeg(Math.asin(Math.max(-1, Math.min(1, y / radius))));
  return {
    angle: wrapDeg(frame.datum === 'bottom' ? round : -round),
    height: frame.datum === 'bottom' ? x : frame.depth - x,
  };
}

/** Depth below Z0 of the skin at y off the axis: 0 over it, R - sqrt(R^2 - y^2) beside it. Infinite off the shell. */
export const skinDepth = (y: Mm, radius: Mm): Mm =>
  Math.abs(y) >= radius ? Infinity : radius - Math.sqrt(radius * radius - y * y);

/** Depth below Z0 at which a bore of radius r over the axis has its whole rim through the wall: R - sqrt(Ri^2 - r^2). */
export const throughDepth = (r: Mm, radius: Mm, inside: Mm, y: Mm = 0): Mm => {
  const reach = Math.abs(y) + r;
  return reach >= inside ? Infinity : radius - Math.sqrt(inside * inside - reach * reach);
};
