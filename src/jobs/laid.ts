import { planCollar } from '../collar/collar.ts';
import { kerfOf } from '../collar/kerf.ts';
import type { CollarPlan } from '../collar/plan.ts';
import { isUnderKerf } from '../drawing/kerf-summed.ts';
import { laserFacts } from '../drawing/laser.ts';
import type { Stretch } from '../drawing/room.ts';
import type { Part } from '../model/drawing.ts';
import { asNote } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { SheetMaterial, SheetProfile } from '../model/sheet.ts';
import type { Staged } from '../model/stage.ts';
import { type NestedSheet, nest } from '../nest/nest.ts';
import type { RodFit } from '../wrap/cards.ts';
import type { WrapPlan } from '../wrap/plan.ts';
import { planWrap } from '../wrap/wrap.ts';

/** Parts laid on sheets, before anything is written: runs in the bench page too. */
export interface LaidWrap {
  readonly wrap: WrapPlan;
  readonly panels: readonly NestedSheet[];
  readonly cardSheets: readonly NestedSheet[];
  readonly facts: readonly Fact[];
}

/** The wrap template and the cards. `checked` is what the fit check found: the rod cards show the lengths that fit. */
export function layWrap(
  jig: Jig,
  layout: Layout,
  checked: readonly Fact[],
  digest: string,
  stretch?: Stretch,
): LaidWrap {
  const { value: wrap, facts } = planWrap(jig, layout, { digest, rods: rodFits(jig, checked), stretch });
  const panels = layOnSheets(wrap.panels, jig.wrap, jig.name, digest);
  const cardSheets = layOnSheets(wrap.cards, jig.wrap, jig.name, digest);
  return {
    wrap,
    panels: panels.value,
    cardSheets: cardSheets.value,
    // A card that does not fit is a pity, not a reason to stop drilling.
    facts: [...facts, ...leveled(panels.facts, jig.wrap.asked), ...cardSheets.facts.map(asNote)],
  };
}

export interface LaidCollar {
  readonly plan: CollarPlan;
  readonly sheets: readonly NestedSheet[];
  readonly facts: readonly Fact[];
}

export function layCollar(jig: Jig, layout: Layout, digest: string): LaidCollar {
  const { material, cut, asked } = jig.collar;
  const { value: plan, facts: planned } = planCollar(jig, layout, { digest });
  const facts = [...planned, ...(cut === 'laser' ? leveled(laserFacts(material.name, 'collar'), asked) : [])];
  if (!plan.made) return { plan, sheets: [], facts };
  const sheet = { ...jig.collar.sheet, kerf: kerfOf(jig.collar, plan.parts) };
  const sheets = layOnSheets(plan.parts, { sheet, material }, jig.name, digest);
  return { plan, sheets: sheets.value, facts: [...facts, ...leveled(sheets.facts, asked)] };
}

/** What was not asked for cannot stop the job. */
const leveled = (facts: readonly Fact[], asked: boolean): readonly Fact[] => (asked ? facts : facts.map(asNote));

/** Parts on sheets: none at all where the kerf would swallow a feature, for sheets that lack a part are no use to anybody. */
function layOnSheets(
  parts: readonly Part[],
  { sheet, material }: { readonly sheet: SheetProfile; readonly material: SheetMaterial },
  title: string,
  digest: string,
): Staged<readonly NestedSheet[]> {
  const nested = nest(parts, sheet, { kerf: sheet.kerf ?? material.kerf, title, digest });
  return nested.facts.some(isUnderKerf) ? { value: [], facts: nested.facts } : nested;
}

/** Rod lengths that fit each row's end, from the check's windows. */
function rodFits(jig: Jig, facts: readonly Fact[]): RodFit[] {
  const windows = new Map(facts.filter((f) => f.id === 'rod-window').map((f) => [f.at, f.facts]));
  return jig.rows.flatMap((row) =>
    (['top', 'bottom'] as const).flatMap((side) => {
      const own =
        jig.ends === 'both'
          ? windows.get(`${row.name}-lugs-${side}`)
          : row.edge === side
            ? windows.get(`${row.name}-lugs`)
            : undefined;
      const [shortest, longest] = [Number(own?.['shortest']), Number(own?.['longest'])];
      if (!(shortest <= longest)) return [];
      const stock = (jig.rods?.stock ?? []).filter((l) => l >= shortest && l <= longest);
      return [{ row: row.name, side, shortest, longest, stock }];
    }),
  );
}
