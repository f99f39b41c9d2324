import type { Jig } from '../model/jig.ts';
import { backingBlock } from './backing.ts';
import type { Post } from './plan.ts';
import { postPlates } from './plates.ts';
import { frameInReach } from './reach.ts';
import { type Built, joined, tooSmallSheet } from './ring-build.ts';
import { ringParts } from './rings.ts';
import { planSectors, type SectorPlan, sectorFrame } from './sectors.ts';

export interface SectorBuild extends Built {
  readonly sectors: readonly SectorPlan[];
}

/** Sectors for the posts; `pins` are posts whose holes are there before and may take a pin; `taken` are names of others. */
export function buildSectors(
  jig: Jig,
  posts: readonly Post[],
  pins: readonly Post[],
  digest: string | undefined,
  block: 'with block' | 'without block',
  taken: readonly string[] = [],
): SectorBuild {
  const sectors = planSectors(posts, pins, jig, taken);
  const blocked = new Set<string>(block === 'with block' ? [] : ['top', 'bottom']);
  const built = sectors.map((plan): Built => {
    const all = [...plan.posts, ...plan.index];
    const { frame, beyond, facts } = frameInReach(jig, plan.edge, all, (kept) => sectorFrame(jig, plan, kept, digest));
    const lost = beyond.filter((p) => plan.posts.includes(p));
    if (frame === undefined || lost.length > 0) {
      const small = facts.length === 0 ? [tooSmallSheet(jig, plan.edge, all, digest)] : [];
      return { ...joined([]), beyond: plan.serves, facts: [...facts, ...small] };
    }
    const made = [ringParts(frame), postPlates(frame)];
    if (!blocked.has(plan.edge)) made.push(backingBlock(frame, jig));
    blocked.add(plan.edge);
    return {
      frames: [frame],
      parts: made.flatMap((m) => m.parts),
      placements: made.flatMap((m) => m.placements),
      posts: plan.serves,
      beyond: [],
      facts,
    };
  });
  return { ...joined(built), sectors };
}
