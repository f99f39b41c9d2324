import { nearestDrills } from '../data/drills.ts';
import { sizeText } from '../data/methods.ts';
import { washerOutside } from '../data/screws.ts';
import { fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import type { Mm } from '../units/scalar.ts';
import type { Group, MethodBudget } from './report.ts';

/** The jig file's line of a group's holes. */
export const lineOf = (jig: Jig, key: string): { line?: number } => {
  const line = jig.lines[`${key}.holes`] ?? jig.lines[key];
  return line === undefined ? {} : { line };
};

/** Least that a washer must lie on the wood all round, mm (common practice, no source). */
const LAND: Mm = 0.5;

/** Washer that still covers a hole when its screw stands at the very side; undefined when no usual one does. */
function washerOver(thread: Thread, drill: Mm): Mm | undefined {
  const least = 2 * (drill - thread.diameter / 2 + LAND);
  // A large washer is three times the screw (ISO 7093-1:2000).
  return [washerOutside(thread), 3 * thread.diameter].find((outside) => outside >= least);
}

/** The smallest drill on sale that is at least this large, by name and size. */
function drillOver(diameter: Mm): { readonly name: string; readonly diameter: Mm } {
  const { nearest, over } = nearestDrills(diameter);
  return nearest.diameter >= diameter ? nearest : (over ?? { name: `${diameter.toFixed(1)} mm`, diameter });
}

/** Terms that are the builder's own are said, so that nobody takes them for the tables'. */
export function ownTerms(m: MethodBudget, jig: Jig): Fact[] {
  const own = m.terms.filter((t) => t.own);
  if (own.length === 0) return [];
  const terms = own.map((t) => {
    const was = t.own?.builtIn === undefined ? 'added' : `built in: ${t.own.builtIn}`;
    return `${t.id} ${sizeText(t)} (${was})`;
  });
  const line = jig.lines['accuracy'];
  return [
    {
      ...fact('note', 'own-error-terms', 'shell', own.length, null, '', { method: m.name, terms: terms.join(', ') }),
      ...(line === undefined ? {} : { line }),
    },
  ];
}

/** What the budget warns of: chances only, so never more than `care`. */
export function warnings(m: MethodBudget, level: number, jig: Jig, groups: readonly Group[]): Fact[] {
  const facts: Fact[] = [];
  const drum = m.drum.goesOn;
  if (drum === null) {
    const unknown = m.groups.filter((g) => g.goesOn === null).map((g) => g.group);
    facts.push(
      fact('note', 'not-checked', 'shell', null, null, '', {
        check: 'the chance that the drum goes together',
        needs: `a simulation of ${unknown.join(', ')}`,
      }),
    );
    return facts;
  }
  if (drum >= level) return facts;
  facts.push(
    fact('care', 'drum-chance-low', 'shell', 100 * drum, 100 * level, '%', {
      method: m.name,
      fittings: m.drum.fittings,
      straight: 100 * (m.drum.straight ?? 0),
    }),
  );
  const each = level ** (1 / Math.max(1, m.drum.fittings));
  for (const [i, g] of m.groups.entries()) {
    const chance = g.goesOn?.value ?? 1;
    if (chance >= each) continue;
    facts.push({
      level: 'care',
      id: 'fitting-chance-low',
      at: g.group,
      measured: 100 * chance,
      limit: 100 * each,
      unit: '%',
      facts: {
        method: m.name,
        count: g.at.length,
        all: 100 * chance ** g.at.length,
        straight: 100 * (g.straight?.value ?? 0),
        drill: g.drill_mm,
        screw: g.screw_mm,
        walk: g.walk_mm,
        ...wanted(g.drillFor_mm.goesOn, groups[i]!.pattern.screw!.thread),
        sigma: Math.max(m.sigma.hole.around_mm, m.sigma.hole.along_mm),
      },
      ...lineOf(jig, groups[i]!.key),
    });
  }
  return facts;
}

function wanted(hole: Mm | null, thread: Thread): Record<string, string | number> {
  if (hole === null) return {};
  const drill = drillOver(hole);
  return { wanted: drill.diameter, wantedName: drill.name, washer: washerOver(thread, drill.diameter) ?? 0 };
}
