import type { Part } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import type { CollarFrame } from './collar-frame.ts';
import { inscribe } from './engrave.ts';
import { lying } from './frame3.ts';
import { beside, contour, onRound } from './outline.ts';
import type { Placement } from './plan.ts';
import { high, low } from './stations.ts';

/** Half the length of a slice round the shell, and its depth: a block that two clamps hold (judgement, no source). */
const HALF: Mm = 32;
const DEEP: Mm = 24;

/**
 * A block for the inside of the shell at a post, so that a bit breaks into wood and not out of it: slices curved to the
 * inside radius (to the stiffening ring's where that is), glued into one block as high as the first post's bores and
 * clamped to the shell.
 */
export function backingBlock(c: CollarFrame, jig: Jig): { parts: Part[]; placements: Placement[] } {
  const post = c.posts[0];
  const stiff = jig.shell.rings[c.edge];
  const t = c.stock.t;
  if (post === undefined || jig.shell.inside - (stiff?.thickness ?? 0) < 2 * DEEP) return { parts: [], placements: [] };
  const from = Math.max(0, Math.min(...post.bores.map(low)) - c.land);
  const to = Math.max(...post.bores.map(high)) + c.land;
  const count = Math.max(2, Math.ceil((to - from) / t));
  const slices = Array.from({ length: count }, (_, i) => from + i * t);
  const kinds = [
    { name: 'backing', radius: jig.shell.inside, at: slices.filter((s) => s >= (stiff?.width ?? 0)) },
    {
      name: 'ring-backing',
      radius: jig.shell.inside - (stiff?.thickness ?? 0),
      at: slices.filter((s) => s < (stiff?.width ?? 0)),
    },
  ].filter((k) => k.at.length > 0);
  return {
    parts: kinds.map((k) => slice(c, `collar-${c.tag}-${k.name}`, k.radius, k.at.length)),
    placements: kinds.flatMap((k) =>
      k.at.map((s, i): Placement => {
        const z = c.rim + (c.sign > 0 ? s : -s - t);
        const part = `collar-${c.tag}-${k.name}`;
        return { part, instance: i + 1, collar: c.tag, frame: lying(post.angle - 90, z), thickness: t };
      }),
    ),
  };
}

function slice(c: CollarFrame, id: string, r: Mm, quantity: number): Part {
  const half = Math.min(HALF, r / 2);
  const steps = [
    beside(90, -half, onRound(r, half)),
    { ...beside(90, half, onRound(r, half)), round: 'ccw' as const },
    beside(90, half, r - DEEP),
    beside(90, -half, r - DEEP),
  ];
  const patch = { center: { x: 0, y: r - DEEP / 2 - 3 }, width: 2 * half - 6, height: DEEP / 2 };
  return {
    id,
    job: 'collar',
    name: `${c.tag} collar, backing block slice`,
    outer: contour('CUT-OUTER', 'block outline', steps, 0, false),
    inner: [],
    marks: c.digest === undefined ? [] : inscribe(['backing: clamp it,', 'never hold it'], patch, 3.5),
    quantity,
    turns: true,
  };
}
