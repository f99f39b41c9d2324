import type { Fact } from '../model/finding.ts';
import { tolerance } from '../units/tolerance.ts';

/** Findings that leave the hole out: it would hit, break or miss. */
export const BLOCKS: ReadonlySet<string> = new Set([
  'hole-outside-travel',
  'hole-in-fixture',
  'hole-in-keep-out',
  'flute-too-short',
  'tool-too-short',
  'depth-outside-travel',
  'backing-too-thin',
  'depth-hits-mandrel',
  'needs-inverse-time',
]);

/**
 * One finding for all holes that share a fault, at the worst of them; and one for all that share a bit. Twenty lugs out
 * of reach are one sentence.
 */
export function gatherInto(facts: Fact[]): (f: Fact) => void {
  const said = new Map<string, { index: number; holes: Set<string> }>();
  return (f) => {
    const ofHole = BLOCKS.has(f.id);
    const about = f.facts ?? {};
    const key = ofHole ? `${f.id}|${about['axis']}|${about['end']}|${about['tool']}` : `${f.id}|${f.at}`;
    const before = said.get(key);
    if (!before) {
      said.set(key, { index: facts.length, holes: new Set([f.at]) });
      facts.push(ofHole ? { ...f, facts: { ...about, count: 1 } } : f);
      return;
    }
    if (!ofHole) return;
    before.holes.add(f.at);
    const first = facts[before.index]!;
    const over = (g: Fact): number => Math.abs((g.measured ?? 0) - (g.limit ?? 0));
    const worst = over(f) > over(first) + tolerance.noise ? f : first;
    facts[before.index] = { ...worst, facts: { ...worst.facts, count: before.holes.size } };
  };
}
