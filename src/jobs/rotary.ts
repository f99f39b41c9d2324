import { dryRun } from '../dryrun/dry-run.ts';
import type { DryRunReport } from '../dryrun/report.ts';
import { asNote } from '../model/fact.ts';
import type { Fact, Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Machine } from '../model/machine.ts';
import { commentSafe, dressed } from '../rotary/comment.ts';
import { planRotary } from '../rotary/plan.ts';
import type { RotaryOptions, RotaryPlan } from '../rotary/types.ts';
import { dryRunContext } from './dry-run.ts';

export interface RotaryBranch {
  readonly plan: RotaryPlan;
  readonly facts: readonly Fact[];
  /** Of the program's text; null when there is none. */
  readonly dry: { readonly report: DryRunReport; readonly facts: readonly Fact[] } | null;
  /** Made on assumed figures that nobody asked for, and its dry run says stop: not worth keeping. */
  readonly refused: boolean;
}

/** The drilling program, and the dry run of its text by code that shares nothing with its writer. */
export function makeRotary(written: Jig, layout: Layout, options: RotaryOptions): RotaryBranch {
  // Asked to work without a backing, whatever the jig file says of one.
  const jig = options.unbacked === undefined ? written : { ...written, rotary: { ...written.rotary, backing: 0 } };
  const { value: plan, facts } = planRotary(jig, layout, options);
  if (!plan.made || plan.text === '') return { plan, facts, dry: null, refused: false };
  const partial = options.only !== undefined || options.fromHole !== undefined || options.fromTool !== undefined;
  // A batch does the same to shell after shell; the dry run judges what it does to one.
  const text = (options.batch ?? 1) > 1 ? planRotary(jig, layout, { ...options, batch: 1 }).value.text : plan.text;
  const { value: report, facts: found } = dryRun([text], {
    ...dryRunContext(jig, layout),
    partial,
    rehearse: options.rehearse === true,
  });
  return {
    plan,
    facts,
    dry: { report, facts: jig.rotary.asked ? found : found.map(asNote) },
    refused: !jig.rotary.asked && found.some(isStop),
  };
}

const isStop = (f: Fact): boolean => f.level === 'stop';

/**
 * A program written in spite of a stop: its first executable line halts, saying why. The halt stands on a line that is
 * there already, before its words, so that every line keeps the number the dry run gave it; a stop acts after all other
 * words of its line (NISTIR 6556 table 8).
 */
export function haltFirst(text: string, stop: Finding, understands: Machine['understands']): string {
  const lines = text.split('\n');
  const first = Math.max(
    lines.findIndex((l) => l.trim() !== '' && !/^\s*[(%;]/.test(l)),
    0,
  );
  const why = dressed(commentSafe(`STOP ${stop.id} at ${stop.at}`).slice(0, 66), understands.comments);
  const [, number = '', words = ''] = /^(N\d+ )?(.*)$/.exec(lines[first]!)!;
  // What comes after a semicolon is comment to the end of the line.
  const rest = understands.comments === 'semicolon' ? [words, why] : [why, words];
  lines[first] = `${number}${['M0', ...rest].filter((part) => part !== '').join(' ')}`;
  return lines.join('\n');
}
