import { lettersWidth } from '../drawing/lettering.ts';
import type { Mm } from '../units/scalar.ts';

/** A longer name than this many lines is cut short: the sheet it lies on bears it whole. */
const MOST = 3;
const CUT = '...';

/** A text in lines of at most `width` mm, broken at blanks, or within a word that is longer; at most three lines. */
export function folded(text: string, height: Mm, width: Mm): string[] {
  const fits = (line: string): boolean => lettersWidth(line, height) <= width;
  const lines: string[] = [];
  for (const word of text.split(/\s+/u).flatMap((w) => broken(w, fits))) {
    const last = lines.at(-1);
    if (last !== undefined && fits(`${last} ${word}`)) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  if (lines.length <= MOST) return lines;
  const end = [...(lines[MOST - 1] as string)];
  while (end.length > 0 && !fits(end.join('') + CUT)) end.pop();
  return [...lines.slice(0, MOST - 1), end.join('') + CUT];
}

function broken(word: string, fits: (line: string) => boolean): string[] {
  const parts: string[] = [];
  for (const char of word) {
    const last = parts.at(-1);
    if (last !== undefined && fits(last + char)) parts[parts.length - 1] = last + char;
    else parts.push(char);
  }
  return parts;
}
