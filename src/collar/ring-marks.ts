import { segment } from '../drawing/paths.ts';
import type { Shape } from '../model/drawing.ts';
import { type Deg, type Mm, shorterTurn, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import type { CollarFrame } from './collar-frame.ts';
import { halved, inscribeFirst } from './engrave.ts';
import { type Arc, widestFree } from './lands.ts';
import { beside } from './outline.ts';
import type { Post } from './plan.ts';
import { halfAngle } from './posts.ts';
import { cordAngles } from './ring-cuts.ts';
import type { Piece } from './ring-pieces.ts';

interface RingNames {
  readonly posts: readonly { readonly post: Post; readonly rel: Deg }[];
  /** Whether posts are named on it; a layer that is glued over needs its own name only. */
  readonly named: boolean;
  readonly here: (a: Deg) => boolean;
  readonly rot: Deg;
  readonly id: string;
  readonly name: string;
}

/** Index mark, post names, and in the widest free stretch the part's name, the build and its digest. */
export function ringMarks(c: CollarFrame, piece: Piece, { posts, named, here, rot, id, name }: RingNames): Shape[] {
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
    const [toStart, toEnd] = piece.whole ? [360, 360] : [wrapDeg(zero - piece.from), wrapDeg(piece.to - zero)];
    // Where the strainer line is the piece's own end, the end is the mark, and its name stands beside it on the piece.
    if (Math.min(toStart, toEnd) > toDeg(1 / c.outside)) {
      marks.push(
        segment(
          'ENGRAVE',
          'line',
          beside(zero - rot, 0, c.outside - c.stock.web + 1),
          beside(zero - rot, 0, c.outside - 0.5),
        ),
      );
    }
    const side = toEnd > toDeg(9 / c.outside) ? 1 : -1;
    write([['0']], zero + side * toDeg(5 / c.outside), c.outside - c.stock.web / 2, 6, c.stock.web - 2, 4);
  }
  for (const { post, rel } of named ? posts : []) {
    // Under the strainer line's own mark there is no room for a name: it stands beside it.
    const shift = Math.abs(shorterTurn(zero, rel)) < 3 ? -toDeg(12 / c.outside) : 0;
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
    ...[...c.pins, ...c.holds].filter(here).map((a) => after(a, some)),
    ...cordAngles(c).map((a) => after(a, some)),
  ];
  const line = here(zero) ? [after(zero, toDeg(12 / c.outside))] : [];
  const label = name.replace(/^(.*) collar, /, '$1 ');
  const short = id.replace(/^collar-/, '');
  const digest = (c.digest ?? '').slice(0, 8);
  const wordings = [
    [label, c.title, digest],
    [label, ...halved(c.title), digest],
    [...halved(label), ...halved(c.title), digest],
    [...halved(label), digest],
    [short, digest],
    [`${short} ${digest}`],
    [digest],
  ];
  // Beside the strainer line's mark where there is room, else further in than it.
  const { inside, outside, stock } = c;
  const whole = { arc: widestFree(from, to, [...taken, ...line]), radius: c.pitchRadius, high: outside - inside - 4 };
  const inner = outside - stock.web;
  const within = { arc: widestFree(from, to, taken), radius: (inside + inner) / 2, high: inner - inside - 2 };
  for (const { arc, radius, high } of line.length === 0 ? [whole] : [whole, within]) {
    const { from: a, to: b } = arc;
    const room = Math.min(110, 2 * c.inside * Math.sin(toRad((b - a) / 2))) - 4;
    // A straight line of text bows away from the ring's middle by its sagitta: the rounder the ring, the shorter the line.
    for (const width of [1, 0.7, 0.5, 0.35].map((share) => share * room)) {
      const bow = radius - Math.sqrt(radius ** 2 - (width / 2) ** 2);
      const before = marks.length;
      write(wordings, (a + b) / 2, radius, width, high - 2 * bow, 3.5);
      if (marks.length > before) return marks;
    }
  }
  return marks;
}
