import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { CollarFrame } from './collar-frame.ts';
import { gravest, lineAt } from './level.ts';
import type { Post, Reach, RimEdge } from './plan.ts';
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

/** Which fittings the collar guides, on which edge, and why not the others. A fitting may be on both lists. */
export function reachOf(served: readonly Post[], layout: Layout, facts: readonly Fact[]): Reach {
  const by = new Map<string, { fitting: string; edge: RimEdge; holes: number }>();
  const guided = new Set<string>();
  const reasons = new Map(facts.map((f) => [f.at, f.id]));
  for (const post of served) {
    for (const b of post.bores) {
      const fitting = b.hole.fitting;
      guided.add(b.hole.id);
      by.set(fitting, { fitting, edge: post.edge, holes: (by.get(fitting)?.holes ?? 0) + 1 });
    }
  }
  const unserved = new Map<string, string>();
  for (const h of layout.holes) {
    if (guided.has(h.id)) continue;
    const id = [h.id, h.fitting].map((at) => reasons.get(at)).find((r) => r !== undefined && WORDS[r] !== undefined);
    unserved.set(h.fitting, WORDS[id ?? ''] ?? unserved.get(h.fitting) ?? 'the collar itself cannot be made');
  }
  return { served: [...by.values()], unserved: [...unserved].map(([fitting, why]) => ({ fitting, why })) };
}

const WORDS: Readonly<Record<string, string>> = {
  'collar-out-of-reach': 'out of reach of the collar',
  'rows-too-near': 'its guide plates would meet those of a neighbour',
  'bushing-larger-than-plate': 'its bushing needs a plate wider than its neighbours leave',
  'bushings-overlap': 'its bores run into each other',
  'bore-over-lip': 'its bore would run into the lip',
};
