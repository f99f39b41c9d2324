import type { Fact } from '../model/finding.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { type Bench, notChecked, raise, SIDES, type Side, sidesServed } from './bench.ts';

/** Thinner, and thicker, than wooden shells are made (common practice, no source): a wall out here is a slip of unit. */
const THINNEST: Mm = 1.5;
const thickest = (radius: Mm): Mm => Math.min(0.3 * radius, Math.max(25, 0.15 * radius));
/** Vents (mm) narrower and wider than these, and snare beds narrower or deeper, are unusual (common practice, no source). */
const NARROW_VENT: Mm = 3;
const WIDE_VENT: Mm = 30;
const NARROW_BED: Mm = 25;
const DEEP_BED: Mm = 6;
/** Legs sit in the lower part of a shell: a share of its depth (common practice, no source). */
const HIGH_LEG = 0.65;

/** The shell as it stands: plausible, round, square, edges cut or not, skin on or not; and what is unusual about the rest. */
export function checkState(bench: Bench): Fact[] {
  return [...wall(bench), ...stateOfShell(bench), ...inBatch(bench), ...contradictions(bench), ...unusual(bench)];
}

function wall(bench: Bench): Fact[] {
  const { shell } = bench.jig;
  const say = (limit: Mm, way: string) => [
    raise(bench, {
      level: 'stop',
      id: 'wall-implausible',
      at: 'shell',
      measured: shell.wall,
      limit,
      facts: { way, inches: shell.wall * MM_PER_INCH },
      keys: ['shell.wall', 'shell'],
    }),
  ];
  if (shell.wall < THINNEST) return say(THINNEST, 'thin');
  const most = thickest(shell.radius);
  return shell.wall > most ? say(most, 'thick') : [];
}

function stateOfShell(bench: Bench): Fact[] {
  const { edges, round, square, skin, radius } = bench.jig.shell;
  const { limits } = bench;
  const found: Fact[] = [];
  const care = (id: string, key: string, measured?: Mm, limit?: Mm) =>
    raise(bench, {
      level: 'care',
      id,
      at: 'shell',
      ...(measured === undefined ? {} : { measured }),
      ...(limit === undefined ? {} : { limit }),
      keys: [key, 'shell'],
    });
  if (edges === undefined)
    found.push(
      notChecked(bench, 'shell', 'whether cutting the bearing edges still moves the heights', ['shell.edges'], 'shell'),
    );
  if (edges === 'uncut') found.push(care('edges-uncut', 'shell.edges'));
  if (round !== undefined && round > limits.round) found.push(care('out-of-round', 'shell.round', round, limits.round));
  if (square !== undefined && square > limits.square)
    found.push(care('out-of-square', 'shell.square', square, limits.square));
  if (skin && skin.thickness > 0 && skin.when === 'after')
    found.push(
      raise(bench, {
        level: 'note',
        id: 'skin-added',
        at: 'shell',
        measured: skin.thickness,
        facts: { diameter: 2 * radius },
        keys: ['shell.skin', 'shell'],
      }),
    );
  return found;
}

function inBatch(bench: Bench): Fact[] {
  const { batch, shell } = bench.jig;
  if (!batch) return [];
  const [least, most] = batch.girth;
  const off = Math.max(least - shell.girth, shell.girth - most);
  if (off <= bench.limits.square) return [];
  const limit = shell.girth < least ? least : most;
  return [
    raise(bench, {
      level: 'care',
      id: 'shell-outside-batch',
      at: 'shell',
      measured: shell.girth,
      limit,
      facts: { least, most },
      keys: ['batch', 'shell'],
    }),
  ];
}

/** Two figures of the file that cannot both be true. */
function contradictions(bench: Bench): Fact[] {
  const { shell, beds } = bench.jig;
  const say = (what: string, one: string, other: string, measured: Mm, limit: Mm) =>
    raise(bench, {
      level: 'stop',
      id: 'contradiction',
      at: 'shell',
      measured,
      limit,
      facts: { what, one, other },
      keys: [one, other],
    });
  const { top, bottom } = shell.rings;
  const rings = (top?.width ?? 0) + (bottom?.width ?? 0);
  const found: Fact[] = [];
  if (rings > shell.depth)
    found.push(
      say('the two reinforcement rings overlap inside the shell', 'shell.rings', 'shell.depth', rings, shell.depth),
    );
  if (beds && beds.width > bench.girth / 2)
    found.push(say('the two snare beds overlap', 'beds.width', 'half the girth', beds.width, bench.girth / 2));
  if (beds && beds.depth >= shell.depth)
    found.push(say('the snare beds are as deep as the shell', 'beds.depth', 'shell.depth', beds.depth, shell.depth));
  for (const side of SIDES) {
    const circle = bench.jig.hoops[side]?.earCircle;
    if (circle !== undefined && circle <= 2 * shell.radius)
      found.push(
        say(
          'the rods would run inside the shell',
          `hoops.${side}.ear-circle`,
          'shell.diameter',
          circle,
          2 * shell.radius,
        ),
      );
  }
  shell.holes.forEach((h, i) => {
    if (h.height + h.diameter / 2 <= 0 || h.height - h.diameter / 2 >= shell.depth)
      found.push(say('this hole is not on the shell', `shell.holes.${i}`, 'shell.depth', h.height, shell.depth));
  });
  return found;
}

/** Possible, but nothing a builder does every day. */
function unusual(bench: Bench): Fact[] {
  const { beds, rows, fittings, shell } = bench.jig;
  const found: Fact[] = [];
  const care = (id: string, at: string, measured: number, limit: number, unit: string, key: string) =>
    found.push(raise(bench, { level: 'care', id, at, measured, limit, unit, keys: [key] }));
  if (beds && beds.width < NARROW_BED) care('bed-narrow', 'beds', beds.width, NARROW_BED, 'mm', 'beds');
  if (beds && beds.depth > DEEP_BED) care('bed-deep', 'beds', beds.depth, DEEP_BED, 'mm', 'beds');
  fittings.forEach((f, i) => {
    if (f.role === 'vent' && f.holes.drill > WIDE_VENT)
      care('vent-wide', f.name, f.holes.drill, WIDE_VENT, 'mm', `fittings.${i}`);
    if (f.role === 'vent' && f.holes.points.length > 0 && f.holes.drill < NARROW_VENT)
      care('vent-narrow', f.name, f.holes.drill, NARROW_VENT, 'mm', `fittings.${i}`);
  });
  for (const side of SIDES) {
    const ring = shell.rings[side];
    if (ring && ring.thickness > ring.width)
      care('ring-thicker-than-wide', 'shell', ring.thickness, ring.width, 'mm', `shell.rings.${side}`);
  }
  bench.groups.forEach(({ fitting, placed, key }) => {
    const [first] = placed;
    const high = HIGH_LEG * shell.depth;
    if (fitting?.role === 'leg' && first && first.height > high)
      care('leg-high', first.id, first.height, high, 'mm', `${key}.edge`);
  });
  const lugsOf = (side: Side) =>
    rows.filter((r) => sidesServed(bench.jig, r).includes(side)).reduce((sum, r) => sum + r.count, 0);
  const [top, bottom] = SIDES.map(lugsOf) as [number, number];
  if (top > 0 && bottom > 0 && top !== bottom) care('lug-counts-differ', 'lugs', bottom, top, '', 'lugs.rows');
  return found;
}
