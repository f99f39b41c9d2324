import type { Fact, Level } from '../model/finding.ts';

/** Facts of one id kept in full; the rest are counted, so that an endless program cannot fill the memory. */
const KEPT = 40;

export interface Raised {
  readonly at: string;
  readonly measured?: number | null;
  readonly limit?: number | null;
  readonly unit?: string;
  readonly line?: number;
  readonly facts?: Readonly<Record<string, string | number>>;
}

export interface Gatherer {
  readonly raise: (level: Level, id: string, raised: Raised) => void;
  readonly facts: () => Fact[];
}

const RANK: Readonly<Record<Level, number>> = { stop: 0, care: 1, note: 2 };

/** What holds for the whole job comes first, then line by line, then what has no line: holes that are not there. */
function order(fact: Fact): number {
  if (fact.line !== undefined) return fact.line;
  return fact.at === 'program' && fact.id !== 'more-of-the-same' ? -1 : Number.MAX_SAFE_INTEGER;
}

/** Collects facts in order of level, then of place in the program. */
export function gatherer(): Gatherer {
  const kept: Fact[] = [];
  const counts = new Map<string, { level: Level; count: number }>();
  return {
    raise(level, id, raised) {
      const key = `${level} ${id}`;
      const seen = counts.get(key) ?? { level, count: 0 };
      seen.count++;
      counts.set(key, seen);
      if (seen.count > KEPT) return;
      kept.push({
        level,
        id,
        at: raised.at,
        measured: raised.measured ?? null,
        limit: raised.limit ?? null,
        unit: raised.unit ?? '',
        ...(raised.facts === undefined ? {} : { facts: raised.facts }),
        ...(raised.line === undefined ? {} : { line: raised.line }),
      });
    },
    facts() {
      const more: Fact[] = [...counts]
        .filter(([, seen]) => seen.count > KEPT)
        .map(([key, seen]) => ({
          level: seen.level,
          id: 'more-of-the-same',
          at: 'program',
          measured: seen.count - KEPT,
          limit: null,
          unit: '',
          facts: { id: key.slice(key.indexOf(' ') + 1) },
        }));
      return [...kept, ...more].sort((a, b) => RANK[a.level] - RANK[b.level] || order(a) - order(b));
    },
  };
}

/** Kinds of trouble told apart; more of them in one program are told as often as they come. */
const MOST_TOLD = 10_000;

/** Runs `raise` the first time an id comes with this key. */
export function tellEach(): (id: string, key: string, raise: () => void) => void {
  const told = new Set<string>();
  return (id, key, raise) => {
    if (told.has(`${id} ${key}`)) return;
    if (told.size < MOST_TOLD) told.add(`${id} ${key}`);
    raise();
  };
}
