import { chord } from '../geometry/frames.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import { type Mm, shorterTurn, toRad, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** A reading worth taking: a line of the blank form. */
export interface Pair {
  readonly kind: 'edge' | 'chord';
  readonly from: string;
  readonly to: string;
}

/**
 * Chords longer than this part of the diameter touch the skin too flatly to feel with a caliper (judgement, no
 * source).
 */
const FLAT = 0.97;
/** Straight across the shell in this many places: enough to fix the diameter and to show an oval. */
const ACROSS = 4;

/**
 * The most telling readings, enough to place every hole and to catch a slip of the caliper: each hole to an edge; the
 * holes of a fitting to each other; round the shell from hole to like hole, and aslant from each fitting to the next,
 * which tells left from right where an upright chord cannot; aslant between rows; and a few straight across.
 */
export function tellingPairs(layout: Layout): readonly Pair[] {
  const out: Pair[] = [];
  const seen = new Set<string>();
  const add = (kind: Pair['kind'], from: string, to: string): void => {
    const key = kind === 'edge' ? `${from} ${to}` : [from, to].sort().join(' ');
    if (from === to || seen.has(key)) return;
    seen.add(key);
    out.push({ kind, from, to });
  };
  const fittings = layout.placed.filter((p) => p.holes.length > 0);
  for (const h of layout.holes) add('edge', h.id, edgeOf(h, layout.depth));
  for (const p of fittings) for (const [a, b] of within(p.holes)) add('chord', a.id, b.id);
  const rings = ringsOf(layout);
  for (const ring of rings) {
    for (const [i, place] of ring.entries()) {
      const next = ring[(i + 1) % ring.length]!;
      // Two fittings opposite each other have one chord between them, not a ring.
      if (next === place || (ring.length === 2 && i === 1)) continue;
      const [a, b, c, d] = [place[0]!, next[0]!, place.at(-1)!, next.at(-1)!];
      if (!feels(a, b, layout.radius)) continue;
      add('chord', a.id, b.id);
      if (c !== a || d !== b) add('chord', c.id, d.id);
      // Aslant: the one chord that tells a fitting's lean.
      add('chord', a.id, d.id);
      // Holes between the first and the last: an upright chord does not tell whether they stand in line.
      for (const h of place.slice(1, -1)) add('chord', h.id, b.id);
    }
  }
  // Every ring is tied to the one before by two chords aslant, one to each side.
  const ordered = [...rings].sort((a, b) => a[0]![0]!.height - b[0]![0]!.height);
  for (const [i, ring] of ordered.entries()) {
    const below = ordered[i - 1];
    if (below === undefined) continue;
    for (const place of spacedOut(ring, 3)) {
      const h = place[0]!;
      for (const side of [1, -1] as const) {
        const other = aslant(h, below, side, layout.radius);
        if (other) add('chord', h.id, other.id);
      }
    }
  }
  for (const [a, b] of opposites(rings, layout.radius)) add('chord', a.id, b.id);
  return out;
}

/** The blank form: `kind,from,to,reading_mm`, readings to be filled in, middle to middle. */
export function blankReadings(_jig: Jig, layout: Layout): string {
  const lines = tellingPairs(layout).map((p) => `${p.kind},${p.from},${p.to},`);
  return `${['kind,from,to,reading_mm', ...lines].join('\n')}\n`;
}

const edgeOf = (h: Hole, depth: Mm): 'top' | 'bottom' =>
  h.edge === 'middle' ? (h.height * 2 > depth ? 'top' : 'bottom') : h.edge;

/** Each hole to the next, and for three or more also round the corner, so that the pattern cannot fold. */
function* within(holes: readonly Hole[]): Generator<readonly [Hole, Hole]> {
  for (const reach of [1, 2]) {
    for (let i = 0; i + reach < holes.length; i++) yield [holes[i]!, holes[i + reach]!];
  }
  if (holes.length > 3) yield [holes[0]!, holes.at(-1)!];
}

type Place = readonly Hole[];

/** Fittings of nearly one height, in the order of their angles; a lone one joins the nearest ring. */
function ringsOf(layout: Layout): Place[][] {
  const places = layout.placed.filter((p) => p.holes.length > 0);
  const rings: { height: Mm; places: typeof places }[] = [];
  for (const p of [...places].sort((a, b) => a.height - b.height)) {
    const last = rings.at(-1);
    if (last && p.height - last.height < layout.depth / 6) last.places.push(p);
    else rings.push({ height: p.height, places: [p] });
  }
  const full = rings.filter((r) => r.places.length > 2);
  for (const lone of rings.filter((r) => r.places.length <= 2)) {
    const nearest = full.reduce<(typeof rings)[number] | undefined>(
      (best, r) =>
        best === undefined || Math.abs(r.height - lone.height) < Math.abs(best.height - lone.height) ? r : best,
      undefined,
    );
    if (nearest) nearest.places.push(...lone.places);
    else full.push(lone);
  }
  return full.map((r) => [...r.places].sort((a, b) => wrapDeg(a.angle) - wrapDeg(b.angle)).map((p) => p.holes));
}

const span = (a: Hole, b: Hole): number => Math.abs(shorterTurn(a.angle, b.angle));

const feels = (a: Hole, b: Hole, radius: Mm): boolean => {
  const length = chord(radius, span(a, b));
  return length > tolerance.same && length < FLAT * 2 * radius;
};

/** The hole of another ring whose chord to `h` lies nearest to half upright, on one side. */
function aslant(h: Hole, ring: readonly Place[], side: 1 | -1, radius: Mm): Hole | undefined {
  let best: Hole | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const place of ring) {
    const other = place[0]!;
    const turn = side * shorterTurn(h.angle, other.angle);
    if (turn <= 5 || turn >= 120) continue;
    const arc = radius * toRad(turn);
    const slope = Math.abs(Math.log(arc / Math.max(1, Math.abs(other.height - h.height))));
    if (slope < least) [best, least] = [other, slope];
  }
  return best;
}

/** About `count` of the places, evenly round. */
function spacedOut<T>(ring: readonly T[], count: number): readonly T[] {
  const step = Math.max(1, Math.round(ring.length / count));
  return ring.filter((_, i) => i % step === 0);
}

/** Pairs most nearly opposite each other, a few, spread round the shell. */
function opposites(rings: readonly (readonly Place[])[], radius: Mm): (readonly [Hole, Hole])[] {
  const out: (readonly [Hole, Hole])[] = [];
  const widest = [...rings].sort((a, b) => b.length - a.length)[0] ?? [];
  const half = widest.slice(0, Math.ceil(widest.length / 2));
  for (const place of spacedOut(half, ACROSS)) {
    const a = place[0]!;
    const far = widest
      .map((p) => p[0]!)
      .filter((b) => b !== a && chord(radius, span(a, b)) > 1.8 * radius)
      .sort((p, q) => span(a, q) - span(a, p))[0];
    if (far) out.push([a, far]);
  }
  return out;
}
