import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Staged } from '../model/stage.ts';
import { stepsOf, suppliesOf } from './assembly.ts';
import { checkBores, checkFlutes, checkGuides, checkSpec, standFree } from './checks.ts';
import { boresOf, figuresOf, servesOf } from './figures.ts';
import { noteUse } from './notes.ts';
import type { CollarPlan, Post, Reach } from './plan.ts';
import { gatherPosts } from './posts.ts';
import { type Built, buildRings, joined } from './ring-build.ts';

export interface CollarOptions {
  /** Digest of the jig file, engraved on the rings so that a part is never used for another build. */
  readonly digest: string;
}

/** Findings after which nothing of the collar may be cut. */
const FORBIDDING: ReadonlySet<string> = new Set([
  'no-rim',
  'collar-binds',
  'sheet-thicker-than-slot',
  'bushing-wall-thin',
]);

/**
 * Jig and layout in; flat parts at finished size, where each stands when assembled, and the bores they carry, out.
 * Every fitting in reach of an edge gets an upright pair of plates on that edge's collar. Bad input comes back as facts
 * (`stop` when the jig file asks for a collar, `note` when not), never as an exception.
 */
export function planCollar(jig: Jig, layout: Layout, options: CollarOptions): Staged<CollarPlan> {
  const spec = checkSpec(jig);
  const all = gatherPosts(jig, layout);
  const boreFacts = all.flatMap((p) => checkBores(jig, p));
  const spoilt = new Set(boreFacts.map((f) => f.at));
  const sound = all.filter((p) => !p.bores.some((b) => spoilt.has(b.hole.id)));
  const free = standFree(jig, sound);
  const rings = buildRings(jig, free.kept, options.digest);
  const forbidden = spec.some((f) => FORBIDDING.has(f.id));
  const built = forbidden ? joined([]) : rings;
  const facts: Fact[] = [
    ...spec,
    ...boreFacts,
    ...free.facts,
    ...rings.facts,
    ...checkGuides(jig, rings.posts),
    ...checkFlutes(jig, layout, rings.posts),
    ...(forbidden ? [] : noteUse(jig, layout, built.frames)),
  ];
  const value: CollarPlan = {
    made: built.parts.length > 0,
    build: jig.collar.build,
    parts: built.parts,
    placements: built.placements,
    bores: boresOf(jig, built.posts),
    supplies: suppliesOf(jig, built),
    steps: stepsOf(jig, built),
    reach: reachOf(built, all, new Map(facts.map((f) => [f.at, f.id]))),
    tradeoff: { rings: figuresOf(jig, rings.parts, rings.posts, 0) },
    serves: servesOf(jig),
  };
  return { value, facts };
}

function reachOf(built: Built, all: readonly Post[], reasons: ReadonlyMap<string, string>): Reach {
  const inReach = new Set(built.posts);
  const served = new Map<string, { fitting: string; edge: Post['edge']; holes: number }>();
  for (const post of built.posts) {
    for (const b of post.bores) {
      const key = b.hole.fitting;
      const before = served.get(key)?.holes ?? 0;
      served.set(key, { fitting: key, edge: post.edge, holes: before + 1 });
    }
  }
  const unserved = all
    .filter((p) => !inReach.has(p))
    .flatMap((p) => p.fittings.map((fitting) => ({ fitting, why: whyNot(p, reasons) })));
  return { served: [...served.values()], unserved };
}

const WORDS: Readonly<Record<string, string>> = {
  'collar-out-of-reach': 'out of reach of the collar',
  'rows-too-near': 'its guide plates would meet those of a neighbour',
  'bushing-larger-than-plate': 'its bushing needs a plate wider than its neighbours leave',
  'bushings-overlap': 'its bushings run into each other',
  'bore-over-lip': 'its bushing would sit over the lip',
};

function whyNot(post: Post, reasons: ReadonlyMap<string, string>): string {
  const id = [post.id, ...post.bores.map((b) => b.hole.id)].map((at) => reasons.get(at)).find((r) => r !== undefined);
  return WORDS[id ?? ''] ?? 'the collar itself cannot be made';
}
