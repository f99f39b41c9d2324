import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import { type Mm, shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { gravest, lineAt } from './level.ts';
import type { Post } from './plan.ts';
import { halfAngle } from './posts.ts';
import { landOf, seatGap } from './rules.ts';

/** Bores that run into each other, or into the lip, in one post. */
export function checkBores(jig: Jig, post: Post): Fact[] {
  const bridge = Math.max(2, jig.collar.sheet.bridge);
  const facts: Fact[] = [];
  const byDepth = [...post.bores].sort((a, b) => a.s - b.s);
  for (const [i, a] of byDepth.entries()) {
    if (a.s - a.diameter / 2 < bridge - tolerance.noise) {
      facts.push({
        level: gravest(jig),
        id: 'bore-over-lip',
        at: a.hole.id,
        measured: a.s,
        limit: a.diameter / 2 + bridge,
        unit: 'mm',
        facts: { diameter: a.diameter, edge: post.edge, fitting: a.hole.fitting },
        ...lineAt(jig, 'collar.bushing', 'collar'),
      });
    }
    for (const b of byDepth.slice(i + 1)) {
      const need = (a.diameter + b.diameter) / 2 + bridge;
      if (b.s - a.s >= need) break;
      const apart = Math.hypot(a.x - b.x, a.s - b.s);
      if (apart >= need - tolerance.noise) continue;
      facts.push({
        level: gravest(jig),
        id: 'bushings-overlap',
        at: a.hole.id,
        measured: apart,
        limit: need,
        unit: 'mm',
        facts: {
          other: b.hole.id,
          diameter: a.diameter,
          largest: Math.max(0, apart - bridge - (jig.collar.bushing ? seatGap(jig.collar) : 0)),
          bushed: jig.collar.bushing ? 'yes' : 'no',
        },
        ...lineAt(jig, 'collar.bushing', 'collar'),
      });
    }
  }
  return facts;
}

/** Least ring left between two posts' plates, measured at the inner plates. */
const between = (jig: Jig): Mm => Math.max(jig.collar.thickness, 4);

/** Posts that stand free of one another, and a fact for every one that does not: the first come stay, lugs before others. */
export function standFree(jig: Jig, posts: readonly Post[]): { kept: Post[]; dropped: Post[]; facts: Fact[] } {
  const inOrder = [...posts].sort((a, b) => rank(a) - rank(b));
  const kept = new Set<Post>();
  const dropped: Post[] = [];
  const facts: Fact[] = [];
  for (const post of inOrder) {
    const clash = [...kept].find((k) => clashes(jig, k, post));
    if (clash === undefined) {
      kept.add(post);
      continue;
    }
    dropped.push(post);
    facts.push(tooNear(jig, post, clash));
  }
  return { kept: posts.filter((p) => kept.has(p)), dropped, facts };
}

/** Whether two posts of one edge need the same room. */
export const clashes = (jig: Jig, a: Post, b: Post): boolean =>
  a.edge === b.edge && apart(a, b) < needed(jig, a, b) - tolerance.noise;

const rank = (p: Post): number => (p.bores[0]?.hole.role === 'lug' ? 0 : 1);
const apart = (a: Post, b: Post): number => Math.abs(shorterTurn(a.angle, b.angle));
const needed = (jig: Jig, a: Post, b: Post): number =>
  halfAngle(a) + halfAngle(b) + (between(jig) / Math.min(a.inner, b.inner)) * (180 / Math.PI);

function tooNear(jig: Jig, post: Post, other: Post): Fact {
  const need = needed(jig, other, post);
  const is = apart(other, post);
  const bushing = jig.collar.bushing;
  const { radius } = jig.shell;
  const most =
    2 * Math.min(post.inner, other.inner) * Math.tan(toRad(is / 2)) -
    between(jig) -
    2 * landOf(jig.collar) -
    seatGap(jig.collar);
  const single = post.bores.every((b) => b.x === 0) && other.bores.every((b) => b.x === 0);
  const common = { level: gravest(jig), at: post.id, unit: 'mm', facts: { other: other.id, edge: post.edge } };
  // A bushing so wide that its own plate no longer stands between its neighbours.
  if (bushing && single && bushing.outside > most && most > bushing.inside) {
    return {
      ...common,
      id: 'bushing-larger-than-plate',
      measured: bushing.outside,
      limit: most,
      ...lineAt(jig, 'collar.bushing', 'collar'),
    };
  }
  return {
    ...common,
    id: 'rows-too-near',
    measured: toRad(is) * radius,
    limit: toRad(need) * radius,
    ...lineAt(jig, 'collar'),
  };
}
