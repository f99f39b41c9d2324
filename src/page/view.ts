import { arc } from '../geometry/frames.ts';
import type { Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { PlanHole } from '../model/plan.ts';
import type { RodCard } from '../picture/rod-card.ts';
import type { SideView } from '../picture/side.ts';
import { holeNumbers } from '../picture/unrolled.ts';
import type { PageData } from './data.ts';
import { type Card, rodCards, sideCards } from './rods.ts';

/** What the sections are drawn from, in Node at first and in the page after every edit. */
export interface View {
  readonly jig: Jig;
  readonly layout: Layout;
  readonly holes: readonly PlanHole[];
  readonly numbers: ReadonlyMap<string, number>;
  readonly findings: readonly Finding[];
  readonly rods: readonly Card<RodCard>[];
  readonly sides: readonly Card<SideView>[];
}

export const viewOf = (data: Pick<PageData, 'jig' | 'layout' | 'plan' | 'findings'>): View => ({
  jig: data.jig,
  layout: data.layout,
  holes: data.plan.holes,
  numbers: holeNumbers(data.layout),
  findings: data.findings,
  rods: rodCards(data.jig, data.layout),
  sides: sideCards(data.jig),
});

/** The plan's rows for a layout computed in the page: the same columns as the plan file, unrounded. */
export const planHoles = (layout: Layout): readonly PlanHole[] =>
  layout.holes.map((h) => ({
    id: h.id,
    fitting: h.fitting,
    role: h.role,
    angle_deg: h.angle,
    arc_mm: arc(layout.radius, h.angle),
    height_mm: h.height,
    from_top_mm: layout.depth - h.height,
    drill_mm: h.drill,
    pilot_mm: h.pilot ?? null,
  }));
