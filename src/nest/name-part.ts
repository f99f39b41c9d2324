import { contour } from '../drawing/contour.ts';
import { isInside } from '../drawing/inside.ts';
import { LETTERING, legible, letters, lettersWidth } from '../drawing/lettering.ts';
import { bounds } from '../drawing/paths.ts';
import { type Box, distanceTo, near, type Span, shapeBox, spanBox } from '../drawing/spans.ts';
import type { Part, Path } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';

/** Capitals of a part's name, largest first. */
const SIZES: readonly Mm[] = [5, 4, 3, 2.5];
/** Material kept between a name and any line. */
const CLEAR: Mm = 1;
const STEP: Mm = 3;

/**
 * The part's name engraved where it is clear of every contour and mark, as large as fits, level or upright. A part that is
 * lettered already has been named by its maker. Empty when the part is too small to be named.
 */
export function namePart(part: Part, kerf: Mm): Path[] {
  if (part.marks.some((m) => m.from === LETTERING)) return [];
  const spans = [part.outer, ...part.inner, ...part.marks].flatMap(contour);
  const boxes = spans.map(spanBox);
  const whole = bounds([part.outer]);
  for (const height of SIZES) {
    if (height < legible(kerf, 0) && height !== SIZES[0]) continue;
    const width = lettersWidth(part.name, height);
    for (const upright of [false, true]) {
      const [w, h] = upright ? [height * 1.4, width] : [width, height * 1.4];
      const at = place(part, spans, boxes, whole, w, h);
      if (at === undefined) continue;
      return upright
        ? letters(part.name, { x: at.x + w - height * 0.4, y: at.y }, height, { turn: 90 })
        : letters(part.name, { x: at.x, y: at.y + height * 0.4 }, height);
    }
  }
  return [];
}

function place(
  part: Part,
  spans: readonly Span[],
  boxes: readonly Box[],
  whole: Box,
  w: Mm,
  h: Mm,
): { x: Mm; y: Mm } | undefined {
  const [roomX, roomY] = [whole.max.x - whole.min.x - w - 2 * CLEAR, whole.max.y - whole.min.y - h - 2 * CLEAR];
  if (roomX < 0 || roomY < 0) return undefined;
  const [nx, ny] = [Math.floor(roomX / STEP), Math.floor(roomY / STEP)];
  for (let j = 0; j <= ny; j++) {
    for (let i = 0; i <= nx; i++) {
      const min = {
        x: whole.min.x + CLEAR + (nx === 0 ? roomX / 2 : (i * roomX) / nx),
        y: whole.min.y + CLEAR + (ny === 0 ? roomY / 2 : (j * roomY) / ny),
      };
      const box = { min, max: { x: min.x + w, y: min.y + h } };
      if (isClear(box, spans, boxes) && isOnMaterial(part, box)) return min;
    }
  }
  return undefined;
}

const middle = (b: Box): { x: Mm; y: Mm } => ({ x: (b.min.x + b.max.x) / 2, y: (b.min.y + b.max.y) / 2 });

/** No line within the box: none may come nearer to the points of a grid over it than half the grid's cell. */
function isClear(box: Box, spans: readonly Span[], boxes: readonly Box[]): boolean {
  const close = spans.filter((_, i) => near(boxes[i] as Box, box, CLEAR));
  if (close.length === 0) return true;
  const [w, h] = [box.max.x - box.min.x, box.max.y - box.min.y];
  const cell = Math.min(w, h) / 2;
  const [nx, ny] = [Math.ceil(w / cell), Math.ceil(h / cell)];
  const reach = Math.hypot(w / nx, h / ny) / 2 + CLEAR / 2;
  for (let i = 0; i < nx; i++) {
    for (let j = 0; j < ny; j++) {
      const p = { x: box.min.x + ((i + 0.5) * w) / nx, y: box.min.y + ((j + 0.5) * h) / ny };
      if (close.some((s) => distanceTo(s, p) < reach)) return false;
    }
  }
  return true;
}

const isOnMaterial = (part: Part, box: Box): boolean =>
  isInside(part.outer, middle(box)) && !part.inner.some((s) => near(shapeBox(s), box, 0) && isInside(s, middle(box)));
