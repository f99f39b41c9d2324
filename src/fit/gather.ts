import type { Fact } from '../model/finding.ts';

export interface Gathered {
  readonly key: string;
  /** How bad it is, to choose the worst by. */
  readonly over: number;
  readonly fact: Fact;
  /** Figures that are dear to work out, for the worst one only. */
  readonly finish?: (fact: Fact) => Fact;
}

/**
 * Eight lugs that share one fault are one finding: of the facts under one key the worst stays, with how many there are
 * and where the others lie.
 */
export function gather(facts: readonly Gathered[]): Fact[] {
  const groups = new Map<string, Gathered & { all: string[] }>();
  for (const { key, over, fact, finish } of facts) {
    const known = groups.get(key);
    const more = finish ? { finish } : {};
    if (!known) groups.set(key, { key, over, fact, ...more, all: [fact.at] });
    else {
      if (!known.all.includes(fact.at)) known.all.push(fact.at);
      if (over > known.over) {
        groups.set(key, { key, over, fact, ...more, all: known.all });
      }
    }
  }
  return [...groups.values()].map(({ fact, finish, all }) => {
    const whole = finish ? finish(fact) : fact;
    return { ...whole, facts: { ...whole.facts, count: all.length, places: all.join(', ') } };
  });
}

/** Findings of two rows that say the same of the same hardware are one, with the places it stands for. */
export function gatherAlike(facts: readonly Fact[]): Fact[] {
  return gather(
    facts.map((fact) => {
      const { screw, needs, group } = fact.facts ?? {};
      const whose = String(group).startsWith('fittings.') ? group : 'lugs';
      return { key: JSON.stringify([fact.id, fact.measured, fact.limit, screw, needs, whose]), over: 0, fact };
    }),
  );
}
