import type { CollarSpec, Jig } from '../model/jig.ts';
import type { SheetProfile } from '../model/sheet.ts';
import { type Deg, type Mm, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import { type Clamp, clampOf, clampReach } from './clamp.ts';
import { evenly, freePlaces } from './lands.ts';
import type { Post, RimEdge } from './plan.ts';
import { largestRadius, smallestRadius } from './posts.ts';
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

/** A stretch of ring. `whole` has no ends. */
export type Piece = { readonly whole: true } | { readonly whole: false; readonly from: Deg; readonly to: Deg };

export const isIn = (piece: Piece, angle: Deg): boolean =>
  piece.whole || wrapDeg(angle - piece.from) <= piece.to - piece.from;

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

/** Size of the box round a piece of ring, standing upright on its middle. */
export function pieceBox(outside: Mm, inside: Mm, sweep: Deg): { readonly width: Mm; readonly height: Mm } {
  const half = toRad(sweep / 2);
  if (sweep >= 360) return { width: 2 * outside, height: 2 * outside };
  const width = sweep >= 180 ? 2 * outside : 2 * outside * Math.sin(half);
  const low = sweep >= 180 ? outside * Math.cos(half) : inside * Math.cos(half);
  return { width, height: outside - low };
}

/** Half a millimetre covers any beam's width. */
const KERF: Mm = 0.5;

export function fitsSheet(box: { readonly width: Mm; readonly height: Mm }, sheet: SheetProfile): boolean {
  const [w, h] = [sheet.width - 2 * sheet.margin - KERF, sheet.height - 2 * sheet.margin - KERF];
  return (box.width <= w && box.height <= h) || (box.width <= h && box.height <= w);
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

/** Layers of a ring without joints. Thin sheet bows: two layers, their grain crossed, hold each other flat. */
const wholeLayers = (spec: CollarSpec): 1 | 2 => spec.layers ?? (spec.thickness < rules.bowing ? 2 : 1);

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

/** Sheet a builder would rather waste than make one joint more, mm2: it costs two pins and some truth. */
const JOINT = 15_000;

interface Split {
  readonly pieces: readonly (readonly Piece[])[];
  readonly joints: readonly Deg[];
  /** Sheet, with what the joints are worth, mm2. */
  readonly cost: number;
}

const WHOLE: Omit<Split, 'cost'> = { pieces: [[{ whole: true }]], joints: [] };

/** Whole rings where the sheet takes them, unless each would waste most of a sheet that pieces would not. */
function isWhole(outside: Mm, spec: CollarSpec, splitCost = Number.POSITIVE_INFINITY): boolean {
  const { sheet } = spec;
  const box = pieceBox(outside, 0, 360);
  if (!fitsSheet(box, sheet)) return false;
  const side = box.width + sheet.spacing;
  const each =
    Math.floor((sheet.width - 2 * sheet.margin) / side) * Math.floor((sheet.height - 2 * sheet.margin) / side);
  // A tenth of a sheet with a ring on it still takes small parts.
  return (0.9 * sheet.width * sheet.height * wholeLayers(spec)) / Math.max(1, each) <= splitCost;
}

/** Joints of the layer below at even places, of the layer above at odd ones, so that no joint lies over another. */
function bestSplit(outside: Mm, inside: Mm, free: readonly Deg[], spec: CollarSpec): Split | undefined {
  let best: Split | undefined;
  for (const { n, least } of splitsInOrder(outside, inside, free, spec)) {
    if (best !== undefined && least >= best.cost) break;
    const picks = evenly(free, 2 * n)?.sort((a, b) => a - b);
    if (picks === undefined) continue;
    const pieces = [0, 1].map((layer) => piecesBetween(picks.filter((_, i) => i % 2 === layer)));
    const boxes = pieces.flat().map((p) => pieceBox(outside, inside, p.whole ? 360 : p.to - p.from));
    if (!boxes.every((b) => fitsSheet(b, spec.sheet))) continue;
    const cost = boxes.reduce((sum, b) => sum + b.width * b.height, 0) + JOINT * boxes.length;
    if (best === undefined || cost < best.cost) best = { pieces, joints: picks, cost };
  }
  return best;
}

/**
 * Numbers of pieces worth trying, by what even pieces would cost: a box grows faster than its sweep, so uneven pieces
 * never cost less, and where even ones do not fit the sheet the longest of uneven ones does not either.
 */
function splitsInOrder(outside: Mm, inside: Mm, free: readonly Deg[], spec: CollarSpec) {
  const counts = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
  return (
    counts
      // Three places stay for what holds the shell.
      .filter((n) => free.length >= 2 * n + 3)
      .flatMap((n) => {
        const box = pieceBox(outside, inside, 360 / n);
        return fitsSheet(box, spec.sheet) ? [{ n, least: 2 * n * (box.width * box.height + JOINT) }] : [];
      })
      .sort((a, b) => a.least - b.least)
  );
}

function piecesBetween(joints: readonly Deg[]): Piece[] {
  return joints.map((from, i) => {
    const next = joints[i + 1];
    return { whole: false, from, to: next ?? (joints[0] as Deg) + 360 };
  });
}

/** Half the gap left between two pieces at a joint, as an angle: so that both come home on their pins. */
export const jointGap = (c: CollarFrame): Deg => toDeg(c.stock.fit / 2 / c.pitchRadius);
