import { pointLength } from '../feeds/formulas.ts';
import type { Shell } from '../model/jig.ts';
import type { Hole } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';

/** Added below the full-diameter depth, into the backing, so that no fibre is left (common practice, no source). */
export const BREAKTHROUGH: Mm = 0.5;
/** Two-sided drilling: how far the point shows on the inside (common practice, no source). */
const POINT_SHOWS: Mm = 0.8;
/** Depth of a centre mark below the skin (common practice, no source). */
export const MARK_DEPTH: Mm = 1;

/**
 * How far below the outside top the rim of a radial tool of radius `r` must go to be through the wall all round: the
 * corner of the rim lies sqrt(Ri^2 - r^2) from the axis; beside the axis by y, the far corner at |y| + r. Less than Ri.
 */
export const throughDepth = (radius: Mm, inside: Mm, r: Mm, y: Mm = 0): Mm =>
  radius - Math.sqrt(inside ** 2 - (Math.abs(y) + r) ** 2);

/** How much higher the outside skin is at a hole's crown than at its sides: R - sqrt(R^2 - r^2). */
export const saddle = (radius: Mm, r: Mm): Mm => radius - Math.sqrt(radius ** 2 - r ** 2);

/** How far a bit's tip is ahead of its full diameter. */
export function leadOf(tool: Tool): Mm {
  switch (tool.kind) {
    case 'twist':
    case 'v-bit':
      return pointLength(tool.diameter, tool.point ?? (tool.kind === 'twist' ? 118 : 90));
    case 'stepped':
      return tool.step?.length ?? pointLength(tool.diameter, tool.point ?? 118);
    case 'brad-point':
    case 'spur':
      return tool.lead ?? 0;
    case 'end-mill':
      return 0;
    default: {
      const never: never = tool.kind;
      throw new Error(`unknown tool kind ${String(never)}`);
    }
  }
}

/** Inside radius where a hole goes through: less where a reinforcement ring is glued in, if it meets only its rim. */
export function insideAt(shell: Shell, hole: Pick<Hole, 'height' | 'drill'>): Mm {
  const { top, bottom } = shell.rings;
  const reach = hole.drill / 2;
  const underTop = top !== undefined && hole.height + reach > shell.depth - top.width;
  const underBottom = bottom !== undefined && hole.height - reach < bottom.width;
  return shell.inside - Math.max(underTop ? top.thickness : 0, underBottom ? bottom.thickness : 0);
}

export interface DepthInput {
  readonly radius: Mm;
  readonly inside: Mm;
  /** Radius of the finished hole: the tool's own, or the bore's. */
  readonly hole: Mm;
  readonly tool: Tool;
  /** Off the axis. */
  readonly y: Mm;
  /** Skin heights differ by this much round the shell; Z0 is the highest. */
  readonly runout: Mm;
}

/** Tip depth at which the hole is at full diameter through the wall, at the lowest spot of the skin too. */
export const fullDepth = (d: DepthInput): Mm =>
  throughDepth(d.radius, d.inside, d.hole, d.y) + leadOf(d.tool) + d.runout + BREAKTHROUGH;

/** Unbacked, from both sides: the point just shows inside at the lowest spot, by less than it leads the rim. */
export const showingDepth = (d: DepthInput): Mm =>
  throughDepth(d.radius, d.inside, 0, d.y) + d.runout + Math.min(POINT_SHOWS, leadOf(d.tool) / 2);
