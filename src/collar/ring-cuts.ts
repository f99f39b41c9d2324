import { circle } from '../drawing/paths.ts';
import type { Circle, Path } from '../model/drawing.ts';
import { type Deg, type Mm, toDeg } from '../units/scalar.ts';
import { EAR_NECK } from './clamp.ts';
import type { CollarFrame } from './collar-frame.ts';
import { beside, contour, type Notch, onRound } from './outline.ts';
import type { Post } from './plan.ts';
import { isIn, type Piece } from './ring-pieces.ts';
import { rules } from './rules.ts';
import { POCKET } from './wedges.ts';

/** A post's notch, open to the inside, stepped: the inner plate rests on the step, the outer plate on the bottom. */
export function postNotch(c: CollarFrame, post: Post, angle: Deg): Notch {
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

/** The notch where the last ring holds the shell: a wedge's pocket, or the seat of a clamping ear and its shoe. */
export function holdNotch(c: CollarFrame, angle: Deg): Notch {
  const half = ((c.clamp === undefined ? c.stock.t : EAR_NECK) + c.stock.fit) / 2;
  const bottom = c.clamp === undefined ? c.inside + POCKET : c.clamp.back + c.stock.t;
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
export function mortisesOf(c: CollarFrame, post: Post, angle: Deg): Path[] {
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
  // The corners' reliefs reach into the bridge from both sides.
  if (d - b >= Math.max(t / 2, 2, c.stock.bridge + c.stock.relief)) {
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

export function pinHoles(c: CollarFrame, piece: Piece, rot: Deg): Circle[] {
  return c.pins
    .filter((a) => isIn(piece, a))
    .map((a) => circle('CUT-INNER', 'pin hole', beside(a - rot, 0, c.pitchRadius), rules.pin / 2));
}

/** Holes for the cord that ties a sector to the shell, one near each end. */
export function cordHoles(c: CollarFrame, rot: Deg): Circle[] {
  return cordAngles(c).map((a) => circle('CUT-INNER', 'cord hole', beside(a - rot, 0, c.pitchRadius), CORD.hole / 2));
}

/** Where a sector's cord holes are; none on a ring. */
export function cordAngles(c: CollarFrame): Deg[] {
  if (c.arc === undefined) return [];
  const off = toDeg(CORD.fromEnd / c.pitchRadius);
  return [c.arc.from + off, c.arc.to - off];
}

const CORD = { hole: 5, fromEnd: 7 } as const;
