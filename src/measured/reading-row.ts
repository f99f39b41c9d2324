import { nearest } from '../units/nearest.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { type Column, type Field, quoted } from './form.ts';

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

/** No caliper and no tape of a workshop reads farther, mm; it also keeps out numbers that are infinite to a computer. */
const FARTHEST = 1e6;

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

type Complain = (field: Field | undefined, found: string, allowed: string, tryThis: string) => undefined;

/** One line of the form; undefined after a complaint. */
export function readRow(
  row: readonly Field[],
  order: ReadonlyMap<Column, number>,
  holes: ReadonlyMap<string, string>,
  split: string,
  complain: Complain,
): Omit<Reading, 'line'> | 'blank' | undefined {
  const at = (c: Column): Field | undefined => row[order.get(c) ?? -1];
  const extra = row.slice(order.size).filter((f) => f.text !== '');
  const value = at('reading_mm');
  const over = at('over');
  // A decimal comma fills one column more: the fifth, when the form has one.
  const spilled = extra.length > 0 ? row[order.get('reading_mm')! + 1] : over;
  if (split === ',' && isWhole(value) && isWhole(spilled)) {
    const [whole, part] = [value!.text, spilled!.text];
    return complain(value, `the reading ${whole},${part}`, 'a decimal point', `write ${whole}.${part}`);
  }
  if (extra.length > 0) {
    return complain(
      extra[0],
      `${row.length} columns, the last ${quoted(extra[0]!.text)}`,
      `${order.size} columns`,
      'take out the extra one',
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

const isWhole = (field: Field | undefined): boolean => /^\d+$/.test(field?.text ?? '');

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
