import { closeSync, fstatSync, openSync } from 'node:fs';
import { type DryRun, startDryRun } from '../dryrun/dry-run.ts';
import type { DryRunReport } from '../dryrun/report.ts';
import type { Step } from '../dryrun/step.ts';
import { dryRunContext, dryRunJson } from '../jobs/dry-run.ts';
import { layOut } from '../layout/layout.ts';
import type { Finding } from '../model/finding.ts';
import { dryRunSayings } from '../say/dryrun.ts';
import { sayAll } from '../say/say.ts';
import { spell } from '../say/saying.ts';
import type { Context } from './context.ts';
import { badInput, EXIT, systemWords } from './failure.ts';
import { readJig, readSome } from './input.ts';
import { writeSet } from './output.ts';
import { exitFor, sayFindings, verdict } from './report.ts';
import { Progress, paint, type Terminal } from './terminal.ts';
import { wholeOption } from './words.ts';

interface Options {
  readonly jig: string;
  readonly trace?: boolean;
  readonly blockDelete?: boolean;
  readonly partial?: boolean;
  readonly pictures?: string;
  readonly section?: string;
  readonly mostLines: string;
}

/** More moves than this are traced as text only: nobody reads them in one JSON value. */
const TRACE_LIMIT = 200_000;

/** Runs any program against a jig, streamed: memory does not grow with the program. */
export async function run(args: readonly string[], options: Options, { terminal, json }: Context): Promise<number> {
  const program = args[0] as string;
  if (program === '-' && options.jig === '-')
    throw badInput('both the program and the jig from standard input', 'one of them', 'name the jig file');
  const { jig } = readJig(options.jig);
  const layout = layOut(jig);
  const context = {
    ...dryRunContext(jig, layout),
    removal: true,
    partial: options.partial === true,
    ...most(options.mostLines),
    interpret: { blockDelete: options.blockDelete === true },
  };
  if (options.section !== undefined && !layout.holes.some((h) => h.id === options.section)) {
    throw badInput(
      `--section ${options.section}`,
      `a hole of the plan: ${layout.holes.map((h) => h.id).join(', ')}`,
      'choose one of these',
    );
  }
  const trace: string[] = [];
  const told = json
    ? (line: string) => void (trace.length < TRACE_LIMIT && trace.push(line))
    : (line: string) => terminal.out(`${line}\n`);
  const tracing = options.trace ? tracer(told) : undefined;
  const dry = startDryRun(context, tracing);
  feed(dry, program, terminal);
  const { value: report, facts } = dry.finish();
  const findings = sayAll(facts, dryRunSayings);
  const gone = dry.removal();
  if (options.pictures !== undefined && gone !== undefined) {
    const { dryRunPictures } = await import('../jobs/dry-run-pictures.ts');
    writeSet(options.pictures, dryRunPictures(report, gone, context, options.section));
  }
  const exit = exitFor(findings);
  const stop = exit === EXIT.stop;
  if (json)
    terminal.out(
      `${JSON.stringify({ ok: !stop, exit, ...dryRunJson(report, findings), ...(options.trace ? { trace } : {}) }, null, 2)}\n`,
    );
  else {
    if (!terminal.quiet) terminal.out(sayFindings(findings, terminal));
    terminal.out(summary(report, findings, terminal));
  }
  return exit;
}

/** Pushes the file's bytes, a piece at a time, with progress for long ones. */
function feed(dry: DryRun, file: string, terminal: Terminal): void {
  let fd: number;
  let size = 0;
  try {
    fd = file === '-' ? 0 : openSync(file, 'r');
    const stat = fstatSync(fd);
    if (stat.isDirectory())
      throw badInput(
        'the program is a folder',
        'a program file, or - for standard input',
        'name the file inside it',
        file,
      );
    size = stat.isFile() ? stat.size : 0;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    throw badInput(
      `the program cannot be read: ${systemWords(error)}`,
      'a program file, or - for standard input',
      'check the path',
      file,
    );
  }
  const progress = new Progress(terminal);
  const piece = Buffer.allocUnsafe(256 * 1024);
  let done = 0;
  try {
    for (;;) {
      const got = readSome(fd, piece);
      if (got === 0) break;
      done += got;
      if (!dry.push(piece.subarray(0, got))) break;
      progress.say(`${dry.lines()} lines${size > 0 ? `, ${Math.floor((100 * done) / size)} %` : ''} ...`);
    }
  } catch (error) {
    throw badInput(
      `the program cannot be read to its end: ${systemWords(error)}`,
      'a program file, or - for standard input',
      'check the file',
      file,
    );
  } finally {
    progress.end();
    if (fd !== 0) closeSync(fd);
  }
}

/** Undefined leaves the limit as it is. */
function most(words: string): { mostLines?: number } {
  const mostLines = wholeOption('--most-lines', words, 1e12);
  return mostLines === undefined ? {} : { mostLines };
}

const coordinate = (n: number): string => (Number.isNaN(n) ? '?' : n.toFixed(4));

function tracer(line: (text: string) => void): (s: Step) => void {
  return (s) => {
    const at = `X${coordinate(s.to[0] as number)} Y${coordinate(s.to[1] as number)} Z${coordinate(s.to[2] as number)} A${coordinate(s.to[3] as number)}`;
    if (s.kind === 'rapid' || s.kind === 'feed' || s.kind === 'arc') {
      line(
        `line ${s.line} ${s.kind} to ${at}${s.kind === 'rapid' ? '' : ` at ${s.feed}${s.inverse ? ' 1/min' : ' mm/min'}`} T${Math.max(0, s.tool)} S${s.direction === 'off' ? 0 : s.speed}`,
      );
    } else if (s.kind === 'dwell') line(`line ${s.line} dwell ${s.seconds} s`);
    else if (s.kind === 'spindle')
      line(`line ${s.line} spindle ${s.direction} ${s.direction === 'off' ? '' : s.speed}`.trimEnd());
    else if (s.kind === 'tool') line(`line ${s.line} tool ${s.tool}`);
    else line(`line ${s.line} ${s.kind}`);
  };
}

function summary(r: DryRunReport, findings: readonly Finding[], t: Terminal): string {
  const { rapid, feed: cutting, dwell, spinUp, toolChange } = r.split;
  const parts = [
    `rapid ${Math.round(rapid)} s`,
    `feed ${Math.round(cutting)} s`,
    `dwell ${Math.round(dwell)} s`,
    `spin-up ${Math.round(spinUp)} s`,
    `tool changes ${Math.round(toolChange)} s`,
  ];
  return `${paint(t, 'strong', `${r.inPlace} of ${r.planned} planned holes in place`)}, ${r.holes.length} holes found; ${spell(r.seconds)} (${parts.join(', ')}${r.pauses > 0 ? `, and ${r.pauses} pauses` : ''}).\n${verdict(findings, t, 'The program does what the plan asks, as far as was checked')}\n`;
}
