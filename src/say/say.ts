import type { Fact, Finding, Saying } from '../model/finding.ts';

/** Sentences by finding id, gathered from the stages by whoever composes them. */
export type Sayings = Readonly<Record<string, Saying>>;

/**
 * A fact with its sentence, its cure and the source of its limit. Throws when an id has no sentence: that is a fault of
 * the program, and a test keeps it from happening.
 */
export function say(fact: Fact, sayings: Sayings): Finding {
  const saying = sayings[fact.id];
  if (!saying) throw new Error(`no sentence for the finding ${fact.id}`);
  return {
    level: fact.level,
    id: fact.id,
    at: fact.at,
    text: saying.text(fact),
    measured: tidy(fact.measured),
    limit: tidy(fact.limit),
    unit: fact.unit,
    try: saying.try(fact),
    source: saying.source,
    ...(fact.line === undefined ? {} : { line: fact.line }),
  };
}

const ORDER = { stop: 0, care: 1, note: 2 } as const;

export const sayAll = (facts: readonly Fact[], sayings: Sayings): Finding[] =>
  inOrder(facts.map((f) => say(f, sayings)));

/** Stops first, then care, then notes; within a level as found. Doubles (same id, place and text) once. */
export function inOrder(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings
    .filter((f) => {
      const key = `${f.level} ${f.id} ${f.at} ${f.text}`;
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => ORDER[a.level] - ORDER[b.level]);
}

/** Rounded to a ten-thousandth, which no bench can see; findings are data but not float dust. */
const tidy = (n: number | null): number | null =>
  n === null || !Number.isFinite(n) ? null : Math.round(n * 1e4) / 1e4 + 0;
