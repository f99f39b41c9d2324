import type { FlatPoint } from '../model/frames.ts';

/**
 * Triangles that fill a flat contour with holes, by cutting ears; holes are first tied to the outline by bridges (Eberly,
 * "Triangulation by Ear Clipping", the method as published, own code). Contours must not touch or cross each other.
 * Points are answered by index: outline first, then the holes in their order. Triangles run counter-clockwise.
 */
export function triangulate(
  outline: readonly FlatPoint[],
  holes: readonly (readonly FlatPoint[])[],
): (readonly [number, number, number])[] {
  const points = [outline, ...holes].flat();
  let loop = inOrder(outline, 0, true);
  const cuts: { indices: number[]; right: number }[] = [];
  let base = outline.length;
  for (const h of holes) {
    const indices = inOrder(h, base, false);
    base += h.length;
    cuts.push({ indices, right: Math.max(...h.map((p) => p.x)) });
  }
  // From the right: a hole's bridge then ends at the outline or at a hole that is already part of it.
  for (const cut of cuts.sort((a, b) => b.right - a.right)) loop = bridged(loop, cut.indices, points);
  return clipEars(loop, points);
}

type Points = readonly FlatPoint[];
const at = (points: Points, i: number): FlatPoint => points[i] as FlatPoint;

/** Twice the signed area of a triangle, counter-clockwise positive. */
const turn = (a: FlatPoint, b: FlatPoint, c: FlatPoint): number =>
  (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);

function inOrder(contour: readonly FlatPoint[], base: number, ccw: boolean): number[] {
  let twice = 0;
  contour.forEach((p, i) => {
    const q = contour[(i + 1) % contour.length] as FlatPoint;
    twice += p.x * q.y - q.x * p.y;
  });
  const indices = contour.map((_, i) => base + i);
  return twice > 0 === ccw ? indices : indices.reverse();
}

/** The loop with a hole spliced in along a line between two points that see each other. */
function bridged(loop: readonly number[], hole: readonly number[], points: Points): number[] {
  let right = 0;
  for (let i = 1; i < hole.length; i++)
    if (at(points, hole[i] as number).x > at(points, hole[right] as number).x) right = i;
  const m = at(points, hole[right] as number);
  const k = visible(loop, m, points);
  const around = [...hole.slice(right), ...hole.slice(0, right), hole[right] as number];
  return [...loop.slice(0, k + 1), ...around, ...loop.slice(k)];
}

/** Position in the loop of a corner that point `m` inside it sees. */
function visible(loop: readonly number[], m: FlatPoint, points: Points): number {
  // Nearest edge struck by the ray to the right of m; edges of the loop that pass upwards have their inside on the left.
  let best = Number.POSITIVE_INFINITY;
  let pick = -1;
  for (let i = 0; i < loop.length; i++) {
    const a = at(points, loop[i] as number);
    const j = (i + 1) % loop.length;
    const b = at(points, loop[j] as number);
    if (a.y > m.y || b.y < m.y || a.y === b.y) continue;
    const x = a.x + ((m.y - a.y) / (b.y - a.y)) * (b.x - a.x);
    if (x < m.x || x >= best) continue;
    best = x;
    pick = a.x > b.x ? i : j;
    if (x === a.x && a.y === m.y) pick = i;
    if (x === b.x && b.y === m.y) pick = j;
  }
  if (pick < 0) throw new RangeError('a hole lies outside its outline');
  const p = at(points, loop[pick] as number);
  const hit = { x: best, y: m.y };
  // Any corner inside the triangle m, hit, p hides p: the one seen under the smallest angle to the ray is seen instead.
  let chosen = pick;
  let steepest = slope(m, p);
  const [a, b, c] = turn(m, hit, p) > 0 ? [m, hit, p] : [m, p, hit];
  for (let i = 0; i < loop.length; i++) {
    const q = at(points, loop[i] as number);
    if (i === pick || q.x < m.x || !isInside(q, a, b, c)) continue;
    if (!isReflex(loop, i, points)) continue;
    const s = slope(m, q);
    if (s < steepest || (s === steepest && q.x < at(points, loop[chosen] as number).x)) {
      chosen = i;
      steepest = s;
    }
  }
  return chosen;
}

const slope = (m: FlatPoint, p: FlatPoint): number =>
  p.x === m.x ? Number.POSITIVE_INFINITY : Math.abs(p.y - m.y) / (p.x - m.x);

function isReflex(loop: readonly number[], i: number, points: Points): boolean {
  const n = loop.length;
  const [a, b, c] = [loop[(i + n - 1) % n], loop[i], loop[(i + 1) % n]].map((k) => at(points, k as number));
  return turn(a as FlatPoint, b as FlatPoint, c as FlatPoint) <= 0;
}

const isInside = (q: FlatPoint, a: FlatPoint, b: FlatPoint, c: FlatPoint): boolean =>
  turn(a, b, q) >= 0 && turn(b, c, q) >= 0 && turn(c, a, q) >= 0;

function clipEars(loop: readonly number[], points: Points): (readonly [number, number, number])[] {
  const n = loop.length;
  const next = loop.map((_, i) => (i + 1) % n);
  const prev = loop.map((_, i) => (i + n - 1) % n);
  const corner = (i: number): FlatPoint => at(points, loop[i] as number);
  const bend = (i: number): number => turn(corner(prev[i] as number), corner(i), corner(next[i] as number));
  // Only corners that turn inwards can lie in an ear; they only ever become fewer.
  const hollow = new Set(loop.map((_, i) => i).filter((i) => bend(i) <= 0));
  const triangles: (readonly [number, number, number])[] = [];
  let left = n;
  let i = 0;
  let idle = 0;
  while (left > 3) {
    const [p, q] = [prev[i] as number, next[i] as number];
    if (bend(i) > 0 && isEar(p, i, q)) {
      triangles.push([loop[p] as number, loop[i] as number, loop[q] as number]);
      next[p] = q;
      prev[q] = p;
      hollow.delete(i);
      for (const k of [p, q]) if (hollow.has(k) && bend(k) > 0) hollow.delete(k);
      left--;
      idle = 0;
      // Going on behind the cut keeps long fans of slivers from one corner away.
      i = q;
    } else {
      i = q;
      if (++idle > left) throw new RangeError('no ear left: the contours touch or cross');
    }
  }
  triangles.push([loop[prev[i] as number] as number, loop[i] as number, loop[next[i] as number] as number]);
  return triangles;

  function isEar(p: number, e: number, q: number): boolean {
    const [a, b, c] = [corner(p), corner(e), corner(q)];
    const [x0, x1] = [Math.min(a.x, b.x, c.x), Math.max(a.x, b.x, c.x)];
    for (const k of hollow) {
      if (k === p || k === q || k === e) continue;
      const r = corner(k);
      if (r.x < x0 || r.x > x1) continue;
      // A bridge's ends are there twice: the twin of a corner does not shut its ear.
      if ((r.x === a.x && r.y === a.y) || (r.x === b.x && r.y === b.y) || (r.x === c.x && r.y === c.y)) continue;
      if (isInside(r, a, b, c)) return false;
    }
    return true;
  }
}
