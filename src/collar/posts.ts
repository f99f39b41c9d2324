import { acrossAngle } from '../geometry/frames.ts';
import type { Bushing, Jig } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toDeg, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bore, Post, RimEdge } from './plan.ts';
import { landOf, rules, seatGap, stockOf } from './rules.ts';

/**
 * Widest neck a ring is notched for: a wider one would push the ring's hoop far out for a single broad fitting
 * (judgement, no source).
 */
const NECK: Mm = 46;
/** Narrowest neck of the outer plate that still stands (judgement, no source). */
const LEAST_NECK: Mm = 12;

/** Largest outside radius the collar slides over. */
export const largestRadius = (jig: Jig): Mm => Math.max(jig.shell.radius, (jig.batch?.girth[1] ?? 0) / (2 * Math.PI));
/** Smallest outside radius of the batch. */
export const smallestRadius = (jig: Jig): Mm =>
  jig.batch ? Math.min(jig.shell.radius, jig.batch.girth[0] / (2 * Math.PI)) : jig.shell.radius;

/**
 * The bit that goes through the guide. A bushing guides the bit it was made for; a hole of another size takes a bushing of
 * its own in the same seat. Bare plates guide the pilot where there is one. What is too large for its seat or for bare
 * plates is piloted, and opened with the collar off.
 */
function guidedBit(hole: Hole, bushing: Bushing | undefined): Mm {
  const first = hole.pilot ?? hole.drill;
  if (bushing === undefined) return first > rules.largestBare + tolerance.same ? rules.pilot : first;
  const fits = (bit: Mm): boolean =>
    bushing.inside >= bit - tolerance.same && bushing.inside - bit <= rules.bushingSlack;
  if (fits(hole.drill)) return hole.drill;
  if (hole.pilot !== undefined && fits(hole.pilot)) return hole.pilot;
  const seats = (bit: Mm): boolean => bit + 2 * rules.bushingWall <= bushing.outside + tolerance.noise;
  if (seats(first)) return first;
  return seats(rules.pilot) ? rules.pilot : bushing.inside;
}

/**
 * Line of the guide and offset from it: parallel screws stand beside their fitting's line, radial ones on their own.
 */
function lineOf(hole: Hole, radius: Mm): { readonly angle: Deg; readonly x: Mm } {
  if (hole.axes === 'radial' || Math.abs(hole.across) < tolerance.noise) return { angle: hole.angle, x: 0 };
  return { angle: hole.angle - acrossAngle(hole.across, radius), x: hole.across };
}

/**
 * The edge a hole's guide stands on: its own. One measured from the middle stands on the bottom edge, or on the top where
 * that is the only edge others are measured from.
 */
function rimOf(hole: Hole, layout: Layout): RimEdge {
  if (hole.edge !== 'middle') return hole.edge;
  const edges = new Set(layout.holes.map((h) => h.edge));
  return edges.has('top') && !edges.has('bottom') ? 'top' : 'bottom';
}

/** Every hole of the layout gathered into posts: one post for all holes of one edge whose axes share a direction. */
export function gatherPosts(jig: Jig, layout: Layout): Post[] {
  const { bushing } = jig.collar;
  const groups: { angle: Deg; edge: RimEdge; bores: Bore[] }[] = [];
  const byKey = new Map<string, (typeof groups)[number][]>();
  for (const hole of layout.holes) {
    const { angle, x } = lineOf(hole, layout.radius);
    const edge = rimOf(hole, layout);
    const bit = guidedBit(hole, bushing);
    const bore: Bore = {
      hole,
      x,
      s: edge === 'bottom' ? hole.height : layout.depth - hole.height,
      diameter: bushing === undefined ? bit : bushing.outside + seatGap(jig.collar),
      bit,
      ...(hole.drill - bit > tolerance.same ? { opensTo: hole.drill } : {}),
    };
    // Whole degrees as buckets keep the search short; a line on the border of two is looked for in both.
    const keys = [Math.floor(angle + tolerance.same), Math.floor(angle - tolerance.same)].map(
      (k) => `${edge} ${wrapDeg(k)}`,
    );
    const same = keys
      .flatMap((k) => byKey.get(k) ?? [])
      .find((g) => (Math.abs(shorterTurn(g.angle, angle)) * Math.PI * layout.radius) / 180 < tolerance.same);
    if (same) same.bores.push(bore);
    else {
      const group = { angle, edge, bores: [bore] };
      groups.push(group);
      for (const k of new Set(keys)) byKey.set(k, [...(byKey.get(k) ?? []), group]);
    }
  }
  const uses = new Map<string, number>();
  return groups.map((g) => {
    const name = g.bores[0]?.hole.fitting ?? 'post';
    const count = (uses.get(name) ?? 0) + 1;
    uses.set(name, count);
    return sized(count === 1 ? name : `${name}-${count}`, g, jig);
  });
}

function sized(id: string, g: { angle: Deg; edge: RimEdge; bores: readonly Bore[] }, jig: Jig): Post {
  const spec = jig.collar;
  const stock = stockOf(spec);
  const land = landOf(spec);
  const bit = Math.max(...g.bores.map((b) => b.bit));
  const leastNeck = 2 * stock.ledge + LEAST_NECK;
  const width = Math.max(
    2 * stock.grip + leastNeck,
    ...g.bores.map((b) => 2 * (Math.abs(b.x) + b.diameter / 2 + land)),
  );
  // A wide bridge asks for wide ledges: what is left between them has to be a neck yet.
  const neck = Math.max(leastNeck, Math.min(width - 2 * stock.grip, NECK));
  const span = guideSpan(bit, stock.t, spec.bushing);
  const inner = largestRadius(jig) + chipGap(jig, bit);
  return {
    id,
    fittings: [...new Set(g.bores.map((b) => b.hole.fitting))],
    angle: g.angle,
    edge: g.edge,
    bores: g.bores,
    inner,
    outer: inner + span - stock.t,
    bit,
    width,
    neck: [neck, neck - 2 * stock.ledge],
  };
}

/**
 * Gap on the largest shell: middling, or less where the smallest of the batch would be further off than a whole bit.
 */
function chipGap(jig: Jig, bit: Mm): Mm {
  const spare = bit - (largestRadius(jig) - smallestRadius(jig));
  return Math.max(jig.collar.clearance, rules.leastGap * bit, Math.min(rules.chipGap * bit, spare));
}

/**
 * From the inner plate's near face to the outer plate's far face: three diameters, two plates at least, one bushing
 * at most.
 */
function guideSpan(bit: Mm, thickness: Mm, bushing: Bushing | undefined): Mm {
  const wanted = rules.guide * bit;
  return Math.max(2 * thickness, bushing ? Math.min(bushing.length, wanted) : wanted);
}

/** Length of guide round the bit: the bushing, or the plates from first to last face. */
export const guideLength = (post: Post, thickness: Mm, bushing: Bushing | undefined): Mm =>
  bushing?.length ?? post.outer + thickness - post.inner;

/** Half the angle a post's plates take up as seen from the shell's axis. */
export const halfAngle = (post: Post): Deg => toDeg(Math.atan(post.width / 2 / post.inner));
