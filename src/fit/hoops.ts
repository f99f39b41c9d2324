import type { Fact } from '../model/finding.ts';
import { type Mm, shorterTurn, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, fromEdge, hoopOf, notChecked, raise, SIDES, type Side, sidesServed } from './bench.ts';
import { passesOutside } from './gates.ts';
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

/** The lug's body ends at its face; without a rod's measures its foot is all there is to go by. */
function skirtOnLugs(bench: Bench, side: Side): Fact[] {
  const { jig, limits } = bench;
  const hoop = hoopOf(jig, side);
  if (!hoop) return [];
  return bench.groups.flatMap((group) => {
    const row = group.row;
    if (!row || !sidesServed(jig, row).includes(side)) return [];
    const at = `${row.name}-lugs`;
    const foot = row.foot && (side === 'top' ? row.foot.up : row.foot.down);
    const body = row.rod?.face ?? foot;
    const { skirt } = hoop;
    const travel = jig.rods?.travel;
    const needs = [
      ...(skirt === undefined ? [`hoops.${side}.skirt`] : []),
      ...(travel === undefined ? ['rods.travel'] : []),
      ...(body === undefined ? ['lugs.rod or lugs.foot'] : []),
    ];
    const missing =
      needs.length === 0 ? [] : [notChecked(bench, at, `room between ${side} hoop and lugs`, needs, `hoops.${side}`)];
    if (skirt === undefined || body === undefined) return missing;
    const edge = fromEdge(side, row.height, jig.shell.depth);
    const roomAbove = (reach: Mm) => edge - reach - skirt - (travel ?? 0);
    const say = (level: Fact['level'], id: string, reach: Mm) =>
      raise(bench, {
        level,
        id,
        at,
        measured: roomAbove(reach),
        limit: limits.skirtGap,
        facts: {
          side,
          row: group.title,
          skirt,
          travel: travel ?? 0,
          top: edge - reach,
          over: limits.skirtGap - roomAbove(reach),
          part: 'skirt',
        },
        keys: [`${group.key}.distance`],
      });
    if (roomAbove(body) < limits.skirtGap - tolerance.noise) return [...missing, say('stop', 'hoop-on-lug', body)];
    if (foot !== undefined && roomAbove(foot) < limits.skirtGap - tolerance.noise)
      return [...missing, say('care', 'hoop-over-foot', foot)];
    return missing;
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
        keys: [`${way.group.key}.distance`],
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
        const gated = hoop.gates.some((g) => {
          const right = bench.layout.radius * toRad(shorterTurn(p.angle, g.at));
          return Math.min(g.width / 2 - right - foot.left, g.width / 2 + right - foot.right) >= -tolerance.noise;
        });
        if (end >= reach - tolerance.noise || gated) return [];
        // A foot may be thin enough to lie under the hoop; an open lever stands in its way unless it runs outside it.
        const lands = part === 'open lever' && !passesOutside(bench, side, fitting.lever?.clear);
        return [
          raise(bench, {
            level: lands ? 'stop' : 'care',
            id: lands ? 'hoop-on-lever' : 'hoop-near-fitting',
            at: p.id,
            measured: end,
            limit: reach,
            facts: { side, part, over: reach - end, what: group.title },
            keys: [`${group.key}.distance`],
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
      keys: ['lugs.rows'],
    }),
  ];
}
