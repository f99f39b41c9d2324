import { measuredShell } from '../jobs/measured.ts';
import { layOut } from '../layout/layout.ts';
import { LARGEST } from '../measured/readings.ts';
import type { MeasuredReport } from '../measured/report.ts';
import { measuredPicture } from '../picture/measured.ts';
import { standAlone } from '../picture/style.ts';
import type { Context } from './context.ts';
import { BadInput, badInput, EXIT } from './failure.ts';
import { readJig, readText } from './input.ts';
import { exitFor, sayFindings, verdict } from './report.ts';
import { paint } from './terminal.ts';
import { writePlain } from './write-file.ts';

export async function run(
  args: readonly string[],
  options: { picture?: string },
  { terminal, json }: Context,
): Promise<number> {
  const [jigFile, readings] = args as [string, string];
  if (jigFile === '-' && readings === '-')
    throw badInput('both files from standard input', 'one of them', 'name the jig file');
  const { jig } = readJig(jigFile);
  const layout = layOut(jig);
  const { report, findings } = measuredShell(jig, layout, readText(readings, LARGEST, 'the readings file'));
  if (report.problems.length > 0) throw new BadInput(report.problems.map((p) => ({ file: readings, ...p })));
  if (options.picture !== undefined) {
    writePlain(options.picture, standAlone(measuredPicture(layout, report.holes, report.fittings)));
  }
  const exit = exitFor(findings);
  const stop = exit === EXIT.stop;
  if (json) terminal.out(`${JSON.stringify({ ok: !stop, exit, ...tidied(report), findings }, null, 2)}\n`);
  else {
    if (!terminal.quiet) terminal.out(sayFindings(findings, terminal));
    const on = report.fittings.filter((f) => f.goesOn === true).length;
    const off = report.fittings.filter((f) => f.goesOn === false).length;
    const line = `${on} of ${report.fittings.length} fittings go on as they are${off > 0 ? `, ${off} do not` : ''}${on + off < report.fittings.length ? `, ${report.fittings.length - on - off} not known` : ''}`;
    terminal.out(
      `${paint(terminal, 'strong', line)} (${report.counts.used} readings used, ${report.counts.blank} left blank).\n${verdict(findings, terminal, 'Nothing measured says stop')}\n`,
    );
  }
  return exit;
}

/** A micrometre is more than any caliper tells. */
const tidied = (report: MeasuredReport): object =>
  JSON.parse(JSON.stringify(report, (_, v) => (typeof v === 'number' ? Number(v.toFixed(5)) + 0 : v))) as object;
