import { blankReadings } from '../measured/pairs.ts';
import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { PageTemplate, SourcePage } from '../page/data.ts';
import { fillPage } from '../page/fill.ts';
import type { RotaryOptions } from '../rotary/types.ts';
import { sayAll } from '../say/say.ts';
import { holesCsv } from '../write/csv.ts';
import { checkFacts, located } from './check.ts';
import { dryRunJson } from './dry-run.ts';
import { type DxfFlavour, makeCollar, makeWrap, type PrinterScale } from './flat.ts';
import type { MadeFile, NotMade } from './made.ts';
import { pageData } from './page-data.ts';
import { planOf } from './plan.ts';
import { haltFirst, makeRotary } from './rotary.ts';
import { SAYINGS } from './sayings.ts';

export interface MakeInput {
  readonly jig: Jig;
  readonly layout: Layout;
  /** The jig file's text, for the page to recompute and to save from. */
  readonly source: SourcePage;
  readonly digest: string;
  readonly version: string;
  readonly template: PageTemplate;
  readonly rotary: Omit<RotaryOptions, 'digest' | 'version'>;
  readonly printer?: PrinterScale;
  readonly flavour?: DxfFlavour;
  /** Also the assembled collar as 3MF. */
  readonly solid: boolean;
  /** Write the rotary program although a finding says stop. */
  readonly anyway: boolean;
  readonly onStage: (text: string) => void;
}

export interface Made {
  readonly files: readonly MadeFile[];
  readonly findings: readonly Finding[];
  readonly stop: boolean;
  readonly notMade: readonly NotMade[];
  readonly seconds: number | null;
}

/** The main job: everything a workshop needs of one jig file, as values. Pure but for waiting on the PDF writer. */
export async function make(input: MakeInput): Promise<Made> {
  const { jig, layout, digest, version, onStage } = input;
  onStage('checking whether it goes together');
  const checked = checkFacts(jig, layout);
  onStage('drawing the wrap template');
  const wrap = await makeWrap(jig, layout, {
    digest,
    printer: input.printer,
    checked: checked.facts,
    flavour: input.flavour,
  });
  onStage('planning the drilling collar');
  const collar = await makeCollar(jig, layout, { digest, solid: input.solid, flavour: input.flavour });
  onStage('planning the rotary program and running it dry');
  const rotary = makeRotary(jig, layout, { ...input.rotary, digest, version });
  onStage('writing the set');

  const own = located(jig, layout, [...checked.facts, ...wrap.facts, ...collar.facts, ...rotary.facts]);
  const dryFindings = sayAll(rotary.dry?.facts ?? [], SAYINGS);
  const findings = sayAll([...own, ...(rotary.dry?.facts ?? [])], SAYINGS);
  const stop = findings.find((f) => f.level === 'stop');
  const plan = planOf(jig, layout, digest, version, findings, checked.budget);

  const notMade: NotMade[] = [...wrap.notMade, ...collar.notMade];
  const programs: MadeFile[] = [];
  if (rotary.refused)
    notMade.push({
      what: 'rotary.nc',
      why: 'the jig file has no rotary section, and the machine assumed for it cannot drill this shell: see the notes',
    });
  else if (!rotary.plan.made) notMade.push({ what: 'rotary.nc', why: 'the program cannot be made: see the findings' });
  else if (stop && !input.anyway) notMade.push({ what: 'rotary.nc', why: 'withheld: a finding says stop' });
  else {
    const text = stop ? haltFirst(rotary.plan.text, stop, jig.rotary.machine.understands) : rotary.plan.text;
    programs.push({ name: 'rotary.nc', data: text, what: `drilling program for ${jig.rotary.machine.name}` });
  }
  for (const p of programs.length === 0 ? [] : rotary.plan.programs) {
    const halted = stop ? haltFirst(p.text, stop, jig.rotary.machine.understands) : p.text;
    programs.push({ name: `rotary-t${p.tool}.nc`, data: halted, what: `the part of it that bit T${p.tool} does` });
  }
  const files: MadeFile[] = [
    { name: 'plan.json', data: json(plan), what: 'everything computed' },
    { name: 'holes.csv', data: holesCsv(plan.holes), what: 'one hole a line' },
    ...wrap.files,
    ...collar.files,
    ...programs,
    {
      name: 'dry-run.json',
      data: json(rotary.dry ? dryRunJson(rotary.dry.report, dryFindings) : NO_PROGRAM),
      what: 'what the program would do to the shell',
    },
    {
      name: 'readings.csv',
      data: blankReadings(jig, layout),
      what: 'a form for caliper readings of the drilled shell',
    },
  ];
  const { source, template } = input;
  const pageInput = { jig, layout, source, asked: input.rotary, version, digest, template };
  const page = fillPage(
    pageData(pageInput, {
      plan,
      findings,
      fit: sayAll(checked.fit, SAYINGS),
      files,
      notMade,
      budget: checked.budget,
      collar: collar.plan,
      rotary,
      withheld: programs.length === 0,
      dryFindings,
    }),
  );
  files.push({ name: 'bench.html', data: page, what: 'everything to look at and tick off at the bench' });
  return { files, findings, stop: stop !== undefined, notMade, seconds: rotary.dry?.report.seconds ?? null };
}

const NO_PROGRAM = { seconds: null, holes: [], findings: [], note: 'no program was made' };

export const json = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
