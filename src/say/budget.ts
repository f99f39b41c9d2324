import type { Fact, Saying } from '../model/finding.ts';
import { measured, num, word } from './saying.ts';

const SOURCE =
  "derived: chances from the error terms of the method (common practice, no source, or the builder's own); P = erf(c / sigma)";

/** What the accuracy budget finds. */
export const budgetSayings: Readonly<Record<string, Saying>> = {
  'own-error-terms': {
    text: (f) =>
      `The chances for ${word(f, 'method')} are worked out with your own error terms: ${word(f, 'terms')}. The other terms are built in.`,
    try: () => '',
    source: "the builder's own figures, from the jig file or the profile it names",
  },
  'drum-chance-low': {
    text: (f) =>
      `Drilled by ${word(f, 'method')}, all ${num(f, 'fittings', 0)} fittings go on with a chance of ${measured(f, (f.measured ?? 0) < 1 ? 2 : 0)}` +
      ` (all straight: ${num(f, 'straight', 0)} %); wanted is ${Math.round(f.limit ?? 0)} %.`,
    try: () => 'Drill the hole sizes named for each fitting, or mark and drill a more exact way.',
    source: SOURCE,
  },
  'fitting-chance-low': {
    text: (f) =>
      `${num(f, 'drill', 2)} mm holes for a ${num(f, 'screw', 2)} mm screw: each goes on with a chance of ${measured(f, 1)} (straight: ${num(f, 'straight', 0)} %) when drilled by ${word(f, 'method')}${many(f)}${walk(f)}.`,
    try: (f) => {
      const parallel = walks(f) ? 'drill its holes parallel to its middle, ' : '';
      const bigger = Number(f.facts?.['wanted'] ?? 0) > Number(f.facts?.['drill'] ?? 0);
      return bigger
        ? `Drill ${drill(f)} (${washer(f)}; look that the foot covers it), ${parallel}or mark and drill a more exact way.`
        : `${parallel === '' ? 'Mark' : 'Drill its holes parallel to its middle, or mark'} and drill a more exact way.`;
    },
    source: SOURCE,
  },
};

const many = (f: Fact): string =>
  Number(f.facts?.['count'] ?? 1) > 1 ? `, all ${num(f, 'count', 0)} with ${num(f, 'all', 0)} %` : '';

/** A drill by its size, and by its name where that is another. */
const drill = (f: Fact): string => {
  const name = word(f, 'wantedName');
  return name.endsWith('mm') ? name : `${num(f, 'wanted', 2)} mm, size ${name}`;
};

const walks = (f: Fact): boolean => Number(f.facts?.['walk'] ?? 0) >= 0.05;

const walk = (f: Fact): string =>
  walks(f) ? `; parallel screws in holes that point to the axis lose ${num(f, 'walk', 1)} mm` : '';

const washer = (f: Fact): string =>
  Number(f.facts?.['washer'] ?? 0) > 0
    ? `a ${num(f, 'washer', 1)} mm washer covers it inside`
    : 'wider than a usual washer covers';
