import type { Fact } from '../model/finding.ts';

/**
 * Eight lugs that share one fault are one finding: of the facts under one key the worst stays, with how many there are
 * and where the others lie.
 */
export function gather(facts: readonly { readonly key: string; readonly over: number; readonly fact: Fact }[]): Fact[] {
  const groups = new Map<string, { over: number; fact: Fact; all: string[] }>();
  for (const { key, over, fact } of facts) {
    const known = groups.get(key);
    if (!known) groups.set(key, { over, fact, all: [fact.at] });
    else {
      if (!known.all.includes(fact.at)) known.all.push(fact.at);
      if (over > known.over) {
        known.over = over;
        known.fact = fact;
      }
    }
  }
  return [...groups.values()].map(({ fact, all }) => ({
    ...fact,
    facts: { ...fact.facts, count: all.length, places: all.join(', ') },
  }));
}
