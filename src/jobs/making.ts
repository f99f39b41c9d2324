import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { layCollar, layWrap } from './laid.ts';
import { makeRotary } from './rotary.ts';

/** Which part of a set a stop stands in the way of: also the section of the jig file that asks for it. */
export type Stage = 'wrap' | 'collar' | 'rotary';

export interface MakingStop {
  readonly stage: Stage;
  readonly fact: Fact;
}

const STAGES: readonly Stage[] = ['wrap', 'collar', 'rotary'];

/**
 * Every stop that making the set would meet after the fit check: in the wrap, the collar, the program and its dry run;
 * or only in some of these.
 */
export function makingStops(
  jig: Jig,
  layout: Layout,
  fit: readonly Fact[],
  stages: ReadonlySet<Stage> = new Set(STAGES),
): MakingStop[] {
  const made: Readonly<Record<Stage, () => readonly Fact[]>> = {
    wrap: () => layWrap(jig, layout, fit, '').facts,
    collar: () => layCollar(jig, layout, '').facts,
    rotary: () => {
      const { facts, dry } = makeRotary(jig, layout, { digest: '', version: '' });
      return [...facts, ...(dry?.facts ?? [])];
    },
  };
  // What was not asked for cannot stop the job.
  return STAGES.filter((s) => stages.has(s) && jig[s].asked).flatMap((stage) =>
    made[stage]()
      .filter((f) => f.level === 'stop')
      .map((fact): MakingStop => ({ stage, fact })),
  );
}
