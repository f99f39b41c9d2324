import type { Fact } from '../model/finding.ts';

export interface Gathered {
  readonly key: string;
  /** How bad it is, to choose the worst by. */
  readonly over: number;
  readonly fact: Fact;
  /** The other one where two meet: one lug may meet several brackets. */
  readonly other?: string;
  /** Figures that are dear to work out, for the worst one only. */
  readonly finish?: (fact: Fact) => Fact;
}

/**
 * Eight lugs that share one fault are one finding: of the facts under one key the worst stays, with how many there are
 * and where the others lie.
 */
export function gather(facts: readonly Gathered[]): Fact[] {
  const groups = new Map<string, { worst: Gathered; all: Map<string, Gathered> }>();
  for (const one of facts) {
    const where = `${one.fact.at}\n${one.other}`;
    const known = groups.get(one.key);
    if (!known) groups.set(one.key, { worst: one, all: new Map([[where, one]]) });
    else {
      known.all.set(where, one);
      if (one.over > known.worst.over) known.worst = one;
    }
  }
  return [...groups.values()].map(({ worst, all: places }) => {
    const all = [...places.values()];
    const whole = worst.finish ? worst.finish(worst.fact) : worst.fact;
    return { ...whole, facts: { ...whole.facts, count: all.length, places: placesOf(all).join(', ') } };
  });
}

/** Each place by the one that tells it from the rest, or by both that meet there. */
function placesOf(all: readonly Gathered[]): readonly string[] {
  const names = [all.map((g) => g.fact.at), all.map((g) => String(g.other))];
  return (
    names.find((list) => new Set(list).size === all.length) ?? all.map(({ fact, other }) => `${fact.at} and ${other}`)
  );
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
