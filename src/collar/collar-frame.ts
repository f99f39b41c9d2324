import type { Jig } from '../model/jig.ts';
import { type Deg, type Mm, toDeg, wrapDeg } from '../units/scalar.ts';
import { type Clamp, clampOf, clampReach } from './clamp.ts';
import { evenly, freePlaces } from './lands.ts';
import type { Post, RimEdge } from './plan.ts';
import { largestRadius, smallestRadius } from './posts.ts';
import { bestSplit, isWhole, type Piece, WHOLE, wholeLayers } from './ring-pieces.ts';
import { landOf, rules, type Stock, stockOf } from './rules.ts';
import { placeRings } from './stations.ts';

/** One collar (or one sector of it) on one rim: every size its parts share. Angles are counted from `ref`. */
export interface CollarFrame {
  readonly edge: RimEdge;
  /** Begins the ids of its parts: `top`, `bottom`, or a sector's name. */
  readonly tag: string;
  readonly title: string;
  /** Undefined for a collar that is only reckoned with and never cut: its parts carry no engraving. */
  readonly digest: string | undefined;
  /** +1 when depth below the bearing edge grows upwards (a bottom collar), -1 when downwards. */
  readonly sign: 1 | -1;
  /** Height of the bearing edge. */
  readonly rim: Mm;
  readonly ref: Deg;
  readonly posts: readonly Post[];
  /** Depths of the guide rings' near faces. */
  readonly rings: readonly Mm[];
  /** Deepest a bore may be. */
  readonly reach: Mm;
  readonly layers: 1 | 2;
  /** Height of a ring, its layers together. */
  readonly band: Mm;
  readonly inside: Mm;
  readonly outside: Mm;
  readonly lipInside: Mm;
  readonly stock: Stock;
  readonly land: Mm;
  /** What a post keeps beyond its last ring. */
  readonly cap: Mm;
  /** Middle of the guide rings' width. */
  readonly pitchRadius: Mm;
  /** Pieces of each layer: from joint to joint; one piece without ends is a whole ring. */
  readonly pieces: readonly (readonly Piece[])[];
  readonly joints: readonly Deg[];
  /** Dowel pins that hold the layers over each other. */
  readonly pins: readonly Deg[];
  /** Where the last ring holds and centres the shell: by wedges, or by bolts through ears where there is a clamp. */
  readonly holds: readonly Deg[];
  readonly clamp?: Clamp;
  /** The stretch a sector covers, from `ref`; a ring has none. */
  readonly arc?: { readonly from: Deg; readonly to: Deg };
  /** Posts of a sector that only take a pin. */
  readonly index: readonly Post[];
}

/** Outside radius that leaves a hoop of ring outside every post. */
function outsideRadius(posts: readonly Post[], stock: Stock): Mm {
  const corners = posts.map((p) => Math.hypot(p.outer + stock.t, p.neck[1] / 2 + stock.fit));
  return Math.max(...corners) + stock.web;
}

/** Inside radius of the lip: past the wall and whatever stiffens it, on the smallest and most oval shell. */
function lipRadius(jig: Jig, edge: RimEdge): Mm {
  const { wall, rings, round = 0 } = jig.shell;
  return smallestRadius(jig) - wall - (rings[edge]?.thickness ?? 0) - round / 2 - rules.lipInside;
}

/**
 * The collar for one rim and its posts. Whole rings where the sheet takes them; otherwise two staggered layers of pieces,
 * jointed where no post stands. Undefined when no number of pieces fits the sheet and the free places.
 */
export function ringFrame(
  jig: Jig,
  edge: RimEdge,
  posts: readonly Post[],
  digest: string | undefined,
  layout: RingLayout = 'best',
): CollarFrame | undefined {
  const clamped = clampOf(jig);
  const plain = frameBase(jig, edge, posts, digest);
  const base =
    clamped === undefined
      ? plain
      : { ...plain, outside: Math.max(plain.outside, clampReach(clamped, plain.stock) + plain.stock.web) };
  const spec = jig.collar;
  const keep = spec.material.fit + 2;
  const free = freePlaces(posts, base.ref, base.inside, keep).map(wrapDeg);
  const split = layout === 'whole' ? undefined : bestSplit(base.outside, base.lipInside, free, spec);
  const whole = layout !== 'pieces' && isWhole(base.outside, spec, layout === 'whole' ? undefined : split?.cost);
  if (!whole && split === undefined) return undefined;
  const { pieces, joints } = whole || split === undefined ? WHOLE : split;
  const left = free.filter((a) => !joints.includes(a));
  const holds = evenly(left, 3) ?? [];
  const layers = joints.length === 0 ? wholeLayers(spec) : 2;
  const band = layers * spec.thickness;
  const { rings, reach } = placeRings(posts, band, jig.shell.depth);
  const pins = layers === 1 ? [] : joints.length > 0 ? besideJoints(joints, base) : wholePins(left, holds);
  return {
    ...base,
    pitchRadius: (base.inside + base.outside) / 2,
    rings,
    reach,
    layers,
    band,
    pieces,
    joints,
    pins,
    holds,
    ...(clamped === undefined ? {} : { clamp: clamped }),
    index: [],
  };
}

/** Rings whole, rings in jointed pieces, or whichever of the two costs less sheet. */
export type RingLayout = 'best' | 'whole' | 'pieces';

/** Two pins beside every joint, one in each piece. */
function besideJoints(joints: readonly Deg[], base: Base): Deg[] {
  const off = toDeg(rules.place / 4 / ((base.inside + base.outside) / 2));
  return joints.flatMap((j) => [j - off, j + off]);
}

/** Three pins for whole rings, away from where the shell is held; as many as there are places. */
function wholePins(left: readonly Deg[], holds: readonly Deg[]): readonly Deg[] {
  const rest = left.filter((a) => !holds.includes(a));
  return evenly(rest, Math.min(3, rest.length)) ?? [];
}

type Base = Omit<
  CollarFrame,
  'rings' | 'reach' | 'layers' | 'band' | 'pieces' | 'joints' | 'pins' | 'holds' | 'clamp' | 'arc' | 'index'
>;

export function frameBase(jig: Jig, edge: RimEdge, posts: readonly Post[], digest: string | undefined): Base {
  const stock = stockOf(jig.collar);
  const inside = largestRadius(jig) + jig.collar.clearance;
  const outside = outsideRadius(posts, stock);
  return {
    edge,
    tag: edge,
    title: jig.name,
    digest,
    sign: edge === 'bottom' ? 1 : -1,
    rim: edge === 'bottom' ? 0 : jig.shell.depth,
    ref: posts[0]?.angle ?? 0,
    posts,
    inside,
    outside,
    lipInside: lipRadius(jig, edge),
    stock,
    land: landOf(jig.collar),
    cap: Math.max(stock.t, 6),
    pitchRadius: (inside + outside) / 2,
  };
}

/** Half the gap left between two pieces at a joint, as an angle: so that both come home on their pins. */
export const jointGap = (c: CollarFrame): Deg => toDeg(c.stock.fit / 2 / c.pitchRadius);
