import type { Fact, Saying } from '../model/finding.ts';
import { capital, limit, measured, num, PRACTICE, trimmed, word } from './saying.ts';

const DERIVED = 'derived: best rigid fit (least greatest miss) against half of hole less screw';

/** Rounded up to what a file can do, with a tenth of play. */
const file = (mm: number): string => (Math.ceil(mm * 10) / 10 + 0.1).toFixed(1);

const side = (value: number, plus: string, minus: string): string =>
  Math.abs(value) < 0.05 ? '' : `${trimmed(Math.abs(value), 1)} mm ${value > 0 ? plus : minus}`;

const both = (x: number, y: number): string =>
  [side(x, 'to the right', 'to the left'), side(y, 'up', 'down')].filter((s) => s !== '').join(' and ') || 'nowhere';

/** The cure of a fitting that does not go on, from the facts of the stage. */
function cure(f: Fact): string {
  const kind = word(f, 'cure');
  const cover = covered(f);
  const split = (key: string): string[][] =>
    word(f, key)
      .split(';')
      .filter((s) => s !== '')
      .map((s) => s.split('|'));
  const check =
    f.facts?.['crossChecked'] === 'no' ? 'Measure its holes again first: no other reading checks them. ' : '';
  if (kind === 'turn') return `${check}Turn the fitting round by 180 deg: it goes on as drilled${cover}.`;
  if (kind === 'open' || kind === 'slot') {
    const parts = split('openings').map(([hole, by, towards, drill]) =>
      kind === 'open'
        ? `open ${hole} by ${file(Number(by))} mm ${towards} with a round file (or drill it ${trimmed(Number(drill) + 0.2, 1)} mm)`
        : `make ${hole} a slot, ${file(Number(by))} mm longer ${towards}`,
    );
    return `${check}${capital(parts.join('; '))}${cover}.`;
  }
  if (kind === 'plug') {
    const parts = split('redrills').map(([hole, x, y]) => `${hole} and drill it afresh ${both(Number(x), Number(y))}`);
    return `${check}Plug ${parts.join('; plug ')}${cover}.`;
  }
  return `${check}No cure found: plug all its holes and drill them afresh.`;
}

/** Wood that must stay between two openings, mm (common practice, no source). */
const LEAST_WOOD = 2;

function covered(f: Fact): string {
  const washer = f.facts?.['washer'];
  const foot = f.facts?.['foot'];
  const disc = typeof washer === 'number' ? `a ${trimmed(washer, 1)} mm washer` : 'the washer';
  if (f.facts?.['covered'] === 'yes')
    return `; the foot covers it by ${trimmed(Number(foot), 1)} mm and ${disc} inside`;
  if (f.facts?.['covered'] === 'unknown')
    return `; ${disc} covers it inside; whether the foot does is not checked: needs foot`;
  const under = f.facts?.['under'];
  const beside = f.facts?.['beside'];
  if (typeof under === 'string' && under !== '') return `; it comes under the foot of ${under}: look there first`;
  if (typeof beside === 'number' && beside < LEAST_WOOD)
    return `; it leaves ${beside < 0 ? 'no wood' : `only ${trimmed(beside, 1)} mm of wood`} to the hole beside it`;
  return '; it will show beside the foot or the washer';
}

/** What the readings of a drilled shell say. */
export const measuredSayings: Readonly<Record<string, Saying>> = {
  // As everywhere else, but the cure is at the calipers, not in the jig file.
  'not-checked': {
    text: (f) => `Not checked: ${word(f, 'check')}. Needs ${word(f, 'needs')}.`,
    try: (f) =>
      word(f, 'needs').startsWith('readings')
        ? 'Take these readings and run it again.'
        : `Add ${word(f, 'needs')} to the jig file.`,
    source: 'a check without its input is not a pass',
  },
  'fitting-does-not-go-on': {
    text: (f) =>
      `It does not go on as drilled: placed as well as can be, a screw stands ${measured(f, 2)} from its hole's middle and may stand ${limit(f, 2)}` +
      `${Number(f.facts?.['miss'] ?? 0) < 2 * Number(f.facts?.['sigma'] ?? 0) ? ' (closer than the readings are sure: try it on first)' : ''}.`,
    try: cure,
    source: DERIVED,
  },
  'fitting-close': {
    text: (f) =>
      `It goes on, but only just: a screw stands ${measured(f, 2)} from its hole's middle and may stand ${limit(f, 2)}; the readings are sure to ${num(f, 'sigma', 2)} mm${
        Number(f.facts?.['walk'] ?? 0) >= 0.05
          ? `, and parallel screws in holes that point to the axis lose ${num(f, 'walk', 1)} mm through the wall`
          : ''
      }.`,
    try: () => 'Try it on before anything else, and leave its screws loose until all are in.',
    source: DERIVED,
  },
  'fitting-beside-plan': {
    text: (f) =>
      `It goes on ${measured(f, 1)} beside its place: ${both(Number(f.facts?.['around'] ?? 0), Number(f.facts?.['up'] ?? 0))}.`,
    try: () =>
      'Lay the hoop and a rod on it: they must run straight. If they do not, plug its holes and drill them afresh.',
    source: PRACTICE,
  },
  'fitting-crooked': {
    text: (f) => `It goes on ${measured(f, 1)} out of upright.`,
    try: (f) =>
      Number(f.facts?.['room'] ?? 0) > 0
        ? `Drill its holes ${file(Number(f.facts?.['room']))} mm wider to stand it upright, or leave it if its rods run free.`
        : 'Hold it upright while its screws are turned home: its holes have room for that.',
    source: PRACTICE,
  },
  'reading-suspect': {
    text: (f) =>
      `The reading ${measured(f, 1)} does not agree with the others, which say ${limit(f, 1)}${
        f.facts?.['slip'] ? ` (${word(f, 'slip')}?)` : ''
      }. It was left out.`,
    try: () => 'Measure it again.',
    source: 'derived: residual over its standard deviation beyond 3.29 (Baarda 1968)',
  },
  'readings-disagree': {
    text: (f) =>
      `One of ${num(f, 'count', 0)} readings is wrong and nothing says which: this one (${measured(f, 1)}) or ${word(f, 'others')}. All were left out.`,
    try: () => 'Measure them again.',
    source: 'derived: residual over its standard deviation beyond 3.29 (Baarda 1968)',
  },
  'reading-impossible': {
    text: (f) => `The reading ${measured(f, 1)} is longer than this shell allows, ${limit(f, 1)}. It was left out.`,
    try: () => 'Look for a slipped decimal point, and measure it again.',
    source: 'derived: the diameter and depth of the jig file',
  },
  'readings-over-rims': {
    text: (f) =>
      `The ${word(f, 'kind')} readings lie ${measured(f, 1)} beside the plan as they stand, and ${limit(f, 1)} if they were taken over the ${word(f, 'rims')} rims of the holes.`,
    try: (f) =>
      `If the caliper touched the ${word(f, 'rims')} rims, write ${word(f, 'kind')}-${word(f, 'rims')} as their kind and run it again.`,
    source: 'derived: medians over all readings of the kind',
  },
  'readings-do-not-close': {
    text: (f) =>
      `${num(f, 'chords', 0)} chords round the shell add up to ${measured(f, 1)} of arc, but its girth is ${limit(f, 1)}; ${num(f, 'allowed', 1)} mm apart would be chance (lines ${word(f, 'lines')}).`,
    try: (f) =>
      `Look for one chord ${Number(f.facts?.['off'] ?? 0) > 0 ? 'too long' : 'too short'} or left out, and tape the girth again.`,
    source: 'derived: arc = 2 R asin(chord / 2 R); arcs of a full turn make the girth',
  },
};
