import type { Fact } from '../model/finding.ts';
import type { Mm } from '../units/scalar.ts';
import { type Bench, notChecked, raise } from './bench.ts';

/** Half of a gasket's thickness can be pressed into a gap (common practice, no source). */
const GASKET_GIVES = 0.5;
/** A gap no feeler gauge finds on wood (common practice, no source), mm. */
const UNSEEN: Mm = 0.15;

/** A flat foot on a round shell touches along one line: at w / 2 from it the shell has dropped by R - sqrt(R^2 - (w / 2)^2). */
export function checkFootRock(bench: Bench): Fact[] {
  return bench.groups.flatMap((group) => {
    const foot = group.row?.foot ?? group.fitting?.foot;
    if (!foot || foot.face === 'curved') return [];
    const R = bench.layout.radius;
    const half = Math.min(R, Math.max(foot.left, foot.right));
    const gap = R - Math.sqrt(R * R - half * half);
    const taken = GASKET_GIVES * foot.gasket;
    if (gap <= Math.max(UNSEEN, taken)) return [];
    const at = group.row ? `${group.name}-lugs` : group.name;
    const keys = [`${group.key}.foot`, ...(group.row ? ['lugs.foot'] : []), group.key];
    if (foot.face === undefined)
      return [
        notChecked(
          bench,
          at,
          'foot rocking on the round shell',
          [`face: flat or curved, in the foot of ${group.title}`],
          ...keys,
        ),
      ];
    return [
      raise(bench, {
        level: 'care',
        id: 'foot-rocks',
        at,
        measured: gap,
        limit: taken,
        facts: { gap, taken, gasket: foot.gasket, need: gap / GASKET_GIVES, across: 2 * half },
        keys,
      }),
    ];
  });
}
