import type { Fact } from '../model/finding.ts';
import type { Pattern, Screw } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, type Group, notChecked, raise } from './bench.ts';
import { patternKeysOf } from './pattern-keys.ts';
import { gripsOf, type Reach, sold } from './screw-length.ts';

/** A screw end that stands further (mm) out of its nut inside the shell catches hands and dampers (common practice, no source). */
const STICKS_OUT: Mm = 10;

/**
 * Screws from outside with a nut inside: under the head lie casting, gasket, wall, ring and washer, and what is left must
 * fill the nut. Each hole of the pattern on its own: the thickest decides what is short, the thinnest what sticks out.
 */
export function boltLength(
  bench: Bench,
  group: Group,
  bolt: NonNullable<Pattern['bolt']>,
  pattern: Pattern,
  screw: Screw,
  at: string,
): Fact[] {
  const keys = patternKeysOf(group, 'screw');
  const { through, nut } = bolt;
  if (through === undefined)
    return [
      notChecked(
        bench,
        at,
        'length of the screws from outside',
        [group.row ? 'lugs.holes.through' : `through of ${group.title}`],
        ...keys,
      ),
    ];
  const { gasket, washer, thick: thickest, thin: thinnest } = gripsOf(bench, group, pattern);
  if (!thickest || !thinnest) return [];
  const over = (r: Reach): Reach => ({ ...r, grip: through + r.grip });
  const [thick, thin] = [over(thickest), over(thinnest)];
  const facts = (r: Reach): Record<string, string | number> => {
    const [from, to] = [r.grip + nut, r.grip + nut + STICKS_OUT];
    return {
      screw: screw.text,
      length: screw.length,
      grip: r.grip,
      wall: bench.layout.wall,
      ring: r.ring,
      gasket,
      washer,
      through,
      nut,
      from,
      to,
      sold: sold(screw, from, to),
    };
  };
  const held = screw.length - thick.grip;
  const out = screw.length - thin.grip - nut;
  const say = (level: Fact['level'], id: string, r: typeof thick, measured: Mm, limit: Mm) =>
    raise(bench, {
      level,
      id,
      at: r.hole.id,
      measured,
      limit,
      facts: { ...facts(r), over: Math.abs(limit - measured) },
      keys,
    });
  return [
    ...(held < nut - tolerance.noise ? [say('stop', 'screw-too-short', thick, held, nut)] : []),
    ...(out > STICKS_OUT + tolerance.noise ? [say('care', 'screw-sticks-out', thin, out, STICKS_OUT)] : []),
  ];
}
