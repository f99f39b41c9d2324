import { clearanceHoles } from '../data/clearance.ts';
import { nearestDrills } from '../data/drills.ts';
import { screwLengthName, screwLengthsWithin } from '../data/screws.ts';
import { parseThread } from '../data/threads.ts';
import type { Screw } from '../model/jig.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { type Case, type Cure, downTo, inMm, num, subject, upTo, word } from './cure-kit.ts';
import { headFit } from './head.ts';

/** Keys of a pattern where this group may keep them: its own, or what all lugs share. */
function patternKeys(c: Case, leaf: string): string[] {
  const path = word(c, 'group');
  return [`${path}.holes.${leaf}`, ...(path.startsWith('lugs.') ? [`lugs.holes.${leaf}`] : [])];
}

export const patternCures = (c: Case, leaf: 'spacing' | 'layout', value: number | string): Cure[] =>
  patternKeys(c, leaf).map((key) => ({
    set: { [key]: typeof value === 'number' ? inMm(upTo(value)) : value },
    say: `${leaf} ${typeof value === 'number' ? inMm(upTo(value)) : value}: measure the casting again`,
    cost: 3,
  }));

export function outsideCures(c: Case): Cure[] {
  const pattern = subject(c)?.thing.holes;
  if (!pattern || (pattern.layout !== 'upright' && pattern.layout !== 'across')) return [];
  const [a, b] = pattern.points;
  const spacing = a && b ? Math.hypot(a.across - b.across, a.upright - b.upright) : 0;
  const less = downTo(spacing - 2 * num(c, 'over'));
  return [
    ...patternCures(c, 'layout', pattern.layout === 'upright' ? 'across' : 'upright'),
    ...(less > pattern.drill ? patternCures(c, 'spacing', less) : []),
  ];
}

export function drillCures(c: Case): Cure[] {
  const pattern = subject(c)?.thing.holes;
  if (!pattern?.screw) return [];
  const drill = nearestDrills(clearanceHoles(pattern.screw.thread).medium).nearest.diameter;
  const thinner = thinnerScrew(pattern.screw, pattern.drill);
  return [
    ...patternKeys(c, 'screw').flatMap((key): Cure[] =>
      thinner ? [{ set: { [key]: thinner }, say: `use ${thinner} screws`, cost: 2.5 }] : [],
    ),
    ...patternKeys(c, 'drill').map((key) => ({ set: { [key]: inMm(drill) }, say: `drill ${inMm(drill)}`, cost: 2 })),
  ];
}

/** The thickest usual screw of the same kind and length that the hole lets through. */
function thinnerScrew(screw: Screw, drill: Mm): string | undefined {
  const kind = screw.thread.name.startsWith('M')
    ? ['M6', 'M5', 'M4', 'M3.5', 'M3']
    : ['1/4-20', '12-24', '10-24', '8-32', '6-32'];
  const name = kind.find((k) => {
    const thread = parseThread(k);
    return thread !== undefined && clearanceHoles(thread).fine <= drill;
  });
  const length = screwLengthName(screw.thread, screw.length).replace(' mm', '');
  return name === undefined ? undefined : `${name} x ${length}`;
}

/** The sold lengths that hold here; the middle ones first, as other holes of the pattern may want more or less. */
export function screwCures(c: Case): Cure[] {
  const screw = subject(c)?.thing.holes.screw;
  if (!screw) return [];
  const to = Number.isFinite(num(c, 'to')) ? num(c, 'to') : num(c, 'from') + screw.thread.diameter;
  const middle = (num(c, 'from') + to) / 2;
  const lengths = [...screwLengthsWithin(screw.thread, num(c, 'from'), to)].sort(
    (a, b) => Math.abs(a - middle) - Math.abs(b - middle),
  );
  return lengths.slice(0, 3).flatMap((length) => {
    const text = `${screw.thread.name} x ${screwLengthName(screw.thread, length).replace(' mm', '')}`;
    return patternKeys(c, 'screw').map((key): Cure => ({ set: { [key]: text }, say: `use ${text} screws`, cost: 2 }));
  });
}

/** The head size this shell would take. */
export function headCures(c: Case): Cure[] {
  const outside = c.fact.measured ?? 0;
  const inches = Math.ceil(outside / MM_PER_INCH);
  const skin =
    c.jig.shell.skin?.when === 'after'
      ? [{ set: { 'shell.skin.when': 'before' }, say: 'the shell was measured with its skin on', cost: 3.5 }]
      : [];
  const nominal = {
    set: { 'shell.nominal': `${inches} in` },
    say: `use ${inches} in heads, or measure the shell again`,
    cost: 3,
  };
  return headFit(outside, inches * MM_PER_INCH).fit === 'small' ? skin : [nominal, ...skin];
}
