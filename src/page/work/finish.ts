import { clip, esc } from '../../picture/svg.ts';
import { cautions } from '../../say/page.ts';
import { plural } from '../html.ts';
import type { View } from '../view.ts';
import { isVent, type WorkStep } from './step.ts';

/** After the last hole: break the edges, then fit. */
export function deburr(view: View): WorkStep {
  return {
    id: 'deburr',
    title: 'Deburr inside and out',
    body: [
      'Break the edges inside with a countersink turned by hand or folded abrasive; the edge of a hole in a round shell is a saddle, so follow it. Only a whisper outside: the foot must still cover it.',
    ],
    ticks: [],
    sure: `Nothing catches when a cloth is drawn through; all ${view.holes.filter((h) => !isVent(h)).length} holes look alike from inside.`,
    cautions: [cautions.burr],
  };
}

export function fitUp(view: View): WorkStep {
  const lugs = view.layout.placed.filter((p) => p.role === 'lug').length;
  return {
    id: 'fit',
    title: 'Fit everything',
    body: [
      'Seal bare wood in the holes first. Screws by hand until all of a casting have started, then snug; wood crushes before it warns.',
      'Heads and hoops on, rods finger tight all round, then half a turn at a time, each followed by the one across.',
    ],
    ticks: [
      ...(lugs > 0 ? [{ id: 'fit-lugs', text: plural(lugs, 'lug') }] : []),
      ...view.layout.placed
        .filter((p) => p.role !== 'lug')
        .map((p) => ({ id: `fit-${p.id}`, text: `<bdi>${esc(clip(p.id, 60))}</bdi>` })),
    ],
    sure: 'No casting rocks, every rod turns freely, and the hoop stands level: measure hoop to bearing edge at every lug, within 0.5 mm.',
    cautions: [],
  };
}
