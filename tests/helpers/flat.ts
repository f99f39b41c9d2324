import { areaPathsD, FillRule, type PathD, type PathsD, unionD } from 'clipper2-ts';
import { contour } from '../../src/drawing/kerf.ts';
import { polar } from '../../src/drawing/paths.ts';
import type { Layer, Path, Shape } from '../../src/model/drawing.ts';
import type { FlatPoint } from '../../src/model/frames.ts';

/** A closed shape as a polygon for the independent polygon library; arcs in chords no further than `chord` mm off. */
export function polygonOf(shape: Shape, chord = 1e-4): PathD {
  const points: PathD = [];
  for (const s of contour(shape)) {
    if (s.kind === 'line') {
      points.push({ x: s.a.x, y: s.a.y });
      continue;
    }
    const n = Math.max(1, Math.ceil(Math.abs(s.sweep) / (2 * Math.acos(1 - Math.min(1, chord / s.radius)))));
    for (let i = 0; i < n; i++) {
      const at = s.start + (s.sweep * i) / n;
      points.push({ x: s.center.x + s.radius * Math.cos(at), y: s.center.y + s.radius * Math.sin(at) });
    }
  }
  return points;
}

/** Area of a part's material by the polygon library: outer less inner. */
export const areaOf = (paths: PathsD): number => Math.abs(areaPathsD(unionD(paths, [], FillRule.NonZero, 6)));

/** A small seeded generator (mulberry32), so that a failing case can be made again. */
export function seeded(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Open arc from angle `a` to `b` (deg), counter-clockwise when b > a. Less than a full turn. */
export const arcPath = (layer: Layer, from: string, center: FlatPoint, radius: number, a: number, b: number): Path => ({
  kind: 'path',
  layer,
  from,
  start: polar(center, radius, a),
  segs: [{ kind: 'arc', to: polar(center, radius, b), center, ccw: b > a }],
  closed: false,
});
