import { budget } from '../budget/budget.ts';
import { check } from '../fit/check.ts';
import type { Fact, Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { budgetSayings } from '../say/budget.ts';
import { fitSayings } from '../say/fit.ts';
import { sayAll } from '../say/say.ts';

/** Facts known before the first hole. */
export interface Checked {
  readonly facts: readonly Fact[];
  /** Those of the fit check alone. */
  readonly fit: readonly Fact[];
  readonly budget: ReturnType<typeof budget>['value'];
}

/** Everything that can be known before the first hole: fit checks and the accuracy budget. */
export function checkFacts(jig: Jig, layout: Layout): Checked {
  const accuracy = budget(jig, layout, {});
  const fit = located(jig, layout, check(jig, layout));
  return { facts: [...fit, ...located(jig, layout, accuracy.facts)], fit, budget: accuracy.value };
}

/**
 * Everything that can be known before the first hole, in words: fit checks and the accuracy budget.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @returns findings, stops first, with the jig file's line where it is known
 * @throws never
 * @source each finding names its own in `source`
 */
export const checkFindings = (jig: Jig, layout: Layout): Finding[] =>
  sayAll(checkFacts(jig, layout).facts, { ...fitSayings, ...budgetSayings });

/** Facts with the jig file's line, by the fitting or hole they speak of. */
export function located(jig: Jig, layout: Layout, facts: readonly Fact[]): Fact[] {
  const keys = new Map<string, string>();
  for (const p of layout.placed) {
    keys.set(p.id, p.key);
    if (!keys.has(p.group)) keys.set(p.group, p.key);
    for (const h of p.holes) keys.set(h.id, p.key);
  }
  return facts.map((f) => {
    if (f.line !== undefined) return f;
    const line = jig.lines[keys.get(f.at) ?? f.at];
    return line === undefined ? f : { ...f, line };
  });
}
