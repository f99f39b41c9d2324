import { POINTS } from '../data/tools.ts';
import type { Tool } from '../model/machine.ts';
import { type Mm, toRad } from '../units/scalar.ts';

const slope = (tool: Tool, fallback: number): number => 1 / Math.tan(toRad(tool.point ?? fallback) / 2);

/**
 * How far above its tip a bit first has the radius `r` (r up to its own): a cone for twist and V bits, a pilot with a
 * shoulder for stepped ones, a flat rim behind a centre spur for brad-point and spur bits, nothing for an end mill.
 */
export function leadAt(tool: Tool, r: Mm): Mm {
  switch (tool.kind) {
    case 'twist':
      return r * slope(tool, POINTS.twist);
    case 'v-bit':
      return r * slope(tool, POINTS['v-bit']);
    case 'stepped': {
      const step = tool.step ?? { diameter: tool.diameter / 2, length: tool.diameter };
      return r * 2 <= step.diameter ? r * slope(tool, POINTS.twist) : step.length;
    }
    case 'brad-point':
    case 'spur':
      return r > 0 ? (tool.lead ?? 0) : 0;
    case 'end-mill':
      return 0;
    default: {
      const never: never = tool.kind;
      throw new Error(`unknown tool kind ${String(never)}`);
    }
  }
}

/** May this bit cut sideways? Drills have no edges there: they bend and break. */
export const cutsSideways = (tool: Tool): boolean => tool.kind === 'end-mill' || tool.kind === 'v-bit';

/** Radii at which a bit is compared with the hole it goes into, as shares of its own. */
const RINGS = [0, 0.25, 0.5, 0.75, 1];

/**
 * Does a bit with its tip at `depth`, standing `aside` of the axis, fit into what `cutter` left with its tip at
 * `cutDepth`?
 */
export function fits(tool: Tool, depth: Mm, aside: Mm, cutter: Tool, cutDepth: Mm, slack: Mm): boolean {
  const r = tool.diameter / 2;
  if (r + aside > cutter.diameter / 2 + slack) return false;
  return RINGS.every((share) => {
    const wide = Math.min(share * r + aside, cutter.diameter / 2);
    return depth - leadAt(tool, share * r) <= cutDepth - leadAt(cutter, wide) + slack;
  });
}

/** Greatest radius of the bit that has passed a depth `past(r)` with its tip at `depth`, by halving; 0 = none. */
export function radiusThrough(tool: Tool, depth: Mm, past: (r: Mm) => Mm): Mm {
  const whole = tool.diameter / 2;
  const gone = (r: Mm): boolean => depth - leadAt(tool, r) >= past(r);
  if (gone(whole)) return whole;
  let low = 0;
  let high = whole;
  if (!gone(0)) return 0;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (gone(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Radius of the bit by the height above its tip, the inverse of `leadAt`; 0 below the tip and beside a centre spur. */
export function shapeOf(tool: Tool): (h: Mm) => Mm {
  const whole = tool.diameter / 2;
  switch (tool.kind) {
    case 'twist':
    case 'v-bit': {
      const steep = slope(tool, tool.kind === 'twist' ? POINTS.twist : POINTS['v-bit']);
      return (h) => (h < 0 ? 0 : Math.min(whole, h / steep));
    }
    case 'stepped': {
      const step = tool.step ?? { diameter: tool.diameter / 2, length: tool.diameter };
      const steep = slope(tool, POINTS.twist);
      return (h) => (h < 0 ? 0 : h >= step.length ? whole : Math.min(step.diameter / 2, h / steep));
    }
    case 'brad-point':
    case 'spur': {
      const lead = tool.lead ?? 0;
      return (h) => (h >= lead ? whole : 0);
    }
    case 'end-mill':
      return (h) => (h >= 0 ? whole : 0);
    default: {
      const never: never = tool.kind;
      throw new Error(`unknown tool kind ${String(never)}`);
    }
  }
}
