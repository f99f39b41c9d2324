import type { Fact, Level } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { type Mm, shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { fluteOf } from './flutes.ts';
import type { Post, RimEdge } from './plan.ts';
import { guideLength, halfAngle } from './posts.ts';
import { LEAST_CUTTER, landOf, rules, widestCutter } from './rules.ts';

/** A collar nobody asked for is drawn where it can be: what stands in its way is only a note. */
export const gravest = (jig: Jig): Level => (jig.collar.asked ? 'stop' : 'note');
const careful = (jig: Jig): Level => (jig.collar.asked ? 'care' : 'note');

export const lineAt = (jig: Jig, ...keys: string[]): { line?: number } => {
  const line = keys.map((k) => jig.lines[k]).find((l) => l !== undefined);
  return line === undefined ? {} : { line };
};

/** Sheet of a name may be this much thicker than its name before it is another sheet (6 mm ply measures 5.4 to 6.3). */
const THICKER = 1.1;
const PLY_UP = 1.05;

/** What forbids a collar altogether, whatever its posts. */
export function checkSpec(jig: Jig): Fact[] {
  const { collar, shell } = jig;
  const level = gravest(jig);
  const facts: Fact[] = [];
  if (shell.edges === 'uncut') {
    facts.push({
      level,
      id: 'no-rim',
      at: 'shell',
      measured: null,
      limit: null,
      unit: '',
      ...lineAt(jig, 'shell.edges', 'shell'),
    });
  }
  const oval = (shell.round ?? 0) / 4;
  const need = oval + rules.slide;
  if (collar.clearance < need - tolerance.noise) {
    facts.push({
      level,
      id: 'collar-binds',
      at: 'collar',
      measured: collar.clearance,
      limit: need,
      unit: 'mm',
      facts: { oval, round: shell.round ?? 0, slide: rules.slide },
      ...lineAt(jig, 'collar.clearance', 'collar'),
    });
  }
  const kerf = collar.sheet.kerf ?? collar.material.kerf;
  if (collar.cut === 'router' && kerf < LEAST_CUTTER) {
    facts.push({
      level: careful(jig),
      id: 'cutter-not-said',
      at: 'collar',
      measured: kerf,
      limit: LEAST_CUTTER,
      unit: 'mm',
      facts: { material: collar.material.name, sheet: collar.sheet.name },
      ...lineAt(jig, 'collar.cut', 'collar'),
    });
  }
  if (collar.cut === 'router' && kerf > widestCutter(collar) + tolerance.noise) {
    facts.push({
      level,
      id: 'cutter-wider-than-slot',
      at: 'collar',
      measured: kerf,
      limit: widestCutter(collar),
      unit: 'mm',
      facts: { slot: collar.thickness + collar.material.fit },
      ...lineAt(jig, 'collar.cut', 'collar'),
    });
  }
  if (shell.round === undefined) facts.push(unchecked('collar', 'does an oval shell pass the collar', 'shell.round'));
  const nominal = collar.material.thickness;
  const assumed = jig.assumptions.some((a) => a.key === 'collar.thickness');
  const slot =
    assumed || collar.thickness > nominal * THICKER
      ? nominal + collar.material.fit
      : collar.thickness + collar.material.fit;
  if (collar.material.fit < 0 || collar.thickness > nominal * THICKER) {
    facts.push({
      level,
      id: 'sheet-thicker-than-slot',
      at: 'collar',
      measured: collar.thickness,
      limit: collar.material.fit < 0 ? slot : nominal * THICKER,
      unit: 'mm',
      facts: { material: collar.material.name, nominal, fit: collar.material.fit },
      ...lineAt(jig, 'collar.thickness', 'collar'),
    });
  } else if (assumed) {
    facts.push({
      ...unchecked('collar', 'does the sheet slide into its slots', 'collar.thickness, measured'),
      measured: nominal * PLY_UP,
      limit: slot,
      unit: 'mm',
    });
  }
  return [...facts, ...checkBushing(jig)];
}

function checkBushing(jig: Jig): Fact[] {
  const b = jig.collar.bushing;
  if (b === undefined) return [];
  const at = 'collar';
  const line = lineAt(jig, 'collar.bushing', 'collar');
  if (b.outside - b.inside < 2 * rules.bushingWall - tolerance.noise) {
    const limit = b.inside + 2 * rules.bushingWall;
    return [
      {
        level: gravest(jig),
        id: 'bushing-wall-thin',
        at,
        measured: b.outside,
        limit,
        unit: 'mm',
        facts: { inside: b.inside },
        ...line,
      },
    ];
  }
  if (b.length < jig.collar.thickness) {
    const limit = jig.collar.thickness;
    return [
      { level: careful(jig), id: 'bushing-shorter-than-plate', at, measured: b.length, limit, unit: 'mm', ...line },
    ];
  }
  return [];
}

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
          largest: Math.max(0, apart - bridge),
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
  const most = 2 * Math.min(post.inner, other.inner) * Math.tan(toRad(is / 2)) - between(jig) - 2 * landOf(jig.collar);
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

export const unchecked = (at: string, check: string, needs: string): Fact => ({
  level: 'note',
  id: 'not-checked',
  at,
  measured: null,
  limit: null,
  unit: '',
  facts: { check, needs },
});
