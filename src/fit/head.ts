import type { Fact } from '../model/finding.ts';
import { MM_PER_INCH, type Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, notChecked, raise } from './bench.ts';

/**
 * A head is named for the shell it goes over: a shell of the nominal size or more is too large for it, and one much
 * smaller lets it float. Usual undersize 1…4.5 mm, floats beyond 5.7 mm or 1 % of the nominal size (common practice, no
 * source).
 */
const TIGHT: Mm = 1;
const LOOSE: Mm = 4.5;
const FLOATS: Mm = 5.7;
const FLOATS_SHARE = 0.01;
/** Nobody measures a shell this near (mm) to its head's size: the size was perhaps written down instead. */
const EXACT: Mm = 0.05;

export function checkHead(bench: Bench): Fact[] {
  const { shell, hoops } = bench.jig;
  const found: Fact[] = [];
  const outside = 2 * shell.radius;
  for (const side of ['top', 'bottom'] as const) {
    const inside = hoops[side]?.inside;
    if (inside !== undefined && outside >= inside - tolerance.noise)
      found.push(
        raise(bench, {
          level: 'stop',
          id: 'shell-too-large-for-hoop',
          at: 'shell',
          measured: outside,
          limit: inside,
          facts: { side },
          keys: [`hoops.${side}.inside`],
        }),
      );
  }
  const nominal = shell.nominal;
  if (nominal === undefined)
    return [...found, notChecked(bench, 'shell', 'shell against its head', ['shell.nominal'], 'shell')];
  const { fit, limit, under } = headFit(outside, nominal);
  if (fit === 'good') return found;
  const finding = FINDING[fit];
  const bare = !['large', 'small'].includes(headFit(outside, nominal * MM_PER_INCH).fit);
  found.push(
    raise(bench, {
      level: finding.level,
      id: finding.id,
      at: 'shell',
      measured: outside,
      limit,
      facts: {
        nominal,
        inches: nominal / MM_PER_INCH,
        under,
        exact: Math.abs(under) < EXACT ? 'yes' : 'no',
        girth: shell.girth,
        ...misreading(outside, nominal),
        ...(bare ? { bare: nominal } : {}),
      },
      keys: [...(bare ? ['shell.nominal'] : []), 'shell.diameter', 'shell.circumference'],
    }),
  );
  return found;
}

const FINDING = {
  large: { level: 'stop', id: 'shell-too-large' },
  small: { level: 'stop', id: 'shell-too-small' },
  tight: { level: 'care', id: 'shell-tight' },
  loose: { level: 'care', id: 'shell-loose' },
} as const;

/** How a shell of this outside diameter takes a head of that nominal size, and the diameter where that begins. */
export function headFit(outside: Mm, nominal: Mm): { fit: keyof typeof FINDING | 'good'; limit: Mm; under: Mm } {
  const under = nominal - outside;
  const floats = Math.max(FLOATS, FLOATS_SHARE * nominal);
  if (under < -tolerance.same) return { fit: 'large', limit: nominal, under };
  if (under > floats) return { fit: 'small', limit: nominal - floats, under };
  if (under < TIGHT) return { fit: 'tight', limit: nominal - TIGHT, under };
  if (under > LOOSE) return { fit: 'loose', limit: nominal - LOOSE, under };
  return { fit: 'good', limit: nominal, under };
}

/** Slips of the tape that would explain a size: how much the girth would change, mm. */
const SLIPS: readonly (readonly [name: string, girth: Mm])[] = [
  ['one centimetre', 10],
  ['one inch', MM_PER_INCH],
];

/** The slip of the tape after which this shell takes its head as shells usually do, and the girth then meant. */
function misreading(outside: Mm, nominal: Mm): { misread: string; meant: Mm } | undefined {
  const long = nominal - outside < TIGHT;
  // One at most: they differ by more than the usual undersizes do.
  const best = SLIPS.map(([name, girth]) => ({ name, size: outside + ((long ? -1 : 1) * girth) / Math.PI })).find(
    ({ size }) => headFit(size, nominal).fit === 'good',
  );
  return best && { misread: `${best.name} too ${long ? 'long' : 'short'}`, meant: Math.PI * best.size };
}
