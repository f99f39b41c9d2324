import type { Part } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import { backingBlock } from './backing.ts';
import { clampParts } from './clamp-parts.ts';
import { type CollarFrame, frameBase, type RingLayout, ringFrame } from './collar-frame.ts';
import { gravest, lineAt } from './level.ts';
import type { Placement, Post, RimEdge } from './plan.ts';
import { postPlates } from './plates.ts';
import { frameInReach } from './reach.ts';
import { ringParts } from './rings.ts';
import { wedgeParts } from './wedges.ts';

/** One way to build the collar, worked out: frames, parts in place, and what it does not serve. */
export interface Built {
  readonly frames: readonly CollarFrame[];
  readonly parts: readonly Part[];
  readonly placements: readonly Placement[];
  readonly posts: readonly Post[];
  readonly beyond: readonly Post[];
  readonly facts: readonly Fact[];
}

/** Rings with upright guide plates: one collar for each edge that rows are measured from. */
export function buildRings(jig: Jig, posts: readonly Post[], digest: string | undefined, layout?: RingLayout): Built {
  const built = (['top', 'bottom'] as const).map((edge) => oneCollar(jig, edge, posts, digest, layout));
  return joined(built);
}

function oneCollar(
  jig: Jig,
  edge: RimEdge,
  posts: readonly Post[],
  digest: string | undefined,
  layout?: RingLayout,
): Built {
  const here = posts.filter((p) => p.edge === edge);
  if (here.length === 0) return joined([]);
  const { frame, beyond, facts } = frameInReach(jig, edge, here, (kept) => ringFrame(jig, edge, kept, digest, layout));
  if (frame === undefined) {
    const none = beyond.length === here.length && facts.length === here.length;
    return { ...joined([]), beyond, facts: none ? facts : [...facts, tooSmallSheet(jig, edge, here, digest)] };
  }
  const made = [
    ringParts(frame),
    postPlates(frame),
    wedgeParts(frame, jig),
    clampParts(frame, jig),
    backingBlock(frame, jig),
  ];
  return {
    frames: [frame],
    parts: made.flatMap((m) => m.parts),
    placements: made.flatMap((m) => m.placements),
    posts: frame.posts,
    beyond,
    facts,
  };
}

export function tooSmallSheet(jig: Jig, edge: RimEdge, posts: readonly Post[], digest: string | undefined): Fact {
  const { outside } = frameBase(jig, edge, posts, digest);
  const { width, height, margin } = jig.collar.sheet;
  return {
    level: gravest(jig),
    id: 'ring-larger-than-sheet',
    at: `${edge} collar`,
    measured: Math.min(width, height),
    limit: 2 * outside + 2 * margin + 1,
    unit: 'mm',
    facts: { edge, sheet: jig.collar.sheet.name },
    ...lineAt(jig, 'collar.sheet', 'collar'),
  };
}

export const joined = (all: readonly Built[]): Built => ({
  frames: all.flatMap((b) => b.frames),
  parts: all.flatMap((b) => b.parts),
  placements: all.flatMap((b) => b.placements),
  posts: all.flatMap((b) => b.posts),
  beyond: all.flatMap((b) => b.beyond),
  facts: all.flatMap((b) => b.facts),
});
