import type { Fact } from '../model/finding.ts';
import { shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, fromEdge, hoopOf, notChecked, raise, SIDES, type Side, sidesServed } from './bench.ts';
import { rodWays } from './rod-ways.ts';

/**
 * The hoop comes down by `travel` from finger tight: its skirt must stay above every lug by a millimetre more (common
 * practice), and its ear above the lug's face. A foot that is no lug may lie in the skirt's reach only under a gate.
 */
export function checkHoops(bench: Bench): Fact[] {
  return [
    ...SIDES.flatMap((side) => skirtOnLugs(bench, side)),
    ...earsOnFaces(bench),
    ...SIDES.flatMap((side) => skirtOnFittings(bench, side)),
    ...SIDES.flatMap((side) => lonelyHoop(bench, side)),
  ];
}

function skirtOnLugs(bench: Bench, side: Side): Fact[] {
  const { jig, limits } = bench;
  const hoop = hoopOf(jig, side);
  const travel = jig.rods?.travel;
  return bench.groups.flatMap((group) => {
    const row = group.row;
    if (!row || !sidesServed(jig, row).includes(side) || !hoop) return [];
    const at = `${row.name}-lugs`;
    const reachOfFoot = row.foot && (side === 'top' ? row.foot.up : row.foot.down);
    const reaches = [row.rod?.face, reachOfFoot].filter((v) => v !== undefined);
    if (hoop.skirt === undefined || travel === undefined || reaches.length === 0) {
      const needs = [
        ...(hoop.skirt === undefined ? [`hoops.${side}.skirt`] : []),
        ...(travel === undefined ? ['rods.travel'] : []),
        ...(reaches.length === 0 ? ['lugs.foot'] : []),
      ];
      return [notChecked(bench, at, `room between ${side} hoop and lugs`, needs, `hoops.${side}`, group.key)];
    }
    const top = fromEdge(side, row.height, jig.shell.depth) - Math.max(...reaches);
    const room = top - hoop.skirt - travel;
    if (room >= limits.skirtGap - tolerance.noise) return [];
    return [
      raise(bench, {
        level: 'stop',
        id: 'hoop-on-lug',
        at,
        measured: room,
        limit: limits.skirtGap,
        facts: { side, row: group.title, skirt: hoop.skirt, travel, top, over: limits.skirtGap - room, part: 'skirt' },
        keys: [`${group.key}.distance`, `hoops.${side}.skirt`],
      }),
    ];
  });
}

/** The rod's seat, coming down, would meet the lug's face: no way is left for the rod. */
function earsOnFaces(bench: Bench): Fact[] {
  return rodWays(bench).ways.flatMap((way) => {
    const room = way.way - way.washer - way.travel;
    if (room >= -tolerance.noise) return [];
    return [
      raise(bench, {
        level: 'stop',
        id: 'hoop-on-lug',
        at: way.at,
        measured: room,
        limit: 0,
        facts: {
          side: way.side,
          row: way.group.title,
          ear: way.ear,
          travel: way.travel,
          top: way.distance - way.rod.face,
          over: -room,
          part: 'ear',
        },
        keys: [`${way.group.key}.distance`, `hoops.${way.side}.ear`],
      }),
    ];
  });
}

function skirtOnFittings(bench: Bench, side: Side): Fact[] {
  const { jig } = bench;
  const hoop = hoopOf(jig, side);
  const skirt = hoop?.skirt;
  if (!hoop || skirt === undefined) return [];
  const reach = skirt + (jig.rods?.travel ?? 0);
  return bench.groups.flatMap((group) => {
    const fitting = group.fitting;
    if (!fitting || fitting.role === 'vent' || fitting.role === 'badge') return [];
    return group.placed.flatMap((p) => {
      const shapes = [
        { foot: p.foot, part: 'foot' },
        { foot: fitting.lever, part: 'open lever' },
      ];
      return shapes.flatMap(({ foot, part }) => {
        if (!foot) return [];
        const end = fromEdge(side, p.height, jig.shell.depth) - (side === 'top' ? foot.up : foot.down);
        const wide = Math.max(foot.left, foot.right);
        const gated = hoop.gates.some(
          (g) =>
            Math.abs(shorterTurn(g.at, p.angle)) <=
            (180 / Math.PI) * (Math.max(0, g.width / 2 - wide) / bench.layout.radius) + tolerance.noise,
        );
        if (end >= reach - tolerance.noise || gated) return [];
        return [
          raise(bench, {
            level: 'care',
            id: 'hoop-near-fitting',
            at: p.id,
            measured: end,
            limit: reach,
            facts: { side, part, over: reach - end, what: group.title },
            keys: [`${group.key}.distance`, `hoops.${side}.skirt`],
          }),
        ];
      });
    });
  });
}

/** A hoop with rods to hold it, but no row of lugs on its side. */
function lonelyHoop(bench: Bench, side: Side): Fact[] {
  const { jig } = bench;
  if (jig.rows.length === 0 || jig.hoops[side]?.ear === undefined || jig.rods?.length[side] === undefined) return [];
  if (jig.rows.some((row) => sidesServed(jig, row).includes(side))) return [];
  return [
    raise(bench, {
      level: 'stop',
      id: 'hoop-without-lugs',
      at: `hoop-${side}`,
      measured: 0,
      limit: 1,
      unit: '',
      facts: { side, served: side === 'top' ? 'bottom' : 'top' },
      keys: ['lugs.rows', 'lugs.ends', 'lugs'],
    }),
  ];
}

/** Strap lines against the gates of the bottom hoop, where the hoop has gates. */
export function checkGates(bench: Bench): Fact[] {
  const gates = bench.jig.hoops.bottom?.gates ?? [];
  if (gates.length === 0) return [];
  return bench.groups.flatMap((group) => {
    if (group.fitting?.role !== 'strainer' && group.fitting?.role !== 'butt') return [];
    return group.placed.flatMap((p) => {
      const misses = gates.map((g) => bench.layout.radius * toRad(Math.abs(shorterTurn(g.at, p.angle))) - g.width / 2);
      const miss = Math.min(...misses);
      if (miss <= tolerance.noise) return [];
      return [
        raise(bench, {
          level: 'care',
          id: 'gate-not-over-strap',
          at: p.id,
          measured: miss,
          limit: 0,
          facts: { what: group.title, gates: gates.map((g) => `${g.at} deg`).join(', ') },
          keys: ['hoops.bottom.gates', `${group.key}.at`],
        }),
      ];
    });
  });
}
