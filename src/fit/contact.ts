import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { fromPoints, moved, type Outline } from './outline.ts';

/** How two outlines lie to each other on the unrolled shell, and how a round hole lies to one. */

/** Which side of the line a-b the point is: above 0 to the left. */
const side = (a: FlatPoint, b: FlatPoint, p: FlatPoint): number =>
  (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

function isInside(o: Outline, p: FlatPoint): boolean {
  let inside = false;
  const n = o.points.length;
  for (let i = 0, j = n - 1; i < n; j = i++) {
    const [a, b] = [o.points[i] as FlatPoint, o.points[j] as FlatPoint];
    if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

/** Distance from a point to the outline's nearest side, negative outside. */
export function depthInside(o: Outline, p: FlatPoint): Mm {
  let nearest = Infinity;
  const n = o.points.length;
  for (let i = 0, j = n - 1; i < n; j = i++)
    nearest = Math.min(nearest, squareToSegment(p, o.points[j] as FlatPoint, o.points[i] as FlatPoint));
  return isInside(o, p) ? Math.sqrt(nearest) : -Math.sqrt(nearest);
}

/** Squared distance, mm2: the root is taken once, of the least. */
function squareToSegment(p: FlatPoint, a: FlatPoint, b: FlatPoint): Mm {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const length2 = dx * dx + dy * dy;
  const t = length2 === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / length2));
  const [x, y] = [p.x - a.x - t * dx, p.y - a.y - t * dy];
  return x * x + y * y;
}

/** Whether two outlines share area. Sides or corners that only touch do not. */
export const overlaps = (a: Outline, b: Outline): boolean =>
  // Without a crossing one lies inside the other, or they share sides or corners, or are the same outline.
  sidesCross(a, b) || reachesInto(a, b) || reachesInto(b, a);

/** Whether `a` is inside `b` beside the middle of one of its sides: on a shared side that tells this side from that. */
function reachesInto(a: Outline, b: Outline): boolean {
  return a.points.some((p, i) => {
    const q = a.points[(i + 1) % a.points.length] as FlatPoint;
    const [dx, dy] = [q.x - p.x, q.y - p.y];
    const inward = (2 * tolerance.noise) / Math.hypot(dx, dy);
    return isInside(b, { x: (p.x + q.x) / 2 - dy * inward, y: (p.y + q.y) / 2 + dx * inward });
  });
}

/** Twice the area (mm2) between a side of up to a metre and a corner that touches it. */
const TOUCHING = 1000 * tolerance.noise;

/** Two corners lie on two sides of a line, neither of them on it. */
const parted = (one: number, other: number): boolean =>
  Math.min(one, other) < -TOUCHING && Math.max(one, other) > TOUCHING;

function sidesCross(a: Outline, b: Outline): boolean {
  const [n, m] = [a.points.length, b.points.length];
  for (let i = 0; i < n; i++) {
    const [p, q] = [a.points[i] as FlatPoint, a.points[(i + 1) % n] as FlatPoint];
    // Most sides are clear of the other outline altogether.
    if (boxGap(fromPoints([p, q]), b) > 0) continue;
    for (let j = 0; j < m; j++) {
      const [r, s] = [b.points[j] as FlatPoint, b.points[(j + 1) % m] as FlatPoint];
      if (parted(side(p, q, r), side(p, q, s)) && parted(side(r, s, p), side(r, s, q))) return true;
    }
  }
  return false;
}

/** Least distance between two outlines that do not overlap. */
export function gapBetween(a: Outline, b: Outline): Mm {
  let gap = Infinity;
  for (const p of a.points) gap = Math.min(gap, Math.abs(depthInside(b, p)));
  for (const p of b.points) gap = Math.min(gap, Math.abs(depthInside(a, p)));
  return gap;
}

/** A gap's lower bound from the boxes alone. */
export const boxGap = (a: Outline, b: Outline): Mm =>
  Math.hypot(Math.max(0, b.left - a.right, a.left - b.right), Math.max(0, b.down - a.up, a.down - b.up));

/** Halvings that bring any foot's width below `tolerance.same`. */
const HALVINGS = 16;

/** How far `a` must go along one direction to stop overlapping `b`, whichever way is shorter; the sign is the way. */
export function clearBy(a: Outline, b: Outline, along: 'x' | 'y'): Mm {
  const [forth, back] = along === 'x' ? [b.right - a.left, b.left - a.right] : [b.up - a.down, b.down - a.up];
  const free = (t: Mm) => !overlaps(along === 'x' ? moved(a, t, 0) : moved(a, 0, t), b);
  const ways = [forth, back].map((far) => {
    let [stuck, clear] = [0, far];
    for (let i = 0; i < HALVINGS; i++) {
      const half = (stuck + clear) / 2;
      if (free(half)) clear = half;
      else stuck = half;
    }
    return clear;
  }) as [Mm, Mm];
  return Math.abs(ways[0]) <= Math.abs(ways[1]) ? ways[0] : ways[1];
}
