import { letters, lettersWidth } from '../drawing/lettering.ts';
import { type Box, near } from '../drawing/spans.ts';
import type { Path } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';

/** Lines of text that stay together, the first on top. */
export interface Label {
  readonly lines: readonly string[];
  /** Height of a capital. */
  readonly height: Mm;
  /** Reads upwards when true. */
  readonly upright?: boolean;
}

/** Blank paper (mm) kept round every label and every mark. */
const CLEAR: Mm = 0.8;

/** Lines of text stand this many capital heights apart. */
const LEADING = 1.75;

/** A tail reaches a third of a capital below the line. */
const TAIL = 1 / 3;

export function sizeOf(label: Label): { readonly width: Mm; readonly height: Mm } {
  const long = Math.max(...label.lines.map((l) => lettersWidth(l, label.height)));
  const high = label.height * (1 + TAIL + LEADING * (label.lines.length - 1));
  return label.upright ? { width: high, height: long } : { width: long, height: high };
}

/** Text with the lower left corner of its box at `corner`. */
function drawn(label: Label, corner: FlatPoint): Path[] {
  const n = label.lines.length;
  return label.lines.flatMap((line, i) => {
    const down = label.height * (TAIL + LEADING * (n - 1 - i));
    return label.upright
      ? letters(line, { x: corner.x + sizeOf(label).width - down, y: corner.y }, label.height, { turn: 90 })
      : letters(line, { x: corner.x, y: corner.y + down }, label.height);
  });
}

/** A surface that remembers what is on it, so that no label lands on a mark or on another label. */
export interface Surface {
  /** Puts the label at the first of the places (lower left corners) where it is free; undefined when none is. */
  readonly put: (label: Label, places: Iterable<FlatPoint>) => Path[] | undefined;
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
  const put = (label: Label, places: Iterable<FlatPoint>): Path[] | undefined => {
    const { width, height } = sizeOf(label);
    for (const min of places) {
      const box = { min, max: { x: min.x + width, y: min.y + height } };
      if (!inside.some((w) => holds(w, box)) || !isFree(box)) continue;
      take(box);
      return drawn(label, min);
    }
    return undefined;
  };
  return { put, take };
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
