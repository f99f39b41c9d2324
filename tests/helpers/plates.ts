import { check } from '../../src/fit/check.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import { factsOf, jigOf, type Raw } from './jig-cases.ts';

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

export const found = (raw: Raw, id: string, at?: string): Fact | undefined =>
  factsOf(raw).find((f) => f.id === id && (at === undefined || f.at === at));

export const level = (raw: Raw, id: string, at?: string) => found(raw, id, at)?.level ?? 'silent';

const pathsOf = (node: unknown, above = ''): string[] =>
  typeof node === 'object' && node !== null
    ? Object.entries(node).flatMap(([k, v]) => [`${above}${k}`, ...pathsOf(v, `${above}${k}.`)])
    : [];

/** Every finding with the key path whose line it points at, as if every key of the jig object stood on its own line. */
export function pointed(raw: Raw): (Fact & { readonly path: string | undefined })[] {
  const paths = pathsOf(raw);
  const jig = { ...jigOf(raw), lines: Object.fromEntries(paths.map((path, i) => [path, i + 1])) };
  return check(jig, layOut(jig)).map((f) => ({ ...f, path: paths[(f.line ?? 0) - 1] }));
}

/** Which of these key paths the finding points at when all have a line of their own, when all but the first have, and so on. */
export function inTurn(raw: Raw, id: string, at: string, keys: readonly string[]): (string | undefined)[] {
  const jig = jigOf(raw);
  const layout = layOut(jig);
  return keys.map((_, i) => {
    const lines = Object.fromEntries(keys.slice(i).map((key, k) => [key, i + k + 1]));
    const f = check({ ...jig, lines }, layout).find((x) => x.id === id && x.at === at);
    return keys[(f?.line ?? 0) - 1];
  });
}
