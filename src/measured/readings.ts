import type { Layout } from '../model/layout.ts';
import { nearest } from '../units/nearest.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';

/** Between which rims a reading was taken: middles, the far rims (`outside`) or the near rims (`inside`). */
export type Over = 'centres' | 'outside' | 'inside';

/** One caliper reading. An `edge` runs along the shell from a hole to an edge; a `chord` straight from hole to hole. */
export interface Reading {
  /** Line of the file, 1-based. */
  readonly line: number;
  readonly kind: 'edge' | 'chord';
  readonly from: string;
  /** `top`, `bottom`, or the other hole. */
  readonly to: string;
  readonly over: Over;
  readonly value: Mm;
}

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

/** No caliper and no tape of a workshop reads farther, mm; it also keeps out numbers that are infinite to a computer. */
const FARTHEST = 1e6;

/** Readings files larger than this are refused: a thousand holes fill a twentieth of it. */
const LARGEST = 1 << 20;

const HEADER = ['kind', 'from', 'to', 'reading_mm', 'over'] as const;
const OVERS: Readonly<Record<string, Over>> = {
  '': 'centres',
  centres: 'centres',
  centre: 'centres',
  centers: 'centres',
  center: 'centres',
  middle: 'centres',
  outside: 'outside',
  far: 'outside',
  inside: 'inside',
  near: 'inside',
};

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

interface Field {
  readonly text: string;
  readonly column: number;
}

type Column = (typeof HEADER)[number];
type Complain = (field: Field | undefined, found: string, allowed: string, tryThis: string) => undefined;

function readRow(
  row: readonly Field[],
  order: ReadonlyMap<Column, number>,
  holes: ReadonlyMap<string, string>,
  split: string,
  complain: Complain,
): Omit<Reading, 'line'> | 'blank' | undefined {
  const at = (c: Column): Field | undefined => row[order.get(c) ?? -1];
  const extra = row.slice(order.size).filter((f) => f.text !== '');
  const value = at('reading_mm');
  if (extra.length > 0) {
    const comma =
      split === ',' &&
      /^\d+$/.test(value?.text ?? '') &&
      /^\d+$/.test(row[(order.get('reading_mm') ?? 0) + 1]?.text ?? '');
    return comma
      ? complain(
          value,
          `the reading ${value!.text},${row[order.get('reading_mm')! + 1]!.text}`,
          'a decimal point',
          `write ${value!.text}.${row[order.get('reading_mm')! + 1]!.text}`,
        )
      : complain(
          extra[0],
          `${row.length} columns, the last ${quoted(extra[0]!.text)}`,
          `${order.size} columns`,
          'take out the extra one',
        );
  }
  // A decimal comma fills the fifth column when the form has one.
  const over = at('over');
  if (split === ',' && /^\d+$/.test(over?.text ?? '') && /^\d+$/.test(value?.text ?? '')) {
    return complain(
      value,
      `the reading ${value!.text},${over!.text}`,
      'a decimal point',
      `write ${value!.text}.${over!.text}`,
    );
  }
  const kind = kindOf(at('kind'), complain);
  if (kind === undefined) return undefined;
  const from = holeOf(at('from'), holes, [], complain);
  const to =
    kind.kind === 'edge' ? edgeOf(at('to'), holes, complain) : holeOf(at('to'), holes, ['top', 'bottom'], complain);
  const rim = OVERS[(over?.text ?? '').toLowerCase()];
  if (rim === undefined) {
    return complain(
      over,
      `over ${quoted(over!.text)}`,
      'centres, outside (far), inside (near), or nothing',
      'write the rims the caliper touched',
    );
  }
  if (kind.over !== undefined && (over?.text ?? '') !== '' && kind.over !== rim) {
    return complain(
      over,
      `${quoted(at('kind')!.text)} with over ${quoted(over!.text)}`,
      'one and the same',
      'leave the last column empty',
    );
  }
  if (from === undefined || to === undefined) return undefined;
  if (from === to)
    return complain(at('to'), `a chord from ${from} to itself`, 'two different holes', 'name the other hole');
  if (value === undefined || value.text === '') return 'blank';
  const mm = lengthOf(value, split, complain);
  return mm === undefined ? undefined : { kind: kind.kind, from, to, over: kind.over ?? rim, value: mm };
}

function kindOf(field: Field | undefined, complain: Complain): { kind: 'edge' | 'chord'; over?: Over } | undefined {
  const text = (field?.text ?? '').toLowerCase();
  const [kind, rim, ...rest] = text.split(/[-\s]+/);
  const over = rim === undefined || rim === '' ? undefined : OVERS[rim];
  const known = (kind === 'edge' || kind === 'chord') && rest.length === 0 && (rim === undefined || over !== undefined);
  if (!known) {
    const meant = nearest(text, ['edge', 'chord', 'edge-near', 'edge-far', 'chord-outside', 'chord-inside']);
    return complain(
      field,
      text === '' ? 'no kind' : `the kind ${quoted(field!.text)}`,
      'edge or chord (also edge-near, edge-far, chord-outside, chord-inside)',
      meant === undefined ? 'write edge for a distance from an edge, chord for hole to hole' : `write ${meant}`,
    );
  }
  return { kind: kind as 'edge' | 'chord', ...(over === undefined ? {} : { over }) };
}

function edgeOf(field: Field | undefined, holes: ReadonlyMap<string, string>, complain: Complain): string | undefined {
  const text = (field?.text ?? '').toLowerCase();
  if (text === 'top' || text === 'bottom') return text;
  const isHole = holes.has(text);
  return complain(
    field,
    text === '' ? 'no edge' : `the edge ${quoted(field!.text)}`,
    'top or bottom',
    isHole
      ? `write chord as the kind for a distance to ${field!.text}`
      : `write ${nearest(text, ['top', 'bottom']) ?? 'top or bottom'}`,
  );
}

function holeOf(
  field: Field | undefined,
  holes: ReadonlyMap<string, string>,
  edges: readonly string[],
  complain: Complain,
): string | undefined {
  const text = (field?.text ?? '').toLowerCase();
  const id = holes.get(text);
  if (id !== undefined) return id;
  if (edges.includes(text)) {
    return complain(field, `a chord to the ${text} edge`, 'a hole', 'write edge as the kind');
  }
  const meant = text === '' ? undefined : nearest(text, [...holes.values()]);
  return complain(
    field,
    text === '' ? 'no hole' : `the hole ${quoted(field!.text)}`,
    'a hole of this jig, as plan.json and holes.csv name them',
    meant === undefined ? 'take the name from holes.csv' : `write ${meant}`,
  );
}

/** Millimetres. A trailing `mm` is harmless; any other unit would be a guess. */
function lengthOf(field: Field, split: string, complain: Complain): Mm | undefined {
  const allowed = 'a plain number of millimetres, such as 125.3';
  const m = /^([+-]?)(\d+(?:[.,]\d*)?|[.,]\d+)\s*(\S.*)?$/.exec(field.text);
  if (m === null)
    return complain(
      field,
      `the reading ${quoted(field.text)}`,
      allowed,
      'write the number the caliper showed, or leave it blank',
    );
  const [, sign, digits, unit] = m as unknown as [string, string, string, string | undefined];
  const point = digits.replace(',', '.');
  const value = Number(point);
  if (digits.includes(',') && split === ',')
    return complain(field, `the reading ${quoted(field.text)}`, allowed, `write ${point}`);
  if (unit !== undefined && unit.toLowerCase() !== 'mm') {
    const factor = { in: MM_PER_INCH, '"': MM_PER_INCH, inch: MM_PER_INCH, inches: MM_PER_INCH, cm: 10 }[
      unit.toLowerCase()
    ];
    return complain(
      field,
      `the reading ${quoted(field.text)}`,
      allowed,
      factor === undefined
        ? `write ${point}`
        : `write ${Number((value * factor).toFixed(2))}, which is ${point} ${unit} in mm`,
    );
  }
  if (value > FARTHEST)
    return complain(
      field,
      `the reading ${quoted(field.text)}`,
      `${allowed}, below a kilometre`,
      'look for a slipped key',
    );
  if (sign === '-' || value === 0)
    return complain(field, `the reading ${quoted(field.text)}`, 'more than 0 mm', 'measure again, or leave it blank');
  return value;
}

/** The separator of the heading; a spreadsheet set to a decimal comma saves semicolons. */
function separator(head: string): string {
  const count = (c: string): number => head.split(c).length;
  return count(';') > count(',') ? ';' : count('\t') > count(',') ? '\t' : ',';
}

function columns(head: readonly string[]): ReadonlyMap<Column, number> | undefined {
  const order = new Map<Column, number>();
  for (const [i, name] of head.entries()) {
    const known = HEADER.find((h) => h === name || (h === 'reading_mm' && name === 'reading'));
    if (known === undefined ? name !== '' : order.has(known)) return undefined;
    if (known !== undefined) order.set(known, i);
  }
  return HEADER.slice(0, 4).every((h) => order.has(h)) ? order : undefined;
}

/** Fields of a line; quotes round a field are taken off, doubled quotes inside stand for one. */
function fields(line: string, split: string): Field[] {
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
const quoted = (text: string): string => `"${text.replace(UNSEEN, '?').slice(0, 60)}"`;
