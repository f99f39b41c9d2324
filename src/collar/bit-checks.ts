import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { fluteOf } from './flutes.ts';
import { careful, lineAt } from './level.ts';
import type { Post, RimEdge } from './plan.ts';
import { guideLength } from './posts.ts';
import { rules } from './rules.ts';

/** Bits whose flutes do not reach through guide, chip gap, wall and backing; each diameter once, at its worst place. */
export function checkFlutes(jig: Jig, layout: Layout, posts: readonly Post[]): Fact[] {
  const worst = new Map<string, Fact>();
  for (const post of posts) {
    const guide = guideLength(post, jig.collar.thickness, jig.collar.bushing);
    for (const bore of post.bores) {
      const flute = fluteOf(jig, bore.bit);
      const ring = ringBehind(jig, post.edge, bore.s);
      const gap = post.inner - jig.shell.radius;
      const need = guide + gap + layout.wall + ring + flute.point + rules.through;
      if (need <= flute.length + tolerance.noise) continue;
      const key = bore.bit.toFixed(3);
      const before = worst.get(key);
      if (before && (before.measured ?? 0) - (before.limit ?? 0) <= flute.length - need) continue;
      worst.set(key, {
        level: careful(jig),
        id: 'collar-bit-short',
        at: bore.hole.id,
        measured: flute.length,
        limit: need,
        unit: 'mm',
        facts: {
          bit: bore.bit,
          guide,
          gap,
          wall: layout.wall + ring,
          point: flute.point,
          through: rules.through,
          known: flute.known ? 'yes' : 'no',
        },
        ...lineAt(jig, 'rotary.tools', 'collar'),
      });
    }
  }
  return [...worst.values()];
}

/** Thickness of the stiffening ring behind a hole at depth `s` below an edge. */
function ringBehind(jig: Jig, edge: RimEdge, s: Mm): Mm {
  const other: RimEdge = edge === 'top' ? 'bottom' : 'top';
  const [near, far] = [jig.shell.rings[edge], jig.shell.rings[other]];
  if (near && s <= near.width) return near.thickness;
  return far && jig.shell.depth - s <= far.width ? far.thickness : 0;
}

/** Guides shorter than three bits, each bit once. */
export function checkGuides(jig: Jig, posts: readonly Post[]): Fact[] {
  const seen = new Set<string>();
  const facts: Fact[] = [];
  for (const post of posts) {
    const guide = guideLength(post, jig.collar.thickness, jig.collar.bushing);
    for (const bore of post.bores) {
      const need = rules.guide * bore.bit;
      if (guide >= need - tolerance.noise || seen.has(bore.bit.toFixed(3))) continue;
      seen.add(bore.bit.toFixed(3));
      facts.push({
        level: careful(jig),
        id: 'collar-guide-short',
        at: bore.hole.id,
        measured: guide,
        limit: need,
        unit: 'mm',
        facts: { bit: bore.bit },
        ...lineAt(jig, 'collar.bushing', 'collar'),
      });
    }
  }
  return facts;
}
