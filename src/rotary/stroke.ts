import type { Jig } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import type { Choice } from './choose.ts';
import { fullDepth, insideAt, leadOf, MARK_DEPTH, saddle, showingDepth } from './depth.ts';
import { edgePath } from './edge.ts';
import type { RotaryOptions } from './types.ts';

/** How deep the tip goes below the high spot of the skin for this operation. */
export function depthOf(jig: Jig, layout: Layout, hole: Hole, c: Choice, y: Mm, o: RotaryOptions): Mm {
  const { backing, runout } = jig.rotary;
  if (c.kind === 'edge-break') return edgePath(hole.drill / 2, c.tool).below + saddle(layout.radius, hole.drill / 2);
  // Beside the axis the skin itself lies lower.
  if (c.kind === 'centre-mark') return saddle(layout.radius, y) + markDepth(c.tool, hole.pilot ?? hole.drill, runout);
  const r = c.kind === 'bore' ? hole.drill / 2 : c.tool.diameter / 2;
  const input = { radius: layout.radius, inside: insideAt(jig.shell, hole), hole: r, tool: c.tool, y, runout };
  const spurred = c.tool.kind === 'brad-point' || c.tool.kind === 'spur';
  return backing === 0 && o.unbacked === 'two-sided' && spurred ? showingDepth(input) : fullDepth(input);
}

/** Deep enough to hold a point at the lowest spot, never wider at the highest than eight tenths of the hole, nor deeper than the cone is high. */
function markDepth(tool: Tool, narrowest: Mm, runout: Mm): Mm {
  const widest = (0.4 * narrowest) / Math.tan(toRad(tool.point ?? 90) / 2);
  return Math.min(MARK_DEPTH + runout, widest, leadOf(tool));
}
