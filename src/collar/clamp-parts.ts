import { circle, polygon } from '../drawing/paths.ts';
import type { Part, Shape } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import { type Clamp, EAR_NECK } from './clamp.ts';
import type { CollarFrame } from './collar-frame.ts';
import { inscribeFirst } from './engrave.ts';
import { standing } from './frame3.ts';
import { contour, type Step } from './outline.ts';
import type { Placement, Supply } from './plan.ts';
import { BOLT } from './rules.ts';

/** Half the nut over its corners. */
const CORNER: Mm = BOLT.flats / Math.sqrt(3);
/** Free way between a ring's face and a spanner on the bolt (judgement, no source). */
const SPANNER: Mm = 1.5;
/** Stands out of the ear on the smallest shell, to be turned (judgement, no source). */
const HEAD: Mm = 10;
/** Usual lengths of fully threaded bolts (ISO 4017, from memory). */
const LENGTHS: readonly Mm[] = [16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100];

/** Depth of the bolt, and the stretch of depth that ear and shoe take up. */
interface Stretch {
  readonly bolt: Mm;
  readonly from: Mm;
  readonly to: Mm;
}

/** The bolt lies beyond the last ring, where a hand reaches it, or before it where the shell ends sooner. */
function stretchOf(c: CollarFrame, jig: Jig, ring: Mm): Stretch {
  const off = CORNER + SPANNER;
  const more = off + CORNER + c.land;
  const beyond = ring + c.band + off;
  return beyond + CORNER <= jig.shell.depth
    ? { bolt: beyond, from: ring - c.cap, to: ring + c.band + more }
    : { bolt: ring - off, from: ring - more, to: ring + c.band + c.cap };
}

/** Ears and shoes of the bolts that hold and centre the shell in the last ring, three of each part. */
export function clampParts(c: CollarFrame, jig: Jig): { parts: Part[]; placements: Placement[] } {
  const ring = c.rings.at(-1);
  const clamp = c.clamp;
  if (ring === undefined || clamp === undefined || c.holds.length === 0) return { parts: [], placements: [] };
  const at = stretchOf(c, jig, ring);
  const bolt = { x: 0, y: c.sign * at.bolt };
  const kinds = [
    {
      id: 'ear-back',
      name: 'clamping ear, outer plate with the bolt hole',
      text: ['ear', 'out'],
      inner: [circle('CUT-INNER', 'bolt hole', bolt, BOLT.hole / 2)],
      at: [clamp.back],
    },
    {
      id: 'ear-nut',
      name: 'clamping ear, inner plate with the seat of the nut',
      text: ['ear', 'nut'],
      inner: [hexagon(bolt, c.stock)],
      at: [clamp.nut],
    },
    {
      id: 'shoe',
      name: 'shoe of a clamping bolt',
      text: ['shoe'],
      inner: [],
      at: Array.from({ length: clamp.plates }, (_, i) => jig.shell.radius + i * c.stock.t),
    },
  ];
  const places = kinds.flatMap((k) => c.holds.flatMap((rel) => k.at.map((r) => ({ k, rel, r }))));
  const counts = new Map<string, number>();
  return {
    parts: kinds.map((k) => ({
      id: `collar-${c.tag}-${k.id}`,
      job: 'collar',
      name: `${c.tag} collar, ${k.name}`,
      outer: earOutline(c, ring, at),
      inner: k.inner,
      marks: c.digest === undefined ? [] : earMarks(c, ring, at, k.text, c.digest),
      quantity: k.at.length * c.holds.length,
      turns: true,
    })),
    placements: places.map(({ k, rel, r }): Placement => {
      const part = `collar-${c.tag}-${k.id}`;
      const instance = (counts.get(part) ?? 0) + 1;
      counts.set(part, instance);
      return { part, instance, collar: c.tag, frame: standing(c.ref + rel, r, c.rim), thickness: c.stock.t };
    }),
  };
}

/** A plate that the ring enters from both sides, like a post's. */
function earOutline(c: CollarFrame, ring: Mm, { from, to }: Stretch): Part['outer'] {
  const n = EAR_NECK / 2;
  const w = n + c.stock.grip;
  const [a, b] = [ring - c.stock.fit / 2, ring + c.band + c.stock.fit / 2];
  const right = [from, a, a, b, b, to].map((s, i): [Mm, Mm] => [i === 2 || i === 3 ? n : w, s]);
  const left = [...right].reverse().map(([x, s]) => [-x, s] as const);
  const points = [...right, ...left].map(([x, s]): Step => ({ x, y: c.sign * s }));
  return contour('CUT-OUTER', 'ear outline', c.sign > 0 ? points : points.reverse(), c.stock.relief, false);
}

/**
 * Seat of the nut, its flats up and down the shell, wide enough to slide in: a cutter leaves its radius in the corners,
 * which takes r (1 / cos 30 - 1) of each.
 */
function hexagon(center: { x: Mm; y: Mm }, { fit, relief }: CollarFrame['stock']): Shape {
  const r = (BOLT.flats + fit) / Math.sqrt(3) + relief * (2 / Math.sqrt(3) - 1);
  const corner = (k: number) => ({
    x: center.x + r * Math.cos(toRad(60 * k)),
    y: center.y + r * Math.sin(toRad(60 * k)),
  });
  return polygon('CUT-INNER', 'seat of the nut', [0, 1, 2, 3, 4, 5].map(corner));
}

function earMarks(c: CollarFrame, ring: Mm, at: Stretch, text: readonly string[], digest: string): Shape[] {
  const s = at.bolt > ring ? (at.from + ring) / 2 : (ring + c.band + at.to) / 2;
  const patch = {
    center: { x: 0, y: c.sign * s },
    width: EAR_NECK + 2 * c.stock.grip - 2,
    height: c.cap - 0.5,
  };
  const name = `${text.join(' ')} ${digest.slice(0, 8)}`;
  return inscribeFirst([[name], [digest.slice(0, 8)], [digest.slice(0, 4)]], patch, 2.5);
}

/** Bolts and nuts: long enough for the smallest shell with an end left to turn. */
export function clampSupplies(c: CollarFrame): Supply[] {
  if (c.clamp === undefined || c.holds.length === 0) return [];
  const quantity = c.holds.length;
  return [
    {
      what: 'bolt for a clamping ear, threaded to its head',
      quantity,
      size: `${BOLT.name} x ${boltLength(c.clamp, c)} mm`,
    },
    { what: 'nut, glued into a clamping ear', quantity, size: `${BOLT.name}, ${BOLT.flats} mm across flats` },
  ];
}

/** From the shoe on the smallest shell through the ear, and an end to turn. */
function boltLength(clamp: Clamp, c: CollarFrame): Mm {
  const shoe = c.inside - clamp.gap[1] + clamp.plates * c.stock.t;
  const need = clamp.back + c.stock.t - shoe + HEAD;
  return LENGTHS.find((l) => l >= need) ?? Math.ceil(need / 10) * 10;
}
