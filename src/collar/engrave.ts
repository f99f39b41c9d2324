import { TAIL } from '../data/strokes.ts';
import { letters, lettersWidth } from '../drawing/lettering.ts';
import { polar } from '../drawing/paths.ts';
import type { Path } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Deg, Mm } from '../units/scalar.ts';

/** A free patch of a part in which lettering may lie: its middle, and its sides before it is turned about that. */
export interface Patch {
  readonly center: FlatPoint;
  readonly width: Mm;
  readonly height: Mm;
  readonly turn?: Deg;
}

const LEAST: Mm = 2;
const LINE = 1.7;

const widths = new Map<string, number>();

/** Width of a text one millimetre high; the same names come on many parts. */
function unitWidth(text: string): number {
  const known = widths.get(text);
  if (known !== undefined) return known;
  const width = lettersWidth(text, 1);
  if (widths.size < 500) widths.set(text, width);
  return width;
}

/**
 * Lines of text centred in a patch, as tall as fits up to `tall`; turned by a quarter turn when that makes them larger.
 * Nothing when they would be smaller than a beam can write legibly (2 mm, common practice, no source).
 */
export function inscribe(lines: readonly string[], patch: Patch, tall: Mm): Path[] {
  const widest = Math.max(LEAST / 10, ...lines.map(unitWidth));
  const size = (width: Mm, height: Mm): Mm =>
    Math.min(tall, width / widest, height / ((lines.length - 1) * LINE + 1 + 2 * TAIL));
  const [flat, quarter] = [size(patch.width, patch.height), size(patch.height, patch.width)];
  const height = Math.max(flat, quarter);
  if (height < LEAST) return [];
  const turn = (patch.turn ?? 0) + (flat >= quarter ? 0 : 90);
  const block = ((lines.length - 1) * LINE + 1) * height;
  return lines.flatMap((text, i) => {
    const up = polar(patch.center, block / 2 - height - i * LINE * height, turn + 90);
    return letters(text, up, height, { align: 'center', turn });
  });
}

/** The first of several wordings that fits the patch. */
export function inscribeFirst(wordings: readonly (readonly string[])[], patch: Patch, tall: Mm): Path[] {
  for (const lines of wordings) {
    const paths = inscribe(lines, patch, tall);
    if (paths.length > 0) return paths;
  }
  return [];
}

/** A text in two lines, broken at the blank nearest its middle. */
export function halved(text: string): string[] {
  const blanks = [...text.matchAll(/ /g)].map((m) => m.index);
  const middle = text.length / 2;
  const at = blanks.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))[0];
  return at === undefined ? [text] : [text.slice(0, at), text.slice(at + 1)];
}
