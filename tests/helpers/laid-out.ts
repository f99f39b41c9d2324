import { type Bench, lay } from '../../src/fit/bench.ts';
import { limitsOf } from '../../src/fit/limits.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Jig } from '../../src/model/jig.ts';
import type { Layout } from '../../src/model/layout.ts';

export function jigOf(raw: unknown): Jig {
  const resolved = resolveJig(raw);
  if (!resolved.ok)
    throw new Error(resolved.issues.map((i) => `${i.path.join('.')}: ${i.found}; ${i.allowed}`).join('\n'));
  return resolved.jig;
}

const laid = new Map<string, { readonly jig: Jig; readonly layout: Layout }>();

/** A jig of plain JSON and where everything goes; read once, as reading is most of the time a small check takes. */
export function laidOut(raw: unknown): { readonly jig: Jig; readonly layout: Layout } {
  const text = JSON.stringify(raw);
  const known = laid.get(text);
  if (known) return known;
  const jig = jigOf(raw);
  const made = { jig, layout: layOut(jig) };
  laid.set(text, made);
  return made;
}

/** The bench one check alone works on. */
export function benchOf(raw: unknown): Bench {
  const { jig, layout } = laidOut(raw);
  return lay(jig, layout, limitsOf(jig));
}

/** What one check alone finds in a jig. */
export const factsBy = (one: (bench: Bench) => readonly Fact[], raw: unknown): readonly Fact[] =>
  trueFacts(one(benchOf(raw)));

/** Whatever is no finding among them is a fault. */
export function trueFacts(facts: readonly Fact[]): readonly Fact[] {
  const odd = facts.find((f) => !['stop', 'care', 'note'].includes(f.level));
  if (odd !== undefined) throw new Error(`not a finding: ${JSON.stringify(odd)}`);
  return facts;
}
