import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import {
  type ArcSpan,
  type Box,
  distance,
  distanceTo,
  join,
  near,
  pointOn,
  type Span,
  spanBox,
  turnAlong,
} from './spans.ts';

/** Where two spans meet: parameters 0..1 along each. */
export interface Meeting {
  readonly s: number;
  readonly t: number;
}

/**
 * All single points two spans share, ends included (to within float noise). Spans lying on one another share no single
 * point: nothing is given for them.
 */
export function meetings(a: Span, b: Span): Meeting[] {
  if (a.kind === 'line') return b.kind === 'line' ? lineLine(a, b) : lineArc(a, b);
  if (b.kind === 'line') return lineArc(b, a).map(({ s, t }) => ({ s: t, t: s }));
  return arcArc(a, b);
}

type LineSpan = Extract<Span, { kind: 'line' }>;

/** Slack on a parameter, so that a meeting at an end is found whichever way float noise leans. */
const slack = (length: Mm): number => tolerance.noise / Math.max(length, tolerance.noise);

const within = (t: number, length: Mm): boolean => t >= -slack(length) && t <= 1 + slack(length);

function lineLine(a: LineSpan, b: LineSpan): Meeting[] {
  const [ux, uy] = [a.b.x - a.a.x, a.b.y - a.a.y];
  const [vx, vy] = [b.b.x - b.a.x, b.b.y - b.a.y];
  const cross = ux * vy - uy * vx;
  const la = Math.hypot(ux, uy);
  const lb = Math.hypot(vx, vy);
  // Below this sine two lines of any bench length run together to less than the join tolerance.
  if (Math.abs(cross) <= tolerance.noise * la * lb) return [];
  const [wx, wy] = [b.a.x - a.a.x, b.a.y - a.a.y];
  const s = (wx * vy - wy * vx) / cross;
  const t = (wx * uy - wy * ux) / cross;
  return within(s, la) && within(t, lb) ? [{ s, t }] : [];
}

function onArc(arc: ArcSpan, p: FlatPoint): number | undefined {
  const t = turnAlong(arc, Math.atan2(p.y - arc.center.y, p.x - arc.center.x));
  if (t <= 1) return t;
  const gap = slack(arc.radius * Math.abs(arc.sweep));
  if (t <= 1 + gap) return 1;
  const turns = (2 * Math.PI) / Math.abs(arc.sweep);
  return turns - t <= gap ? 0 : undefined;
}

function lineArc(line: LineSpan, arc: ArcSpan): Meeting[] {
  const length = distance(line.a, line.b);
  const [ux, uy] = [(line.b.x - line.a.x) / length, (line.b.y - line.a.y) / length];
  const [cx, cy] = [arc.center.x - line.a.x, arc.center.y - line.a.y];
  const along = cx * ux + cy * uy;
  const off = cx * uy - cy * ux;
  const inside = arc.radius ** 2 - off ** 2;
  const half = touch(inside, arc.radius);
  if (half === undefined) return [];
  const out: Meeting[] = [];
  for (const m of half === 0 ? [along] : [along - half, along + half]) {
    const t = onArc(arc, { x: line.a.x + m * ux, y: line.a.y + m * uy });
    if (t !== undefined && within(m / length, length)) out.push({ s: m / length, t });
  }
  return out;
}

function arcArc(a: ArcSpan, b: ArcSpan): Meeting[] {
  const d = distance(a.center, b.center);
  if (d <= tolerance.noise) return [];
  const [ux, uy] = [(b.center.x - a.center.x) / d, (b.center.y - a.center.y) / d];
  const along = (d * d + a.radius ** 2 - b.radius ** 2) / (2 * d);
  const half = touch(a.radius ** 2 - along ** 2, Math.max(a.radius, b.radius));
  if (half === undefined) return [];
  const out: Meeting[] = [];
  for (const h of half === 0 ? [0] : [-half, half]) {
    const p = { x: a.center.x + along * ux - h * uy, y: a.center.y + along * uy + h * ux };
    const s = onArc(a, p);
    const t = onArc(b, p);
    if (s !== undefined && t !== undefined) out.push({ s, t });
  }
  return out;
}

/** Half chord from its square; 0 where the curves just touch, undefined where they miss by more than float noise. */
function touch(square: number, radius: Mm): Mm | undefined {
  if (square > tolerance.noise * radius) return Math.sqrt(square);
  return square >= -tolerance.noise * radius ? 0 : undefined;
}

/** Least distance between two spans, 0 when they meet. */
function gapBetween(a: Span, b: Span): Mm {
  if (meetings(a, b).length > 0) return 0;
  let least = Math.min(distanceTo(b, a.a), distanceTo(b, a.b), distanceTo(a, b.a), distanceTo(a, b.b));
  const towards = (arc: ArcSpan, p: FlatPoint, other: Span): void => {
    const angle = Math.atan2(p.y - arc.center.y, p.x - arc.center.x);
    for (const turned of [angle, angle + Math.PI]) {
      const t = turnAlong(arc, turned);
      if (t <= 1) least = Math.min(least, distanceTo(other, pointOn(arc, t)));
    }
  };
  if (a.kind === 'arc') towards(a, b.kind === 'arc' ? b.center : foot(b, a.center), b);
  if (b.kind === 'arc') towards(b, a.kind === 'arc' ? a.center : foot(a, b.center), a);
  return least;
}

/** Foot of the perpendicular from `p` on the endless line; a point far off along the normal when `p` lies on it. */
function foot(line: LineSpan, p: FlatPoint): FlatPoint {
  const [ux, uy] = [line.b.x - line.a.x, line.b.y - line.a.y];
  const t = ((p.x - line.a.x) * ux + (p.y - line.a.y) * uy) / (ux * ux + uy * uy);
  const q = { x: line.a.x + t * ux, y: line.a.y + t * uy };
  return distance(p, q) > tolerance.noise ? q : { x: p.x - uy, y: p.y + ux };
}

/** A chain ready to be measured against others: its spans, the box of each, and of all. */
export interface Chain {
  readonly spans: readonly Span[];
  readonly boxes: readonly Box[];
  readonly box: Box;
}

export function chainOf(spans: readonly Span[]): Chain {
  const boxes = spans.map(spanBox);
  return { spans, boxes, box: join(boxes) };
}

/** Least distance between two chains, looked for only below `limit`; Infinity when they stay further apart. */
export function gapBelow(a: Chain, b: Chain, limit: Mm): Mm {
  let least = Number.POSITIVE_INFINITY;
  if (!near(a.box, b.box, limit)) return least;
  for (let k = 0; k < a.spans.length; k++) {
    const box = a.boxes[k] as Box;
    if (!near(box, b.box, limit)) continue;
    for (let i = 0; i < b.spans.length; i++) {
      if (near(box, b.boxes[i] as Box, Math.min(limit, least)))
        least = Math.min(least, gapBetween(a.spans[k] as Span, b.spans[i] as Span));
    }
  }
  return least < limit ? least : Number.POSITIVE_INFINITY;
}

/** Whether a chain, and another moved by `dx` and `dy`, keep `gap` between them everywhere. */
export function isApart(a: Chain, b: Chain, dx: Mm, dy: Mm, gap: Mm): boolean {
  const seen = { min: { x: a.box.min.x - dx, y: a.box.min.y - dy }, max: { x: a.box.max.x - dx, y: a.box.max.y - dy } };
  if (!near(seen, b.box, gap)) return true;
  for (let i = 0; i < b.spans.length; i++) {
    const own = b.boxes[i] as Box;
    if (!near(seen, own, gap)) continue;
    const box = { min: { x: own.min.x + dx, y: own.min.y + dy }, max: { x: own.max.x + dx, y: own.max.y + dy } };
    let moved: Span | undefined;
    for (let k = 0; k < a.spans.length; k++) {
      if (!near(a.boxes[k] as Box, box, gap)) continue;
      moved ??= shifted(b.spans[i] as Span, dx, dy);
      if (gapBetween(a.spans[k] as Span, moved) < gap) return false;
    }
  }
  return true;
}

function shifted(s: Span, dx: Mm, dy: Mm): Span {
  const a = { x: s.a.x + dx, y: s.a.y + dy };
  const b = { x: s.b.x + dx, y: s.b.y + dy };
  return s.kind === 'line'
    ? { kind: 'line', a, b }
    : { ...s, a, b, center: { x: s.center.x + dx, y: s.center.y + dy } };
}
