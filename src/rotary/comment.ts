import type { Machine } from '../model/machine.ts';

export type CommentStyle = Machine['understands']['comments'];

/** Longest line, characters; the language allows 256 (NISTIR 6556 section 3.3), small displays show fewer. */
const LINE_LIMIT = 79;

/** A comment of its own line or lines, as the controller reads comments; none where it reads none. */
export function commentLines(text: string, style: CommentStyle): string[] {
  if (style === 'none') return [];
  const lines: string[] = [];
  let line = '';
  for (const word of commentSafe(text)
    .split(' ')
    .flatMap((w) => chunks(w, LINE_LIMIT - 2))) {
    if (line !== '' && line.length + 1 + word.length > LINE_LIMIT - 2) {
      lines.push(dressed(line, style));
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(dressed(line, style));
  return lines;
}

/** Words already safe, as a comment that may follow a word on its line; '' where the controller reads none. */
export const dressed = (words: string, style: CommentStyle): string =>
  style === 'brackets' ? `(${words})` : style === 'semicolon' ? `; ${words}` : '';

function chunks(word: string, size: number): string[] {
  const out: string[] = [];
  for (let i = 0; i < word.length; i += size) out.push(word.slice(i, i + size));
  return out;
}

const SPELLED: Readonly<Record<string, string>> = {
  '(': '-',
  ')': '-',
  '%': ' pct',
  ';': ',',
  '°': ' deg',
  '"': ' in',
};

/**
 * The words of a name that may stand in a comment: printable ASCII, accents dropped, the rest a dot; no brackets, for a
 * bracket or a newline would end the comment and start to move.
 */
export const commentSafe = (text: string): string =>
  text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[()%;°"]/g, (c) => SPELLED[c] ?? '')
    .replace(/\s+/g, ' ')
    .replace(/[^\x20-\x7e]/g, '.')
    .trim()
    .replace(/^msg,/i, 'msg -');
