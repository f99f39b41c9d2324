import { budget } from '../budget/budget.ts';
import { check } from '../fit/check.ts';
import type { JigIssue } from '../jig/complaint.ts';
import { resolveJig } from '../jig/resolve.ts';
import { layOut } from '../layout/layout.ts';
import type { Fact, Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { MadePart } from '../page/data.ts';
import { planHoles, type View, viewOf } from '../page/view.ts';
import type { RotaryOptions } from '../rotary/types.ts';
import { sayAll } from '../say/say.ts';
import { located } from './check.ts';
import { layCollar, layWrap } from './laid.ts';
import { budgetPage, collarPage, dryRunPage, rotaryPage } from './page-data.ts';
import { makeRotary } from './rotary.ts';
import { SAYINGS } from './sayings.ts';

export interface Worked {
  readonly ok: true;
  readonly jig: Jig;
  readonly layout: Layout;
  /** What the fit check found. */
  readonly fit: readonly Fact[];
  /** With the fit check's findings; those of the later stages are worked out after it. */
  readonly view: View;
}

export interface RecomputeOptions {
  readonly profiles?: Readonly<Record<string, unknown>>;
  readonly lines?: Readonly<Record<string, number>>;
}

/** A changed jig file through the first stages of the main job, quick enough for every key press: reading, layout, fit. */
export function recompute(
  raw: unknown,
  options: RecomputeOptions = {},
): Worked | { readonly ok: false; readonly issues: readonly JigIssue[] } {
  const resolved = resolveJig(raw, options);
  if (!resolved.ok) return resolved;
  const { jig } = resolved;
  const layout = layOut(jig);
  const fit = located(jig, layout, check(jig, layout));
  return {
    ok: true,
    jig,
    layout,
    fit,
    view: viewOf({ jig, layout, plan: { holes: planHoles(layout) }, findings: sayAll(fit, SAYINGS) }),
  };
}

export interface Again<Made> {
  readonly findings: readonly Finding[];
  readonly made: Made;
}

/** The accuracy budget and the program with its dry run. */
export function programAgain(
  { jig, layout, fit }: Worked,
  options: RotaryOptions,
): Again<Pick<MadePart, 'rotary' | 'dryRun' | 'budget'>> {
  const accuracy = budget(jig, layout, {});
  const rotary = makeRotary(jig, layout, options);
  const facts = located(jig, layout, [...accuracy.facts, ...rotary.facts]);
  const dryFindings = sayAll(rotary.dry?.facts ?? [], SAYINGS);
  const findings = [...sayAll(facts, SAYINGS), ...dryFindings];
  const withheld = rotary.refused || [...fit, ...findings].some((f) => f.level === 'stop');
  return {
    findings,
    made: {
      budget: budgetPage(accuracy.value),
      rotary: rotaryPage(rotary, withheld),
      dryRun: dryRunPage(rotary, dryFindings),
    },
  };
}

/** The wrap template and the drilling collar, laid on their sheets: by far the slowest part. */
export function sheetsAgain({ jig, layout, fit }: Worked, digest: string): Again<Pick<MadePart, 'collar' | 'sheets'>> {
  const wrap = layWrap(jig, layout, fit, digest);
  const collar = layCollar(jig, layout, digest);
  return {
    findings: sayAll(located(jig, layout, [...wrap.facts, ...collar.facts]), SAYINGS),
    made: { collar: collarPage(collar.plan), sheets: { wrap: wrap.panels.length, collar: collar.sheets.length } },
  };
}
