import type { Part, Path, Shape } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { Staged } from '../model/stage.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { contour } from './contour.ts';
import { chainOf, gapBelow } from './meetings.ts';
import { offset } from './offset.ts';
import { onLayer } from './paths.ts';
import { distance, spanLength } from './spans.ts';

export { contour } from './contour.ts';
export { offsetPath } from './offset.ts';

/**
 * The lines the beam follows so that the finished part is to size: the outer contour half a kerf outside, every inner one
 * half a kerf inside (a circle of finished diameter d is drawn d - kerf). Inner first, outer last.
 *
 * Stop facts: `feature-under-kerf` where a contour closes up or falls apart under the beam, `bridge-too-thin` where less
 * than `bridge` mm of material would be left between two contours, or in a tab or neck of one. A refused contour is left out of the value.
 */
export function cutLines(part: Part, kerf: Mm, bridge: Mm = 0): Staged<Shape[]> {
  const facts: Fact[] = [];
  const shapes: Shape[] = [];
  for (const inner of part.inner) {
    const drawn = moved(inner, -kerf / 2, 'CUT-INNER');
    if (drawn === undefined) facts.push(underKerf(part, inner, kerf));
    else shapes.push(drawn);
  }
  const outer = moved(part.outer, kerf / 2, 'CUT-OUTER');
  if (outer === undefined) facts.push(underKerf(part, part.outer, kerf));
  else shapes.push(outer);
  return { value: shapes, facts: [...facts, ...thinBridges(part, bridge)] };
}

function moved(shape: Shape, d: Mm, layer: 'CUT-INNER' | 'CUT-OUTER'): Shape | undefined {
  if (shape.kind === 'circle') {
    const radius = shape.radius + d;
    return radius > 0 ? onLayer({ ...shape, radius }, layer) : undefined;
  }
  const { paths, lost } = offset(shape, d);
  // A chamfer or fillet shorter than the beam is wide may go; anything longer that went was a feature.
  const whole = paths.length === 1 && lost.every((s) => spanLength(s) < 2 * Math.abs(d));
  return whole ? onLayer(paths[0] as Path, layer) : undefined;
}

const underKerf = (part: Part, shape: Shape, kerf: Mm): Fact => ({
  level: 'stop',
  id: 'feature-under-kerf',
  at: part.id,
  measured: shape.kind === 'circle' ? 2 * shape.radius : null,
  limit: kerf,
  unit: 'mm',
  facts: { part: part.name, feature: shape.from },
});

function thinBridges(part: Part, bridge: Mm): Fact[] {
  if (bridge <= 0) return [];
  const all = [part.outer, ...part.inner].map((shape) => ({ shape, chain: chainOf(contour(shape)) }));
  const facts: Fact[] = [];
  for (const [i, a] of all.entries()) {
    for (const b of all.slice(i + 1)) {
      if (i > 0 && isWithin(a.shape, b.shape)) continue;
      const gap = gapBelow(a.chain, b.chain, bridge);
      if (gap < bridge) facts.push(thin(part, gap, bridge, b.shape.from, a.shape.from));
    }
  }
  for (const { shape } of all) {
    if (shape.kind === 'path' && hasThinStrip(shape, shape === part.outer ? -bridge / 2 : bridge / 2))
      facts.push(thin(part, null, bridge, shape.from, shape.from));
  }
  return facts;
}

/**
 * Whether a strip of the material beside a contour is narrower than twice `into`: moved into the material so far, the
 * contour falls apart or loses sides longer than the strip is wide (a tab's two sides, not a chamfer or a fillet).
 */
function hasThinStrip(shape: Path, into: Mm): boolean {
  const { paths, lost } = offset(shape, into);
  return paths.length !== 1 || lost.some((s) => spanLength(s) >= 2 * Math.abs(into));
}

/** A round hole in a larger one round it, as of a vent and the badge it holds, leaves nothing between them to burn away. */
function isWithin(a: Shape, b: Shape): boolean {
  if (a.kind !== 'circle' || b.kind !== 'circle') return false;
  return distance(a.center, b.center) <= Math.abs(a.radius - b.radius) + tolerance.same;
}

const thin = (part: Part, gap: Mm | null, bridge: Mm, feature: string, other: string): Fact => ({
  level: 'stop',
  id: 'bridge-too-thin',
  at: part.id,
  measured: gap,
  limit: bridge,
  unit: 'mm',
  facts: { part: part.name, feature, other },
});
