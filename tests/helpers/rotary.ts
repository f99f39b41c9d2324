import { dryRun } from '../../src/dryrun/dry-run.ts';
import type { DryRunReport } from '../../src/dryrun/report.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Jig } from '../../src/model/jig.ts';
import type { Layout } from '../../src/model/layout.ts';
import type { Machine } from '../../src/model/machine.ts';
import { planRotary, type RotaryOptions, type RotaryPlan } from '../../src/rotary/plan.ts';
import { planned, type Raw } from './jigs.ts';

/** A drum that is nobody's mirror: strainer, butt, and a vent off to one side. */
export const LANTERN: Raw = {
  jig: 1,
  name: 'Lantern Street 13 x 6',
  shell: { diameter: '327.4 mm', depth: 152, wall: 6.6, wood: 'black-cherry' },
  lugs: {
    count: 8,
    rows: [
      { edge: 'top', distance: 36 },
      { edge: 'bottom', distance: 36 },
    ],
    holes: { layout: 'upright', spacing: 25.4, drill: 6, pilot: 2.5 },
  },
  fittings: [
    {
      name: 'strainer',
      role: 'strainer',
      at: 0,
      edge: 'bottom',
      distance: 46,
      holes: { layout: 'upright', spacing: 28, drill: 5 },
    },
    {
      name: 'butt',
      role: 'butt',
      at: 180,
      edge: 'bottom',
      distance: 46,
      holes: { layout: 'upright', spacing: 28, drill: 5 },
    },
    {
      name: 'vent',
      role: 'vent',
      at: { between: [2, 3] },
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill: 11 },
    },
  ],
  rotary: { machine: 'rotary-slow', datum: 'bottom', backing: 12, runout: 0.5, tools: 'default' },
};

export interface Case {
  readonly jig: Jig;
  readonly layout: Layout;
}

/** The drum with its rotary section changed, and the machine too where a profile would. */
export function drum(rotary: object = {}, machine: Partial<Machine> = {}, raw: Raw = LANTERN): Case {
  const { jig, layout } = planned({ ...raw, rotary: { ...(raw['rotary'] as object), ...rotary } });
  return { jig: { ...jig, rotary: { ...jig.rotary, machine: { ...jig.rotary.machine, ...machine } } }, layout };
}

export interface Written extends Case {
  readonly plan: RotaryPlan;
  readonly facts: readonly Fact[];
  readonly ids: readonly string[];
}

export function write(c: Case, options: Partial<RotaryOptions> = {}): Written {
  const { value, facts } = planRotary(c.jig, c.layout, { digest: 'test', version: '0.0.0', ...options });
  return { ...c, plan: value, facts, ids: facts.map((f) => `${f.level} ${f.id}`) };
}

/** What the dry run, which shares no code with the planner, makes of the program. */
export function judged(
  w: Written,
  more: { rehearse?: boolean; partial?: boolean } = {},
): { report: DryRunReport; bad: string[] } {
  const { machine, tools, datum, backing, runout } = w.jig.rotary;
  const { value, facts } = dryRun([w.plan.text], {
    layout: w.layout,
    shell: w.jig.shell,
    machine,
    tools,
    datum,
    backing,
    runout,
    ...more,
  });
  return { report: value, bad: facts.filter((f) => f.level !== 'note').map((f) => `${f.level} ${f.id} ${f.at}`) };
}
