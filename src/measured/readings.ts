import type { Layout } from '../model/layout.ts';
import { columns, type Field, fields, quoted, separator } from './form.ts';
import { type Reading, readRow } from './reading-row.ts';

export type { Reading } from './reading-row.ts';

/** Something wrong in the readings file: where, what was found, what is allowed, one thing to try. */
export interface ReadingProblem {
  readonly line: number;
  readonly column: number;
  readonly found: string;
  readonly allowed: string;
  readonly try: string;
}

export interface Readings {
  readonly readings: readonly Reading[];
  /** Lines of the form left blank. */
  readonly blank: number;
  readonly problems: readonly ReadingProblem[];
}

/** Readings files larger than this are refused: a thousand holes fill a twentieth of it. */
export const LARGEST = 1 << 20;

/**
 * Reads a filled-in form: `kind,from,to,reading_mm`, and if wanted a fifth column `over` (centres, outside, inside; far
 * and near for an edge). The rims may stand in the kind as well: `chord-outside`, `edge-near`. Separators are commas,
 * semicolons or tabs; with the latter two a decimal comma is read too. Blank readings are left out. Never throws.
 */
export function readReadings(text: string, layout: Layout): Readings {
  const problems: ReadingProblem[] = [];
  const readings: Reading[] = [];
  let blank = 0;
  if (text.length > LARGEST) {
    const found = `a file of ${Math.round(text.length / 1024)} KB`;
    return {
      readings,
      blank,
      problems: [{ line: 1, column: 1, found, allowed: 'up to 1 MB', try: 'give the readings form' }],
    };
  }
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const headAt = lines.findIndex((l) => l.trim() !== '' && !l.trimStart().startsWith('#'));
  const head = headAt < 0 ? '' : lines[headAt]!;
  const split = separator(head);
  const order = columns(fields(head, split).map((f) => f.text.toLowerCase()));
  if (order === undefined) {
    problems.push({
      line: Math.max(1, headAt + 1),
      column: 1,
      found: head.trim() === '' ? 'an empty file' : `the first line ${quoted(head.trim())}`,
      allowed: 'the heading kind,from,to,reading_mm (and over, if wanted)',
      try: 'start from the readings.csv that make writes',
    });
    return { readings, blank, problems };
  }
  const holes = new Map(layout.holes.map((h) => [h.id.toLowerCase(), h.id]));
  for (let i = headAt + 1; i < lines.length; i++) {
    const raw = lines[i]!;
    if (raw.trim() === '' || raw.trimStart().startsWith('#')) continue;
    const row = fields(raw, split);
    const complain = (field: Field | undefined, found: string, allowed: string, tryThis: string): undefined => {
      problems.push({ line: i + 1, column: field?.column ?? 1, found, allowed, try: tryThis });
      return undefined;
    };
    const one = readRow(row, order, holes, split, complain);
    if (one === 'blank') blank++;
    else if (one !== undefined) readings.push({ line: i + 1, ...one });
  }
  return { readings, blank, problems };
}
