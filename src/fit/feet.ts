import type { Fact } from '../model/finding.ts';
import type { Foot } from '../model/jig.ts';
import type { Placed } from '../model/layout.ts';
import { type Mm, shorterTurn, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, outlineOf, type Print, raise } from './bench.ts';
import { boxGap, clearBy, gapBetween, overlaps } from './contact.ts';
import { type Gathered, gather } from './gather.ts';
import { eachPair, ground } from './neighbours.ts';
import { footOutline, fromPoints, moved, type Outline } from './outline.ts';

/**
 * Feet against each other on the unrolled shell, with wrap-around, as true outlines. A badge on its vent is normal. What
 * sweeps over the shell (a strainer's open lever, the rod of a leg down past its hoop) must clear the lugs too.
 */
export function checkFeet(bench: Bench): Fact[] {
  const found: Gathered[] = [];
  const feet = bench.prints.filter((p) => p.kind === 'foot');
  eachPair(ground(feet, bench.girth), bench.limits.footGap, (a, b, shift) => {
    if (a.placed && b.placed && !isBadgeOnVent(a.placed, b.placed, bench.layout.radius))
      found.push(...meet(bench, a, b, shift));
  });
  return [...gather(found), ...gather(sweeping(bench, feet)), ...footless(bench)];
}

/** A badge held by its vent's grommet shares its middle; one beside the vent hides it. */
export const isBadgeOnVent = (a: Placed, b: Placed, radius: Mm): boolean =>
  ((a.role === 'badge' && b.role === 'vent') || (a.role === 'vent' && b.role === 'badge')) &&
  Math.hypot(toRad(shorterTurn(a.angle, b.angle)) * radius, a.height - b.height) <= GROMMET;

/** Middles of a badge and its vent lie this close. Common practice, no source. */
const GROMMET: Mm = 2;

function meet(bench: Bench, a: Print, b: Print, shift: Mm): Gathered[] {
  const [p, q] = [a.placed as Placed, b.placed as Placed];
  const one = outlineOf(a) as Outline;
  const other = outlineOf(b, shift) as Outline;
  const key = `${p.key} ${q.key}`;
  const keys = [`${q.key}.at`, q.key, p.key];
  const base = { one: p.id, other: q.id, sameRow: p.key === q.key ? 'yes' : 'no' };
  if (overlaps(one, other)) {
    const rough = Math.min(one.right - other.left, other.right - one.left, one.up - other.down, other.up - one.down);
    const fact = raise(bench, { level: 'stop', id: 'feet-overlap', at: p.id, limit: 0, facts: base, keys });
    return [{ key, over: rough, fact, finish: (f: Fact) => waysOut(bench, f, one, other) }];
  }
  if (boxGap(one, other) >= bench.limits.footGap) return [];
  const gap = gapBetween(one, other);
  if (gap >= bench.limits.footGap - tolerance.noise) return [];
  return [
    {
      key: `close ${key}`,
      over: -gap,
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
function waysOut(bench: Bench, fact: Fact, one: Outline, other: Outline): Fact {
  const around = clearBy(other, one, 'x');
  const upright = clearBy(other, one, 'y');
  return {
    ...fact,
    measured: Math.min(Math.abs(around), Math.abs(upright)),
    facts: { ...fact.facts, around, aroundDeg: toDeg(around / bench.layout.radius), upright },
  };
}

/** Open levers and leg rods against the feet of lugs, which stand proud of the shell. */
function sweeping(bench: Bench, feet: readonly Print[]) {
  const found: Gathered[] = [];
  for (const group of bench.groups) {
    const fitting = group.fitting;
    if (!fitting?.lever && !fitting?.rod) continue;
    for (const placed of group.placed) {
      const parts: { outline: Outline; part: string; id: string }[] = [];
      if (fitting.lever)
        parts.push({ outline: onShell(bench, placed, fitting.lever), part: 'open lever', id: 'lever-over-lug' });
      if (fitting.rod)
        parts.push({ outline: rodStrip(bench, placed, fitting.rod), part: 'rod', id: 'leg-rod-over-lug' });
      for (const foot of feet) {
        if (foot.placed?.role !== 'lug') continue;
        for (const { outline, part, id } of parts) {
          const hit = [-bench.girth, 0, bench.girth].some((shift) =>
            overlaps(outline, outlineOf(foot, shift) as Outline),
          );
          if (!hit) continue;
          found.push({
            key: `${id} ${group.key} ${foot.placed.key}`,
            over: 0,
            fact: raise(bench, {
              // How far lever and rod stand off the shell is not known: they may pass over a low lug.
              level: 'care',
              id,
              at: placed.id,
              unit: '',
              facts: { part, other: foot.id, what: group.title },
              keys: [`${group.key}.lever`, `${group.key}.rod`, group.key],
            }),
          });
        }
      }
    }
  }
  return found;
}

const onShell = (bench: Bench, placed: Placed, foot: Foot): Outline =>
  moved(footOutline(foot, bench.layout.radius), bench.layout.radius * toRad(wrapDeg(placed.angle)), placed.height);

/** A leg's rod runs along the shell's axis from its foot past the bottom edge. */
function rodStrip(bench: Bench, placed: Placed, rod: { diameter: Mm; across: Mm }): Outline {
  const x =
    bench.layout.radius *
    (toRad(wrapDeg(placed.angle)) + Math.asin(Math.max(-1, Math.min(1, rod.across / bench.layout.radius))));
  const half = rod.diameter / 2;
  const top = placed.height + (placed.foot?.up ?? 0);
  return fromPoints([
    { x: x - half, y: 0 },
    { x: x + half, y: 0 },
    { x: x + half, y: top },
    { x: x - half, y: top },
  ]);
}

/** Feet that are not given, and what stands out from the shell and is not given either. */
function footless(bench: Bench): Fact[] {
  return bench.groups.flatMap((g) => {
    const role = g.fitting?.role;
    if (role === 'strainer' && g.placed[0]?.foot && !g.fitting?.lever)
      return [notChecked(bench, g.name, 'what the open lever sweeps over', [`lever of ${g.title}`], g.key)];
    if ((role === 'leg' || role === 'spur') && g.placed[0]?.foot && !g.fitting?.rod)
      return [notChecked(bench, g.name, 'the rod past lugs and hoop', [`rod of ${g.title}`], g.key)];
    if (g.placed.length === 0 || g.placed[0]?.foot || role === 'vent' || role === 'badge') return [];
    return [
      notChecked(
        bench,
        g.row ? `${g.name}-lugs` : g.name,
        'room for the foot, and holes within it',
        [g.row ? 'lugs.foot' : `the foot of ${g.title}`],
        g.key,
      ),
    ];
  });
}
