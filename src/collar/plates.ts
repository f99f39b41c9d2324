import { letters, lettersWidth } from '../drawing/lettering.ts';
import { chain, circle, segment } from '../drawing/paths.ts';
import type { Part, Path, Shape } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';
import type { CollarFrame } from './collar-frame.ts';
import { halved, inscribeFirst } from './engrave.ts';
import { standing } from './frame3.ts';
import { widestFree } from './lands.ts';
import { contour, type Step } from './outline.ts';
import type { Bore, Placement, Post } from './plan.ts';
import { high, low, postEnd, ringsOf } from './stations.ts';

/**
 * The two upright plates of a post. Their shoulders stand on the lip's face, the same plane the bearing edge rests on, so
 * a bore's height is one cut distance in one part, whatever the sheet's thickness. Side slots take the guide rings.
 */
export function postPlates(c: CollarFrame): { parts: Part[]; placements: Placement[] } {
  const names: Names = new Map();
  const plates = c.posts.flatMap((post) =>
    (['inner', 'outer'] as const).map((side) => ({ post, side, part: plate(c, post, side, names) })),
  );
  return {
    parts: plates.map((p) => p.part),
    placements: plates.map(({ post, side, part }) => ({
      part: part.id,
      instance: 1,
      collar: c.tag,
      frame: standing(post.angle, post[side], c.rim),
      thickness: c.stock.t,
    })),
  };
}

/** Lettering already drawn: alike plates carry the same name in the same place, and strokes take longer than cuts. */
type Names = Map<string, readonly Path[]>;

function plate(c: CollarFrame, post: Post, side: 'inner' | 'outer', names: Names): Part {
  const id = c.arc === undefined ? `collar-${post.id}-${side}` : `collar-${c.tag}-${post.id}-${side}`;
  const named = side === 'outer' && !c.index.includes(post);
  const end = postEnd(post, c.rings, c.band, c.land, c.cap);
  const bores = post.bores.map((b) =>
    circle('CUT-INNER', 'bore', { x: b.x, y: c.sign * b.s }, b.diameter / 2, named ? b.hole.id : undefined),
  );
  return {
    id,
    job: 'collar',
    name: `${post.id}, ${side} guide plate`,
    outer: plateOutline(c, post, side, end),
    inner: bores,
    marks: c.digest === undefined ? [] : plateMarks(c, post, side, end, names),
    quantity: 1,
    turns: true,
  };
}

function plateOutline(c: CollarFrame, post: Post, side: 'inner' | 'outer', end: Mm): Path {
  const w = post.width / 2;
  const n = post.neck[side === 'inner' ? 0 : 1] / 2;
  const right: (readonly [Mm, Mm])[] = [
    [n, -c.band],
    [n, 0],
    [w, 0],
  ];
  for (const s of ringsOf(post, c.rings)) {
    const [a, b] = [s - c.stock.fit / 2, s + c.band + c.stock.fit / 2];
    right.push([w, a], [n, a], [n, b], [w, b]);
  }
  right.push([w, end]);
  const left = [...right].reverse().map(([x, s]) => [-x, s] as const);
  const points = [...right, ...left].map(([x, s]): Step => ({ x, y: c.sign * s }));
  return contour('CUT-OUTER', 'plate outline', c.sign > 0 ? points : points.reverse(), c.stock.relief, false);
}

function plateMarks(c: CollarFrame, post: Post, side: 'inner' | 'outer', end: Mm, names: Names): Shape[] {
  const at = (x: Mm, s: Mm) => ({ x, y: c.sign * s });
  const marks: Shape[] = [];
  const taken = [
    ...post.bores.map((b) => [low(b) - 1, high(b) + 1] as const),
    ...ringsOf(post, c.rings).map((s) => [s - 1, s + c.band + 1] as const),
  ].sort((a, b) => a[0] - b[0]);
  const free: [Mm, Mm][] = [];
  let s = 1;
  for (const [a, b] of taken) {
    if (a > s) free.push([s, a]);
    s = Math.max(s, b);
  }
  if (end - 1 > s) free.push([s, end - 1]);
  const widest = free.sort((a, b) => b[1] - b[0] - (a[1] - a[0]))[0];
  if (widest) {
    const [a, b] = widest;
    const patch = { center: at(0, (a + b) / 2), width: post.width - 14, height: b - a - 1 };
    const way = side === 'outer' ? 'up - out' : 'up - inner';
    const short = halved(post.id.replaceAll('-', ' '));
    const wordings = [[post.id, way], [...short, way], [post.id], short, [post.id.replace(/^.*?-?(\w+-\d+)$/, '$1')]];
    marks.push(...inscribeFirst(wordings, patch, 3.5));
    marks.push(...arrow(post.width / 2 - 2.5, c.sign * ((a + b) / 2), Math.min(8, b - a - 2)));
  }
  for (const b of post.bores) marks.push(...boreLabel(post, b, c.sign));
  marks.push(...buildName(c, post, end, names));
  // The post's own line, at its free end, to be held to a line drawn on the shell.
  const tick = Math.min(4, end - Math.max(...taken.map((x) => x[1]), 0) - 0.5);
  if (tick > 1) marks.push(segment('ENGRAVE', 'line', at(0, end - 0.5), at(0, end - 0.5 - tick)));
  return marks;
}

/** Name of the build, up the left side of the plate where no bore and no slot comes. */
function buildName(c: CollarFrame, post: Post, end: Mm, names: Names): readonly Path[] {
  const column = 5;
  const x = -post.width / 2 + column / 2 + 0.8;
  const bores = post.bores.filter(
    (b) => b.x - b.diameter / 2 < x + column / 2 + 0.5 && b.x + b.diameter / 2 > x - column / 2,
  );
  const taken = [
    ...bores.map((b) => ({ from: low(b) - 1, to: high(b) + 1 })),
    ...ringsOf(post, c.rings).map((s) => ({ from: s - 1, to: s + c.band + 1 })),
  ];
  const free = widestFree(1, end - 1, taken);
  const patch = { center: { x, y: (c.sign * (free.from + free.to)) / 2 }, width: column, height: free.to - free.from };
  const key = JSON.stringify(patch);
  // The digest tells builds of one name apart, and a laser engraves dozens of plates: short is quick.
  const name = names.get(key) ?? inscribeFirst([[(c.digest ?? c.title).slice(0, 8)]], patch, 2.5);
  names.set(key, name);
  return name;
}

/** An arrow pointing up the shell, beside the lettering. */
function arrow(x: Mm, y: Mm, length: Mm): Path[] {
  if (length < 3) return [];
  const top = y + length / 2;
  return [
    segment('ENGRAVE', 'arrow', { x, y: y - length / 2 }, { x, y: top }),
    chain('ENGRAVE', 'arrow', [
      { x: x - 1.2, y: top - 2 },
      { x, y: top },
      { x: x + 1.2, y: top - 2 },
    ]),
  ];
}

/** The hole's letter and its bit, beside the bore where there is room. */
function boreLabel(post: Post, bore: Bore, sign: number): Path[] {
  const letter = bore.hole.id.startsWith(`${bore.hole.fitting}-`)
    ? bore.hole.id.slice(bore.hole.fitting.length + 1)
    : '';
  const name = post.fittings.length > 1 ? bore.hole.id : letter;
  const height = 2.5;
  const start = bore.x + bore.diameter / 2 + 1;
  const next = post.bores.filter((b) => b !== bore && b.x > bore.x && Math.abs(b.s - bore.s) < b.diameter / 2 + height);
  const stop = Math.min(post.width / 2 - 0.8, ...next.map((b) => b.x - b.diameter / 2 - 1));
  const bit = Number(bore.bit.toFixed(2));
  const text = [`${name} ${bit}`.trim(), name, `${bit}`].find(
    (t) => t !== '' && lettersWidth(t, height) <= stop - start,
  );
  if (text === undefined) return [];
  return letters(text, { x: start, y: sign * bore.s - height / 2 }, height);
}
