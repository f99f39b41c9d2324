import type { Part } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import type { CollarFrame } from './collar-frame.ts';
import { inscribe } from './engrave.ts';
import { lying } from './frame3.ts';
import { beside, contour, onRound } from './outline.ts';
import type { Placement } from './plan.ts';
import { high, low } from './stations.ts';

const HALF: Mm = 32;
const DEEP: Mm = 24;

/**
 * A block for the inside of the shell at a post, so that a bit breaks into wood and not out of it: slices curved to the
 * inside radius, glued into one block as high as the tallest post's bores and clamped to the shell.
 */
export function backingBlock(c: CollarFrame, jig: Jig): { parts: Part[]; placements: Placement[] } {
  const r = jig.shell.inside - (jig.shell.rings[c.edge]?.thickness ?? 0);
  const half = Math.min(HALF, r / 2);
  const post = c.posts[0];
  if (post === undefined || r < 2 * DEEP) return { parts: [], placements: [] };
  const from = Math.min(...post.bores.map(low)) - c.land;
  const to = Math.max(...post.bores.map(high)) + c.land;
  const slices = Math.max(2, Math.ceil((to - from) / c.stock.t));
  const id = `collar-${c.tag}-backing`;
  const steps = [
    beside(90, -half, onRound(r, half)),
    { ...beside(90, half, onRound(r, half)), round: 'ccw' as const },
    beside(90, half, r - DEEP),
    beside(90, -half, r - DEEP),
  ];
  const patch = { center: { x: 0, y: r - DEEP / 2 - 3 }, width: 2 * half - 6, height: DEEP / 2 };
  const part: Part = {
    id,
    job: 'collar',
    name: `${c.tag} collar, backing block slice`,
    outer: contour('CUT-OUTER', id, steps, 0, false),
    inner: [],
    marks: inscribe(['backing: clamp it,', 'never hold it'], patch, 3.5),
    quantity: slices,
    turns: true,
  };
  const first = c.rim + c.sign * Math.max(0, from) - (c.sign < 0 ? c.stock.t : 0);
  const placements = Array.from({ length: slices }, (_, i): Placement => {
    const z = first + c.sign * i * c.stock.t;
    return { part: id, instance: i + 1, collar: c.tag, frame: lying(post.angle - 90, z), thickness: c.stock.t };
  });
  return { parts: [part], placements };
}
