import { clearanceHoles } from '../data/clearance.ts';
import { nearestDrills } from '../data/drills.ts';
import { screwLengthName, screwLengthsWithin, washerOutside } from '../data/screws.ts';
import type { Fact } from '../model/finding.ts';
import type { Pattern, Screw } from '../model/jig.ts';
import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, type Group, notChecked, raise } from './bench.ts';
import { gatherAlike } from './gather.ts';

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
          [`the screw of ${group.title}`],
          `${group.key}.holes`,
          group.key,
        ),
      ];
    }
    return [
      ...sale,
      ...through(bench, group, pattern, pattern.screw, at),
      ...tilted(bench, group, pattern, pattern.screw, at),
      ...lengths(bench, group, pattern, pattern.screw, at),
    ];
  });
  return gatherAlike(found);
}

const keysOf = (group: Group, leaf: string): string[] => [
  `${group.key}.holes.${leaf}`,
  ...(group.row ? [`lugs.holes.${leaf}`, 'lugs.holes'] : []),
  `${group.key}.holes`,
  group.key,
];

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
      keys: keysOf(group, 'drill'),
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
  const keys = keysOf(group, 'drill');
  const { drill } = pattern;
  if (drill < diameter - tolerance.same)
    return [
      raise(bench, { level: 'stop', id: 'hole-smaller-than-screw', at, measured: drill, limit: diameter, facts, keys }),
    ];
  if (drill < holes.fine - SAME_DRILL)
    return [raise(bench, { level: 'care', id: 'hole-tight', at, measured: drill, limit: holes.fine, facts, keys })];
  // The widest washer sold for a screw is three diameters across: a wider hole swallows it.
  const widest = 3 * diameter;
  if (drill > widest + tolerance.same)
    return [
      raise(bench, { level: 'stop', id: 'hole-swallows-screw', at, measured: drill, limit: widest, facts, keys }),
    ];
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
        drill: nearestDrills(need).over?.name ?? '',
      },
      keys: keysOf(group, 'drill'),
    }),
  ];
}

interface Reach {
  readonly hole: Hole;
  /** What the screw passes before it reaches the thread: washer, ring, wall, gasket. */
  readonly grip: Mm;
  readonly ring: Mm;
}

function lengths(bench: Bench, group: Group, pattern: Pattern, screw: Screw, at: string): Fact[] {
  const { limits } = bench;
  const keys = keysOf(group, 'screw');
  const gasket = (group.row?.foot ?? group.fitting?.foot)?.gasket ?? 0;
  const washer = pattern.washer ?? 0;
  const reaches = (group.placed[0]?.holes ?? []).map((hole): Reach => {
    const ring = ringAt(bench, hole);
    return { hole, ring, grip: washer + ring + bench.layout.wall + gasket };
  });
  const [first] = reaches;
  if (!first) return [];
  const least = limits.engage * screw.thread.diameter;
  const tapped = pattern.tapped;
  const windowOf = (r: Reach) => ({ from: r.grip + least, to: tapped === undefined ? Infinity : r.grip + tapped });
  const all = reaches.map(windowOf);
  const common = { from: Math.max(...all.map((w) => w.from)), to: Math.min(...all.map((w) => w.to)) };
  const found: Fact[] = [];
  const facts = (r: Reach, window = windowOf(r)): Record<string, string | number> => ({
    screw: screw.text,
    length: screw.length,
    grip: r.grip,
    wall: bench.layout.wall,
    ring: r.ring,
    gasket,
    washer,
    from: window.from,
    to: Number.isFinite(window.to) ? window.to : 'open',
    sold: sold(screw, window.from, window.to),
  });
  const thick = reaches.reduce((a, b) => (b.grip > a.grip ? b : a));
  const thin = reaches.reduce((a, b) => (b.grip < a.grip ? b : a));
  const held = (r: Reach) => screw.length - r.grip;

  if (tapped !== undefined && tapped < least - tolerance.noise)
    found.push(
      raise(bench, {
        level: 'care',
        id: 'thread-in-casting-short',
        at,
        measured: tapped,
        limit: least,
        facts: facts(first),
        keys: keysOf(group, 'tapped'),
      }),
    );
  const needed = tapped === undefined ? least : Math.min(least, tapped);
  if (held(thick) < needed - tolerance.noise)
    found.push(
      raise(bench, {
        level: 'stop',
        id: 'screw-too-short',
        at: thick.hole.id,
        measured: held(thick),
        limit: needed,
        facts: { ...facts(thick), over: needed - held(thick) },
        keys,
      }),
    );
  else if (held(thick) < Math.min(limits.engageWell * screw.thread.diameter, tapped ?? Infinity) - tolerance.noise)
    found.push(
      raise(bench, {
        level: 'care',
        id: 'screw-holds-little',
        at: thick.hole.id,
        measured: held(thick),
        limit: limits.engageWell * screw.thread.diameter,
        facts: facts(thick),
        keys,
      }),
    );

  if (tapped === undefined)
    found.push(
      notChecked(
        bench,
        at,
        'screws bottoming in the casting',
        [group.row ? 'lugs.holes.tapped' : `tapped of ${group.title}`],
        ...keys,
      ),
    );
  else if (held(thin) > tapped + tolerance.noise)
    found.push(
      raise(bench, {
        level: 'stop',
        id: 'screw-bottoms',
        at: thin.hole.id,
        measured: held(thin),
        limit: tapped,
        facts: { ...facts(thin), over: held(thin) - tapped },
        keys,
      }),
    );

  if (
    thick.grip - thin.grip > tolerance.same &&
    (common.from > common.to + tolerance.noise || sold(screw, common.from, common.to) === 'none')
  )
    found.push(
      raise(bench, {
        level: 'care',
        id: 'two-screw-lengths',
        at,
        measured: thick.grip - thin.grip,
        limit: Math.max(0, (tapped ?? Infinity) - least),
        facts: {
          ...facts(thick),
          thick: thick.hole.id,
          thin: thin.hole.id,
          forThick: sold(screw, windowOf(thick).from, windowOf(thick).to),
          forThin: sold(screw, windowOf(thin).from, windowOf(thin).to),
        },
        keys,
      }),
    );
  return found;
}

/** The first few sold lengths in a window, as words. */
function sold(screw: Screw, from: Mm, to: Mm): string {
  const fits = screwLengthsWithin(screw.thread, from - tolerance.noise, to + tolerance.noise).slice(0, 3);
  return fits.length === 0 ? 'none' : fits.map((l) => screwLengthName(screw.thread, l)).join(', ');
}

/** Thickness of the reinforcement ring a hole passes, 0 when it misses it. */
export function ringAt(bench: Bench, hole: Hole): Mm {
  const { rings, depth } = bench.jig.shell;
  const top = rings.top && hole.height > depth - rings.top.width ? rings.top.thickness : 0;
  const bottom = rings.bottom && hole.height < rings.bottom.width ? rings.bottom.thickness : 0;
  return Math.max(top, bottom);
}
