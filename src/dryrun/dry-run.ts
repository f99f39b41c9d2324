import type { Staged } from '../model/stage.ts';
import { clock } from './clock.ts';
import { benchOf, type DryRunContext } from './context.ts';
import { watchEndless } from './endless.ts';
import { gatherer } from './gather.ts';
import { judge } from './judge.ts';
import { watchLimits } from './limits.ts';
import { inspect } from './measure.ts';
import { readProgram } from './program.ts';
import { type Removal, startRemoval } from './removal.ts';
import type { DryRunReport, Visit } from './report.ts';
import type { Station } from './stations.ts';
import type { Step } from './step.ts';
import { watchWood } from './watch.ts';

export type { DryRunContext } from './context.ts';
export type { DryRunReport } from './report.ts';

/** How far a dry run has come. */
export interface Progress {
  readonly bytes: number;
  readonly lines: number;
}

/** A dry run in pieces: push what has been read, then finish. Memory does not grow with the program's length. */
export interface DryRun {
  /** False once the program has ended. */
  readonly push: (chunk: string | Uint8Array) => boolean;
  readonly finish: () => Staged<DryRunReport>;
  readonly lines: () => number;
  /** The wood taken away, once finished, when the context asks for it. */
  readonly removal: () => Removal | undefined;
}

/**
 * Starts a dry run that is fed in pieces; memory does not grow with the program's length.
 * @param context what to judge by
 * @param onStep told every step after it was judged; the step holds only during the call
 * @returns push and finish
 * @throws never
 * @source NISTIR 6556 (RS274/NGC, version 3)
 */
export function startDryRun(context: DryRunContext, onStep?: (step: Step) => void): DryRun {
  const bench = benchOf(context);
  const g = gatherer();
  const time = clock(context.machine, bench.radius);
  const limits = watchLimits(bench, g);
  const wood = watchWood(bench, g);
  const gone = context.removal === true ? startRemoval(context) : undefined;
  let taken: Removal | undefined;
  let ended = false;
  let turned = false;
  let stopped = '';
  const endless = watchEndless(context.mostLines);
  const reader = readProgram(
    {
      step(s) {
        if (s.kind === 'end') ended = true;
        if (s.kind !== 'rapid' || moved(s)) endless.worked();
        if (s.kind === 'spindle' && s.direction !== 'off' && s.speed > 0) turned = true;
        wood.charge(time.step(s));
        limits.step(s);
        wood.step(s);
        gone?.step(s);
        onStep?.(s);
      },
      problem(p) {
        if (!p.executed) endless.refused();
        g.raise(p.level, p.id, {
          at: `line ${p.line}`,
          line: p.line,
          facts: { word: p.word, rule: p.rule, section: p.section },
        });
      },
    },
    context.interpret,
  );
  return {
    push(chunk) {
      if (stopped !== '' || !reader.push(chunk)) return false;
      stopped = endless.read(chunk.length, reader.lines());
      return stopped === '';
    },
    lines: reader.lines,
    removal: () => taken,
    finish() {
      if (stopped === '') reader.finish();
      else {
        const read = reader.lines();
        g.raise('stop', 'program-endless', { at: `line ${read}`, line: read, facts: { read, why: stopped } });
      }
      taken = gone?.finish();
      const lines = reader.lines();
      wood.charge(time.finish());
      limits.finish(lines, ended);
      wood.finish(lines);
      if (wood.stations.overflowed())
        g.raise('care', 'too-many-places', { at: 'program', measured: wood.stations.list.length });
      const judged = judge(
        {
          stations: wood.stations.list,
          touched: wood.touched(),
          turned,
          pauses: time.pauses(),
          intoLast: wood.intoLast(),
        },
        bench,
        g,
      );
      const value: DryRunReport = {
        seconds: time.total(),
        holes: judged.holes,
        marks: judged.marks,
        split: time.split(),
        visits: visitsOf(wood.stations.list),
        perTool: time
          .perTool()
          .map((t) => ({ ...t, holes: judged.holes.filter((h) => h.tools.includes(t.tool)).length })),
        chip_load: wood.load(),
        pauses: time.pauses(),
        lines,
        moves: time.moves(),
        planned: context.layout.holes.length,
        inPlace: judged.inPlace,
        kind: judged.kind,
        reach: time.reach(),
        ...(taken === undefined ? {} : { removed: removedOf(taken, context) }),
      };
      return { value, facts: g.facts() };
    },
  };
}

/** From an unknown place counts as moved. */
function moved({ from, to }: Step): boolean {
  for (let axis = 0; axis < 6; axis++) if (to[axis] !== from[axis] && !Number.isNaN(to[axis]!)) return true;
  return false;
}

const MOST_VISITS = 5000;

const visitsOf = (stations: readonly Station[]): Visit[] =>
  stations
    .flatMap((s) =>
      s.cuts.map((c) => ({ line: c.line, tool: c.tool?.id ?? -1, angle_deg: s.angle, height_mm: s.height })),
    )
    .sort((a, b) => a.line - b.line)
    .slice(0, MOST_VISITS);

const removedOf = (gone: Removal, context: DryRunContext): NonNullable<DryRunReport['removed']> => ({
  volume_mm3: gone.volume,
  complete: !gone.incomplete,
  holes: inspect(gone, context.layout),
});

/** Progress is told about every so many bytes. */
const STRIDE = 1 << 20;

/**
 * The whole dry run: any program text, in any pieces, judged by what it would do to this shell.
 * @param chunks the text, in pieces of any size
 * @param context what to judge by
 * @param onProgress told now and then how far it has come
 * @returns a report in mm, degrees and seconds, with facts that carry the program's line
 * @throws never
 * @source NISTIR 6556 (RS274/NGC, version 3); times by constant acceleration (textbook)
 */
export function dryRun(
  chunks: Iterable<string | Uint8Array>,
  context: DryRunContext,
  onProgress?: (progress: Progress) => void,
): Staged<DryRunReport> {
  const run = startDryRun(context);
  let bytes = 0;
  let next = STRIDE;
  for (const chunk of typeof chunks === 'string' ? [chunks] : chunks) {
    if (!run.push(chunk)) break;
    bytes += chunk.length;
    if (bytes < next) continue;
    next = bytes + STRIDE;
    onProgress?.({ bytes, lines: run.lines() });
  }
  return run.finish();
}
