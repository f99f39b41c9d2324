import { circle, segment } from '../drawing/paths.ts';
import type { Circle, Part, Path, Shape } from '../model/drawing.ts';
import { type Deg, type Mm, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import { type CollarFrame, isIn, jointGap, type Piece } from './collar-frame.ts';
import { halved, inscribeFirst } from './engrave.ts';
import { lying } from './frame3.ts';
import { type Arc, widestFree } from './lands.ts';
import { beside, contour, type Notch, notchedEdge, onRound, type Step } from './outline.ts';
import type { Placement, Post } from './plan.ts';
import { halfAngle } from './posts.ts';
import { rules } from './rules.ts';
import { ringsOf } from './stations.ts';
import { POCKET } from './wedges.ts';

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
      pockets: i === c.rings.length - 1 ? c.wedges : [],
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
      const part = ringPart(c, plan, piece, rot, id, name);
      const frame = lying(c.ref + rot, plan.z + layer * c.stock.t);
      return { part, placement: { part: id, instance: 1, collar: c.tag, frame, thickness: c.stock.t } };
    }),
  ).flat();
}

function ringPart(c: CollarFrame, plan: RingPlan, piece: Piece, rot: Deg, id: string, name: string): Part {
  const here = (a: Deg): boolean => isIn(piece, a);
  const posts = plan.posts.map((post) => ({ post, rel: wrapDeg(post.angle - c.ref) })).filter((p) => here(p.rel));
  const notches = plan.lip
    ? []
    : [
        ...posts.map(({ post, rel }) => postNotch(c, post, rel - rot)),
        ...plan.pockets.filter(here).map((a) => pocketNotch(c, a - rot)),
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
    marks: c.digest === undefined ? [] : ringMarks(c, piece, posts, here, rot, name),
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

/** A post's notch, open to the inside, stepped: the inner plate rests on the step, the outer plate on the bottom. */
function postNotch(c: CollarFrame, post: Post, angle: Deg): Notch {
  const [wide, narrow] = post.neck.map((n) => n / 2 + c.stock.fit / 2) as [Mm, Mm];
  const ledge = post.inner + c.stock.t;
  const bottom = post.outer + c.stock.t;
  return {
    angle,
    corners: (inside) => [
      [-wide, onRound(inside, wide)],
      [-wide, ledge],
      [-narrow, ledge],
      [-narrow, bottom],
      [narrow, bottom],
      [narrow, ledge],
      [wide, ledge],
      [wide, onRound(inside, wide)],
    ],
  };
}

function pocketNotch(c: CollarFrame, angle: Deg): Notch {
  const half = (c.stock.t + c.stock.fit) / 2;
  const bottom = c.inside + POCKET;
  return {
    angle,
    corners: (inside) => [
      [-half, onRound(inside, half)],
      [-half, bottom],
      [half, bottom],
      [half, onRound(inside, half)],
    ],
  };
}

/** Slots in the lip for a post's two feet; one stepped slot where the bridge between two would be too thin to stand. */
function mortisesOf(c: CollarFrame, post: Post, angle: Deg): Path[] {
  const [wide, narrow] = post.neck.map((n) => n / 2 + c.stock.fit / 2) as [Mm, Mm];
  const t = c.stock.t;
  const [a, b] = [post.inner - c.stock.fit, post.inner + t];
  const [d, e] = [post.outer - c.stock.fit, post.outer + t];
  const slot = (corners: readonly (readonly [Mm, Mm])[]): Path => {
    // Out and left are a right-handed pair, so corners in this order run counter-clockwise.
    return contour(
      'CUT-INNER',
      'slot',
      corners.map(([u, r]) => beside(angle, u, r)),
      c.stock.relief,
      true,
    );
  };
  if (d - b >= Math.max(t / 2, 2)) {
    return [
      slot([
        [-wide, a],
        [-wide, b],
        [wide, b],
        [wide, a],
      ]),
      slot([
        [-narrow, d],
        [-narrow, e],
        [narrow, e],
        [narrow, d],
      ]),
    ];
  }
  const corners: [Mm, Mm][] = [
    [-wide, a],
    [-wide, b],
    [-narrow, b],
    [-narrow, e],
    [narrow, e],
    [narrow, b],
    [wide, b],
    [wide, a],
  ];
  return [slot(corners)];
}

function pinAngles(c: CollarFrame): Deg[] {
  const off = toDeg(rules.place / 4 / c.pitchRadius);
  return c.joints.flatMap((j) => [j - off, j + off]);
}

function pinHoles(c: CollarFrame, piece: Piece, rot: Deg): Circle[] {
  return pinAngles(c)
    .filter((a) => isIn(piece, a))
    .map((a) => circle('CUT-INNER', 'pin hole', beside(a - rot, 0, c.pitchRadius), rules.pin / 2));
}

/** Holes for the cord that ties a sector to the shell, one near each end. */
function cordHoles(c: CollarFrame, rot: Deg): Circle[] {
  if (c.arc === undefined) return [];
  const off = toDeg(CORD.fromEnd / c.pitchRadius);
  return [c.arc.from + off, c.arc.to - off].map((a) =>
    circle('CUT-INNER', 'cord hole', beside(a - rot, 0, c.pitchRadius), CORD.hole / 2),
  );
}

const CORD = { hole: 5, fromEnd: 7 } as const;

function ringMarks(
  c: CollarFrame,
  piece: Piece,
  posts: readonly { readonly post: Post; readonly rel: Deg }[],
  here: (a: Deg) => boolean,
  rot: Deg,
  name: string,
): Shape[] {
  const marks: Shape[] = [];
  const write = (
    wordings: readonly (readonly string[])[],
    rel: Deg,
    radius: Mm,
    width: Mm,
    height: Mm,
    tall: Mm,
  ): void => {
    const a = rel - rot;
    const patch = { center: beside(a, 0, radius), width, height, turn: a - 90 };
    marks.push(...inscribeFirst(wordings, patch, tall));
  };
  const zero = wrapDeg(-c.ref);
  if (here(zero)) {
    marks.push(
      segment(
        'ENGRAVE',
        'line',
        beside(zero - rot, 0, c.outside - c.stock.web + 1),
        beside(zero - rot, 0, c.outside - 0.5),
      ),
    );
    write([['0']], zero + toDeg(5 / c.outside), c.outside - c.stock.web / 2, 6, c.stock.web - 2, 4);
  }
  for (const { post, rel } of posts) {
    // Under the strainer line's own mark there is no room for a name: it stands beside it.
    const shift = Math.abs(((rel - zero + 540) % 360) - 180) < 3 ? -toDeg(12 / c.outside) : 0;
    write([[post.id]], rel + shift, c.outside - c.stock.web / 2, 20, c.stock.web - 2, 3);
  }
  // Name of the part, the build and its digest, in the widest stretch with nothing cut.
  const [from, to] = piece.whole ? [0, 360] : [piece.from, piece.to];
  const after = (rel: Deg, half: Deg): Arc => {
    const at = from + wrapDeg(rel - from);
    return { from: at - half, to: at + half };
  };
  const some = toDeg((c.stock.t / 2 + 2) / c.pitchRadius);
  const taken = [
    ...posts.map(({ post, rel }) => after(rel, halfAngle(post))),
    ...[...pinAngles(c), ...c.wedges].filter(here).map((a) => after(a, some)),
  ];
  const free = widestFree(from, to, taken);
  const width = Math.min(110, 2 * c.inside * Math.sin(toRad((free.to - free.from) / 2))) - 4;
  // A straight line of text bows away from the ring's middle by its sagitta.
  const bow = c.pitchRadius - Math.sqrt(c.pitchRadius ** 2 - (width / 2) ** 2);
  const label = name.replace(/^(.*) collar, /, '$1 ');
  const digest = (c.digest ?? '').slice(0, 8);
  const wordings = [
    [label, c.title, digest],
    [label, ...halved(c.title), digest],
    [...halved(label), ...halved(c.title), digest],
    [...halved(label), digest],
  ];
  write(wordings, (free.from + free.to) / 2, c.pitchRadius, width, c.outside - c.inside - 4 - 2 * bow, 3.5);
  return marks;
}
