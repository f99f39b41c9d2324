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
export function planOf(jig: Jig, layout: Layout, digest: string, version: string, findings: readonly Finding[]): Plan {
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
    assumptions: jig.assumptions,
    findings,
  };
}
