import type { Fact } from '../model/finding.ts';

export const isUnderKerf = (f: Fact): boolean => f.id === 'feature-under-kerf';

/**
 * A kerf that swallows one hole swallows all of its size: one fact for all features under the kerf, of all parts, in the
 * place of the first, with the narrowest as measured.
 */
export function kerfSummed(facts: readonly Fact[]): Fact[] {
  const [first, ...more] = facts.filter(isUnderKerf);
  if (first === undefined || more.length === 0) return [...facts];
  const all = [first, ...more];
  const names = (key: string): string[] => [...new Set(all.map((f) => String(f.facts?.[key])))];
  const sizes = all.flatMap((f) => (f.measured === null ? [] : [f.measured]));
  const summary: Fact = {
    ...first,
    measured: sizes.length === 0 ? null : Math.min(...sizes),
    facts: { ...first.facts, count: all.length, features: names('feature').join(', '), parts: few(names('part')) },
  };
  return facts.flatMap((f) => (f === first ? [summary] : isUnderKerf(f) ? [] : [f]));
}

/** Names in brackets' reach: the first two and how many more. */
const few = (names: readonly string[]): string =>
  names.length <= 2 ? names.join('; ') : `${names.slice(0, 2).join('; ')}; and ${names.length - 2} more parts`;
