import type { Path } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { meetings } from './meetings.ts';
import { signedArea } from './paths.ts';
import {
  arcSpan,
  type Box,
  distance,
  distanceTo,
  near,
  part,
  pathOf,
  pointOn,
  type Span,
  spanBox,
  spanLength,
  spansOf,
} from './spans.ts';

/** Ends closer than this (mm) are one corner: a hundredth of the join tolerance, far above float noise. */
const CORNER = tolerance.join / 100;

/**
 * The closed path moved outwards by `d` mm on every side (inwards when negative), exactly: lines stay lines, arcs stay arcs
 * of changed radius, outside corners become arcs round the corner, inside corners are cut where the moved sides meet.
 *
 * Nothing is left of a contour that closes up: the list is empty. It has more than one path when the contour falls apart
 * (or, growing, closes round a hole: that one then runs against the original). The order is by length, longest first.
 */
export const offsetPath = (path: Path, d: Mm): readonly Path[] => offset(path, d).paths;

export interface Offset {
  readonly paths: readonly Path[];
  /** Pieces of the original that nothing of the offset runs along: a notch that closed, a fillet smaller than the beam. */
  readonly lost: readonly Span[];
}

/** `offsetPath`, and what got lost on the way. */
export function offset(path: Path, d: Mm): Offset {
  if (!path.closed) throw new RangeError(`${path.from}: only a closed contour has an inside to offset`);
  if (d === 0) return { paths: [path], lost: [] };
  const spans = spansOf(path);
  const side = signedArea(path) < 0 ? -d : d;
  const quick = trimmedAtCorners(spans, side);
  if (quick !== undefined) return { paths: [pathOf(quick, path, true)], lost: [] };
  // Sides that come to lie exactly on one another leave no clean answer; a hair's breadth more does.
  for (const hair of [0, 1e-7, 1e-6, 1e-5]) {
    const { pieces, lost } = cleared(spans, side * (1 + hair));
    const loops = chained(pieces);
    if (loops !== undefined) {
      const paths = loops.map((loop) => pathOf(loop, path, true));
      return { paths: paths.sort((a, b) => length(b) - length(a)), lost };
    }
  }
  throw new RangeError(`${path.from}: no closed offset at ${d} mm`);
}

const length = (p: Path): Mm => spansOf(p).reduce((sum, s) => sum + spanLength(s), 0);

/** The span moved by `right` to the right of travel; undefined for an arc that shrinks to nothing. */
function moved(s: Span, right: Mm): Span | undefined {
  if (s.kind === 'line') {
    const l = distance(s.a, s.b);
    if (l <= tolerance.noise) return undefined;
    const dx = (right * (s.b.y - s.a.y)) / l;
    const dy = (-right * (s.b.x - s.a.x)) / l;
    return { kind: 'line', a: { x: s.a.x + dx, y: s.a.y + dy }, b: { x: s.b.x + dx, y: s.b.y + dy } };
  }
  const radius = s.radius + (s.sweep > 0 ? right : -right);
  if (radius <= CORNER) return undefined;
  const out = (p: FlatPoint): FlatPoint => ({
    x: s.center.x + ((p.x - s.center.x) * radius) / s.radius,
    y: s.center.y + ((p.y - s.center.y) * radius) / s.radius,
  });
  return { ...s, a: out(s.a), b: out(s.b), radius };
}

/** Unit direction of travel at the start (`t` = 0) or the end (`t` = 1). */
function heading(s: Span, t: 0 | 1): readonly [number, number] {
  if (s.kind === 'line') {
    const l = distance(s.a, s.b);
    return [(s.b.x - s.a.x) / l, (s.b.y - s.a.y) / l];
  }
  const p = t === 0 ? s.a : s.b;
  const sign = s.sweep > 0 ? 1 : -1;
  return [(-sign * (p.y - s.center.y)) / s.radius, (sign * (p.x - s.center.x)) / s.radius];
}

/** Whether the moved sides gape at this corner, so that an arc must join them. */
function gapes(before: Span, after: Span, right: Mm): boolean {
  const [ux, uy] = heading(before, 1);
  const [vx, vy] = heading(after, 0);
  const cross = ux * vy - uy * vx;
  const back = ux * vx + uy * vy < 0 && Math.abs(cross) <= tolerance.noise;
  return back || cross * right > 0;
}

/**
 * The quick way: move every span, join outside corners, cut inside corners. Undefined as soon as anything beyond a corner's
 * own two sides takes part.
 */
function trimmedAtCorners(spans: readonly Span[], right: Mm): Span[] | undefined {
  const n = spans.length;
  const moves = spans.map((s) => moved(s, right));
  if (moves.some((m) => m === undefined)) return undefined;
  const from = new Array<number>(n).fill(0);
  const to = new Array<number>(n).fill(1);
  const joins: (Span | undefined)[] = new Array(n).fill(undefined);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    const a = moves[i] as Span;
    const b = moves[j] as Span;
    if (distance(a.b, b.a) <= CORNER) continue;
    if (gapes(spans[i] as Span, spans[j] as Span, right)) {
      joins[i] = arcSpan(a.b, b.a, (spans[i] as Span).b, right > 0);
      continue;
    }
    const at = meetings(a, b).sort((p, q) => q.s - q.t - (p.s - p.t))[0];
    if (at === undefined) return undefined;
    to[i] = Math.min(1, at.s);
    from[j] = Math.max(0, at.t);
  }
  const out: Span[] = [];
  for (let i = 0; i < n; i++) {
    const s = moves[i] as Span;
    if ((from[i] as number) >= (to[i] as number)) return undefined;
    const piece = part(s, from[i] as number, to[i] as number);
    if (spanLength(piece) <= CORNER) return undefined;
    out.push(piece);
    const join = joins[i];
    if (join !== undefined) out.push(join);
  }
  const whole = meetingEnds(out);
  return isClear(whole, spans, Math.abs(right)) ? whole : undefined;
}

/** Ends of neighbours that differ by float noise made the same point. */
const meetingEnds = (loop: readonly Span[]): Span[] =>
  loop.map((s, i) => ({ ...s, a: (loop[(i + loop.length - 1) % loop.length] as Span).b }));

/** Whether no span of the loop comes nearer to the original than `d`, nor crosses another. */
function isClear(loop: readonly Span[], original: readonly Span[], d: Mm): boolean {
  const boxes = original.map(spanBox);
  for (const s of loop) if (tooNear(pointOn(s, 0.5), original, boxes, d)) return false;
  const own = loop.map(spanBox);
  for (const [i, j] of closePairs(own)) {
    const apart = Math.min(j - i, i + loop.length - j);
    const shared = meetings(loop[i] as Span, loop[j] as Span);
    // Neighbours share their corner and, in a loop of two, both.
    if (shared.length > (apart > 1 ? 0 : loop.length === 2 ? 2 : 1)) return false;
  }
  return true;
}

function tooNear(p: FlatPoint, original: readonly Span[], boxes: readonly Box[], d: Mm): boolean {
  const box = { min: p, max: p };
  for (const [i, s] of original.entries()) {
    if (near(box, boxes[i] as Box, d) && distanceTo(s, p) < d - tolerance.noise) return true;
  }
  return false;
}

/** Pairs i < j of boxes that touch, by a sweep along x. */
function closePairs(boxes: readonly Box[]): (readonly [number, number])[] {
  const order = boxes.map((_, i) => i).sort((a, b) => (boxes[a] as Box).min.x - (boxes[b] as Box).min.x);
  const pairs: (readonly [number, number])[] = [];
  let open: number[] = [];
  for (const i of order) {
    const box = boxes[i] as Box;
    open = open.filter((k) => (boxes[k] as Box).max.x + tolerance.noise >= box.min.x);
    for (const k of open) {
      if (near(box, boxes[k] as Box, tolerance.noise)) pairs.push(i < k ? [i, k] : [k, i]);
    }
    open.push(i);
  }
  return pairs;
}

/**
 * The general way: cut all moved spans and corner arcs at every meeting, keep what lies a full `d` from the original. A moved point that left the inside has crossed the contour on its way, so distance alone decides.
 */
function cleared(spans: readonly Span[], right: Mm): { pieces: Span[]; lost: Span[] } {
  const raw: Span[] = [];
  const source: (Span | undefined)[] = [];
  for (const [i, s] of spans.entries()) {
    const m = moved(s, right);
    if (m !== undefined) source[raw.push(m) - 1] = s;
    const next = spans[(i + 1) % spans.length] as Span;
    if (!gapes(s, next, right)) continue;
    const a = endOf(s, 1, right);
    const b = endOf(next, 0, right);
    if (distance(a, b) > CORNER) raw.push(arcSpan(a, b, s.b, right > 0));
  }
  const cuts = raw.map(() => [0, 1]);
  for (const [i, j] of closePairs(raw.map(spanBox))) {
    for (const { s, t } of meetings(raw[i] as Span, raw[j] as Span)) {
      (cuts[i] as number[]).push(s);
      (cuts[j] as number[]).push(t);
    }
  }
  const boxes = spans.map(spanBox);
  const pieces: Span[] = [];
  const lost = new Set(spans);
  for (const [i, s] of raw.entries()) {
    const at = (cuts[i] as number[]).map((t) => Math.max(0, Math.min(1, t))).sort((a, b) => a - b);
    for (let k = 1; k < at.length; k++) {
      const piece = part(s, at[k - 1] as number, at[k] as number);
      if (spanLength(piece) <= CORNER) continue;
      if (tooNear(pointOn(piece, 0.5), spans, boxes, Math.abs(right))) continue;
      pieces.push(piece);
      lost.delete(source[i] as Span);
    }
  }
  return { pieces, lost: [...lost] };
}

function endOf(s: Span, t: 0 | 1, right: Mm): FlatPoint {
  const p = t === 0 ? s.a : s.b;
  const [ux, uy] = heading(s, t);
  return { x: p.x + right * uy, y: p.y - right * ux };
}

/** Loops from loose pieces, each used once; undefined when an end is left hanging or a corner is shared by more than two. */
function chained(pieces: readonly Span[]): Span[][] | undefined {
  const left = new Set(pieces);
  const loops: Span[][] = [];
  const reach = 10 * CORNER;
  for (const first of pieces) {
    if (!left.delete(first)) continue;
    const loop = [first];
    let end = first.b;
    while (distance(end, first.a) > reach) {
      let found: Span | undefined;
      for (const p of left) {
        if (distance(p.a, end) > reach) continue;
        if (found !== undefined) return undefined;
        found = p;
      }
      if (found === undefined) return undefined;
      left.delete(found);
      loop.push(found);
      end = found.b;
    }
    loops.push(meetingEnds(loop));
  }
  return loops;
}
