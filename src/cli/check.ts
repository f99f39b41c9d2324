import { checkFindings } from '../jobs/check.ts';
import { layOut } from '../layout/layout.ts';
import type { Context } from './context.ts';
import { EXIT } from './failure.ts';
import { readJig } from './input.ts';
import { sayFindings, verdict } from './report.ts';

export async function run(
  args: readonly string[],
  options: { suggest?: boolean },
  { terminal, json }: Context,
): Promise<number> {
  const input = readJig(args[0] as string);
  const layout = layOut(input.jig);
  const findings = checkFindings(input.jig, layout);
  const stops = findings.some((f) => f.level === 'stop');
  const suggestions = options.suggest ? await suggested(input.raw, input.jig.lines) : undefined;
  if (json) {
    const { assumptions, name } = input.jig;
    terminal.out(
      `${JSON.stringify({ ok: !stops, exit: stops ? EXIT.stop : EXIT.done, name, findings, assumptions, ...(suggestions === undefined ? {} : { suggestions }) }, null, 2)}\n`,
    );
  } else {
    if (!terminal.quiet) terminal.out(sayFindings(findings, terminal));
    if (suggestions !== undefined) terminal.out(saySuggestions(suggestions));
    terminal.out(`${verdict(findings, terminal)}\n`);
  }
  return stops ? EXIT.stop : EXIT.done;
}

async function suggested(raw: Record<string, unknown>, _lines: Readonly<Record<string, number>>) {
  const { suggest } = await import('../jobs/suggest.ts');
  return suggest(raw);
}

function saySuggestions(s: Awaited<ReturnType<typeof suggested>>): string {
  return `${JSON.stringify(s, null, 2)}\n`;
}
