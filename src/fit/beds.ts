import type { Fact } from '../model/finding.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Bench, raise } from './bench.ts';
import { type Gathered, gather } from './gather.ts';

/** Snare beds are centred here, on the bottom edge. */
export const BED_ANGLES = [0, 180] as const;

/** Holes and feet against the snare beds: nothing may reach into the part of the edge that is filed away. */
export function checkBeds(bench: Bench): Fact[] {
  const beds = bench.jig.beds;
  if (!beds) return [];
  const found: Gathered[] = [];
  const half = beds.width / 2;
  for (const print of bench.prints) {
    if (!print.placed) continue;
    // What lies wholly beyond the edge is told by the rim's own check.
    if (print.down >= beds.depth - tolerance.noise || print.up <= 0) continue;
    const off = Math.min(
      ...BED_ANGLES.map((a) => apart(print.left, print.right, bench.layout.radius * toRad(a), bench.girth)),
    );
    if (off >= half - tolerance.noise) continue;
    const over = beds.depth - print.down;
    const what = print.hole ? 'hole' : 'foot';
    const fact = raise(bench, {
      level: 'stop',
      id: `${what}-in-bed`,
      at: print.id,
      measured: print.down,
      limit: beds.depth,
      facts: { what, over, inward: half - off, width: beds.width, depth: beds.depth },
      keys: [`${print.placed.key}.distance`],
    });
    found.push({ key: `${what} ${print.placed.key}`, over, fact });
  }
  return gather(found);
}

/** Distance along the girth from a point in [0, girth) to the nearest of [left, right], with wrap-around; 0 inside. */
function apart(left: Mm, right: Mm, x: Mm, girth: Mm): Mm {
  return Math.min(...[0, girth].map((turn) => Math.max(0, left - (x + turn), x + turn - right)));
}
