import type { Bench } from '../../src/fit/bench.ts';
import { check } from '../../src/fit/check.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Raw } from './changed.ts';
import { benchOf } from './laid-out.ts';

/** R = 163.7: one degree is 2.8571 mm round the shell. */
export const R = 163.7;
export const perDeg = (Math.PI * R) / 180;

/** Two plates on a bare shell, to be pushed about. */
export const plates = (one: Raw, other: Raw, more: Raw = {}): Raw => ({
  jig: 1,
  name: 'Plates',
  shell: { diameter: 2 * R, depth: 150, wall: 6.6 },
  fittings: [
    { name: 'one', role: 'other', at: 90, edge: 'middle', distance: 0, ...one },
    { name: 'two', role: 'other', at: 90, edge: 'middle', distance: 0, ...other },
  ],
  ...more,
});

const pathsOf = (node: unknown, above = ''): string[] =>
  typeof node === 'object' && node !== null
    ? Object.entries(node).flatMap(([k, v]) => [`${above}${k}`, ...pathsOf(v, `${above}${k}.`)])
    : [];

const whole = (bench: Bench): readonly Fact[] => check(bench.jig, bench.layout, bench.limits);

/** What one check alone, or all of them, say of a jig object. */
export function saidBy(run: (bench: Bench) => readonly Fact[] = whole) {
  const facts = (raw: Raw) => run(benchOf(raw));
  const found = (raw: Raw, id: string, at?: string): Fact | undefined =>
    facts(raw).find((f) => f.id === id && (at === undefined || f.at === at));
  const level = (raw: Raw, id: string, at?: string) => found(raw, id, at)?.level ?? 'silent';
  const all = (raw: Raw, id: string) => facts(raw).filter((f) => f.id === id);

  /** Every finding with the key path whose line it points at, as if every key of the jig object stood on its own line. */
  const pointed = (raw: Raw): (Fact & { readonly path: string | undefined })[] => {
    const paths = pathsOf(raw);
    const lines = Object.fromEntries(paths.map((path, i) => [path, i + 1]));
    const bench = benchOf(raw);
    return run({ ...bench, jig: { ...bench.jig, lines } }).map((f) => ({ ...f, path: paths[(f.line ?? 0) - 1] }));
  };

  /** Which of these key paths the finding points at when all have a line of their own, when all but the first have, and so on. */
  const inTurn = (raw: Raw, id: string, at: string, keys: readonly string[]): (string | undefined)[] => {
    const bench = benchOf(raw);
    return keys.map((_, i) => {
      const lines = Object.fromEntries(keys.slice(i).map((key, k) => [key, i + k + 1]));
      const f = run({ ...bench, jig: { ...bench.jig, lines } }).find((x) => x.id === id && x.at === at);
      return keys[(f?.line ?? 0) - 1];
    });
  };
  return { facts, found, level, all, pointed, inTurn };
}

export const { found, level, inTurn } = saidBy();
