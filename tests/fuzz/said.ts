import type { Finding } from '../../src/model/finding.ts';

const NONSENSE = /undefined|NaN|Infinity|\[object/;

/** A complaint about an input: what was found, what is allowed, what to try, and a place that there is. */
export interface Named {
  readonly line?: number;
  readonly column?: number;
  readonly found: string;
  readonly allowed: string;
  readonly try: string;
}

/** Throws unless every complaint says what, what is allowed and what to try, at a place of the text. */
export function complained(all: readonly Named[], text: string): void {
  if (all.length === 0) throw new Error('refused without a word');
  const lines = text.split('\n');
  for (const c of all) {
    for (const said of [c.found, c.allowed, c.try])
      if (typeof said !== 'string' || said.trim() === '') throw new Error(`an empty complaint: ${JSON.stringify(c)}`);
    if (NONSENSE.test(`${c.allowed} ${c.try}`)) throw new Error(`nonsense in ${JSON.stringify(c)}`);
    if (c.line !== undefined && !(c.line >= 1 && c.line <= lines.length))
      throw new Error(`line ${c.line} of ${lines.length}: ${JSON.stringify(c)}`);
    if (c.column !== undefined && !(c.column >= 1 && c.column <= (lines[(c.line ?? 1) - 1]?.length ?? 0) + 1))
      throw new Error(`column ${c.column} of ${lines[(c.line ?? 1) - 1]?.length}: ${JSON.stringify(c)}`);
  }
}

/** Throws unless every finding has its words and numbers. */
export function told(findings: readonly Finding[]): void {
  for (const f of findings) {
    if (f.text.trim() === '' || f.at === '' || NONSENSE.test(`${f.text} ${f.try}`))
      throw new Error(`${f.id} at "${f.at}" says: ${f.text} | ${f.try}`);
    if (f.level === 'stop' && f.try.trim() === '') throw new Error(`${f.id} stops and tells no cure`);
  }
}

/** Throws when a number anywhere in a value is none: it would be written as `null` or `NaN`. */
export function finite(value: unknown, path = ''): void {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${path} is ${value}`);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, inner] of Object.entries(value)) finite(inner, `${path}.${key}`);
}

/** Throws unless working something out again gives the same. */
export function sameTwice(work: () => unknown): void {
  const once = JSON.stringify(work());
  if (JSON.stringify(work()) !== once) throw new Error('the same input gave something else');
}
