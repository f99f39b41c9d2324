import type { Fact } from '../model/finding.ts';
import { type Deg, type Mm, shorterTurn, toDeg, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, raise, SIDES, type Side, sidesServed } from './bench.ts';
import { type RodWay, rodWays } from './rod-ways.ts';

/**
 * The line of the rods. Out from the shell: radius + gasket + standoff should be the ear circle's radius; round the
 * shell: the ears, equally spaced, should stand over the lugs. The lean is atan(miss / free length at full tension);
 * look twice above 1 deg, it binds above 2 (common practice, no source).
 */
export function checkRodLine(bench: Bench): Fact[] {
  const { ways } = rodWays(bench);
  return [...ways.flatMap((way) => standoff(bench, way)), ...SIDES.flatMap((side) => ears(bench, side, ways))];
}

function standoff(bench: Bench, way: RodWay): Fact[] {
  const circle = bench.jig.hoops[way.side]?.earCircle;
  const out = way.rod.standoff;
  const foot = way.row.foot;
  const keys = [`hoops.${way.side}.ear-circle`, `${way.group.key}.rod`, 'lugs.rod'];
  if (circle === undefined || out === undefined) {
    const needs = [
      ...(circle === undefined ? [`hoops.${way.side}.ear-circle`] : []),
      ...(out === undefined ? ['lugs.rod.standoff'] : []),
    ];
    return [notChecked(bench, way.at, 'lean of the rods', needs, ...keys)];
  }
  const free = way.way - way.travel;
  if (free <= 0) return [];
  const line = bench.layout.radius + (foot?.gasket ?? 0) + out;
  const miss = circle / 2 - line;
  const lean = toDeg(Math.atan(Math.abs(miss) / free));
  return leaning(
    bench,
    way.at,
    lean,
    { miss, free, circle, line: 2 * line, side: way.side, row: way.group.title, way: miss > 0 ? 'outward' : 'inward' },
    keys,
  );
}

function leaning(
  bench: Bench,
  at: string,
  lean: Deg,
  facts: Record<string, string | number>,
  keys: readonly string[],
): Fact[] {
  const { limits } = bench;
  if (lean <= limits.lean + tolerance.noise) return [];
  const binds = lean > limits.bind + tolerance.noise;
  return [
    raise(bench, {
      level: binds ? 'stop' : 'care',
      id: binds ? 'rod-binds' : 'rod-leans',
      at,
      measured: lean,
      limit: binds ? limits.bind : limits.lean,
      unit: 'deg',
      facts,
      keys,
    }),
  ];
}

/** Ears of one hoop against the lugs that serve it: as many, and where the lugs are once the hoop is turned to suit. */
function ears(bench: Bench, side: Side, ways: readonly RodWay[]): Fact[] {
  const hoop = bench.jig.hoops[side];
  const groups = bench.groups.filter((g) => g.row && sidesServed(bench.jig, g.row).includes(side));
  const angles = groups.flatMap((g) => g.placed.map((p) => p.angle));
  if (!hoop || angles.length === 0) return [];
  const keys = [`hoops.${side}.ears`, 'lugs.count', 'lugs'];
  const at = `hoop-${side}`;
  if (hoop.ears === undefined)
    return [notChecked(bench, at, 'ears against lugs', [`hoops.${side}.ears`], `hoops.${side}`)];
  if (hoop.ears !== angles.length)
    return [
      raise(bench, {
        level: 'stop',
        id: 'ears-mismatch',
        at,
        measured: angles.length,
        limit: hoop.ears,
        unit: '',
        facts: { ears: hoop.ears, lugs: angles.length, side },
        keys,
      }),
    ];
  const pitch = 360 / hoop.ears;
  const { spread, worst } = besideEars(angles, pitch);
  const radius = (hoop.earCircle ?? 2 * bench.layout.radius) / 2;
  const free = Math.min(...ways.filter((w) => w.side === side).map((w) => w.way - w.travel), Infinity);
  const miss: Mm = 2 * radius * Math.sin(toRad(spread) / 2);
  // Without rods to lean there is still a limit: lugs a quarter of a pitch off the ears belong to another hoop.
  if (!Number.isFinite(free) || free <= 0) {
    return spread > pitch / 4
      ? [
          raise(bench, {
            level: 'stop',
            id: 'ears-mismatch',
            at,
            measured: spread,
            limit: 0,
            unit: 'deg',
            facts: { ears: hoop.ears, lugs: angles.length, side, worst },
            keys,
          }),
        ]
      : [];
  }
  const lean = toDeg(Math.atan(miss / free));
  return leaning(
    bench,
    at,
    lean,
    { miss, free, side, way: 'sideways', row: `lug at ${worst.toFixed(1)} deg`, circle: 2 * radius, line: 2 * radius },
    keys,
  );
}

/** The least greatest miss (deg) of the lugs from equally spaced ears over all turns of the hoop, and the lug that misses most. */
function besideEars(angles: readonly Deg[], pitch: Deg): { spread: Deg; worst: Deg } {
  const base = angles[0] as Deg;
  /** From the nearest ear of a hoop turned so, in (-pitch / 2, pitch / 2]: the lugs lie on a circle one pitch round. */
  const off = (a: Deg, turn: Deg): Deg => (shorterTurn(0, ((a - base - turn) / pitch) * 360) / 360) * pitch;
  const offsets = angles.map((a) => off(a, 0)).sort((a, b) => a - b);
  // The smallest arc that holds them all begins behind the widest gap; the hoop is turned to its middle.
  const gaps = offsets.map((o, i) => o - (offsets[i - 1] ?? (offsets.at(-1) as Deg) - pitch));
  const widest = Math.max(...gaps);
  const spread = (pitch - widest) / 2;
  const turn = (offsets[gaps.indexOf(widest)] as Deg) + spread;
  // Of lugs that miss as much, the one that lies least like the first.
  const [worst] = [...angles].sort(
    (a, b) =>
      Math.round((Math.abs(off(b, turn)) - Math.abs(off(a, turn))) / tolerance.noise) ||
      Math.abs(off(b, 0)) - Math.abs(off(a, 0)),
  );
  return { spread, worst: worst as Deg };
}
