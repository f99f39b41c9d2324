import type { DryRunContext } from '../dryrun/context.ts';
import type { DryRunReport } from '../dryrun/report.ts';
import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';

/**
 * What the dry run judges a program of this jig by: plan, shell, machine, bits and datum as the jig file has them.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @returns a context; change it to judge by another machine or bit
 * @throws never
 * @source derived from the jig file
 */
export const dryRunContext = (jig: Jig, layout: Layout): DryRunContext => ({
  layout,
  shell: jig.shell,
  machine: jig.rotary.machine,
  tools: jig.rotary.tools,
  datum: jig.rotary.datum,
  backing: jig.rotary.backing,
  runout: jig.rotary.runout,
});

/** `dry-run.json`: the report with its findings; numbers rounded to 4 decimals (angles 5), which no machine sees. */
export function dryRunJson(report: DryRunReport, findings: readonly Finding[]): Record<string, unknown> {
  const tidy = (key: string, value: unknown): unknown => {
    if (typeof value !== 'number') return value;
    return Number.isFinite(value) ? Number(value.toFixed(key.endsWith('_deg') ? 5 : 4)) + 0 : null;
  };
  return { ...(JSON.parse(JSON.stringify(report, tidy)) as Record<string, unknown>), findings };
}
