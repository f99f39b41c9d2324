import type { LugRod, LugRow } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import type { Mm } from '../units/scalar.ts';
import { type Bench, fromEdge, type Group, hoopOf, type Side, sidesServed } from './bench.ts';

/** The way of one rod from under its head into its lug, finger tight; all lugs of a row share it. */
export interface RodWay {
  readonly group: Group;
  readonly row: LugRow;
  readonly side: Side;
  /** `top-lugs`, or `middle-lugs-bottom` for one end of a double-ended lug. */
  readonly at: string;
  readonly rod: LugRod;
  readonly ear: Mm;
  readonly washer: Mm;
  readonly travel: Mm;
  /** From the edge of its hoop to the pattern's origin. */
  readonly distance: Mm;
  /** From under the rod's head to the lug's face: washer + ear + distance - face. */
  readonly way: Mm;
  readonly length?: Mm;
  readonly threaded?: Mm;
  /** The rod's own thread, or else the lug's. */
  readonly thread?: Thread;
}

export interface Unmeasured {
  readonly group: Group;
  readonly side: Side;
  readonly at: string;
  readonly needs: readonly string[];
}

/** Every rod whose way can be worked out, and what the others need. */
export function rodWays(bench: Bench): { ways: readonly RodWay[]; unmeasured: readonly Unmeasured[] } {
  const { jig } = bench;
  const ways: RodWay[] = [];
  const unmeasured: Unmeasured[] = [];
  for (const group of bench.groups) {
    const row = group.row;
    if (!row) continue;
    const sides = sidesServed(jig, row).filter((side) => isMeant(bench, side));
    for (const side of sides) {
      const at = jig.ends === 'both' ? `${row.name}-lugs-${side}` : `${row.name}-lugs`;
      const ear = hoopOf(jig, side)?.ear;
      const needs = [
        ...(row.rod ? [] : ['lugs.rod (face, catch, bottom)']),
        ...(ear === undefined ? [`hoops.${side}.ear`] : []),
        ...(jig.rods ? [] : ['rods']),
      ];
      if (!row.rod || ear === undefined || !jig.rods) {
        unmeasured.push({ group, side, at, needs });
        continue;
      }
      const length = jig.rods.length[side];
      const thread = jig.rods.thread ?? row.rod.takes;
      const distance = fromEdge(side, row.height, jig.shell.depth);
      ways.push({
        group,
        row,
        side,
        at,
        rod: row.rod,
        ear,
        washer: jig.rods.washer,
        travel: jig.rods.travel,
        distance,
        way: jig.rods.washer + ear + distance - row.rod.face,
        ...(length === undefined ? {} : { length }),
        ...(jig.rods.threaded === undefined ? {} : { threaded: jig.rods.threaded }),
        ...(thread === undefined ? {} : { thread }),
      });
    }
  }
  return { ways, unmeasured };
}

/** The far end of a double-ended lug is left alone on a drum with one head: no hoop and no rod given there, but on the other side. */
function isMeant(bench: Bench, side: Side): boolean {
  const { jig } = bench;
  if (jig.ends !== 'both') return true;
  const other: Side = side === 'top' ? 'bottom' : 'top';
  return jig.hoops[side] !== undefined || jig.hoops[other] === undefined;
}
