import { clearanceHoles } from '../data/clearance.ts';
import { nearestDrills } from '../data/drills.ts';
import { washerOutside } from '../data/screws.ts';
import type { Fact } from '../model/finding.ts';
import type { Pattern, Screw } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, type Group, notChecked, raise } from './bench.ts';
import { boltLength } from './bolt-length.ts';
import { gatherAlike } from './gather.ts';
import { patternKeysOf } from './pattern-keys.ts';
import { screwLength } from './screw-length.ts';

/** Screws: the hole lets them through, and they reach the thread without bottoming in it. */
export function checkScrews(bench: Bench): Fact[] {
  const found = bench.groups.flatMap((group) => {
    const pattern = group.row?.holes ?? group.fitting?.holes;
    if (!pattern || pattern.points.length === 0) return [];
    const at = group.row ? `${group.name}-lugs` : group.name;
    const sale = onSale(bench, group, pattern, at);
    const role = group.fitting?.role;
    // A badge is pinned or screwed into the wood from outside, a vent is held by its own flange.
    if (role === 'vent' || role === 'badge') return sale;
    if (!pattern.screw) {
      return [
        ...sale,
        notChecked(
          bench,
          at,
          'hole against screw, and screw length',
          [`holes.screw of ${group.title}`],
          `${group.key}.holes`,
          group.key,
        ),
      ];
    }
    return [
      ...sale,
      ...through(bench, group, pattern, pattern.screw, at),
      ...tilted(bench, group, pattern, pattern.screw, at),
      ...(pattern.bolt
        ? boltLength(bench, group, pattern.bolt, pattern, pattern.screw, at)
        : screwLength(bench, group, pattern, pattern.screw, at)),
    ];
  });
  return gatherAlike(found);
}

/** A drill this near (mm) to the wanted hole is the same drill. */
const SAME_DRILL = 0.03;

function onSale(bench: Bench, group: Group, pattern: Pattern, at: string): Fact[] {
  const { nearest, under, over } = nearestDrills(pattern.drill);
  // Above the largest twist drill holes are bored with saws and cutters of their own sizes.
  if (Math.abs(nearest.diameter - pattern.drill) <= SAME_DRILL || over === undefined) return [];
  return [
    raise(bench, {
      level: 'note',
      id: 'drill-not-on-sale',
      at,
      measured: pattern.drill,
      limit: nearest.diameter,
      facts: { nearest: nearest.name, over: over.name, ...(under ? { under: under.name } : {}) },
      keys: patternKeysOf(group, 'drill'),
    }),
  ];
}

function through(bench: Bench, group: Group, pattern: Pattern, screw: Screw, at: string): Fact[] {
  const { diameter, name } = screw.thread;
  const holes = clearanceHoles(screw.thread);
  const best = nearestDrills(holes.medium).nearest;
  const facts = {
    screw: name,
    fine: holes.fine,
    medium: holes.medium,
    ...(holes.coarse === undefined ? {} : { coarse: holes.coarse }),
    standard: holes.source,
    drill: best.name,
    diameter,
    series: seriesOf(pattern.drill, holes),
  };
  const keys = patternKeysOf(group, 'drill');
  const { drill } = pattern;
  if (drill < diameter - tolerance.same)
    return [
      raise(bench, { level: 'stop', id: 'hole-smaller-than-screw', at, measured: drill, limit: diameter, facts, keys }),
    ];
  if (drill < holes.fine - SAME_DRILL)
    return [raise(bench, { level: 'care', id: 'hole-tight', at, measured: drill, limit: holes.fine, facts, keys })];
  const cover = washerOutside(screw.thread);
  if (drill > cover - tolerance.same)
    return [
      raise(bench, { level: 'care', id: 'hole-wider-than-washer', at, measured: drill, limit: cover, facts, keys }),
    ];
  return [raise(bench, { level: 'note', id: 'hole-for-screw', at, measured: drill, limit: holes.fine, facts, keys })];
}

function seriesOf(drill: Mm, holes: ReturnType<typeof clearanceHoles>): string {
  const sizes = [holes.fine, holes.medium, ...(holes.coarse === undefined ? [] : [holes.coarse])];
  const i = sizes.findIndex((s) => drill <= s + SAME_DRILL);
  return i < 0 ? `wider than ${holes.names.at(-1)}` : (holes.names[i] ?? '');
}

/**
 * Parallel screws in radial holes: an across offset x tilts the hole by asin(x / R) and the screw walks by x wall / R
 * through the wall; the hole must be that much larger, or drilled parallel.
 */
function tilted(bench: Bench, group: Group, pattern: Pattern, screw: Screw, at: string): Fact[] {
  if (pattern.axes !== 'parallel') return [];
  const x = Math.max(...pattern.points.map((p) => Math.abs(p.across)));
  const { radius, wall } = bench.layout;
  const walk = (x * wall) / radius;
  const need = screw.thread.diameter + walk;
  if (x < tolerance.same || pattern.drill >= need - SAME_DRILL) return [];
  return [
    raise(bench, {
      level: 'care',
      id: 'parallel-screws-bind',
      at,
      measured: pattern.drill,
      limit: need,
      facts: {
        across: x,
        tilt: (Math.asin(Math.min(1, x / radius)) * 180) / Math.PI,
        walk,
        drill: nearestDrills(need).over?.name ?? 'bored: no drill is so large',
      },
      keys: patternKeysOf(group, 'drill'),
    }),
  ];
}
