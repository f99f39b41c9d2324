import type { Jig } from '../model/jig.ts';
import { type Deg, type Mm, shorterTurn, toDeg, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type CollarFrame, frameBase } from './collar-frame.ts';
import type { Post, RimEdge } from './plan.ts';
import { clashes } from './post-checks.ts';
import { halfAngle } from './posts.ts';
import { fitsSheet, pieceBox } from './ring-pieces.ts';
import { placeRings } from './stations.ts';

/** Ring beyond the last post of a sector, for the cord that holds it to the shell (judgement, no source). */
const END: Mm = 16;
/** A sector finds its place from a lug no further away than this (judgement, no source). */
const NEAR: Deg = 75;

/** All posts of one fitting. */
interface Unit {
  readonly id: string;
  readonly edge: RimEdge;
  readonly angle: Deg;
  readonly posts: readonly Post[];
  readonly isLug: boolean;
}

/** What one sector is cut for. */
export interface SectorPlan {
  readonly tag: string;
  readonly edge: RimEdge;
  /** Posts it drills through, then those it only pins. */
  readonly posts: readonly Post[];
  readonly index: readonly Post[];
  /** Every post of the job that this sector serves by stepping or by being moved to a like place. */
  readonly serves: readonly Post[];
  /** Steps round the shell; 0 for one that stands in one place. */
  readonly steps: number;
}

/**
 * The sectors that serve the posts: for a row of even pitch one sector two lugs wide, stepped round by a pin in the hole
 * just drilled; for every other fitting one of its own that also takes a pin in the nearest lug's hole, one for all
 * places that look alike from there. `pins` are the posts whose holes may take the pin, `taken` the names of other sectors.
 */
export function planSectors(
  posts: readonly Post[],
  pins: readonly Post[],
  jig: Jig,
  taken: readonly string[],
): SectorPlan[] {
  const units = unitsOf(posts);
  const plans: SectorPlan[] = [];
  const done = new Set<Unit>();
  for (const first of units.filter((u) => u.isLug)) {
    if (done.has(first)) continue;
    const alike = units.filter((u) => u.isLug && u.edge === first.edge && shape(u) === shape(first) && !done.has(u));
    const row = alike.sort((a, b) => wrapDeg(a.angle - first.angle) - wrapDeg(b.angle - first.angle));
    const second = row[1];
    if (second === undefined || !isEven(row) || !fits(jig, [...first.posts, ...second.posts])) continue;
    for (const u of row) done.add(u);
    plans.push({
      tag: distinct(`${first.edge}-lugs`, plans, taken),
      edge: first.edge,
      posts: [...first.posts, ...second.posts],
      index: [],
      serves: row.flatMap((u) => u.posts),
      steps: row.length,
    });
  }
  const lugs = unitsOf(pins).filter((u) => u.isLug);
  const alone = new Map<string, SectorPlan>();
  const own = new Set(units.map((u) => u.id));
  const settled = new Set([...done].map((u) => u.id));
  for (const unit of units.filter((u) => !done.has(u))) {
    // A lug is pinned only in one that is drilled before it; the first of them is set to its line.
    const before = lugs.filter((l) => !unit.isLug || !own.has(l.id) || settled.has(l.id));
    const pin = nearestPin(unit, before, jig);
    settled.add(unit.id);
    const key = `${unit.edge} ${shape(unit)} ${pin ? shorterTurn(unit.angle, pin.angle).toFixed(3) : 'line'}`;
    const alike = alone.get(key);
    if (alike) {
      alone.set(key, { ...alike, serves: [...alike.serves, ...unit.posts] });
      continue;
    }
    alone.set(key, {
      tag: distinct(`${unit.edge}-${unit.id}`, [...plans, ...alone.values()], taken),
      edge: unit.edge,
      posts: unit.posts,
      index: pin?.posts ?? [],
      serves: unit.posts,
      steps: 0,
    });
  }
  return [...plans, ...alone.values()];
}

function distinct(tag: string, plans: readonly SectorPlan[], others: readonly string[]): string {
  const taken = new Set([...others, ...plans.map((p) => p.tag)]);
  for (let n = 2, name = tag; ; n++) {
    if (!taken.has(name)) return name;
    name = `${tag}-${n}`;
  }
}

function unitsOf(posts: readonly Post[]): Unit[] {
  const by = new Map<string, Post[]>();
  for (const p of posts) {
    const key = p.fittings[0] ?? p.id;
    by.set(key, [...(by.get(key) ?? []), p]);
  }
  return [...by].map(([id, own]) => ({
    id,
    edge: (own[0] as Post).edge,
    angle: (own[0] as Post).angle,
    posts: own,
    isLug: own.every((p) => p.bores[0]?.hole.role === 'lug'),
  }));
}

/** What a unit looks like from its own first line: alike units can be drilled through the same plates. */
function shape(u: Unit): string {
  const parts = u.posts.map((p) => {
    const bores = p.bores.map((b) => `${b.x.toFixed(3)} ${b.s.toFixed(3)} ${b.diameter.toFixed(3)}`).sort();
    return `${shorterTurn(u.angle, p.angle).toFixed(3)}: ${bores.join(', ')}`;
  });
  return parts.sort().join('; ').replaceAll('-0.000', '0.000');
}

function isEven(row: readonly Unit[]): boolean {
  const pitch = 360 / row.length;
  return row.every((u, i) => {
    const next = row[(i + 1) % row.length] as Unit;
    return Math.abs(wrapDeg(next.angle - u.angle) - pitch) < tolerance.same;
  });
}

function nearestPin(unit: Unit, lugs: readonly Unit[], jig: Jig): Unit | undefined {
  const away = (u: Unit): Deg => Math.abs(shorterTurn(unit.angle, u.angle));
  return lugs
    .filter((l) => l.id !== unit.id && l.edge === unit.edge && away(l) <= NEAR)
    .filter((l) => !l.posts.some((p) => unit.posts.some((q) => clashes(jig, p, q))))
    .sort((a, b) => away(a) - away(b) || a.angle - b.angle)
    .find((l) => fits(jig, [...unit.posts, ...l.posts]));
}

/** Whether a sector over these posts goes on the sheet. */
function fits(jig: Jig, posts: readonly Post[]): boolean {
  const { outside, lipInside, from, to } = stretch(jig, posts, 0);
  return to - from < 360 && fitsSheet(pieceBox(outside, lipInside, to - from), jig.collar.sheet);
}

/** The arc a sector over these posts covers, and its sizes. */
function stretch(jig: Jig, posts: readonly Post[], steps: number) {
  const edge = posts[0]?.edge ?? 'bottom';
  const base = frameBase(jig, edge, posts, '');
  const pitchRadius = (jig.shell.radius + base.outside) / 2;
  const end = toDeg(END / pitchRadius);
  const rel = posts.map((p) => ({ at: shorterTurn(base.ref, p.angle), half: halfAngle(p) + end }));
  let from = Math.min(...rel.map((p) => p.at - p.half));
  let to = Math.max(...rel.map((p) => p.at + p.half));
  const zero = shorterTurn(base.ref, 0);
  const widest = Math.max(...rel.map((p) => Math.abs(p.at)));
  const toZero = pieceBox(base.outside, base.lipInside, Math.max(to, zero + end / 2) - Math.min(from, zero - end / 2));
  if (steps > 0 && Math.abs(zero) <= widest && fitsSheet(toZero, jig.collar.sheet)) {
    from = Math.min(from, zero - end / 2);
    to = Math.max(to, zero + end / 2);
  }
  return { outside: base.outside, lipInside: base.lipInside, pitchRadius, from, to };
}

/**
 * A sector's frame: a stretch of lip and rings in one layer, lying on the shell without clearance and tied to it with a
 * cord. It reaches to the strainer line where that is no further off than its own posts are from each other.
 */
export function sectorFrame(
  jig: Jig,
  plan: SectorPlan,
  posts: readonly Post[],
  digest: string | undefined,
): CollarFrame | undefined {
  const base = frameBase(jig, plan.edge, posts, digest);
  const inside = jig.shell.radius;
  const { pitchRadius, from, to } = stretch(jig, posts, plan.steps);
  if (to - from >= 360 || !fitsSheet(pieceBox(base.outside, base.lipInside, to - from), jig.collar.sheet))
    return undefined;
  const band = jig.collar.thickness;
  const { rings, reach } = placeRings(posts, band, jig.shell.depth);
  return {
    ...base,
    tag: plan.tag,
    inside,
    pitchRadius,
    rings,
    reach,
    layers: 1,
    band,
    pieces: [[{ whole: false, from, to }]],
    joints: [],
    pins: [],
    holds: [],
    arc: { from, to },
    index: plan.index,
  };
}
