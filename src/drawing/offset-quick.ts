import type { Mm } from '../units/scalar.ts';
import { meetings } from './meetings.ts';
import { CORNER, closePairs, gapes, meetingEnds, moved, tooNear } from './moved-sides.ts';
import { arcSpan, distance, part, pointOn, type Span, spanBox, spanLength } from './spans.ts';

/**
 * The quick way: move every span, join outside corners, cut inside corners. Undefined as soon as anything beyond a corner's
 * own two sides takes part.
 */
export function trimmedAtCorners(spans: readonly Span[], right: Mm): Span[] | undefined {
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
