import type { Fact } from '../model/finding.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, raise } from './bench.ts';
import type { FitLimits } from './limits.ts';
import { type RodWay, rodWays } from './rod-ways.ts';

/**
 * How deep each rod stands in its lug. Depth below the face finger tight d0 = length - way; at full tension
 * d1 = d0 + travel. Sound when it has bitten three turns at d0, holds one diameter at d1 (look twice below one and a
 * half), stays clear of the bottom at d1, and keeps its plain shank out of the thread. Limits: common practice, no source.
 */
export function checkRods(bench: Bench): Fact[] {
  const { ways, unmeasured } = rodWays(bench);
  return [
    ...unmeasured.map((u) => notChecked(bench, u.at, 'how deep the rods go', u.needs, u.group.key, 'rods', 'hoops')),
    ...ways.flatMap((way) => checkWay(bench, way)),
    ...meeting(bench, ways),
  ];
}

/** The depths below the face (finger tight) at which this rod is sound in this lug. */
export interface Depths {
  readonly from: Mm;
  readonly to: Mm;
}

export function soundDepths(way: RodWay, limits: FitLimits): Depths {
  const bite = way.thread
    ? Math.max(limits.firstTurns * way.thread.pitch, limits.engage * way.thread.diameter - way.travel)
    : 0;
  const free = way.rod.bottom - limits.reserve - way.travel;
  const shank = way.threaded === undefined ? Infinity : way.threaded + way.rod.catch - way.travel;
  return { from: way.rod.catch + bite, to: Math.min(free, shank) };
}

/** What a builder needs to put it right, the same for every finding about one rod. */
function rodWindows(bench: Bench, way: RodWay): Record<string, string | number> {
  const depths = soundDepths(way, bench.limits);
  const [shortest, longest] = [way.way + depths.from, way.way + depths.to];
  const base = {
    side: way.side,
    row: way.group.title,
    way: way.way,
    washer: way.washer,
    ear: way.ear,
    distance: way.distance,
    face: way.rod.face,
    travel: way.travel,
    shortest,
    longest,
    window: shortest <= longest + tolerance.noise ? 'open' : 'closed',
    ...(way.length === undefined ? {} : { length: way.length }),
  };
  const stock = bench.jig.rods?.stock ?? [];
  const fits = stock.filter((s) => s >= shortest - tolerance.noise && s <= longest + tolerance.noise);
  return {
    ...base,
    ...(stock.length === 0 ? {} : { stock: fits.length === 0 ? 'none' : fits.join(', ') }),
    ...(fits.length === 0 ? {} : { buy: bestOf(fits, (shortest + longest) / 2) }),
    ...(way.length === undefined
      ? {}
      : {
          nearest: way.length - depths.to - way.way + way.distance,
          furthest: way.length - depths.from - way.way + way.distance,
        }),
  };
}

const bestOf = (lengths: readonly Mm[], middle: Mm): Mm =>
  lengths.reduce((best, l) => (Math.abs(l - middle) < Math.abs(best - middle) ? l : best));

function checkWay(bench: Bench, way: RodWay): Fact[] {
  const { limits } = bench;
  const windows = rodWindows(bench, way);
  const keys = [`rods.length.${way.side}`, 'rods.length', way.group.key];
  if (way.length === undefined) {
    return [
      notChecked(bench, way.at, 'how deep the rods go', [`rods.length.${way.side}`], 'rods', way.group.key),
      raise(bench, { level: 'note', id: 'rod-window', at: way.at, facts: windows, keys }),
    ];
  }
  const d0 = way.length - way.way;
  const d1 = d0 + way.travel;
  const facts = { ...windows, d0, d1, catch: way.rod.catch, bottom: way.rod.bottom };
  const found: Fact[] = [];
  const say = (level: Fact['level'], id: string, measured: Mm, limit: Mm, more: Record<string, string | number> = {}) =>
    found.push(raise(bench, { level, id, at: way.at, measured, limit, facts: { ...facts, ...more }, keys }));

  if (way.length <= way.washer)
    say('stop', 'contradiction', way.length, way.washer, {
      what: 'the rod is no longer than its washer is thick',
      one: 'rods.length',
      other: 'rods.washer',
    });
  // One threaded length stands for all rods: a short one may be threaded all along.
  const longest = Math.max(...Object.values(bench.jig.rods?.length ?? {}));
  if (way.threaded !== undefined && way.threaded > longest + tolerance.noise)
    say('stop', 'contradiction', way.threaded, way.length, {
      what: 'more of the rod is threaded than it is long',
      one: 'rods.threaded',
      other: 'rods.length',
    });

  const over = d1 - (way.rod.bottom - limits.reserve);
  if (over > tolerance.noise)
    say('stop', 'rod-bottoms', d1, way.rod.bottom - limits.reserve, { over, reserve: limits.reserve });

  found.push(...bite(bench, way, d0, d1, facts, keys));

  if (way.threaded === undefined)
    found.push(notChecked(bench, way.at, 'the plain shank of the rods', ['rods.threaded'], 'rods'));
  else if (d1 - way.threaded > way.rod.catch + tolerance.noise)
    say('stop', 'rod-jams', d1 - way.threaded, way.rod.catch, {
      threaded: way.threaded,
      over: d1 - way.threaded - way.rod.catch,
    });

  const stock = bench.jig.rods?.stock ?? [];
  if (stock.length > 0 && !stock.some((s) => Math.abs(s - (way.length ?? 0)) < tolerance.same))
    say('care', 'rod-not-in-stock', way.length, bestOf(stock, way.length), { list: stock.join(', ') });

  found.push(raise(bench, { level: 'note', id: 'rod-window', at: way.at, facts, keys }));
  return found;
}

function bite(bench: Bench, way: RodWay, d0: Mm, d1: Mm, facts: Fact['facts'], keys: readonly string[]): Fact[] {
  const { limits } = bench;
  const held0 = d0 - way.rod.catch;
  const held1 = d1 - way.rod.catch;
  const thread = way.thread;
  const short = (measured: Mm, limit: Mm, when: string) =>
    raise(bench, {
      level: 'stop',
      id: 'rod-too-short',
      at: way.at,
      measured,
      limit,
      facts: { ...facts, when, over: limit - measured, turns: thread ? measured / thread.pitch : 0 },
      keys,
    });
  if (!thread) {
    const missing = notChecked(bench, way.at, 'turns and diameters of thread held', ['rods.thread'], 'rods');
    return held1 <= tolerance.noise ? [missing, short(held1, 0, 'at full tension')] : [missing];
  }
  const first = limits.firstTurns * thread.pitch;
  const full = limits.engage * thread.diameter;
  const missing0 = first - held0;
  const missing1 = full - held1;
  if (Math.max(missing0, missing1) > tolerance.noise)
    return [missing0 >= missing1 ? short(held0, first, 'finger tight') : short(held1, full, 'at full tension')];
  const well = limits.engageWell * thread.diameter;
  return held1 < well - tolerance.noise
    ? [
        raise(bench, {
          level: 'care',
          id: 'rod-holds-little',
          at: way.at,
          measured: held1,
          limit: well,
          facts: { ...facts, over: well - held1 },
          keys,
        }),
      ]
    : [];
}

/** Double-ended lugs: the two depths must not add up to more than the way between the faces. */
function meeting(bench: Bench, ways: readonly RodWay[]): Fact[] {
  if (bench.jig.ends !== 'both') return [];
  return bench.groups.flatMap((group) => {
    const pair = ways.filter((w) => w.group === group && w.length !== undefined);
    const [a, b] = pair;
    if (!a || !b) return [];
    const depth = (w: RodWay) => (w.length ?? 0) - w.way + w.travel;
    const sum = depth(a) + depth(b);
    const room = 2 * a.rod.face;
    const over = sum - room;
    if (over <= -bench.limits.reserve + tolerance.noise) return [];
    return [
      raise(bench, {
        level: over > tolerance.noise ? 'stop' : 'care',
        id: over > tolerance.noise ? 'rods-meet' : 'rods-nearly-meet',
        at: `${group.name}-lugs`,
        measured: sum,
        limit: over > tolerance.noise ? room : room - bench.limits.reserve,
        facts: { row: group.title, room, over, top: depth(a), bottom: depth(b), reserve: bench.limits.reserve },
        keys: ['rods.length', group.key],
      }),
    ];
  });
}
