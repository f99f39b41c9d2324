import type { Fact } from '../model/finding.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, raise } from './bench.ts';
import { type Gathered, gather } from './gather.ts';

/** Feet and holes against the two rims. */
export function checkRims(bench: Bench): Fact[] {
  const depth = bench.layout.depth;
  const found: Gathered[] = [];
  for (const print of bench.prints) {
    const { placed, hole } = print;
    if (!placed) continue;
    const overTop = print.up - depth;
    const overBottom = -print.down;
    const side = overTop >= overBottom ? 'top' : 'bottom';
    const over = Math.max(overTop, overBottom);
    const keys = [`${placed.key}.distance`];
    const what = hole ? 'hole' : 'foot';
    const facts = {
      side,
      what,
      over,
      whole: side === 'top' ? (print.down >= depth ? 'yes' : 'no') : print.up <= 0 ? 'yes' : 'no',
    };
    if (over > tolerance.noise) {
      const fact = raise(bench, {
        level: 'stop',
        id: `${what}-over-rim`,
        at: print.id,
        measured: -over,
        limit: 0,
        facts,
        keys,
      });
      found.push({ key: `${what} ${placed.key} ${side}`, over, fact });
    } else if (hole && -over < hole.drill / 2 && hole.role !== 'vent') {
      const fact = raise(bench, {
        level: 'care',
        id: 'hole-near-rim',
        at: print.id,
        measured: -over,
        limit: hole.drill / 2,
        facts,
        keys,
      });
      found.push({ key: `near ${placed.key} ${side}`, over, fact });
    }
  }
  return gather(found);
}
