import type { BudgetReport } from '../budget/budget.ts';
import { sizeText } from '../data/methods.ts';
import { arc } from '../geometry/frames.ts';
import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { PlanHole } from '../model/plan.ts';

export interface Plan {
  readonly name: string;
  readonly slug: string;
  readonly digest: string;
  readonly versions: { readonly lugwright: string; readonly plan: 1; readonly jig: 1 };
  readonly shell: Readonly<Record<string, unknown>>;
  readonly holes: readonly PlanHole[];
  readonly fittings: readonly Readonly<Record<string, unknown>>[];
  readonly accuracy: readonly Readonly<Record<string, unknown>>[];
  readonly assumptions: Jig['assumptions'];
  readonly findings: readonly Finding[];
}

const round = (n: number, digits: number): number => Number(n.toFixed(digits)) + 0;
const mm = (n: number): number => round(n, 4);
/** An angle that rounds up to a full turn is the strainer line again. */
const deg = (n: number): number => round(n, 5) % 360;

export function planHoles(jig: Jig, layout: Layout): PlanHole[] {
  return layout.holes.map((h) => {
    const angle = deg(h.angle);
    return {
      id: h.id,
      fitting: h.fitting,
      role: h.role,
      angle_deg: angle,
      arc_mm: mm(angle === 0 ? 0 : arc(jig.shell.radius, h.angle)),
      height_mm: mm(h.height),
      from_top_mm: mm(jig.shell.depth - h.height),
      drill_mm: mm(h.drill),
      pilot_mm: h.pilot === undefined ? null : mm(h.pilot),
    };
  });
}

/** Everything computed, as plain data: what `plan.json` holds. */
export function planOf(
  jig: Jig,
  layout: Layout,
  digest: string,
  version: string,
  findings: readonly Finding[],
  budget: BudgetReport,
): Plan {
  const { shell } = jig;
  return {
    name: jig.name,
    slug: jig.slug,
    digest,
    versions: { lugwright: version, plan: 1, jig: 1 },
    shell: {
      diameter_mm: mm(2 * shell.radius),
      girth_mm: mm(shell.girth),
      depth_mm: mm(shell.depth),
      wall_mm: mm(shell.wall),
      inside_diameter_mm: mm(2 * shell.inside),
      nominal_mm: shell.nominal === undefined ? null : mm(shell.nominal),
      wood: shell.wood ?? null,
      build: shell.build ?? null,
    },
    holes: planHoles(jig, layout),
    fittings: layout.placed.map((p) => ({
      id: p.id,
      role: p.role,
      angle_deg: deg(p.angle),
      height_mm: mm(p.height),
      edge: p.edge,
      turned: p.turned,
      holes: p.holes.map((h) => h.id),
      foot: p.foot
        ? {
            left_mm: mm(p.foot.left),
            right_mm: mm(p.foot.right),
            up_mm: mm(p.foot.up),
            down_mm: mm(p.foot.down),
            shape: p.foot.outline ? 'outline' : p.foot.shape,
          }
        : null,
    })),
    accuracy: budget.methods.map((m) => accuracyOf(m, budget.level)),
    assumptions: jig.assumptions,
    findings,
  };
}

/** The chances of one way of marking and drilling, with its table of error terms: each with its origin. */
const accuracyOf = (m: BudgetReport['methods'][number], level: number): Readonly<Record<string, unknown>> => ({
  method: m.method,
  wanted: level,
  goes_on: m.drum.goesOn === null ? null : round(m.drum.goesOn, 6),
  straight: m.drum.straight === null ? null : round(m.drum.straight, 6),
  terms: m.terms.map((t) => ({
    id: t.id,
    what: t.what,
    axis: t.axis,
    each: t.each,
    spread: t.spread,
    size: sizeText(t),
    ...(t.own ? { origin: 'yours', built_in: t.own.builtIn ?? null } : { origin: 'built in' }),
    source: t.source,
  })),
});
