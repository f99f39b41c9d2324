import type { Saying } from '../model/finding.ts';
import { measured, num, word } from './saying.ts';

const SOURCE = 'derived: chances from the error terms of the method (common practice, no source); P = erf(c / sigma)';

/** Hole sizes are asked for upwards, so that a rounded figure still holds. */
const up = (value: number): string => (Math.ceil(value * 10 - 0.001) / 10).toFixed(1);

/** What the accuracy budget finds. */
export const budgetSayings: Readonly<Record<string, Saying>> = {
  'drum-chance-low': {
    text: (f) =>
      `Drilled by ${word(f, 'method')}, all ${num(f, 'fittings', 0)} fittings go on with a chance of ${measured(f, 0)}` +
      ` (all straight: ${num(f, 'straight', 0)} %); wanted is ${Math.round(f.limit ?? 0)} %.`,
    try: () => 'Drill the hole sizes named for each fitting, or mark and drill a more exact way.',
    source: SOURCE,
  },
  'fitting-chance-low': {
    text: (f) =>
      `${num(f, 'drill', 2)} mm holes for a ${num(f, 'screw', 2)} mm screw: each goes on with a chance of ${measured(f, 1)}` +
      ` when drilled by ${word(f, 'method')}${
        Number(f.facts?.['count'] ?? 1) > 1 ? `, all ${num(f, 'count', 0)} with ${num(f, 'all', 0)} %` : ''
      }${Number(f.facts?.['walk'] ?? 0) >= 0.05 ? `; parallel screws in holes that point to the axis lose ${num(f, 'walk', 1)} mm` : ''}.`,
    try: (f) => {
      const wanted = Number(f.facts?.['wanted'] ?? 0);
      const drill = Number(f.facts?.['drill'] ?? 0);
      const parallel = Number(f.facts?.['walk'] ?? 0) >= 0.05 ? 'drill its holes parallel to its middle, ' : '';
      if (parallel !== '') {
        return `Drill ${up(wanted)} mm if the foot and the washer cover it, ${parallel}or mark and drill a more exact way.`;
      }
      return wanted > drill
        ? `Drill ${up(wanted)} mm if the foot and the washer cover it, or mark and drill a more exact way.`
        : 'Mark and drill a more exact way.';
    },
    source: SOURCE,
  },
};
