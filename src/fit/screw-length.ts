import { screwLengthName, screwLengthsWithin } from '../data/screws.ts';
import type { Fact } from '../model/finding.ts';
import type { Pattern, Screw } from '../model/jig.ts';
import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, type Group, notChecked, raise } from './bench.ts';
import { patternKeysOf } from './pattern-keys.ts';

export interface Reach {
  readonly hole: Hole;
  /** What the screw passes before it reaches the thread: washer, ring, wall, gasket. */
  readonly grip: Mm;
  readonly ring: Mm;
}

/** What each hole's screw goes through besides the casting: washer, ring, wall and gasket; the thickest and thinnest of them. */
export function gripsOf(bench: Bench, group: Group, pattern: Pattern) {
  const gasket = (group.row?.foot ?? group.fitting?.foot)?.gasket ?? 0;
  const washer = pattern.washer ?? 0;
  const reaches = (group.placed[0]?.holes ?? []).map((hole): Reach => {
    const ring = ringAt(bench, hole);
    return { hole, ring, grip: washer + ring + bench.layout.wall + gasket };
  });
  const byGrip = reaches.toSorted((a, b) => a.grip - b.grip);
  return { gasket, washer, reaches, thin: byGrip[0], thick: reaches.find((r) => r.grip === byGrip.at(-1)?.grip) };
}

/** Screw length against washer, ring, wall, gasket and tapped depth; each hole of the pattern on its own. */
export function screwLength(bench: Bench, group: Group, pattern: Pattern, screw: Screw, at: string): Fact[] {
  const { limits } = bench;
  const keys = patternKeysOf(group, 'screw');
  const { gasket, washer, reaches, thick, thin } = gripsOf(bench, group, pattern);
  const [first] = reaches;
  if (!first || !thick || !thin) return [];
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
        keys: patternKeysOf(group, 'tapped'),
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

  // Where the windows do not meet, nothing is sold in what they have in common.
  if (thick.grip - thin.grip > tolerance.same && sold(screw, common.from, common.to) === 'none')
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
export function sold(screw: Screw, from: Mm, to: Mm): string {
  const fits = screwLengthsWithin(screw.thread, from - tolerance.noise, to + tolerance.noise).slice(0, 3);
  return fits.length === 0 ? 'none' : fits.map((l) => screwLengthName(screw.thread, l)).join(', ');
}

/** Thickness of the reinforcement ring a hole passes, 0 when it misses it. */
function ringAt(bench: Bench, hole: Hole): Mm {
  const { rings, depth } = bench.jig.shell;
  const top = rings.top && hole.height > depth - rings.top.width ? rings.top.thickness : 0;
  const bottom = rings.bottom && hole.height < rings.bottom.width ? rings.bottom.thickness : 0;
  return Math.max(top, bottom);
}
