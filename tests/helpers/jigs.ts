import { readFileSync } from 'node:fs';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Jig } from '../../src/model/jig.ts';
import type { Layout } from '../../src/model/layout.ts';

export type Raw = Record<string, unknown>;

export const DEMOS = ['snare', 'floor-tom', 'bass', 'rack-tom', 'wrong'].map((n) => `jigs/kettle-row-${n}.yaml`);

/** A jig from a plain object; fails the test with every complaint when it does not resolve. */
export function jigOf(raw: unknown): Jig {
  const r = resolveJig(raw);
  if (!r.ok) throw new Error(JSON.stringify(r.issues, null, 1));
  return r.jig;
}

export function planned(raw: unknown): { jig: Jig; layout: Layout } {
  const jig = jigOf(raw);
  return { jig, layout: layOut(jig) };
}

/** A demo jig file as a plain object that a test may change. */
export function demo(file: string): Raw {
  const parsed = parseText(readFileSync(file, 'utf8'));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return structuredClone(parsed.raw) as Raw;
}

/** Complaints of a jig text, as the command line would print them. */
export function complaints(text: string): string[] {
  const parsed = parseText(text);
  const issues = parsed.ok
    ? (() => {
        const r = resolveJig(parsed.raw, { lines: parsed.lines });
        return r.ok ? [] : r.issues.map(parsed.place);
      })()
    : parsed.issues;
  return issues.map((i) => `${i.line}:${i.column} ${i.key}: ${i.found} | ${i.allowed} | ${i.try}`);
}
