import { Helper } from 'dxf';
import type { IArcEntity, ICircleEntity, IEntity, ILineEntity, ILwpolylineEntity } from 'dxf-parser';
import fc from 'fast-check';
import { shapeBox, spansOf } from '../../src/drawing/spans.ts';
import { type Drawing, LAYERS, type Path, type Seg, type Shape } from '../../src/model/drawing.ts';
import type { FlatPoint } from '../../src/model/frames.ts';
import { toDxf } from '../../src/write/dxf.ts';
import { readDxf } from '../helpers/read-dxf.ts';
import type { Fuzzed } from './suite.ts';

/** Drawn on a grid of a hundredth, written to a millionth: what is read back may be half a millionth off, and a bulge more. */
const CLOSE = 2e-5;

const hundredth = fc.integer({ min: -200_000, max: 200_000 }).map((n) => n / 100);
const point = fc.record({ x: hundredth, y: hundredth });
const layer = fc.constantFrom(...LAYERS);
/** Names go into comments, ids and lettering; none may reach the file as code. */
const name = fc.constantFrom('hole', '0\nEOF', '  0\nSECTION', '\u202e', '', 'größe ☃', '%%d', 'a,b;c"', '999');

const circle = fc.record({
  kind: fc.constant('circle' as const),
  layer,
  center: point,
  radius: fc.integer({ min: 1, max: 50_000 }).map((n) => n / 100),
  id: name,
  from: name,
});

interface Turn {
  readonly to: FlatPoint;
  /** 0 for a line; else how far the arc bulges, as tan of a quarter of its sweep. */
  readonly bulge: number;
}
const turn: fc.Arbitrary<Turn> = fc.record({
  to: point,
  // Flatter arcs have their centre farther away than the writer goes.
  bulge: fc
    .oneof(fc.constant(0), fc.integer({ min: 5, max: 300 }), fc.integer({ min: -300, max: -5 }))
    .map((hundredths) => hundredths / 100),
});
const path: fc.Arbitrary<Path> = fc
  .record({
    layer,
    start: point,
    turns: fc.array(turn, { minLength: 1, maxLength: 8 }),
    closed: fc.boolean(),
    from: name,
  })
  .map(({ layer: on, start, turns, closed, from }) => {
    const wanted = closed ? [...turns, { to: start, bulge: turns[0]!.bulge }] : turns;
    const segs: Seg[] = [];
    let a = start;
    for (const t of wanted) {
      if (Math.hypot(t.to.x - a.x, t.to.y - a.y) < 0.01) continue;
      segs.push(segOf(a, t));
      a = t.to;
    }
    const isClosed = closed && segs.length > 1;
    return { kind: 'path' as const, layer: on, start, segs, closed: isClosed, from };
  })
  .filter((p) => p.segs.length > 0);

function segOf(a: FlatPoint, { to, bulge }: Turn): Seg {
  if (bulge === 0) return { kind: 'line', to };
  // The centre lies off the chord's middle by (1 - b^2) / 4b of the chord (textbook: b = tan of a quarter of the sweep).
  const off = (1 - bulge * bulge) / (4 * bulge);
  const center = { x: (a.x + to.x) / 2 - off * (to.y - a.y), y: (a.y + to.y) / 2 + off * (to.x - a.x) };
  return { kind: 'arc', to, center, ccw: bulge > 0 };
}

const drawing: fc.Arbitrary<Drawing> = fc
  .record({ title: name, shapes: fc.array(fc.oneof(circle, path) as fc.Arbitrary<Shape>, { maxLength: 12 }) })
  .map(({ title, shapes }) => ({ title, min: { x: -5000, y: -5000 }, max: { x: 5000, y: 5000 }, shapes }));

/** Drawings as DXF: two readers that are not ours find the same shapes, layers, places, sizes and closings. */
export const drawings: Fuzzed<Drawing> = {
  name: 'drawings',
  short: 40,
  inputs: drawing,
  holds(d) {
    const ordered = LAYERS.flatMap((l) => d.shapes.filter((s) => s.layer === l));
    const text = toDxf(d);
    if (toDxf(d) !== text) throw new Error('the same drawing gave other bytes');
    const found = readDxf(text).entities;
    equal(found.length, ordered.length, 'entities');
    for (const [i, shape] of ordered.entries()) same(shape, found[i]!);

    const plain = toDxf(d, { flavour: 'plain' });
    const loose = readDxf(plain).entities;
    const pieces = ordered.flatMap((s): readonly Shape[] => (s.kind === 'circle' ? [s] : onePath(s)));
    equal(loose.length, pieces.length, 'plain entities');
    for (const [i, piece] of pieces.entries()) same(piece, loose[i]!);

    if (ordered.length === 0) return;
    for (const file of [text, plain]) {
      const other = new Helper(file);
      equal(
        other.parsed.entities.length,
        file === text ? ordered.length : pieces.length,
        'entities of the second reader',
      );
      const { bbox } = other.toPolylines();
      const boxes = ordered.map(shapeBox);
      // That reader draws curves as chords of five degrees, so its box lies inside by up to r (1 - cos 2.5 deg).
      const radii = pieces.map((p) => (p.kind === 'circle' ? p.radius : radiusOf(p)));
      const slack = CLOSE + (1 - Math.cos((2.5 * Math.PI) / 180)) * Math.max(...radii);
      near(bbox.min.x, Math.min(...boxes.map((b) => b.min.x)), 'left', slack);
      near(bbox.min.y, Math.min(...boxes.map((b) => b.min.y)), 'bottom', slack);
      near(bbox.max.x, Math.max(...boxes.map((b) => b.max.x)), 'right', slack);
      near(bbox.max.y, Math.max(...boxes.map((b) => b.max.y)), 'top', slack);
    }
  },
};

/** A path's pieces as paths of their own. */
const onePath = (p: Path): Path[] =>
  p.segs.map((seg, i) => ({ ...p, start: p.segs[i - 1]?.to ?? p.start, segs: [seg], closed: false }));

function radiusOf(p: Path): number {
  const [span] = spansOf(p);
  return span?.kind === 'arc' ? span.radius : 0;
}

function same(shape: Shape, e: IEntity): void {
  if (e.layer !== shape.layer) throw new Error(`on ${e.layer}, not ${shape.layer}`);
  if (shape.kind === 'circle') {
    const c = e as ICircleEntity;
    equal(e.type, 'CIRCLE', 'type');
    meet(c.center, shape.center, 'centre');
    near(c.radius, shape.radius, 'radius');
    return;
  }
  const spans = spansOf(shape);
  const first = spans[0]!;
  if (spans.length === 1 && first.kind === 'line') {
    const { vertices } = e as ILineEntity;
    equal(e.type, 'LINE', 'type');
    meet(vertices[0]!, first.a, 'start');
    meet(vertices[1]!, first.b, 'end');
    return;
  }
  if (spans.length === 1 && first.kind === 'arc' && e.type === 'ARC') {
    const a = e as IArcEntity;
    const [from, to] = first.sweep > 0 ? [first.a, first.b] : [first.b, first.a];
    // Angles have nine decimals of a degree: at a radius of a kilometre two hundredths of a micrometre.
    for (const [angle, p] of [[a.startAngle, from] as const, [a.endAngle, to] as const])
      meet({ x: a.center.x + a.radius * Math.cos(angle), y: a.center.y + a.radius * Math.sin(angle) }, p, 'arc end');
    return;
  }
  const p = e as ILwpolylineEntity;
  equal(e.type, 'LWPOLYLINE', 'type');
  equal(p.shape, shape.closed, 'closed');
  equal(p.vertices.length, spans.length + (shape.closed ? 0 : 1), 'vertices');
  for (const [i, span] of spans.entries()) {
    meet(p.vertices[i]!, span.a, `vertex ${i}`);
    near(p.vertices[i]!.bulge ?? 0, span.kind === 'line' ? 0 : Math.tan(span.sweep / 4), `bulge ${i}`, 1e-6);
  }
}

function equal(found: unknown, wanted: unknown, what: string): void {
  if (found !== wanted) throw new Error(`${what}: ${String(found)}, not ${String(wanted)}`);
}
function near(found: number, wanted: number, what: string, by = CLOSE): void {
  if (!(Math.abs(found - wanted) <= by)) throw new Error(`${what}: ${found}, not ${wanted}`);
}
function meet(found: { x: number; y: number }, wanted: FlatPoint, what: string): void {
  near(found.x, wanted.x, `${what} x`);
  near(found.y, wanted.y, `${what} y`);
}
