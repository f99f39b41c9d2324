import { ACCENT_LIFT, ACCENTS, ALIKE, BASELINE, BLANK, CAPITAL, GAP, STROKES } from '../data/strokes.ts';
import type { Path } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { chain, cosSin } from './paths.ts';

/** What every stroke of a letter says it comes from. */
export const LETTERING = 'lettering';

/** Widths of the line that a letter of twelve units needs to stay open. */
const BEAMS = 12;
/** The widest line (mm) names are written with: no laser cuts wider, and who cuts with a wider cutter writes with a point. */
export const WIDEST_LINE: Mm = 0.5;

/** Height of a capital (mm), at least `least`, that stays legible where the line is as wide as the cut. */
export const legible = (kerf: Mm, least: Mm): Mm => Math.max(least, BEAMS * Math.min(kerf, WIDEST_LINE));

export interface LetterOptions {
  /** Which end of the line of text lies at the point given; `left` when not said. */
  readonly align?: 'left' | 'center' | 'right';
  /** Turned about the point given, counter-clockwise. */
  readonly turn?: Deg;
}

type Stroke = readonly (readonly [number, number])[];
interface Glyph {
  readonly strokes: readonly Stroke[];
  readonly width: number;
  readonly known: boolean;
}

/** A character without strokes of its own: a box with a bar, so that a reader sees that something is missing. */
const UNKNOWN = '04646g0g04 0a6a';

const decode = (code: string): Stroke[] =>
  code
    .split(' ')
    .map((s) =>
      Array.from({ length: s.length / 2 }, (_, i) => [digit(s, 2 * i), digit(s, 2 * i + 1) - BASELINE] as const),
    );

const digit = (s: string, i: number): number => Number.parseInt(s[i] as string, 36);

const widthOf = (strokes: readonly Stroke[]): number => Math.max(0, ...strokes.flat().map(([x]) => x));

const kept = new Map<string, Glyph>();

function glyph(char: string): Glyph {
  const ready = kept.get(char);
  if (ready !== undefined) return ready;
  const made = makeGlyph(char);
  kept.set(char, made);
  return made;
}

function makeGlyph(char: string): Glyph {
  if (char === ' ') return { strokes: [], width: BLANK - GAP, known: true };
  const [base = '', ...marks] = STROKES[char] === undefined ? [...char.normalize('NFD')] : [char];
  const code = STROKES[base];
  if (code === undefined || marks.some((m) => ACCENTS[m] === undefined)) {
    return { strokes: decode(UNKNOWN), width: widthOf(decode(UNKNOWN)), known: false };
  }
  const dotless = marks.length > 0 && (base === 'i' || base === 'j') ? (code.split(' ')[0] as string) : code;
  const strokes = decode(dotless);
  const width = widthOf(strokes);
  const top = Math.max(...strokes.flat().map(([, y]) => y));
  for (const m of marks) {
    const lift = top > 8 && !m.match(/[\u0323\u0326-\u0328]/) ? ACCENT_LIFT : 0;
    for (const s of decode(ACCENTS[m] as string)) strokes.push(s.map(([x, y]) => [x + width / 2 - 2, y + lift]));
  }
  return { strokes, width: Math.max(width, marks.length > 0 ? width / 2 + 2 : 0), known: true };
}

/** Text as characters this alphabet can be asked for, each with its marks: alike ones replaced, invisible ones gone. */
const characters = (text: string): string[] => (PLAIN.test(text) ? [...text] : wideCharacters(text));

/** Printable ASCII needs none of what follows, and is nearly all there is. */
const PLAIN = /^[\x20-\x7e]*$/;

const wideCharacters = (text: string): string[] =>
  (
    text
      .normalize('NFC')
      .replace(/[\t\r\n\p{Z}]/gu, ' ')
      // Joiners, marks of direction and soft hyphens are invisible wherever they are written.
      .replace(/\p{Cf}/gu, '')
      .match(/\P{M}\p{M}*|\p{M}/gu) ?? []
  ).flatMap((c) => [...(ALIKE[c]?.match(/./gu) ?? [c])]);

/** Characters of the text that have no strokes and are drawn as a barred box, each once, in order. */
export const unknownCharacters = (text: string): string[] => [
  ...new Set(characters(text).filter((c) => !glyph(c).known)),
];

/** Width of a line of text in mm, without the gap after its last letter. `height` is that of a capital. */
export function lettersWidth(text: string, height: Mm): Mm {
  const units = characters(text).reduce((sum, c) => sum + glyph(c).width + GAP, 0);
  return (Math.max(0, units - GAP) * height) / CAPITAL;
}

/**
 * A line of single-stroke letters on layer ENGRAVE, its baseline starting (or centred, or ending) at `at`. `height` is that
 * of a capital in mm; tails reach a third of it lower. Blank text gives no paths.
 */
export function letters(text: string, at: FlatPoint, height: Mm, options: LetterOptions = {}): Path[] {
  const scale = height / CAPITAL;
  const shift = { left: 0, center: 0.5, right: 1 }[options.align ?? 'left'] * lettersWidth(text, height);
  const [cos, sin] = cosSin(options.turn ?? 0);
  const paths: Path[] = [];
  let x = -shift;
  for (const c of characters(text)) {
    const g = glyph(c);
    for (const s of g.strokes) {
      const points = s.map(([px, py]) => {
        const [along, up] = [x + px * scale, py * scale];
        return { x: at.x + cos * along - sin * up, y: at.y + sin * along + cos * up };
      });
      const path = chain('ENGRAVE', LETTERING, points);
      paths.push(isRound(s) ? { ...path, closed: true } : path);
    }
    x += (g.width + GAP) * scale;
  }
  return paths;
}

/** Whether a stroke comes back to where it began. */
function isRound(s: Stroke): boolean {
  const [first, last] = [s[0], s.at(-1)];
  return s.length > 3 && first !== undefined && last !== undefined && first[0] === last[0] && first[1] === last[1];
}
