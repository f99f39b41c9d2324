import { circle } from '../drawing/paths.ts';
import type { Circle, Part, Path } from '../model/drawing.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';
import { type CollarFrame, jointGap } from './collar-frame.ts';
import { lying } from './frame3.ts';
import { beside, contour, type Notch, notchedEdge, type Step } from './outline.ts';
import type { Placement, Post } from './plan.ts';
import { cordHoles, holdNotch, mortisesOf, pinHoles, postNotch } from './ring-cuts.ts';
import { ringMarks } from './ring-marks.ts';
import { isIn, type Piece } from './ring-pieces.ts';
import { ringsOf } from './stations.ts';

interface RingPlan {
  readonly id: string;
  readonly name: string;
  /** Height of the lowest layer's lower face. */
  readonly z: Mm;
  readonly lip: boolean;
  readonly posts: readonly Post[];
  readonly pockets: readonly Deg[];
}

/** The lip and the guide rings of a collar, as parts and in their places. */
export function ringParts(c: CollarFrame): { parts: Part[]; placements: Placement[] } {
  const below = (s: Mm): Mm => c.rim + (c.sign > 0 ? s : -s - c.band);
  const plans: RingPlan[] = [
    { id: 'lip', name: 'lip', z: below(-c.band), lip: true, posts: c.posts, pockets: [] },
    ...c.rings.map((s, i) => ({
      id: `ring-${i + 1}`,
      name: `guide ring ${i + 1}`,
      z: below(s),
      lip: false,
      posts: c.posts.filter((p) => ringsOf(p, c.rings).includes(s)),
      pockets: i === c.rings.length - 1 ? c.holds : [],
    })),
  ];
  const made = plans.flatMap((plan) => layersOf(c, plan));
  return { parts: made.map((m) => m.part), placements: made.map((m) => m.placement) };
}

function layersOf(c: CollarFrame, plan: RingPlan): { part: Part; placement: Placement }[] {
  return Array.from({ length: c.layers }, (_, layer) =>
    (c.pieces[layer % c.pieces.length] as readonly Piece[]).map((piece, i, all) => {
      const letter = c.layers > 1 ? `-${'ab'[layer]}` : '';
      const count = all.length > 1 ? `${letter === '' ? '-' : ''}${i + 1}` : '';
      const id = `collar-${c.tag}-${plan.id}${letter}${count}`;
      const of = all.length > 1 ? `, piece ${i + 1} of ${all.length}` : '';
      const name = `${c.tag} collar, ${plan.name}${c.layers > 1 ? `, layer ${'ab'[layer]}` : ''}${of}`;
      const rot = piece.whole ? 0 : (piece.from + piece.to) / 2 - 90;
      const part = ringPart(c, plan, { piece, rot, id, name, seen: layer === c.layers - 1 });
      const frame = lying(c.ref + rot, plan.z + layer * c.stock.t);
      return { part, placement: { part: id, instance: 1, collar: c.tag, frame, thickness: c.stock.t } };
    }),
  ).flat();
}

interface PiecePlan {
  readonly piece: Piece;
  /** How far the piece is turned from its place, to lie upright on its middle. */
  readonly rot: Deg;
  readonly id: string;
  readonly name: string;
  /** Whether its lettering is still seen when the layers are glued. */
  readonly seen: boolean;
}

function ringPart(c: CollarFrame, plan: RingPlan, { piece, rot, id, name, seen }: PiecePlan): Part {
  const here = (a: Deg): boolean => isIn(piece, a);
  const posts = plan.posts.map((post) => ({ post, rel: wrapDeg(post.angle - c.ref) })).filter((p) => here(p.rel));
  const notches = plan.lip
    ? []
    : [
        ...posts.map(({ post, rel }) => postNotch(c, post, rel - rot)),
        ...plan.pockets.filter(here).map((a) => holdNotch(c, a - rot)),
      ].sort((a, b) => wrapDeg(a.angle - start(piece, rot)) - wrapDeg(b.angle - start(piece, rot)));
  const inside = plan.lip ? c.lipInside : c.inside;
  const edges = piece.whole ? wholeRing(c, inside, notches) : pieceOf(c, piece, inside, notches, rot);
  const mortises = plan.lip ? posts.flatMap(({ post, rel }) => mortisesOf(c, post, rel - rot)) : [];
  return {
    id,
    job: 'collar',
    name,
    outer: edges.outer,
    inner: [...edges.inner, ...mortises, ...pinHoles(c, piece, rot), ...(plan.lip ? [] : cordHoles(c, rot))],
    marks: c.digest === undefined ? [] : ringMarks(c, piece, { posts, named: seen, here, rot, id, name }),
    quantity: 1,
    turns: true,
  };
}

const start = (piece: Piece, rot: Deg): Deg => (piece.whole ? 0 : piece.from - rot);

function wholeRing(c: CollarFrame, inside: Mm, notches: readonly Notch[]): { outer: Circle; inner: (Path | Circle)[] } {
  const hole =
    notches.length === 0
      ? circle('CUT-INNER', 'inner edge', { x: 0, y: 0 }, inside)
      : contour('CUT-INNER', 'inner edge', notchedEdge(notches, inside, 'ccw'), c.stock.relief, true);
  return { outer: circle('CUT-OUTER', 'ring outline', { x: 0, y: 0 }, c.outside), inner: [hole] };
}

function pieceOf(
  c: CollarFrame,
  piece: { readonly from: Deg; readonly to: Deg },
  inside: Mm,
  notches: readonly Notch[],
  rot: Deg,
): { outer: Path; inner: (Path | Circle)[] } {
  const [a, b] = [piece.from - rot + jointGap(c), piece.to - rot - jointGap(c)];
  const steps: Step[] = [
    beside(a, 0, c.outside),
    { ...beside(b, 0, c.outside), round: 'ccw' },
    beside(b, 0, inside),
    ...notchedEdge(notches, inside, 'cw'),
    { ...beside(a, 0, inside), round: 'cw' },
  ];
  return { outer: contour('CUT-OUTER', 'ring outline', steps, c.stock.relief, false), inner: [] };
}
