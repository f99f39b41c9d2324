import type { Edge, Jig, LugRow } from '../model/jig.ts';
import type { RodCard } from '../picture/rod-card.ts';
import type { SideView } from '../picture/side.ts';
import { MM_PER_INCH } from '../units/scalar.ts';

/** The drawing's rod when its thread is not named: a common size; only its length is judged. */
const USUAL_ROD = 0.216 * MM_PER_INCH;
/** Turns, diameters and reserve a sound rod keeps: common practice, no source. */
const LEAST_TURNS = 3;
const RESERVE = 2;

/** Which hoop a row's rods come from: its own edge; a middle row is served from the top. */
export const hoopOf = (edge: Edge): 'top' | 'bottom' => (edge === 'bottom' ? 'bottom' : 'top');

/** What the rod picture of a row needs; undefined when the file does not give the lengths. */
export function rodCardOf(jig: Jig, row: LugRow): RodCard | undefined {
  const side = hoopOf(row.edge);
  const length = jig.rods?.length[side];
  const ear = jig.hoops[side]?.ear;
  if (!row.rod || !jig.rods || length === undefined || ear === undefined) return undefined;
  const fromEdge = side === 'top' ? jig.shell.depth - row.height : row.height;
  const way = jig.rods.washer + ear + fromEdge - row.rod.face;
  const thread = row.rod.takes ?? jig.rods.thread;
  const { catch: bites, bottom } = row.rod;
  const pitch = thread?.pitch ?? 1;
  const diameter = thread?.diameter ?? USUAL_ROD;
  const least = way + bites + Math.max(LEAST_TURNS * pitch, 1.5 * diameter - jig.rods.travel);
  const threadedMost =
    jig.rods.threaded === undefined ? Number.POSITIVE_INFINITY : way + bites + jig.rods.threaded - jig.rods.travel;
  const most = Math.min(way + bottom - RESERVE - jig.rods.travel, threadedMost);
  return {
    name: `${row.name} row`,
    way,
    length,
    washer: jig.rods.washer,
    ear,
    catch: bites,
    bottom,
    travel: jig.rods.travel,
    ...(jig.rods.threaded === undefined ? {} : { threaded: jig.rods.threaded }),
    diameter,
    ...(least <= most ? { window: { least, most } } : {}),
    fitting: least <= most ? jig.rods.stock.filter((s) => s >= least && s <= most) : [],
  };
}

/** What the cut through the wall at a row needs; undefined without foot, rod or hoop. */
export function sideOf(jig: Jig, row: LugRow): SideView | undefined {
  const side = hoopOf(row.edge);
  const hoop = jig.hoops[side];
  if (!row.foot || !row.rod || hoop?.ear === undefined || row.rod.standoff === undefined) return undefined;
  const distance = side === 'top' ? jig.shell.depth - row.height : row.height;
  const toRim = side === 'top' ? 1 : -1;
  return {
    name: `${row.name} row`,
    wall: jig.shell.wall,
    distance,
    foot: {
      up: side === 'top' ? row.foot.up : row.foot.down,
      down: side === 'top' ? row.foot.down : row.foot.up,
      gasket: row.foot.gasket,
    },
    face: row.rod.face,
    standoff: row.rod.standoff,
    ...(hoop.earCircle === undefined ? {} : { earOut: hoop.earCircle / 2 - jig.shell.radius }),
    ear: hoop.ear,
    ...(hoop.skirt === undefined ? {} : { skirt: hoop.skirt }),
    travel: jig.rods?.travel ?? 0,
    holes: row.holes.points.map((p) => ({ down: distance - toRim * p.upright, drill: row.holes.drill })),
  };
}
