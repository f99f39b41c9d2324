import type { Fact } from '../model/finding.ts';
import type { Placed } from '../model/layout.ts';
import { type Mm, shorterTurn, toDeg, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, outlineOf, type Print, raise } from './bench.ts';
import { boxGap, clearBy, gapBetween, overlaps } from './contact.ts';
import { type Gathered, gather } from './gather.ts';
import { eachPair, ground } from './neighbours.ts';
import type { Outline } from './outline.ts';

/**
 * Feet against each other on the unrolled shell, with wrap-around, as true outlines. A badge on its vent is normal.
 */
export function checkFeet(bench: Bench): Fact[] {
  const found: Gathered[] = [];
  const feet = bench.prints.filter((p) => p.kind === 'foot');
  eachPair(ground(feet, bench.girth), bench.limits.footGap, (a, b, shift) => found.push(...meet(bench, a, b, shift)));
  return [...gather(found), ...footless(bench)];
}

/** A badge held by its vent's grommet shares its middle; one beside the vent hides it. */
export const isBadgeOnVent = (a: Placed, b: Placed, radius: Mm): boolean =>
  [a, b].some((p) => p.role === 'badge') &&
  [a, b].some((p) => p.role === 'vent') &&
  Math.hypot(toRad(shorterTurn(a.angle, b.angle)) * radius, a.height - b.height) <= GROMMET;

/** Middles of a badge and its vent lie this close. Common practice, no source. */
const GROMMET: Mm = 2;

function meet(bench: Bench, a: Print, b: Print, shift: Mm): Gathered[] {
  const [p, q] = [a.placed as Placed, b.placed as Placed];
  if (isBadgeOnVent(p, q, bench.layout.radius)) return [];
  const one = outlineOf(a) as Outline;
  const other = outlineOf(b, shift) as Outline;
  const key = `${p.key} ${q.key}`;
  const sameRow = p.key === q.key;
  // Lugs too close in their row are too many.
  const counts = sameRow && p.role === 'lug' ? [`${p.key}.count`, 'lugs.count'] : [];
  const keys = [...counts, `${q.key}.at`, q.key, p.key];
  const base = { one: p.id, other: q.id, sameRow: sameRow ? 'yes' : 'no' };
  if (overlaps(one, other)) {
    const rough = Math.min(one.right - other.left, other.right - one.left, one.up - other.down, other.up - one.down);
    const fact = raise(bench, { level: 'stop', id: 'feet-overlap', at: p.id, limit: 0, facts: base, keys });
    return [{ key, over: rough, fact, other: q.id, finish: (f: Fact) => waysOut(bench, f, one, other) }];
  }
  if (boxGap(one, other) >= bench.limits.footGap) return [];
  const gap = gapBetween(one, other);
  if (gap >= bench.limits.footGap - tolerance.noise) return [];
  return [
    {
      key: `close ${key}`,
      over: -gap,
      other: q.id,
      fact: raise(bench, {
        level: 'care',
        id: 'feet-close',
        at: p.id,
        measured: gap,
        limit: bench.limits.footGap,
        facts: base,
        keys,
      }),
    },
  ];
}

/** How far the second foot must go round the shell, or along it, to be clear of the first. */
export function waysOut(bench: Bench, fact: Fact, one: Outline, other: Outline): Fact {
  const around = clearBy(other, one, 'x');
  const upright = clearBy(other, one, 'y');
  return {
    ...fact,
    measured: Math.min(Math.abs(around), Math.abs(upright)),
    facts: { ...fact.facts, around, aroundDeg: toDeg(around / bench.layout.radius), upright },
  };
}

/** Feet that are not given, and what stands out from the shell and is not given either. */
function footless(bench: Bench): Fact[] {
  return bench.groups.flatMap((g) => {
    const it = g.fitting;
    const missing = (check: string, needs: string) => [
      notChecked(bench, g.row ? `${g.name}-lugs` : g.name, check, [needs], g.key),
    ];
    if (it?.role === 'strainer' && it.foot && !it.lever)
      return missing('what the open lever sweeps over', `lever of ${g.title}`);
    if ((it?.role === 'leg' || it?.role === 'spur') && it.foot && !it.rod)
      return missing('the rod past lugs and hoop', `rod of ${g.title}`);
    if (g.row?.foot || it?.foot || it?.role === 'vent' || it?.role === 'badge') return [];
    return missing('room for the foot, and holes within it', g.row ? 'lugs.foot' : `the foot of ${g.title}`);
  });
}
