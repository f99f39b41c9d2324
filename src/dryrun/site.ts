import type { Tool } from '../model/machine.ts';
import { type Mm, toDeg, toRad } from '../units/scalar.ts';
import { shapeOf } from './bit.ts';
import type { Bench, HungShell } from './context.ts';
import { between, chordLines, clamp, evenLines } from './site-lines.ts';
import { addStretch, type Grid, type Site, STRETCHES, volumeOf } from './stretches.ts';
import { isOld, type Sweep } from './sweeps.ts';

/** How fine the wood is cut up. */
export interface RemovalOptions {
  /** Distance of the lines round the shell, mm; default a two-hundredth of the place's width, at most 0.05. */
  readonly grid?: Mm;
  /** Layers through the wall; default 8, or 32 where a point ends inside the wall. */
  readonly layers?: number;
}

/** Slabs the wall is sliced into. */
const SLABS = 8;
/** Where the bit's point ends inside the wall more slabs are needed to follow it. */
const SLABS_INSIDE = 32;

/** One place: the wood that its sweeps take out of the wall, but for what old holes had taken before. */
export function siteOf(sweeps: readonly Sweep[], bench: Bench<HungShell>, options: RemovalOptions): Site {
  const first = sweeps[0]!;
  const reach = sweeps.reduce((most, s) => Math.max(most, s.tool.diameter / 2), 0);
  const inside = bench.insideAt(first.x, reach);
  const through = sweeps.every((s) => isThrough(s, bench.radius, inside));
  const layers = options.layers ?? (through ? SLABS : SLABS_INSIDE);
  // A blind cut is sliced no deeper than it goes, so that a flat bottom lies between two slabs.
  const deepest = sweeps.reduce((least, s) => Math.min(least, s.z + flatAbove(s.tool)), 0);
  const floor = through ? inside : Math.max(inside, bench.radius + deepest);
  const slab = (bench.radius - floor) / layers;
  const radii = Float64Array.from({ length: layers + 2 }, (_, k) =>
    k < layers ? floor + (k + 0.5) * slab : k === layers ? bench.radius : inside,
  );
  const oneAxis = sweeps.every((s) => s.x === first.x && s.y === first.y && s.turn === first.turn);
  const lines =
    oneAxis && through && !sweeps.some(isOld)
      ? chordLines(first, reach, radii)
      : evenLines(sweeps, reach, inside, radii, bench.radius, options.grid);
  const site: Grid = {
    sweeps,
    ...lines,
    radii,
    slab,
    stretches: new Float64Array(radii.length * lines.lines * STRETCHES * 2),
    counts: new Uint8Array(radii.length * lines.lines),
  };
  for (const s of sweeps.filter(isOld)) sweepInto(site, s, bench);
  const before = volumeOf(site, layers);
  // Deepest first: what lies inside an earlier stretch is found at once.
  for (const s of [...sweeps].sort((p, q) => p.z - q.z)) sweepInto(site, s, bench);
  return { ...site, volume: volumeOf(site, layers) - before };
}

/** A centre spur takes out too little wood to count: what is sliced begins at the rim behind it. */
const flatAbove = (tool: Tool): Mm => (tool.kind === 'brad-point' || tool.kind === 'spur' ? (tool.lead ?? 0) : 0);

/** Has the whole width of the bit gone past the inner skin? */
function isThrough(s: Sweep, radius: Mm, inside: Mm): boolean {
  const r = s.tool.diameter / 2;
  const aside = Math.abs(s.y) + r;
  return aside < inside && shapeOf(s.tool)(Math.sqrt(inside * inside - aside * aside) - radius - s.z) >= r;
}

/** Marks what one stand of a bit takes out of the lines it can reach. */
function sweepInto(site: Grid, s: Sweep, bench: Bench<HungShell>): void {
  const whole = s.tool.diameter / 2;
  const shape = shapeOf(s.tool);
  const { lines, turns } = site;
  for (let k = 0; k < site.radii.length; k++) {
    const rho = site.radii[k]!;
    // Lines are in order of their angle: only those within reach are looked at.
    const middle = s.turn - toDeg(Math.asin(clamp(s.y / rho)));
    const half = toDeg(Math.asin(clamp((Math.abs(s.y) + whole) / rho)) - Math.asin(clamp(Math.abs(s.y) / rho)));
    const near = Math.round((turns[k * lines]! - middle) / 360) * 360;
    const [j0, j1] = between(turns, k * lines, lines, middle + near - half, middle + near + half);
    for (let j = j0; j < j1; j++) {
      // Seen from + X a point anticlockwise of the spindle lies at minus Y.
      const turn = toRad(turns[k * lines + j]! - near - s.turn);
      const aside = -rho * Math.sin(turn) - s.y;
      if (aside >= whole || aside <= -whole) continue;
      const above = rho * Math.cos(turn) - bench.radius - s.z;
      const r = shape(above);
      const rest = r * r - aside * aside;
      if (rest <= 0) continue;
      const w = Math.sqrt(rest);
      const from = Math.max(0, s.x - w);
      const to = Math.min(bench.depth, s.x + w);
      if (to > from) addStretch(site, k * lines + j, from, to);
    }
  }
}
