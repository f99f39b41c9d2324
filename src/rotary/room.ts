import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';

/** A stretch of X. */
export interface Span {
  readonly from: Mm;
  readonly to: Mm;
}

/** Where along X a bit of radius `r` may go below the skin: within the travel, clear of what holds the shell. */
export function freeSpans(jig: Jig, r: Mm): Span[] {
  const { travel, fixture } = jig.rotary.machine;
  let spans: Span[] = [
    {
      from: Math.max(travel.x[0], fixture.chuck + r),
      to: Math.min(travel.x[1], jig.shell.depth - fixture.tailstock - r),
    },
  ];
  for (const zone of fixture.keepOut ?? []) {
    spans = spans.flatMap((s) => [
      { from: s.from, to: Math.min(s.to, zone.from - r) },
      { from: Math.max(s.from, zone.to + r), to: s.to },
    ]);
  }
  return spans.filter((s) => s.to > s.from);
}

/** The part of `from` to `to` that lies in the free stretch round `at`; nothing where `at` itself is not free. */
export function withinSpan(spans: readonly Span[], at: Mm, from: Mm, to: Mm): Span | undefined {
  const s = spans.find((span) => at >= span.from && at <= span.to);
  return s && { from: Math.max(s.from, from), to: Math.min(s.to, to) };
}
