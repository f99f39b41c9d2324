import type { BudgetReport } from '../budget/budget.ts';
import type { CollarPlan } from '../collar/plan.ts';
import { sizeText } from '../data/methods.ts';
import type { Finding } from '../model/finding.ts';
import type { BudgetPage, PageData, RotaryPage } from '../page/data.ts';
import { trimmed } from '../say/saying.ts';
import type { MadeFile, NotMade } from './made.ts';
import type { Plan } from './plan.ts';
import type { RotaryBranch } from './rotary.ts';

/** What the page takes over as it is. */
export type PageInput = Pick<PageData, 'jig' | 'layout' | 'source' | 'asked' | 'version' | 'digest' | 'template'>;

export interface PageParts {
  readonly plan: Plan;
  readonly findings: readonly Finding[];
  /** The fit check's own, which the page works out at every key press. */
  readonly fit: readonly Finding[];
  readonly files: readonly MadeFile[];
  readonly notMade: readonly NotMade[];
  readonly budget: BudgetReport;
  readonly collar: CollarPlan;
  readonly rotary: RotaryBranch;
  readonly withheld: boolean;
  readonly dryFindings: readonly Finding[];
}

/** The bench page's data from what the stages gave. */
export function pageData(input: PageInput, parts: PageParts): PageData {
  const { plan, findings, files, notMade, rotary } = parts;
  const fit = new Set(parts.fit.map((f) => JSON.stringify(f)));
  return {
    ...input,
    plan,
    findings,
    later: findings.filter((f) => !fit.has(JSON.stringify(f))),
    files: files.map(({ name, what }) => ({ name, what })),
    notMade,
    dryRun: dryRunPage(rotary, parts.dryFindings),
    rotary: rotaryPage(rotary, parts.withheld),
    budget: budgetPage(parts.budget),
    collar: collarPage(parts.collar),
    sheets: { wrap: sheetsOf('wrap', files), collar: sheetsOf('collar', files) },
  };
}

const sheetsOf = (stem: string, files: readonly MadeFile[]): number =>
  files.filter((f) => new RegExp(`^${stem}-sheet-\\d+\\.svg$`).test(f.name)).length;

export const dryRunPage = ({ dry }: RotaryBranch, findings: readonly Finding[]): PageData['dryRun'] =>
  dry && { seconds: dry.report.seconds, holes: dry.report.holes.length, findings };

export const collarPage = (collar: CollarPlan): PageData['collar'] =>
  collar.made
    ? {
        supplies: collar.supplies.map((s) => ({ what: s.what, count: s.quantity, why: `drilling collar: ${s.size}` })),
        steps: collar.steps.map((s, i) => ({ title: `Collar, step ${i + 1}`, body: [s] })),
      }
    : null;

export function rotaryPage({ plan }: RotaryBranch, withheld: boolean): RotaryPage | null {
  if (!plan.made) return null;
  const { setup } = plan;
  return {
    program: plan.text,
    withheld,
    datum: setup.datum,
    signOfA: setup.sign,
    tools: setup.tools.map((t) => ({
      id: t.tool.id,
      what: `${t.tool.kind} ${trimmed(t.tool.diameter, 2)} mm, ${Math.round(t.speed)} rev/min, ${Math.round(t.feed)} mm/min`,
      for: `${t.use}: ${t.holes} holes, down to ${trimmed(t.deepest, 1)} mm`,
    })),
    setup: setup.steps,
  };
}

const percent = (p: number | null): string => (p === null ? 'not known' : `${trimmed(p * 100, p > 0.99 ? 2 : 0)} %`);

const own = (m: BudgetReport['methods'][number]): string => {
  const terms = m.terms.filter((t) => t.own).map((t) => `${t.id} ${sizeText(t)}`);
  return terms.length === 0 ? '' : `; with your own error terms: ${terms.join(', ')}`;
};

export function budgetPage(report: BudgetReport): BudgetPage | null {
  if (report.methods.length === 0) return null;
  return {
    lines: report.methods.map((m) => ({
      what: `Everything goes on, marked and drilled by ${m.name}`,
      value: `${percent(m.drum.goesOn)} (straight: ${percent(m.drum.straight)})`,
      why: `holes land within ${trimmed(2 * m.sigma.hole.around_mm, 2)} mm around and ${trimmed(2 * m.sigma.hole.along_mm, 2)} mm along of each other, 19 times in 20${own(m)}`,
    })),
  };
}
