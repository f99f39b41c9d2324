import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { meetings } from './meetings.ts';
import { CORNER, closePairs, gapes, heading, meetingEnds, moved, tooNear } from './moved-sides.ts';
import { arcSpan, distance, part, pointOn, type Span, spanBox, spanLength } from './spans.ts';

/**
 * The general way: cut all moved spans and corner arcs at every meeting, keep what lies a full `d` from the original. A moved point that left the inside has crossed the contour on its way, so distance alone decides.
 */
export function cleared(spans: readonly Span[], right: Mm): { pieces: Span[]; lost: Span[] } {
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
export function chained(pieces: readonly Span[]): Span[][] | undefined {
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
