import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { digestText } from '../jobs/digest.ts';
import { make } from '../jobs/make.ts';
import { layOut } from '../layout/layout.ts';
import type { PageTemplate } from '../page/data.ts';
import type { Context } from './context.ts';
import { badInput, EXIT } from './failure.ts';
import { refuseFolder } from './folder.ts';
import { readJig } from './input.ts';
import { writeSet } from './output.ts';
import { sayFindings, verdict } from './report.ts';
import { type RotaryWords, rotaryOptions } from './rotary-options.ts';
import { Progress, paint } from './terminal.ts';
import { VERSION } from './version.ts';
import { wordOption } from './words.ts';

interface Options extends RotaryWords {
  readonly out?: string;
  readonly anyway?: boolean;
  readonly solid?: boolean;
  readonly dxf: string;
  readonly printerMeasured?: string;
}

export async function run(args: readonly string[], options: Options, { terminal, json }: Context): Promise<number> {
  const { jig, text, raw, spans, profiles } = readJig(args[0] as string);
  const layout = layOut(jig);
  const rotary = rotaryOptions(options, layout);
  const printer = printerScale(options.printerMeasured);
  const folder = options.out ?? join('output', jig.slug);
  refuseFolder(folder);
  const progress = new Progress(terminal);
  const made = await make({
    jig,
    layout,
    source: { text, object: raw, spans: spans(), lines: jig.lines, profiles },
    digest: createHash('sha256').update(digestText(jig, layout)).digest('hex').slice(0, 12),
    version: VERSION,
    template: pageTemplate(),
    rotary,
    ...(printer === undefined ? {} : { printer }),
    flavour: wordOption('--dxf', options.dxf, ['polylines', 'plain'] as const),
    solid: options.solid === true,
    anyway: options.anyway === true,
    onStage: (stage) => progress.say(`${jig.slug}: ${stage} ...`),
  });
  progress.end();
  const written = writeSet(folder, made.files);
  terminal.stands(`the set in ${folder} is`);
  const exit = made.stop ? EXIT.stop : EXIT.done;
  if (json) {
    terminal.out(
      `${JSON.stringify({ ok: !made.stop, exit, name: jig.name, out: folder, files: written.files, kept: written.kept, notMade: made.notMade, seconds: made.seconds, findings: made.findings }, null, 2)}\n`,
    );
  } else if (!terminal.quiet) {
    terminal.err(
      sayFindings(
        made.findings.filter((f) => f.level !== 'note'),
        terminal,
      ),
    );
    for (const n of made.notMade) terminal.err(`not made: ${n.what}: ${n.why}\n`);
    for (const k of written.kept) terminal.err(`kept: ${k} was filled in, so it was left as it is\n`);
    terminal.err(
      `${verdict(made.findings, terminal)}\n${paint(terminal, 'strong', `${written.files.length} files in ${folder}`)}; open ${join(folder, 'bench.html')} first.\n`,
    );
  }
  return exit;
}

/** `99.4x99.8`: what the 100 mm rulers measured across and up. */
function printerScale(text: string | undefined): { across: number; up: number } | undefined {
  if (text === undefined) return undefined;
  const m = /^\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*[xX×]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*$/.exec(text);
  const [across, up] = [Number(m?.[1]), Number(m?.[2])];
  if (!m || across < 90 || across > 110 || up < 90 || up > 110)
    throw badInput(
      `--printer-measured ${text}`,
      'two lengths from 90 to 110 mm, e.g. 99.4x99.8',
      'measure both 100 mm rulers on page 1 as it was printed, across first',
    );
  return { across, up };
}

/** Built once with the program, beside it. */
const pageTemplate = (): PageTemplate =>
  JSON.parse(readFileSync(new URL('./page.json', import.meta.url), 'utf8')) as PageTemplate;
