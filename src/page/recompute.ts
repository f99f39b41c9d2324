import { check } from '../fit/check.ts';
import type { JigIssue } from '../jig/issue.ts';
import { resolveJig } from '../jig/resolve.ts';
import { layOut } from '../layout/layout.ts';
import { fitSayings } from '../say/fit.ts';
import { sayAll } from '../say/say.ts';
import { planHoles, type View, viewOf } from './view.ts';

export type Recomputed =
  | { readonly ok: true; readonly view: View }
  | { readonly ok: false; readonly issues: readonly JigIssue[] };

export interface RecomputeOptions {
  readonly profiles?: Readonly<Record<string, unknown>>;
  readonly lines?: Readonly<Record<string, number>>;
}

/** A changed jig file through the same stages as on the command line: reading, layout, fit checks. */
export function recompute(raw: unknown, options: RecomputeOptions = {}): Recomputed {
  const resolved = resolveJig(raw, options);
  if (!resolved.ok) return resolved;
  const { jig } = resolved;
  const layout = layOut(jig);
  return {
    ok: true,
    view: viewOf({
      jig,
      layout,
      plan: { holes: planHoles(layout) },
      findings: sayAll(check(jig, layout), fitSayings),
    }),
  };
}

/** A complaint about one key in the words of the command line, without the place. */
export const complaint = (issue: JigIssue): string => `${issue.found}. Allowed: ${issue.allowed}. Try: ${issue.try}.`;
