import { letters } from '../drawing/lettering.ts';
import { segment } from '../drawing/paths.ts';
import { type Box, near, shapeBox } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';

/** Each of the closing lines stands this far from its end of the sheet: 20 mm apart when the girth is right. */
const CLOSING: Mm = 10;
/** What the closing mark wants free of either end, with its words and without. */
export const CLOSING_ROOM = { worded: CLOSING + 16, bare: CLOSING + 1 } as const;
/** The scale on the first end reaches this far, a tick a millimetre. */
const SCALE: Mm = 6;
/** Ticks across a joint reach this far into each piece; joints keep more land than that. */
const TICK: Mm = 2.5;
const LETTER: Mm = 2.5;

export interface JointMarks {
  /** Marks for the piece that ends at the joint, and for the one that begins there. */
  readonly before: readonly Shape[];
  readonly after: readonly Shape[];
}

/** Free heights for a mark `tall` mm high between x0 and x1, from the middle of the sheet outwards. */
function heights(x0: Mm, x1: Mm, tall: Mm, low: Mm, high: Mm, taken: readonly Box[]): Mm[] {
  const out: Mm[] = [];
  const middle = (low + high) / 2;
  for (let d = 0; d < (high - low) / 2 - tall; d += 2) {
    for (const y of d === 0 ? [middle] : [middle + d, middle - d]) {
      const box = { min: { x: x0, y: y - tall / 2 }, max: { x: x1, y: y + tall / 2 } };
      if (!taken.some((t) => near(t, box, 0.5))) out.push(y);
    }
  }
  return out;
}

/** Ticks that meet across an upright joint at x, with the joint's name on both sides, at up to three heights. */
export function ticksAt(x: Mm, name: string, low: Mm, high: Mm, taken: readonly Box[], otherEnd: Mm = x): JointMarks {
  const half = (high - low) / 2;
  const reach = TICK + 1 + LETTER;
  const free = heights(x - reach, x + reach, LETTER + 1, low, high, [...taken, ...shifted(taken, x - otherEnd)]);
  const wanted = half > 60 ? [0, 0.6, -0.6] : [0.4, -0.4];
  const middle = (low + high) / 2;
  const picked = new Set(
    wanted.flatMap((f) => {
      const y = middle + f * half;
      const best = [...free].sort((a, b) => Math.abs(a - y) - Math.abs(b - y))[0];
      return best === undefined ? [] : [best];
    }),
  );
  const before: Shape[] = [];
  const after: Shape[] = [];
  for (const y of picked) {
    before.push(segment('SCORE', `joint ${name}`, { x: x - TICK, y }, { x, y }));
    before.push(...letters(name, { x: x - TICK - 0.7, y: y - LETTER / 2 }, LETTER, { align: 'right' }));
    after.push(segment('SCORE', `joint ${name}`, { x: otherEnd, y }, { x: otherEnd + TICK, y }));
    after.push(...letters(name, { x: otherEnd + TICK + 0.7, y: y - LETTER / 2 }, LETTER));
  }
  return { before, after };
}

const shifted = (boxes: readonly Box[], dx: Mm): Box[] =>
  dx === 0 ? [] : boxes.map((b) => ({ min: { x: b.min.x + dx, y: b.min.y }, max: { x: b.max.x + dx, y: b.max.y } }));

/**
 * Ticks that meet across a level joint at height y, at up to five places along it. `below` and `above` are the two bands.
 */
export function ticksAlong(y: Mm, x0: Mm, x1: Mm, taken: readonly Box[]): { below: Shape[]; above: Shape[] } {
  const below: Shape[] = [];
  const above: Shape[] = [];
  for (const f of [0.1, 0.3, 0.5, 0.7, 0.9]) {
    const x = x0 + f * (x1 - x0);
    const box = { min: { x: x - 0.5, y: y - TICK }, max: { x: x + 0.5, y: y + TICK } };
    if (taken.some((t) => near(t, box, 0.5))) continue;
    below.push(segment('SCORE', 'band joint', { x, y: y - TICK }, { x, y }));
    above.push(segment('SCORE', 'band joint', { x, y }, { x, y: y + TICK }));
  }
  return { below, above };
}

/**
 * The mark that shows whether the girth was measured right: two lines 10 mm from the ends, 20 mm apart on the shell when it
 * was, and on the first end a scale in mm for an end that runs over it. Where something stands near the seam the words are
 * left out; empty when the lines have no free height either.
 */
export function closingMark(x0: Mm, x1: Mm, low: Mm, high: Mm, taken: readonly Box[]): Shape[] {
  const tall = 9;
  const both = [...taken, ...shifted(taken, x1 - x0)];
  const free = (reach: Mm): Mm | undefined => heights(x1 - reach, x1 + reach, tall, low, high, both)[0];
  const worded = free(CLOSING_ROOM.worded);
  const y = worded ?? free(CLOSING_ROOM.bare);
  if (y === undefined) return [];
  const upright = (x: Mm, length: Mm): Shape =>
    segment('SCORE', 'closing mark', { x, y: y - length / 2 }, { x, y: y + length / 2 });
  const scale = Array.from({ length: SCALE }, (_, i) => upright(x0 + i + 1, i === 4 ? 5 : 3));
  return [
    upright(x0 + CLOSING, 8),
    upright(x1 - CLOSING, 8),
    ...scale,
    ...(worded === undefined ? [] : letters('20 ±0', { x: x0 + CLOSING + 1.5, y: y - 1 }, LETTER)),
    ...(worded === undefined
      ? []
      : letters('CLOSING', { x: x1 - CLOSING - 1.5, y: y - 1 }, LETTER, { align: 'right' })),
  ];
}

export const boxesOf = (shapes: readonly Shape[]): Box[] => shapes.map(shapeBox);
