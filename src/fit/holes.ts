import type { Fact } from '../model/finding.ts';
import type { Hole, Placed } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, type Print, raise } from './bench.ts';
import { depthInside } from './contact.ts';
import { isBadgeOnVent } from './feet.ts';
import { type Gathered, gather } from './gather.ts';
import { eachPair, ground } from './neighbours.ts';
import type { Outline } from './outline.ts';

/** Every hole against its own foot, other feet, other holes, and holes that are in the shell already. */
export function checkHoles(bench: Bench): Fact[] {
  const found: Gathered[] = [];
  const olds: Olds = { covered: new Set(), shown: new Set(), reused: new Set() };
  eachPair(ground(bench.prints, bench.girth), bench.limits.land, (a, b, shift) => {
    // Feet come before holes and new holes before old ones.
    if (b.kind === 'foot' || a.kind === 'old') return;
    if (a.kind === 'foot') found.push(...footAndHole(bench, a, b, shift, olds));
    else found.push(...twoHoles(bench, a, b, shift, olds));
  });
  for (const print of bench.prints) if (print.kind === 'hole') found.push(...outsideFoot(bench, print));
  return [...gather(found), ...oldHoles(bench, olds)];
}

/** What becomes of the holes that are in the shell already, by their names. */
interface Olds {
  readonly covered: Set<string>;
  /** Under a foot in part, and told so. */
  readonly shown: Set<string>;
  readonly reused: Set<string>;
}

/** `shift` brings the hole beside the foot. */
function footAndHole(bench: Bench, foot: Print, hole: Print, shift: Mm, olds: Olds): Gathered[] {
  const owner = foot.placed as Placed;
  // The hole's own foot is another check.
  if (hole.placed === owner) return [];
  const depth = depthInside(foot.shape as Outline, { x: hole.x + shift - foot.x, y: hole.y - foot.y });
  if (depth <= -hole.radius + tolerance.noise) return [];
  if (hole.kind === 'old') {
    if (depth >= hole.radius - tolerance.chord) {
      olds.covered.add(hole.id);
      return [];
    }
    olds.shown.add(hole.id);
    const fact = raise(bench, {
      level: 'care',
      id: 'old-hole-shows',
      at: hole.id,
      measured: hole.radius - depth,
      limit: 0,
      facts: { other: owner.id, diameter: 2 * hole.radius },
      keys: [...oldKeys(bench, hole), owner.key],
    });
    return [{ key: `old ${hole.id} ${owner.key}`, over: hole.radius - depth, fact }];
  }
  const placed = hole.placed as Placed;
  if (isBadgeOnVent(placed, owner, bench.layout.radius)) return [];
  const over = depth + hole.radius;
  const fact = raise(bench, {
    level: 'stop',
    id: 'hole-under-foot',
    at: hole.id,
    measured: over,
    limit: 0,
    facts: { one: placed.id, other: owner.id, role: placed.role, over },
    keys: [`${placed.key}.at`, placed.key, owner.key],
  });
  return [{ key: `under ${placed.key} ${owner.key}`, over, fact }];
}

function twoHoles(bench: Bench, a: Print, b: Print, shift: Mm, olds: Olds): Gathered[] {
  const apart = Math.hypot(b.x + shift - a.x, b.y - a.y);
  const land = apart - a.radius - b.radius;
  if (land >= bench.limits.land - tolerance.noise) return [];
  if (b.kind === 'old') return oldAndNew(bench, b, a, apart, land, olds);
  const [p, q] = [a.placed as Placed, b.placed as Placed];
  if (isBadgeOnVent(p, q, bench.layout.radius) && apart < Math.max(a.radius, b.radius)) return [];
  const stop = land < -tolerance.noise;
  const fact = raise(bench, {
    level: stop ? 'stop' : 'care',
    id: stop ? 'holes-overlap' : 'holes-close',
    at: a.id,
    measured: land,
    limit: stop ? 0 : bench.limits.land,
    facts: {
      one: p.id,
      other: q.id,
      hole: b.id,
      apart,
      need: a.radius + b.radius,
      over: -land,
      same: p === q ? 'yes' : 'no',
    },
    keys: [p === q ? `${p.key}.holes` : `${q.key}.at`, 'lugs.holes', q.key, p.key],
  });
  return [{ key: `${stop} ${p.key} ${q.key}`, over: -land, fact, other: b.id }];
}

/** A new hole this near (mm) to an old one is meant to take its place: old holes are measured with a caliper at best. */
const SAME_PLACE: Mm = 0.3;

/** A new hole may swallow an old one or take its place; half into it the drill wanders, wholly inside it holds nothing. */
function oldAndNew(bench: Bench, old: Print, fresh: Print, apart: Mm, land: Mm, olds: Olds): Gathered[] {
  const placed = fresh.placed as Placed;
  const stop = land < -tolerance.noise;
  const swallowed = apart + old.radius <= fresh.radius + tolerance.same;
  const inPlace = apart <= SAME_PLACE;
  const wider = old.radius - fresh.radius > SAME_PLACE;
  if (swallowed || inPlace) olds.reused.add(old.id);
  if (swallowed || (inPlace && !wider)) return [];
  const inside = apart + fresh.radius <= old.radius + tolerance.same;
  const id = inPlace ? 'old-hole-wider' : stop ? 'hole-into-old-hole' : 'holes-close';
  const fact = raise(bench, {
    level: stop && !inPlace ? 'stop' : 'care',
    id,
    at: fresh.id,
    measured: inPlace ? 2 * old.radius : land,
    limit: inPlace ? 2 * fresh.radius : stop ? 0 : bench.limits.land,
    facts: {
      other: old.id,
      hole: old.id,
      apart,
      need: old.radius + fresh.radius,
      diameter: 2 * old.radius,
      drill: 2 * fresh.radius,
      inside: inside ? 'yes' : 'no',
    },
    keys: [...oldKeys(bench, old), placed.key],
  });
  return [{ key: `${id} ${placed.key} ${old.id}`, over: -land, fact }];
}

function outsideFoot(bench: Bench, print: Print): Gathered[] {
  const placed = print.placed as Placed;
  const hole = print.hole as Hole;
  const foot = bench.footOf.get(placed);
  if (!foot?.shape) return [];
  const turns = Math.round((foot.x - print.x) / bench.girth);
  const depth = depthInside(foot.shape, { x: print.x + turns * bench.girth - foot.x, y: print.y - foot.y });
  const over = print.radius - depth;
  // A curved side is drawn as chords that lie up to `tolerance.chord` inside it.
  if (over <= tolerance.chord) return [];
  const fact = raise(bench, {
    level: 'stop',
    id: 'hole-outside-foot',
    at: print.id,
    measured: depth,
    limit: print.radius,
    facts: { over, drill: hole.drill, whole: depth <= -print.radius ? 'yes' : 'no' },
    keys: [`${placed.key}.holes`, 'lugs.holes', placed.key],
  });
  return [{ key: `outside ${placed.key}`, over, fact }];
}

/** Where the jig file has an old hole: they lie on the bench in its order. */
const oldKeys = (bench: Bench, old: Print): string[] => [
  `shell.holes.${bench.prints.filter((p) => p.kind === 'old').indexOf(old)}`,
  'shell.holes',
];

function oldHoles(bench: Bench, { covered, shown, reused }: Olds): Fact[] {
  const isTold = ({ id }: Print): boolean => shown.has(id) && !covered.has(id) && !reused.has(id);
  return bench.prints
    .filter((p) => p.kind === 'old' && !isTold(p))
    .map((p) => {
      const [level, id] = reused.has(p.id)
        ? (['note', 'old-hole-reused'] as const)
        : covered.has(p.id)
          ? (['note', 'old-hole-covered'] as const)
          : (['care', 'old-hole-open'] as const);
      return raise(bench, {
        level,
        id,
        at: p.id,
        measured: 2 * p.radius,
        facts: { height: p.y, diameter: 2 * p.radius },
        keys: oldKeys(bench, p),
      });
    });
}
