import { clipped } from '../drawing/clip.ts';
import { distinct } from '../drawing/distinct.ts';
import { cutLines } from '../drawing/kerf.ts';
import { legible, letters } from '../drawing/lettering.ts';
import { moveShape, polygon, rectangle, segment } from '../drawing/paths.ts';
import type { Box } from '../drawing/spans.ts';
import type { Drawing, Part, Path, Shape } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Staged } from '../model/stage.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';
import type { PlacedMark } from './marks.ts';
import { TAB, type WrapPiece } from './plan.ts';
import type { Skin } from './skin.ts';
import type { Drawn } from './template.ts';
import type { Cutting, Piece } from './windows.ts';

/** Waste left round the whole template's drawing, and where its check line lies below the bottom edge. */
const AROUND = { side: 2, check: 9, below: 14 } as const;

/** The template in one piece, kerf applied; its check line lies in the waste below. */
export function wholeDrawing(jig: Jig, drawn: Drawn, skin: Skin, cut: Cutting, kerf: Mm, tab: Mm): Staged<Drawing> {
  const { depth } = skin.layout;
  const [x0, x1] = [cut.start, cut.start + skin.turn];
  const columns = cut.cuts.length + 1;
  const seamMarks = drawn.jointMarks.filter(
    (j) => (j.column === 0 && nearTo(j.shape, x0)) || (j.column === columns - 1 && nearTo(j.shape, x1)),
  );
  const part: Part = {
    id: 'wrap',
    job: 'wrap',
    name: 'wrap template',
    outer: outline({ min: { x: x0, y: 0 }, max: { x: x1, y: depth } }, tab),
    inner: drawn.marks.map((m) => m.circle).filter((c) => c.layer === 'CUT-INNER'),
    marks: [],
    quantity: 1,
    turns: true,
  };
  const rings = drawn.marks.map((m) => m.circle).filter((c) => c.layer !== 'CUT-INNER');
  const check = segment(
    'REFERENCE',
    'check line of 100 mm',
    { x: Math.max(x0, 0), y: -AROUND.check },
    { x: Math.max(x0, 0) + 100, y: -AROUND.check },
  );
  const size = letters('100 mm', { x: Math.max(x0, 0) + 103, y: -AROUND.check - 1 }, legible(kerf, 3));
  const { value: cutting, facts } = cutLines(part, kerf);
  const value = {
    title: `${jig.name}: wrap template, outside, top edge up`,
    min: { x: x0 - AROUND.side, y: -AROUND.below },
    max: { x: x1 + tab + AROUND.side, y: depth + AROUND.side },
    top: depth,
    shapes: distinct([
      ...cutting,
      ...rings,
      ...tabLine(tab, x1, depth),
      ...drawn.lines,
      ...seamMarks.map((j) => j.shape),
      check,
      ...size,
    ]),
  };
  return { value, facts };
}

/** Joint marks at the seam lie within a few millimetres of it. */
const nearTo = (shape: Shape, x: Mm): boolean => shape.kind === 'path' && Math.abs(shape.start.x - x) < 10;

/** The template as it is printed: every mark at full size, joints of the card left out. */
export function paperDrawing(jig: Jig, drawn: Drawn, skin: Skin, cut: Cutting): Drawing {
  const { depth } = skin.layout;
  const [x0, x1] = [cut.start, cut.start + skin.turn];
  const edge = rectangle('CUT-OUTER', 'edge', { x: x0, y: 0 }, { x: x1, y: depth });
  const circles = drawn.marks.map((m) => m.circle);
  return {
    title: `${jig.name}: paper wrap, outside, top edge up`,
    min: { x: x0, y: 0 },
    max: { x: x1, y: depth },
    top: depth,
    shapes: distinct([edge, ...circles, ...drawn.lines, ...drawn.numbers, ...drawn.jointMarks.map((j) => j.shape)]),
  };
}

/** Piece outline, with a tab on the right that slides under the next piece. */
function outline({ min, max }: Box, tab: Mm): Path {
  if (tab === 0) return rectangle('CUT-OUTER', 'edge', min, max);
  const c = TAB.corner;
  return polygon('CUT-OUTER', 'edge', [
    min,
    { x: max.x + tab - c, y: min.y },
    { x: max.x + tab, y: min.y + c },
    { x: max.x + tab, y: max.y - c },
    { x: max.x + tab - c, y: max.y },
    { x: min.x, y: max.y },
  ]);
}

/** Where the next piece's edge comes to lie on the tab. */
const tabLine = (tab: Mm, x: Mm, high: Mm, low: Mm = 0): Shape[] =>
  tab === 0 ? [] : [segment('SCORE', 'tab', { x, y: low }, { x, y: high })];

/** One piece of the template as a part of its own. */
export function panel(piece: Piece, all: readonly Piece[], drawn: Drawn, cut: Cutting, tab: Mm): Part {
  const { window, column, band } = piece;
  const home = <S extends Shape>(s: S): S => moveShape(s, -window.min.x, -window.min.y);
  const own = drawn.marks.filter((m) => owns(piece, m, cut));
  const circles = own.map((m) => m.circle);
  const marks = [
    ...circles.filter((c) => c.layer !== 'CUT-INNER'),
    ...tabLine(tab, window.max.x, window.max.y, window.min.y),
    ...drawn.lines.flatMap((s, i) => clipped(s, window, drawn.boxes[i])),
    ...drawn.numbers.flatMap((s) => clipped(s, window)),
    ...drawn.jointMarks.filter((j) => j.column === column && j.band === band).map((j) => j.shape),
  ];
  // Two fittings that share one hole, as a badge held by the vent, cut it once.
  const inner = distinct(circles.filter((c) => c.layer === 'CUT-INNER'));
  const outer = outline(window, tab);
  const clean = distinct([outer, ...inner, ...marks]).filter((s) => s.layer !== 'CUT-OUTER' && s.layer !== 'CUT-INNER');
  return {
    id: partId(piece, all),
    job: 'wrap',
    name: `wrap ${all.indexOf(piece) + 1} of ${all.length}`,
    outer: home(outer),
    inner: inner.map(home),
    marks: clean.map(home),
    quantity: 1,
    turns: true,
  };
}

const partId = (piece: Piece, all: readonly Piece[]): string => `wrap-panel-${all.indexOf(piece) + 1}`;

/** A hole belongs to the piece its centre lies in; on a joint, to the piece after it. */
function owns({ column, band }: Piece, mark: PlacedMark, cut: Cutting): boolean {
  const before = (cuts: readonly Mm[], v: Mm): number => cuts.filter((c) => c <= v).length;
  return before(cut.cuts, mark.at.x) === column && before(cut.bands, mark.at.y) === band;
}

export function pieceOf(p: Piece, all: readonly Piece[], depth: Mm, angle: (x: Mm) => Deg): WrapPiece {
  const { min, max } = p.window;
  const [bottom, top] = [min.y <= 0, max.y >= depth];
  const edge = bottom && top ? 'both' : bottom ? 'bottom' : top ? 'top' : 'joint';
  return {
    part: partId(p, all),
    from: wrapDeg(angle(min.x)),
    to: wrapDeg(angle(max.x)),
    low: min.y,
    high: max.y,
    edge,
  };
}
