/*
 * The drilling collar. In: the jig and its layout, and the digest of the jig file. Out: flat parts at finished size, the
 * frame each stands in when assembled, the bores they carry, supplies, steps, figures and findings. Never: kerf, nesting or
 * a file (those come after), a hole moved from where the layout put it, or a part that cannot be put together.
 */

import type { Part } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Staged } from '../model/stage.ts';
import { stepsOf, suppliesOf } from './assembly.ts';
import { checkFlutes, checkGuides } from './bit-checks.ts';
import { boresOf, figuresOf, servesOf, sheetAreaOf } from './figures.ts';
import { noteFigures, noteUse } from './notes.ts';
import type { CollarPlan, Post } from './plan.ts';
import { checkBores, standFree } from './post-checks.ts';
import { gatherPosts } from './posts.ts';
import { reachOf } from './reach.ts';
import { noteRepeat } from './repeat.ts';
import { type Built, buildRings, joined } from './ring-build.ts';
import { buildSectors, type SectorBuild } from './sector-build.ts';
import { checkSpec } from './spec-checks.ts';

/** What the collar is told besides the jig. */
export interface CollarOptions {
  /** Digest of the jig file, engraved on every part so that none is used for another build. */
  readonly digest: string;
}

/** Findings after which nothing of the collar may be cut. */
const FORBIDDING: ReadonlySet<string> = new Set([
  'no-rim',
  'collar-binds',
  'sheet-thicker-than-slot',
  'bushing-wall-thin',
  'cutter-wider-than-slot',
]);

/**
 * Jig and layout in; flat parts at finished size, where each stands when assembled, and the bores they carry, out.
 * Every fitting in reach of an edge gets upright pairs of plates on that edge's collar, or on a sector of its own where
 * its plates would meet a neighbour's.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @param options digest to engrave
 * @returns parts in mm; bad input comes back as facts: `stop` when the jig file asks for a collar, `note` when not
 * @throws never
 * @source geometry (derived); guide of three bits and its gaps are common practice
 */
export function planCollar(jig: Jig, layout: Layout, options: CollarOptions): Staged<CollarPlan> {
  const spec = checkSpec(jig);
  const posts = gatherPosts(jig, layout);
  const boreFacts = posts.flatMap((p) => checkBores(jig, p));
  const spoilt = new Set(boreFacts.flatMap((f) => [f.at, String(f.facts?.['other'] ?? f.at)]));
  const holes = layout.holes.filter((h) => !spoilt.has(h.id));
  const rounds = standingRounds(jig, spoilt.size === 0 ? posts : gatherPosts(jig, { ...layout, holes }));
  const first = rounds.kept[0] ?? [];
  // The way not chosen is worked out too, for its figures; where nobody asked for a collar nobody compares.
  const way = (build: CollarPlan['build']): { cut: string | undefined; posts: readonly Post[] } =>
    build === jig.collar.build
      ? { cut: options.digest, posts: first }
      : { cut: undefined, posts: jig.collar.asked ? first : [] };
  const [asRings, asSectors] = [way('rings'), way('sector')];
  const firstSectors = buildSectors(jig, asSectors.posts, first, asSectors.cut, 'with block');
  // A fitting whose posts meet each other comes back in a later round: its sectors need names of their own.
  const later: SectorBuild[] = [];
  for (const posts of rounds.kept.slice(1)) {
    const taken = [firstSectors, ...later].flatMap((b) => b.sectors.map((s) => s.tag));
    later.push(buildSectors(jig, posts, first, options.digest, 'without block', taken));
  }
  const saddles = joinedSectors(later);
  const rings = joined([buildRings(jig, asRings.posts, asRings.cut), saddles]);
  const sector = joinedSectors([firstSectors, saddles]);
  const chosen = jig.collar.build === 'rings' ? rings : sector;
  const forbidden = spec.some((f) => FORBIDDING.has(f.id));
  const built = forbidden ? joined([]) : chosen;
  const facts: Fact[] = [
    ...spec,
    ...boreFacts,
    ...nearFacts(jig, rounds.facts, saddles.posts),
    ...chosen.facts,
    ...checkGuides(jig, chosen.posts),
    ...checkFlutes(jig, layout, chosen.posts),
    ...(forbidden ? [] : noteUse(jig, layout, built.frames)),
  ];
  const value: CollarPlan = {
    made: built.parts.length > 0,
    build: jig.collar.build,
    parts: built.parts,
    placements: built.placements,
    bores: boresOf(jig, built.posts),
    supplies: suppliesOf(jig, built),
    steps: stepsOf(jig, built, jig.collar.build === 'rings' ? saddles.sectors : sector.sectors),
    reach: reachOf(built.posts, layout, facts),
    tradeoff: {
      ...(asRings.posts.length > 0 && rings.parts.length > 0
        ? { rings: figuresOf(jig, rings.parts, rings.posts, 0) }
        : {}),
      ...(asSectors.posts.length > 0 && sector.parts.length > 0
        ? { sector: figuresOf(jig, sector.parts, sector.posts, Math.max(0, ...sector.sectors.map((s) => s.steps))) }
        : {}),
    },
    layouts: jig.collar.asked ? layoutsOf(jig, first, rings, saddles, sector.parts) : {},
    serves: servesOf(jig, chosen.posts, chosen.frames[0]?.band ?? jig.collar.thickness),
  };
  if (!value.made) return { value, facts };
  return {
    value,
    facts: [...facts, ...noteFigures(jig, value), ...noteRepeat(jig, layout, chosen.posts, value.serves)],
  };
}

/** Sheet of whole rings, of rings in pieces and of sectors; the rings already built are one of the first two. */
function layoutsOf(
  jig: Jig,
  posts: readonly Post[],
  rings: Built,
  saddles: Built,
  sector: readonly Part[],
): CollarPlan['layouts'] {
  const jointed = rings.frames.filter((f) => f.arc === undefined).map((f) => f.joints.length > 0);
  const area = (layout: 'whole' | 'pieces'): number => {
    if (jointed.length > 0 && jointed.every((j) => j === (layout === 'pieces'))) return sheetAreaOf(rings.parts);
    const other = joined([buildRings(jig, posts, undefined, layout), saddles]);
    return other.posts.length < rings.posts.length ? 0 : sheetAreaOf(other.parts);
  };
  const all = { whole: area('whole'), pieces: area('pieces'), sector: sheetAreaOf(sector) };
  return Object.fromEntries(Object.entries(all).filter(([, mm2]) => mm2 > 0));
}

/** A fitting that finds no room on the ring nor in two rounds of sectors stands in a crowd no collar serves. */
const ROUNDS = 3;

/** Posts that stand free of each other, then those that stand free once these are away, and so on. */
function standingRounds(jig: Jig, posts: readonly Post[]): { kept: Post[][]; facts: readonly Fact[] } {
  const kept: Post[][] = [];
  let facts: readonly Fact[] = [];
  let left = posts;
  while (left.length > 0 && kept.length < ROUNDS) {
    const round = standFree(jig, left);
    if (kept.length === 0) facts = round.facts;
    kept.push(round.kept);
    left = round.dropped;
  }
  return { kept, facts };
}

function joinedSectors(all: readonly SectorBuild[]): SectorBuild {
  return { ...joined(all), sectors: all.flatMap((s) => s.sectors) };
}

/** A post too near a neighbour that a sector of its own serves is no hindrance, only something to know. */
function nearFacts(jig: Jig, facts: readonly Fact[], saved: readonly Post[]): Fact[] {
  const ids = new Set(saved.map((p) => p.id));
  return facts.map((f): Fact => {
    if (!ids.has(f.at)) return f;
    return { ...f, level: jig.collar.asked ? 'care' : 'note', facts: { ...f.facts, own: 'yes' } };
  });
}
