import { TAIL } from '../data/strokes.ts';
import { contour } from '../drawing/contour.ts';
import { letters, lettersWidth } from '../drawing/lettering.ts';
import { type Box, near, pointOn, spanLength } from '../drawing/spans.ts';
import type { Path, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';

/** Lines of text that stay together, the first on top. */
export interface Label {
  readonly lines: readonly string[];
  /** Height of a capital. */
  readonly height: Mm;
  /** Reads upwards when true. */
  readonly upright?: boolean;
  /** Its last line says which piece of how many it stands on. */
  readonly numbered?: boolean;
}

/** Blank paper (mm) kept round every label and every mark. */
const CLEAR: Mm = 0.8;

/** Lines of text stand this many capital heights apart. */
const LEADING = 1.75;

export function sizeOf(label: Label): { readonly width: Mm; readonly height: Mm } {
  const long = Math.max(...label.lines.map((l) => lettersWidth(l, label.height)));
  const high = label.height * (1 + TAIL + LEADING * (label.lines.length - 1));
  return label.upright ? { width: high, height: long } : { width: long, height: high };
}

/** Text with the lower left corner of its box at `corner`, line by line. */
function drawn(label: Label, corner: FlatPoint): Path[][] {
  const n = label.lines.length;
  return label.lines.map((line, i) => {
    const down = label.height * (TAIL + LEADING * (n - 1 - i));
    return label.upright
      ? letters(line, { x: corner.x + sizeOf(label).width - down, y: corner.y }, label.height, { turn: 90 })
      : letters(line, { x: corner.x, y: corner.y + down }, label.height);
  });
}

/** A surface that remembers what is on it, so that no label lands on a mark or on another label. */
export interface Surface {
  /**
   * Puts the label at the first of the places (lower left corners) where it is free, line by line; undefined when
   * none is.
   */
  readonly put: (label: Label, places: Iterable<FlatPoint>) => Path[][] | undefined;
  readonly take: (box: Box) => void;
}

/** Side of the squares (mm) that sort what is taken, so that a crowded sheet is looked up in its neighbourhood only. */
const SQUARE: Mm = 40;

/** `inside`: labels stay within one of these boxes. */
export function surface(inside: readonly Box[], taken: readonly Box[]): Surface {
  const squares = new Map<string, Box[]>();
  const over = function* (b: Box, grow: Mm): Generator<string> {
    for (let i = Math.floor((b.min.x - grow) / SQUARE); i <= Math.floor((b.max.x + grow) / SQUARE); i++) {
      for (let k = Math.floor((b.min.y - grow) / SQUARE); k <= Math.floor((b.max.y + grow) / SQUARE); k++)
        yield `${i},${k}`;
    }
  };
  const take = (box: Box): void => {
    for (const key of over(box, 0)) squares.set(key, [...(squares.get(key) ?? []), box]);
  };
  const isFree = (box: Box): boolean => {
    for (const key of over(box, CLEAR)) if (squares.get(key)?.some((t) => near(box, t, CLEAR))) return false;
    return true;
  };
  for (const box of taken) take(box);
  const put = (label: Label, places: Iterable<FlatPoint>): Path[][] | undefined => {
    const { width, height } = sizeOf(label);
    for (const min of places) {
      const box = { min, max: { x: min.x + width, y: min.y + height } };
      if (!inside.some((w) => holds(w, box)) || !isFree(box)) continue;
      take(wordApart(box, label));
      return drawn(label, min);
    }
    return undefined;
  };
  return { put, take };
}

/**
 * A label with a capital height free before and after it and a third of one over and under it, lest two of them read
 * as one.
 */
function wordApart({ min, max }: Box, { height, upright }: Label): Box {
  const [dx, dy] = upright ? [height / 3, height] : [height, height / 3];
  return { min: { x: min.x - dx, y: min.y - dy }, max: { x: max.x + dx, y: max.y + dy } };
}

const holds = (outer: Box, box: Box): boolean =>
  box.min.x - CLEAR >= outer.min.x &&
  box.max.x + CLEAR <= outer.max.x &&
  box.min.y - CLEAR >= outer.min.y &&
  box.max.y + CLEAR <= outer.max.y;

/** Corners that put a label of this size right, left, above and below a box, then at its four corners. */
export function beside(box: Box, size: { width: Mm; height: Mm }, gap: Mm): FlatPoint[] {
  const [cx, cy] = [(box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2];
  const [right, left] = [box.max.x + gap, box.min.x - gap - size.width];
  const [above, below] = [box.max.y + gap, box.min.y - gap - size.height];
  const [midX, midY] = [cx - size.width / 2, cy - size.height / 2];
  return [
    { x: right, y: midY },
    { x: left, y: midY },
    { x: midX, y: above },
    { x: midX, y: below },
    { x: right, y: above },
    { x: right, y: below },
    { x: left, y: above },
    { x: left, y: below },
  ];
}

/** A grid of corners over a box for a label of this size, from the middle outwards. */
export function* across(box: Box, size: { width: Mm; height: Mm }, step: Mm = 5): Generator<FlatPoint> {
  const [w, h] = [box.max.x - box.min.x - size.width, box.max.y - box.min.y - size.height];
  for (const dy of fan(h, step)) {
    for (const dx of fan(w, step)) yield { x: box.min.x + w / 2 + dx, y: box.min.y + h / 2 + dy };
  }
}

/** 0, then a step to either side, then two, as far as the room goes. */
function* fan(room: Mm, step: Mm): Generator<Mm> {
  if (room < 0) return;
  yield 0;
  for (let d = step; d <= room / 2; d += step) {
    yield d;
    yield -d;
  }
}

/** Steps (mm) in which a slanting or round side of an outline is taken. */
const SLANT: Mm = 3;

/** The sides of a foot's outline, boxed: its inside is free for hole numbers, its line is not. */
export const sidesOf = (shape: Shape): Box[] =>
  contour(shape).flatMap((span) => {
    const [a, b] = [pointOn(span, 0), pointOn(span, 1)];
    const isLevel = span.kind === 'line' && (Math.abs(a.x - b.x) < 1 || Math.abs(a.y - b.y) < 1);
    const n = isLevel ? 1 : Math.ceil(spanLength(span) / SLANT);
    return Array.from({ length: n }, (_, i) => boxAround(pointOn(span, i / n), pointOn(span, (i + 1) / n)));
  });

const boxAround = (a: FlatPoint, b: FlatPoint): Box => ({
  min: { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y) },
  max: { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y) },
});
