import { measured } from '../measured/measured.ts';
import type { MeasuredReport } from '../measured/report.ts';
import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { measuredSayings } from '../say/measured.ts';
import { sayAll } from '../say/say.ts';

export interface MeasuredResult {
  readonly report: MeasuredReport;
  readonly findings: readonly Finding[];
}

/** Caliper readings of the drilled shell against the plan. */
export function measuredShell(jig: Jig, layout: Layout, csv: string): MeasuredResult {
  const { value: report, facts } = measured(jig, layout, csv);
  return { report, findings: sayAll(facts, measuredSayings) };
}
