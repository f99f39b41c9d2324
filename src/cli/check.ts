import { checkFindings } from '../jobs/check.ts';
import type { Suggestion } from '../jobs/suggest.ts';
import { layOut } from '../layout/layout.ts';
import type { Finding } from '../model/finding.ts';
import type { Context } from './context.ts';
import { EXIT } from './failure.ts';
import { type JigInput, readJig } from './input.ts';
import { exitFor, sayFindings, verdict } from './report.ts';
import { paint, type Terminal } from './terminal.ts';

export async function run(
  args: readonly string[],
  options: { suggest?: boolean },
  { terminal, json }: Context,
): Promise<number> {
  const input = readJig(args[0] as string);
  const layout = layOut(input.jig);
  const findings = checkFindings(input.jig, layout);
  const exit = exitFor(findings);
  const suggestions = options.suggest ? await suggested(input) : undefined;
  if (json) {
    const { assumptions, name } = input.jig;
    terminal.out(
      `${JSON.stringify({ ok: exit === EXIT.done, exit, name, findings, assumptions, ...(suggestions === undefined ? {} : { suggestions }) }, null, 2)}\n`,
    );
  } else {
    if (!terminal.quiet) terminal.out(sayFindings(findings, terminal));
    if (suggestions !== undefined) terminal.out(saySuggestion(suggestions, findings, terminal));
    terminal.out(`${verdict(findings, terminal)}\n`);
  }
  return exit;
}

async function suggested({ raw, profiles, jig }: JigInput): Promise<Suggestion> {
  const { suggest } = await import('../jobs/suggest.ts');
  return suggest(raw, { profiles, lines: jig.lines });
}

function saySuggestion(s: Suggestion, findings: readonly Finding[], t: Terminal): string {
  // What `make` alone would find is cured too.
  const later = s.before - findings.filter((f) => f.level === 'stop').length;
  const stops = `${s.before} ${s.before === 1 ? 'stop' : 'stops'}${later > 0 ? ` (${later} of them when it is made)` : ''}`;
  const steps = s.turn ? [...s.steps, { ...s.turn, or: [] }] : s.steps;
  if (steps.length === 0) {
    return s.before === 0
      ? 'Nothing to change: no finding says stop.\n'
      : `No change of the jig file is known that clears the ${stops}: other hardware is wanted.\n`;
  }
  const lines = steps.flatMap((step, i) => [
    `${paint(t, 'strong', `Change ${i + 1}`)}: ${step.say}`,
    ...step.changes.map(
      (c) =>
        `      ${c.path}: ${c.to === null ? 'take away' : `${c.from === null ? 'add' : `${JSON.stringify(c.from)} ->`} ${JSON.stringify(c.to)}`}`,
    ),
    ...(step.clears.length > 0 ? [`      clears: ${step.clears.join(', ')}`] : []),
    ...step.or.map((o) => `      or: ${o}`),
  ]);
  const proof = `Checked again with ${steps.length === 1 ? 'this change' : 'these changes'}: ${stops} ${s.before === 1 ? 'becomes' : 'become'} ${s.after}${s.smallest ? ', and no smaller set of the known cures does as much' : ''}.`;
  return `${[...lines, proof].join('\n')}\n`;
}
