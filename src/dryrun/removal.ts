import type { Tool } from '../model/machine.ts';
import type { Move } from '../model/move.ts';
import { type Deg, type Mm, shorterTurn, toDeg, toRad } from '../units/scalar.ts';
import { shapeOf } from './bit.ts';
import { clusters } from './clusters.ts';
import { type Bench, benchOf, type HungShell } from './context.ts';
import { stepOf } from './replay.ts';
import type { Step } from './step.ts';
import { collectSweeps, type Sweep } from './sweeps.ts';

/**
 * One place where wood is gone, as lines along X: line j at one angle, layer k at one radius, and on it the stretches of X
 * that the bits have swept, exact along X. The last two layers are the outer and the inner skin.
 */
export interface Site {
  readonly sweeps: readonly Sweep[];
  /** Lines on each layer. */
  readonly lines: number;
  /** Angle of each layer's each line, degrees anticlockwise seen from + X, and the angle it stands for in a sum. */
  readonly turns: Float64Array;
  readonly weights: Float64Array;
  /** Radii of the layers: middles of slabs from the deepest to the outermost, then R, then the inside radius. */
  readonly radii: Float64Array;
  /** Thickness of a slab. */
  readonly slab: Mm;
  /** Up to `STRETCHES` pairs (from, to) for each layer and line. */
  readonly stretches: Float64Array;
  readonly counts: Uint8Array;
  /** Wood gone here, mm^3. */
  readonly volume: number;
}

/** Wood that a program took away. */
export interface Removal {
  readonly sites: readonly Site[];
  /** All wood gone, mm^3. */
  readonly volume: number;
  readonly bench: Bench<HungShell>;
  /** More places than could be kept: what is shown is not all. */
  readonly incomplete: boolean;
}

/** How fine the wood is cut up. */
export interface RemovalOptions {
  /** Distance of the lines round the shell, mm; default a two-hundredth of the place's width, at most 0.05. */
  readonly grid?: Mm;
  /** Layers through the wall; default 8, or 32 where a point ends inside the wall. */
  readonly layers?: number;
}

export const STRETCHES = 4;
const FINEST_SHARE = 200;
const COARSEST: Mm = 0.05;
const MOST_LINES = 4000;
/** A shell of so many places is no shell any more; memory stays bounded. */
const MOST_SITES = 5000;
const SLABS = 8;
/** Where the bit's point ends inside the wall more slabs are needed to follow it. */
const SLABS_INSIDE = 32;
/** Lines over a round hole that a straight bit has gone right through: chords of a circle, summed by Gauss. */
const CHORDS = 25;

/** Takes wood away step by step, beside a dry run. */
export interface RemovalRun {
  readonly step: (step: Step) => void;
  readonly finish: () => Removal;
}

export function startRemoval(context: HungShell, options: RemovalOptions = {}): RemovalRun {
  const bench = benchOf(context);
  const collector = collectSweeps(bench);
  return {
    step: collector.step,
    finish: () => removalOf(collector.sweeps(), bench, options, collector.overflowed()),
  };
}

/**
 * What is left of the wall: every bit swept along every move. Moves of bits it does not know are passed over.
 * @param moves as `interpret` gives them, problems left out
 * @param context shell, machine and the bits by number
 * @param options how fine
 * @returns the places where wood is gone; volume within 0.1 % of the integral at the default grid
 * @throws never
 * @source derived: exact stretches along X on a grid of angles and layers
 */
export function removal(moves: Iterable<Move>, context: HungShell, options: RemovalOptions = {}): Removal {
  const run = startRemoval(context, options);
  for (const move of moves) {
    const step = stepOf(move);
    if (step) run.step(step);
  }
  return run.finish();
}

function removalOf(
  sweeps: readonly Sweep[],
  bench: Bench<HungShell>,
  options: RemovalOptions = {},
  incomplete = false,
): Removal {
  const old = oldHoles(bench);
  const groups = clusters([...sweeps, ...old], bench.radius).filter((group) => !group.every(isOld));
  const sites = groups.slice(0, MOST_SITES).map((group) => siteOf(group, bench, options));
  const volume = sites.reduce((sum, s) => sum + s.volume, 0);
  return { sites, volume, bench, incomplete: incomplete || groups.length > MOST_SITES };
}

/** Holes that were there before, as if a straight bit had gone through. */
const oldHoles = (bench: Bench<HungShell>): Sweep[] =>
  (bench.context.shell.holes ?? []).map((h) => ({
    tool: { id: OLD, kind: 'end-mill', diameter: h.diameter, lips: 0, flute: 0, stickout: 0, shank: 0 },
    x: bench.context.datum === 'bottom' ? h.height : bench.depth - h.height,
    y: 0,
    turn: bench.context.datum === 'bottom' ? h.angle : -h.angle,
    z: -bench.radius,
  }));
const OLD = -1;
const isOld = (s: Sweep): boolean => s.tool.id === OLD;

function siteOf(sweeps: readonly Sweep[], bench: Bench<HungShell>, options: RemovalOptions): Site {
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

type Lines = Pick<Site, 'lines' | 'turns' | 'weights'>;

/**
 * Lines where Gauss-Chebyshev sums of the second kind want them: exact for a half circle times a polynomial, which is
 * what the chords of a round hole are.
 */
function chordLines(s: Sweep, r: Mm, radii: Float64Array): Lines {
  const turns = new Float64Array(radii.length * CHORDS);
  const weights = new Float64Array(radii.length * CHORDS);
  radii.forEach((rho, k) => {
    for (let j = 0; j < CHORDS; j++) {
      const phi = ((j + 1) * Math.PI) / (CHORDS + 1);
      const aside = s.y + r * Math.cos(phi);
      const angle = -Math.asin(clamp(aside / rho));
      turns[k * CHORDS + j] = s.turn + toDeg(angle);
      // From a step aside to a step of angle: divided by rho cos(angle).
      weights[k * CHORDS + j] = ((Math.PI / (CHORDS + 1)) * Math.sin(phi) * r) / (rho * Math.cos(angle));
    }
  });
  return { lines: CHORDS, turns, weights };
}

/** Lines evenly round the place. */
function evenLines(
  sweeps: readonly Sweep[],
  reach: Mm,
  inside: Mm,
  radii: Float64Array,
  radius: Mm,
  grid: Mm | undefined,
): Lines {
  const first = sweeps[0]!;
  const half = toDeg(Math.asin(clamp(reach / inside))) * 1.02;
  let low = Infinity;
  let high = -Infinity;
  for (const s of sweeps) {
    const middle = shorterTurn(first.turn, s.turn) - toDeg(Math.asin(clamp(s.y / inside)));
    low = Math.min(low, middle - half);
    high = Math.max(high, middle + half);
  }
  const width = toRad(high - low) * radius;
  const lines = Math.min(
    MOST_LINES,
    Math.max(64, Math.ceil(width / (grid ?? Math.min(COARSEST, width / FINEST_SHARE)))),
  );
  const step = (high - low) / lines;
  const turns = new Float64Array(radii.length * lines);
  for (let k = 0; k < radii.length; k++)
    for (let j = 0; j < lines; j++) turns[k * lines + j] = first.turn + low + (j + 0.5) * step;
  return { lines, turns, weights: new Float64Array(turns.length).fill(toRad(step)) };
}

type Grid = Omit<Site, 'volume'>;

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

/** First and last + 1 of the lines of a layer between two angles; chords run from high to low, even lines from low to high. */
function between(turns: Float64Array, base: number, lines: number, low: Deg, high: Deg): [number, number] {
  const a = turns[base]!;
  const b = turns[base + lines - 1]!;
  // Chords are few and unevenly spaced: all of them.
  if (lines === CHORDS) return [0, lines];
  const step = (b - a) / (lines - 1);
  return [Math.max(0, Math.floor((low - a) / step)), Math.min(lines, Math.ceil((high - a) / step) + 1)];
}

/** Unites a stretch with those already there. */
function addStretch(site: Grid, cell: number, from: number, to: number): void {
  const { stretches, counts } = site;
  const base = cell * STRETCHES * 2;
  let n = counts[cell]!;
  let low = from;
  let high = to;
  for (let i = 0; i < n; ) {
    const a = stretches[base + 2 * i]!;
    const b = stretches[base + 2 * i + 1]!;
    if (low >= a && high <= b) return;
    if (low > b || high < a) {
      i++;
      continue;
    }
    low = Math.min(low, a);
    high = Math.max(high, b);
    n--;
    stretches[base + 2 * i] = stretches[base + 2 * n]!;
    stretches[base + 2 * i + 1] = stretches[base + 2 * n + 1]!;
  }
  // Full: the last one is stretched over the gap, which a later bit nearly always fills.
  if (n === STRETCHES) {
    n--;
    low = Math.min(low, stretches[base + 2 * n]!);
    high = Math.max(high, stretches[base + 2 * n + 1]!);
  }
  stretches[base + 2 * n] = low;
  stretches[base + 2 * n + 1] = high;
  counts[cell] = n + 1;
}

/** Length gone on a line. */
export function goneOn(site: Grid, cell: number): Mm {
  const base = cell * STRETCHES * 2;
  let sum = 0;
  for (let i = 0; i < site.counts[cell]!; i++) sum += site.stretches[base + 2 * i + 1]! - site.stretches[base + 2 * i]!;
  return sum;
}

function volumeOf(site: Grid, layers: number): number {
  let volume = 0;
  for (let k = 0; k < layers; k++) {
    let area = 0;
    for (let j = 0; j < site.lines; j++) area += goneOn(site, k * site.lines + j) * site.weights[k * site.lines + j]!;
    volume += area * site.radii[k]!;
  }
  return volume * site.slab;
}

const clamp = (v: number): number => Math.max(-1, Math.min(1, v));
