/** The readings form as a table: its heading, its separator, and the fields of a line. */
const HEADER = ['kind', 'from', 'to', 'reading_mm', 'over'] as const;

export type Column = (typeof HEADER)[number];

export interface Field {
  readonly text: string;
  readonly column: number;
}

/** The separator of the heading; a spreadsheet set to a decimal comma saves semicolons. */
export function separator(head: string): string {
  const count = (c: string): number => head.split(c).length;
  return count(';') > count(',') ? ';' : count('\t') > count(',') ? '\t' : ',';
}

export function columns(head: readonly string[]): ReadonlyMap<Column, number> | undefined {
  const order = new Map<Column, number>();
  for (const [i, name] of head.entries()) {
    const known = HEADER.find((h) => h === name || (h === 'reading_mm' && name === 'reading'));
    if (known === undefined ? name !== '' : order.has(known)) return undefined;
    if (known !== undefined) order.set(known, i);
  }
  return HEADER.slice(0, 4).every((h) => order.has(h)) ? order : undefined;
}

/** Fields of a line; quotes round a field are taken off, doubled quotes inside stand for one. */
export function fields(line: string, split: string): Field[] {
  const out: Field[] = [];
  let start = 0;
  let isQuoted = false;
  for (let i = 0; i <= line.length; i++) {
    const c = line[i];
    if (c === '"') isQuoted = !isQuoted;
    if (c !== undefined && (c !== split || isQuoted)) continue;
    const raw = line.slice(start, i).trim();
    const text = /^"[\s\S]*"$/.test(raw) && raw.length > 1 ? raw.slice(1, -1).replace(/""/g, '"').trim() : raw;
    out.push({ text, column: start + 1 });
    start = i + 1;
  }
  return out;
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not reach a terminal
const UNSEEN = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\ufeff]/g;

/** What was found, short and without characters that a terminal would obey. */
export const quoted = (text: string): string => `"${text.replace(UNSEEN, '?').slice(0, 60)}"`;
