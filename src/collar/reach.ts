import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { gravest, lineAt } from './checks.ts';
import type { CollarFrame } from './collar-frame.ts';
import type { Post, RimEdge } from './plan.ts';
import { high, postEnd } from './stations.ts';

export interface Framed {
  readonly frame: CollarFrame | undefined;
  /** Posts the collar cannot reach. */
  readonly beyond: readonly Post[];
  readonly facts: readonly Fact[];
}

/**
 * The collar with every post it reaches: a post drops out when its bores lie beyond the last ring that fits the shell, or
 * when its plates are longer than the sheet. The deepest goes first, for without it the rings may move.
 */
export function frameInReach(
  jig: Jig,
  edge: RimEdge,
  posts: readonly Post[],
  build: (posts: readonly Post[]) => CollarFrame | undefined,
): Framed {
  let left = [...posts].sort((a, b) => deepest(a) - deepest(b));
  const beyond: Post[] = [];
  const facts: Fact[] = [];
  while (left.length > 0) {
    const kept = posts.filter((p) => left.includes(p));
    const frame = build(kept);
    if (frame === undefined) return { frame, beyond: [...beyond, ...kept], facts };
    const post = left.at(-1) as Post;
    const limit = Math.min(frame.rings.length > 0 ? frame.reach : 0, longest(jig, frame));
    const measured = Math.max(deepest(post), postEnd(post, frame.rings, frame.band, frame.land, frame.cap) - frame.cap);
    if (deepest(post) <= frame.reach + tolerance.noise && measured <= longest(jig, frame) && frame.rings.length > 0)
      return { frame, beyond, facts };
    left = left.slice(0, -1);
    beyond.push(post);
    facts.push({
      level: gravest(jig) === 'stop' ? 'care' : 'note',
      id: 'collar-out-of-reach',
      at: post.id,
      measured: deepest(post),
      limit: Math.max(0, limit),
      unit: 'mm',
      facts: { edge },
      ...lineAt(jig, 'collar'),
    });
  }
  return { frame: undefined, beyond, facts };
}

const deepest = (p: Post): Mm => Math.max(...p.bores.map(high));

/** How deep below the edge the longest plate goes that the sheet holds. */
function longest(jig: Jig, frame: CollarFrame): Mm {
  const { width, height, margin } = jig.collar.sheet;
  return Math.max(width, height) - 2 * margin - 1 - frame.band - frame.cap;
}
