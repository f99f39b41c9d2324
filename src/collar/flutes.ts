import { completeTool } from '../data/tools.ts';
import type { Jig } from '../model/jig.ts';
import type { Tool } from '../model/machine.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** Flute length of jobber drills by diameter up to and including (ISO 235, from memory), mm. */
const JOBBER: readonly (readonly [upTo: Mm, flute: Mm])[] = [
  [1.06, 12],
  [1.5, 18],
  [1.9, 22],
  [2.36, 27],
  [2.65, 30],
  [3, 33],
  [3.35, 36],
  [3.75, 39],
  [4.25, 43],
  [4.75, 47],
  [5.3, 52],
  [6, 57],
  [6.7, 63],
  [7.5, 69],
  [8.5, 75],
  [9.5, 81],
  [10.6, 87],
  [11.8, 94],
  [13.2, 101],
  [14, 108],
  [15, 114],
  [16, 120],
];

export interface Flute {
  readonly length: Mm;
  /** How far the point goes before the full diameter. */
  readonly point: Mm;
  readonly known: boolean;
}

/** The bit of that diameter: the builder's own where its flute is said, else a jobber drill with a 118 deg point. */
export function fluteOf(jig: Jig, bit: Mm): Flute {
  const own = jig.rotary.tools.find((t) => drills(t) && Math.abs(t.diameter - bit) < tolerance.same);
  const point = own ? pointOf(own) : bit / 2 / Math.tan(toRad(118 / 2));
  if (own && isSaid(own)) return { length: own.flute, point, known: true };
  const row = JOBBER.find(([upTo]) => bit <= upTo + tolerance.same);
  return { length: row?.[1] ?? 120, point, known: false };
}

const drills = (t: Tool): boolean => t.kind === 'twist' || t.kind === 'brad-point' || t.kind === 'spur';

/** A flute that is not what the list fills in was measured by the builder. */
const isSaid = (t: Tool): boolean =>
  Math.abs(t.flute - completeTool({ id: t.id, kind: t.kind, diameter: t.diameter, point: t.point }).flute) >
  tolerance.same;

const pointOf = (t: Tool): Mm => t.lead ?? (t.point === undefined ? 0 : t.diameter / 2 / Math.tan(toRad(t.point / 2)));
