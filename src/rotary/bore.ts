import { type Deg, type Mm, toDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Step, Target } from './types.ts';

export interface Bore {
  readonly x: Mm;
  /** Middle of the hole off the axis; 0 when A does the walking. */
  readonly y: Mm;
  readonly a: Deg;
  /** Radius of the hole and of the mill. */
  readonly hole: Mm;
  readonly mill: Mm;
  readonly approach: Mm;
  readonly bottom: Mm;
  readonly clearance: Mm;
  /** Down each turn. */
  readonly pitch: Mm;
  /** mm/min at the wall of the hole. */
  readonly feed: number;
}

/**
 * The way round: `y` moves the mill across the shell and bores a straight hole; `a` turns the shell under it, which
 * keeps the mill radial and tapers the hole inwards.
 */
export type Way =
  /** `arcs`: the controller understands G3, a helix a line; else chords. */
  | { readonly by: 'y'; readonly arcs?: boolean }
  /** `radius`: the skin where the hole is to size. `sign`: +1 when A grows with ISO 841. */
  | { readonly by: 'a'; readonly radius: Mm; readonly outside: Mm; readonly sign: 1 | -1 };

/** How much a hole walked out by A is tighter at the inner skin than at the outer: 2 (r - rt)(1 - Ri / R). */
export const boreTaper = (hole: Mm, mill: Mm, radius: Mm, inside: Mm): Mm => 2 * (hole - mill) * (1 - inside / radius);

/**
 * A helix from above the skin to the bottom, one level turn there, and back to the middle: rings from the middle out so
 * that no core is left standing, each step less than the mill's radius. Chords stay within `tolerance.chord` of the arc.
 * Anticlockwise seen from above, which is a climb cut in a hole with the spindle turning clockwise.
 */
export function boreSteps(b: Bore, way: Way): Step[] {
  const orbit = b.hole - b.mill;
  const rings = Math.max(1, Math.ceil(orbit / (RING_STEP * b.mill)));
  const steps: Step[] = [];
  for (let k = 1; k <= rings; k++) steps.push(...ring(b, way, (orbit * k) / rings));
  steps.push({ kind: 'rapid', to: { z: b.clearance } });
  return steps;
}

const RING_STEP = 0.9;

function ring(b: Bore, way: Way, orbit: Mm): Step[] {
  const turns = Math.max(1, Math.ceil((b.approach - b.bottom) / b.pitch - tolerance.noise));
  // The wall sees the asked feed; the middle of the mill goes slower by the ratio of the radii.
  const feed = (b.feed * orbit) / (orbit + b.mill);
  const steps: Step[] = [{ kind: 'rapid', to: { z: b.approach } }];
  let from = { dx: 0, dy: 0, z: b.approach };
  const go = (dx: Mm, dy: Mm, z: Mm): void => {
    const to = { dx, dy, z };
    steps.push(way.by === 'y' ? byY(b, to, feed) : byA(b, way, from, to, feed));
    from = to;
  };
  go(orbit, 0, b.approach);
  if (way.by === 'y' && way.arcs) {
    for (let t = 1; t <= turns + 1; t++) {
      const z = t >= turns ? b.bottom : b.approach + ((b.bottom - b.approach) * t) / turns;
      steps.push({ kind: 'circle', x: b.x, y: b.y, orbit, z, feed });
    }
    go(0, 0, b.bottom);
    return steps;
  }
  const chords = chordsFor(orbit, tolerance.chord);
  const total = turns * chords;
  for (let i = 1; i <= total + chords; i++) {
    const angle = (2 * Math.PI * (i % chords)) / chords;
    const z = i >= total ? b.bottom : b.approach + ((b.bottom - b.approach) * i) / total;
    go(orbit * Math.cos(angle), orbit * Math.sin(angle), z);
  }
  go(0, 0, b.bottom);
  return steps;
}

/** Chords of a full turn whose middle is no further than `gap` from the arc: the sagitta r (1 - cos(pi / n)). */
export const chordsFor = (radius: Mm, gap: Mm): number =>
  Math.max(8, Math.ceil(Math.PI / Math.acos(1 - Math.min(gap, radius) / radius)));

interface Spot {
  readonly dx: Mm;
  readonly dy: Mm;
  readonly z: Mm;
}

const byY = (b: Bore, to: Spot, feed: number): Step => ({
  kind: 'feed',
  to: { x: b.x + to.dx, y: b.y + to.dy, z: to.z },
  feed,
});

/** Under the mill the shell turns against +Y: work at +Y lies at a smaller angle (right hand about +X). */
function byA(b: Bore, way: Extract<Way, { by: 'a' }>, from: Spot, to: Spot, feed: number): Step {
  const target: Target = { x: b.x + to.dx, z: to.z, a: b.a - way.sign * toDeg(to.dy / way.radius) };
  // Length on the outside skin, where the feed is asked for.
  const across = ((to.dy - from.dy) * way.outside) / way.radius;
  const way3 = Math.hypot(to.dx - from.dx, across, to.z - from.z);
  return { kind: 'timed', to: target, rate: feed / way3 };
}
