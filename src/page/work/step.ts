import type { PlanHole } from '../../model/plan.ts';
import type { Caution } from '../../say/page.ts';
import type { PageData } from '../data.ts';
import { ranges } from '../html.ts';
import type { View } from '../view.ts';

/** A small box inside a step. `text` is markup; `bit` heads a list of `hole`s. */
interface WorkTick {
  readonly id: string;
  readonly text: string;
  readonly cls?: 'bit' | 'hole';
}

/** One step at the bench. `body` and `sure` are markup. */
export interface WorkStep {
  readonly id: string;
  readonly title: string;
  readonly body: readonly string[];
  readonly ticks: readonly WorkTick[];
  /** How to know it went right. */
  readonly sure: string;
  readonly cautions: readonly Caution[];
}

/** What the steps need beside the layout. */
export type Extra = Pick<PageData, 'rotary' | 'collar'>;

export const isVent = (h: PlanHole): boolean => h.role === 'vent';

export const numbersOf = (view: View, holes: readonly PlanHole[]): string =>
  ranges(holes.map((h) => view.numbers.get(h.id) ?? 0).sort((a, b) => a - b));

export interface BitGroup {
  readonly diameter: number;
  readonly holes: readonly PlanHole[];
}

/** Bits in the order they go into the chuck: smallest first, so that each is changed once. */
export function bits(
  holes: readonly PlanHole[],
  size: (h: PlanHole) => number | null | undefined,
): readonly BitGroup[] {
  const found = new Map<number, PlanHole[]>();
  for (const h of holes) {
    const d = size(h);
    if (!d) continue;
    const some = found.get(d);
    if (some) some.push(h);
    else found.set(d, [h]);
  }
  return [...found].sort(([a], [b]) => a - b).map(([diameter, some]) => ({ diameter, holes: some }));
}
