import type { Fitting, LugRow, Pattern } from '../model/jig.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type KeyPath, show } from './complaint.ts';
import { GAP, OFFSET, type Reader, SMALL } from './reader.ts';
import { resolveFoot } from './resolve-foot.ts';
import { resolvePattern } from './resolve-pattern.ts';
import { distanceBounds, heightOf } from './resolve-shell.ts';
import type { RawJig } from './schema.ts';
import { losesLetters, uniqueSlugs } from './slug.ts';

type RawFitting = NonNullable<RawJig['fittings']>[number];
type RawAt = RawFitting['at'];

const NO_HOLES: Pattern = { layout: 'points', points: [], drill: 0, axes: 'parallel' };

export function resolveFittings(raw: readonly RawFitting[], rows: readonly LugRow[], depth: Mm, r: Reader): Fitting[] {
  const names = uniqueSlugs(raw.map((f) => f.name ?? f.role));
  return raw.map((f, i) => {
    const path: KeyPath = ['fittings', i];
    if (f.name !== undefined && losesLetters(f.name))
      r.assume(`fittings.${i}.name`, names[i] as string, `what "${show(f.name)}" is called on parts and in programs`);
    if (!f.holes && !f.foot) r.complain(path, 'neither holes nor foot', 'holes, foot or both', 'measure the fitting');
    const distance = r.length(f.distance, [...path, 'distance'], distanceBounds(f.edge));
    const sense = { rimUp: f.edge !== 'bottom', turned: false };
    const snareLine = r.optional(f['snare-line'], [...path, 'snare-line'], OFFSET);
    const clear = (key: string, raw: unknown): { clear?: Mm } =>
      raw === undefined ? {} : { clear: r.length(raw, [...path, key, 'clear'], GAP) };
    const drop = r.optional(f.drop, [...path, 'drop'], { sign: 'zero', max: 300 });
    return {
      name: names[i] as string,
      role: f.role,
      at: places(f.at, rows, [...path, 'at'], r),
      edge: f.edge,
      distance,
      height: heightOf(f.edge, distance, depth),
      holes: f.holes ? resolvePattern(f.holes, [...path, 'holes'], false, r) : NO_HOLES,
      ...(f.foot === undefined ? {} : { foot: resolveFoot(f.foot, [...path, 'foot'], sense, r) }),
      ...(f.lever === undefined
        ? {}
        : { lever: { ...resolveFoot(f.lever, [...path, 'lever'], sense, r), ...clear('lever', f.lever.clear) } }),
      ...(snareLine === undefined ? {} : { snareLine }),
      ...(drop === undefined ? {} : { drop }),
      ...(f.rod === undefined
        ? {}
        : {
            rod: {
              diameter: r.length(f.rod.diameter, [...path, 'rod', 'diameter'], SMALL),
              across: r.optional(f.rod.across, [...path, 'rod', 'across'], OFFSET) ?? 0,
              ...clear('rod', f.rod.clear),
            },
          }),
    };
  });
}

/** Every place of a fitting as angles in [0, 360). */
function places(raw: RawAt, rows: readonly LugRow[], path: KeyPath, r: Reader): Deg[] {
  if (Array.isArray(raw)) return raw.map((p, i) => place(p, rows, [...path, i], r));
  if (typeof raw === 'object' && 'every' in raw) {
    const pitch = r.angle(raw.every, [...path, 'every']);
    const count = Math.round(360 / pitch);
    if (!(pitch > 0) || count < 1 || count > 200 || Math.abs(count * pitch - 360) > tolerance.same) {
      r.complain(
        [...path, 'every'],
        `a pitch of ${show(raw.every)}`,
        'a pitch that divides 360 deg, at least 1.8 deg',
        'give 360 divided by how many there are',
      );
      return [0];
    }
    const from = raw.from === undefined ? 0 : r.angle(raw.from, [...path, 'from']);
    return Array.from({ length: count }, (_, i) => wrapDeg(from + (360 * i) / count));
  }
  return [place(raw as string | number | { between: [number, number] }, rows, path, r)];
}

function place(
  raw: string | number | { between: [number, number] },
  rows: readonly LugRow[],
  path: KeyPath,
  r: Reader,
): Deg {
  if (typeof raw !== 'object') return wrapDeg(r.angle(raw, path));
  const first = rows[0];
  const [i, j] = raw.between;
  if (!first) {
    r.complain([...path, 'between'], 'between lugs, but there are no lugs', 'an angle', 'give an angle, or add lugs');
    return 0;
  }
  if (i === j || i > first.count || j > first.count) {
    r.complain(
      [...path, 'between'],
      `lugs ${i} and ${j}`,
      `two different lugs from 1 to ${first.count}`,
      'count the lugs of the first row from lug 1',
    );
    return 0;
  }
  const pitch = 360 / first.count;
  return wrapDeg(first.first + (i - 1) * pitch + wrapDeg((j - i) * pitch) / 2);
}
