import { mediumHole } from '../data/clearance.ts';
import { nutHeight } from '../data/screws.ts';
import { parseThread, THREAD_SPELLINGS } from '../data/threads.ts';
import type { Pattern, PatternPoint, Screw } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import { readLength } from '../units/length.ts';
import type { Mm } from '../units/scalar.ts';
import { type KeyPath, pathText, show } from './complaint.ts';
import { CUT, GAP, OFFSET, type Reader, SMALL, SPACING } from './reader.ts';
import type { Loose, RawPattern } from './schema.ts';

/** Keys each layout takes, beside those all take. */
const LAYOUT_KEYS: Readonly<Record<RawPattern['layout'], readonly (keyof RawPattern)[]>> = {
  single: [],
  upright: ['spacing'],
  across: ['spacing'],
  grid: ['columns', 'rows', 'across', 'upright'],
  points: ['points'],
};
const ALL_LAYOUT_KEYS = [...new Set(Object.values(LAYOUT_KEYS).flat())];

export const withoutSpacings = (raw: Loose<RawPattern>): Loose<RawPattern> => ({
  ...raw,
  ...Object.fromEntries(ALL_LAYOUT_KEYS.map((k) => [k, undefined])),
});

export function resolveThread(text: string, path: KeyPath, r: Reader): Thread | undefined {
  const thread = parseThread(text);
  if (!thread)
    r.complain(
      path,
      `the thread ${show(text)}`,
      `a thread such as ${THREAD_SPELLINGS}`,
      'write size and pitch, or diameter x pitch in mm',
    );
  return thread;
}

/** `M4 x 16`: the thread, then the length under the head; bare lengths are mm for metric, inches for Unified threads. */
function resolveScrew(text: string, path: KeyPath, r: Reader): Screw | undefined {
  const parts = text.replace(/[×X]/g, 'x').split('x');
  const length = parts.pop()?.trim() ?? '';
  const thread = parts.length === 0 ? undefined : parseThread(parts.join('x'));
  const inches = thread !== undefined && !thread.name.startsWith('M') && thread.name.includes('-');
  const reading = readLength(length, inches ? 'in' : 'mm');
  if (!thread || !reading.ok || reading.value <= 0 || reading.value > 300) {
    r.complain(
      path,
      `the screw ${show(text)}`,
      'a thread and a length under the head, e.g. M4 x 16 or 8-32 x 5/8 in',
      'write thread, x, length',
    );
    return undefined;
  }
  return { text, thread, length: reading.value };
}

/** The hole pattern from its origin, as it sits on the shell top up; `turned` turns it by 180 deg. */
export function resolvePattern(raw: Loose<RawPattern>, path: KeyPath, turned: boolean, r: Reader): Pattern {
  const at = (key: string) => [...path, key];
  const layout = raw.layout ?? 'single';
  if (raw.layout === undefined)
    r.complain(path, 'no layout', 'single, upright, across, grid, points', 'say how the holes lie');
  const needed = LAYOUT_KEYS[layout];
  for (const key of needed) {
    if (raw[key] === undefined && !isIdle(raw, key))
      r.complain(path, `no ${key} for layout ${layout}`, `${layout} needs ${needed.join(', ')}`, `add ${key}`);
  }
  for (const key of ALL_LAYOUT_KEYS) {
    if (raw[key] !== undefined && !needed.includes(key))
      r.complain(
        at(key),
        `${key} with layout ${layout}`,
        needed.length === 0 ? `${layout} needs no spacing` : `${layout} takes ${needed.join(', ')}`,
        `remove ${key}, or change the layout`,
      );
  }
  const screw = raw.screw === undefined ? undefined : resolveScrew(raw.screw, at('screw'), r);
  const drill = raw.drill === undefined ? drillFor(screw, path, r) : r.length(raw.drill, at('drill'), CUT);
  const pilot = r.optional(raw.pilot, at('pilot'), CUT);
  if (pilot !== undefined && pilot > drill)
    r.complain(
      at('pilot'),
      `a pilot of ${pilot} mm for a hole of ${drill} mm`,
      `less than the hole, ${drill} mm`,
      'swap them, or use a smaller pilot',
    );
  const tapped = r.optional(raw.tapped, at('tapped'), SMALL);
  const washer = r.optional(raw.washer, at('washer'), GAP);
  const bolt = boltOf(raw, screw, path, r);
  const points = patternPoints(raw, layout, path, r);
  return {
    layout,
    points: turned ? points.map((p) => ({ across: 0 - p.across, upright: 0 - p.upright })) : points,
    drill,
    ...(pilot === undefined ? {} : { pilot }),
    ...(screw === undefined ? {} : { screw }),
    ...(tapped === undefined ? {} : { tapped }),
    ...(washer === undefined ? {} : { washer }),
    ...(bolt === undefined ? {} : { bolt }),
    axes: raw.axes ?? 'parallel',
  };
}

/** A grid of one column has nothing between columns, one of one row nothing between rows. */
const isIdle = (raw: Loose<RawPattern>, key: keyof RawPattern): boolean =>
  (key === 'across' && raw.columns === 1) || (key === 'upright' && raw.rows === 1);

/** Screws from outside hold in a nut, not in the casting: what speaks of the one has no place beside the other. */
function boltOf(raw: Loose<RawPattern>, screw: Screw | undefined, path: KeyPath, r: Reader): Pattern['bolt'] {
  const outside = raw.from === 'outside';
  const stray = outside ? (['tapped'] as const) : (['through', 'nut'] as const);
  for (const key of stray)
    if (raw[key] !== undefined)
      r.complain(
        [...path, key],
        `${key} with screws from ${outside ? 'outside' : 'inside'}`,
        outside ? 'through and nut, as nothing is tapped' : 'tapped, as the casting is the nut',
        outside ? 'remove tapped, or say from: inside' : 'say from: outside, or remove it',
      );
  if (!outside) return undefined;
  const through = r.optional(raw.through, [...path, 'through'], GAP);
  const given = r.optional(raw.nut, [...path, 'nut'], SMALL);
  const nut = given ?? (screw ? nutHeight(screw.thread) : 0);
  if (given === undefined && screw)
    r.assume(`${pathText(path)}.nut`, `${nut} mm`, `a standard nut for ${screw.thread.name}`);
  return { nut, ...(through === undefined ? {} : { through }) };
}

function drillFor(screw: Screw | undefined, path: KeyPath, r: Reader): Mm {
  if (screw === undefined) {
    r.complain(
      path,
      'neither drill nor screw',
      'the diameter of the finished hole',
      'add drill: measure the screw and add its clearance',
    );
    return 5;
  }
  const drill = mediumHole(screw.thread);
  r.assume(`${pathText(path)}.drill`, `${drill} mm`, `medium clearance hole for ${screw.thread.name}`);
  return drill;
}

/** First the rim side (up), left to right: hole a, b, c … in that order. */
function patternPoints(raw: Loose<RawPattern>, layout: RawPattern['layout'], path: KeyPath, r: Reader): PatternPoint[] {
  const len = (key: 'spacing' | 'across' | 'upright'): Mm =>
    raw[key] === undefined ? 1 : r.length(raw[key], [...path, key], SPACING);
  switch (layout) {
    case 'single':
      return [{ across: 0, upright: 0 }];
    case 'upright': {
      const half = len('spacing') / 2;
      return [
        { across: 0, upright: half },
        { across: 0, upright: -half },
      ];
    }
    case 'across': {
      const half = len('spacing') / 2;
      return [
        { across: -half, upright: 0 },
        { across: half, upright: 0 },
      ];
    }
    case 'grid': {
      const [columns, rows] = [raw.columns ?? 1, raw.rows ?? 1];
      const [dx, dy] = [len('across'), len('upright')];
      return Array.from({ length: rows * columns }, (_, i) => ({
        across: ((i % columns) - (columns - 1) / 2) * dx,
        upright: ((rows - 1) / 2 - Math.floor(i / columns)) * dy,
      }));
    }
    case 'points':
      return (raw.points ?? []).map((p, i) => ({
        across: r.length(p.across, [...path, 'points', i, 'across'], OFFSET),
        upright: r.length(p.upright, [...path, 'points', i, 'upright'], OFFSET),
      }));
  }
}
