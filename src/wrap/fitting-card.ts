import { distinct } from '../drawing/distinct.ts';
import { letters, lettersWidth } from '../drawing/lettering.ts';
import { circle, polygon, roundedRectangle, segment } from '../drawing/paths.ts';
import { type Box, join, near, shapeBox } from '../drawing/spans.ts';
import { holeLetter } from '../layout/layout.ts';
import type { Circle, Part, Path, Shape } from '../model/drawing.ts';
import type { Foot, Jig, Pattern, PatternPoint } from '../model/jig.ts';
import { trimmed } from '../say/saying.ts';
import type { Mm } from '../units/scalar.ts';
import { folded } from './fold.ts';
import { sidesOf } from './labels.ts';

const BORDER: Mm = 8;
const LETTER: Mm = 3;
/** Names longer than this (mm) are folded. */
const NAME: Mm = 66;
const HOLE_LETTER: Mm = 2.5;
const LINE: Mm = 5;
const OVAL = 48;

interface Kind {
  readonly name: string;
  /** Which way is up on the card: a lug is turned with its row, so it is told by the rim. */
  readonly up: 'top' | 'rim';
  readonly holes: Pattern;
  readonly foot: Foot | undefined;
}

/** Rows and fittings by kind: the same casting turned round is the same card. */
function kinds(jig: Jig): Kind[] {
  const found = new Map<string, { names: string[]; kind: Kind }>();
  const add = (name: string, up: Kind['up'], holes: Pattern, foot: Foot | undefined): void => {
    const key = JSON.stringify([up, holes.points, holes.drill, foot]);
    const known = found.get(key);
    if (known === undefined) found.set(key, { names: [name], kind: { name, up, holes, foot } });
    else known.names.push(name);
  };
  for (const row of jig.rows) {
    const name = `lug ${row.name}`;
    if (row.turned)
      add(name, 'rim', { ...row.holes, points: row.holes.points.map(opposite) }, row.foot && opposed(row.foot));
    else add(name, row.edge === 'middle' ? 'top' : 'rim', row.holes, row.foot);
  }
  for (const f of jig.fittings) add(f.name, 'top', f.holes, f.foot);
  return [...found.values()].map(({ names, kind }) => ({ ...kind, name: names.join(', ') }));
}

/** Turned by half a turn; a place at 0 stays 0, not -0. */
const opposite = (p: PatternPoint): PatternPoint => ({ across: 0 - p.across, upright: 0 - p.upright });

function opposed(f: Foot): Foot {
  const turned = { ...f, left: f.right, right: f.left, up: f.down, down: f.up };
  return f.outline === undefined ? turned : { ...turned, outline: f.outline.map(opposite) };
}

/**
 * A card for every kind of fitting: lay the real casting on its outline, and its screws must drop through the holes. Straight
 * across as a caliper measures, not round the shell.
 */
export const fittingCards = (jig: Jig): Part[] =>
  kinds(jig).flatMap((kind, i) => (kind.holes.points.length === 0 ? [] : [card(kind, i + 1, jig.name)]));

function card({ name, up, holes, foot }: Kind, number: number, jig: string): Part {
  const at = (p: PatternPoint): { x: Mm; y: Mm } => ({ x: p.across, y: p.upright });
  const inner = holes.points.map((p, i) => circle('CUT-INNER', `hole ${i + 1}`, at(p), holes.drill / 2));
  const outline = foot === undefined ? [] : [footOutline(foot)];
  const body = join([...inner, ...outline].map(shapeBox));
  const words = text(name, holes, jig);
  const wide = Math.max(...words.map((w) => lettersWidth(w, LETTER)), body.max.x - body.min.x);
  const middle = (body.min.x + body.max.x) / 2;
  const min = { x: middle - wide / 2 - BORDER, y: body.min.y - BORDER - words.length * LINE };
  const max = { x: middle + wide / 2 + BORDER, y: body.max.y + BORDER + LINE };
  const marks: Shape[] = [
    ...outline,
    ...holes.points.flatMap((p) => crosshair(at(p), holes.drill)),
    ...(inner.length < 2
      ? []
      : inner.flatMap((hole, i) => holeName(i, hole, [...inner.map(shapeBox), ...outline.flatMap(sidesOf)]))),
    ...letters(`↑ ${up}`, { x: middle, y: max.y - BORDER / 2 - LETTER }, LETTER, { align: 'center' }),
    ...words.flatMap((w, i) =>
      letters(w, { x: middle, y: body.min.y - BORDER / 2 - (i + 1) * LINE }, LETTER, { align: 'center' }),
    ),
  ];
  return {
    id: `card-fitting-${number}`,
    job: 'card',
    name: `card ${name}`,
    outer: roundedRectangle('CUT-OUTER', 'card', min, max, 3),
    inner,
    marks: distinct([...inner, ...marks]).filter((s) => s.layer !== 'CUT-INNER'),
    quantity: 1,
    turns: true,
  };
}

function text(name: string, holes: Pattern, jig: string): string[] {
  const first = holes.points[0];
  const second = holes.points[1];
  const apart = first && second && Math.hypot(second.across - first.across, second.upright - first.upright);
  const size = `${holes.points.length === 1 ? 'hole' : `${holes.points.length} holes`} Ø${trimmed(holes.drill, 2)}`;
  return [
    ...folded(name, LETTER, NAME),
    apart === undefined ? `${size} mm` : `${size}, a to b ${trimmed(apart, 2)} mm`,
    'lay the casting here: its',
    'screws must drop through',
    ...folded(jig, LETTER, NAME),
  ];
}

/** The hole's letter, as its id ends, in a free corner of its crosshair; left out where all four are taken. */
function holeName(i: number, { center, radius }: Circle, taken: readonly Box[]): Path[] {
  const name = holeLetter(i);
  const [wide, off] = [lettersWidth(name, HOLE_LETTER), radius + 0.6];
  for (const [right, up] of [
    [true, true],
    [true, false],
    [false, true],
    [false, false],
  ]) {
    const min = {
      x: right ? center.x + off : center.x - off - wide,
      y: up ? center.y + 0.8 : center.y - 0.8 - HOLE_LETTER,
    };
    const box = { min, max: { x: min.x + wide, y: min.y + HOLE_LETTER } };
    if (!taken.some((t) => near(t, box, 0.4))) return letters(name, min, HOLE_LETTER);
  }
  return [];
}

/** Arms from the hole outwards: the middle of it is cut away. */
function crosshair(c: { x: Mm; y: Mm }, drill: Mm): Path[] {
  const [near, far] = [drill / 2 + 0.5, drill / 2 + 2.5];
  return [
    segment('SCORE', 'crosshair', { x: c.x - far, y: c.y }, { x: c.x - near, y: c.y }),
    segment('SCORE', 'crosshair', { x: c.x + near, y: c.y }, { x: c.x + far, y: c.y }),
    segment('SCORE', 'crosshair', { x: c.x, y: c.y - far }, { x: c.x, y: c.y - near }),
    segment('SCORE', 'crosshair', { x: c.x, y: c.y + near }, { x: c.x, y: c.y + far }),
  ];
}

function footOutline(foot: Foot): Path {
  if (foot.outline !== undefined && foot.outline.length > 2) {
    return polygon(
      'SCORE',
      'foot',
      foot.outline.map((p) => ({ x: p.across, y: p.upright })),
    );
  }
  if (foot.shape === 'ellipse') {
    const [cx, cy] = [(foot.right - foot.left) / 2, (foot.up - foot.down) / 2];
    const [rx, ry] = [(foot.right + foot.left) / 2, (foot.up + foot.down) / 2];
    const points = Array.from({ length: OVAL }, (_, i) => {
      const a = (2 * Math.PI * i) / OVAL;
      return { x: cx + rx * Math.cos(a), y: cy + ry * Math.sin(a) };
    });
    return polygon('SCORE', 'foot', points);
  }
  return roundedRectangle(
    'SCORE',
    'foot',
    { x: -foot.left, y: -foot.down },
    { x: foot.right, y: foot.up },
    foot.corner,
  );
}
