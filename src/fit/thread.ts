import { isSameThread } from '../data/threads.ts';
import type { Fact } from '../model/finding.ts';
import { type Bench, notChecked, raise } from './bench.ts';
import { gatherAlike } from './gather.ts';

/** The rods' thread against the lugs': diameters and pitches must agree. */
export function checkThreads(bench: Bench): Fact[] {
  const rods = bench.jig.rods;
  if (!rods) return [];
  const found = bench.groups.flatMap((group) => {
    if (!group.row?.rod) return [];
    const takes = group.row.rod.takes;
    const at = `${group.name}-lugs`;
    if (!rods.thread || !takes) {
      const needs = [...(rods.thread ? [] : ['rods.thread']), ...(takes ? [] : ['lugs.rod.takes'])];
      return [notChecked(bench, at, 'rod thread against lug thread', needs, 'rods.thread', 'lugs.rod')];
    }
    if (isSameThread(rods.thread, takes)) return [];
    return [
      raise(bench, {
        level: 'stop',
        id: 'thread-mismatch',
        at,
        measured: rods.thread.diameter,
        limit: takes.diameter,
        facts: {
          rods: rods.thread.name,
          lugs: takes.name,
          rodDiameter: rods.thread.diameter,
          lugDiameter: takes.diameter,
          rodPitch: rods.thread.pitch,
          lugPitch: takes.pitch,
        },
        keys: [`${group.key}.rod.takes`, 'rods.thread'],
      }),
    ];
  });
  return gatherAlike(found);
}
