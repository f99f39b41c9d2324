import DxfDrawing from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import { type ArcSpan, type Span, spansOf } from '../drawing/spans.ts';
import { type Drawing, LAYERS, type Layer, type Path, type Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { LineStyles } from '../model/sheet.ts';
import { toDeg } from '../units/scalar.ts';
import { toPlainDxf } from './dxf-plain.ts';
import { styleOf } from './layers.ts';
import { written } from './number.ts';

/** A nanometre, so that contours stay closed to 1e-6 mm after reading back. */
const DIGITS = 6;
/** Bulges are ratios: on a 1 m chord twelve digits keep the arc to a nanometre. */
const BULGE_DIGITS = 12;

/** Which DXF, and a service's own colours. */
export interface DxfOptions {
  /** `polylines` (AC1021) joins a contour into one entity; `plain` (AC1009) is loose lines, arcs and circles for old machines. */
  readonly flavour?: 'polylines' | 'plain' | undefined;
  readonly lines?: LineStyles | undefined;
}

/**
 * A drawing as DXF in millimetres ($INSUNITS 4): LINE, ARC, CIRCLE and LWPOLYLINE only, a layer for each purpose, in
 * the order of the cut. The same drawing gives the same bytes.
 * @param drawing shapes in mm, y up
 * @param options flavour and line styles
 * @returns the file's text
 * @throws RangeError for a coordinate that is not finite or over 100 m away
 * @source DXF Reference (AC1021; AC1009 for `plain`)
 */
export function toDxf(drawing: Drawing, options: DxfOptions = {}): string {
  if (options.flavour === 'plain') return toPlainDxf(drawing);
  // Handles count up over the life of the process; from zero, a drawing does not depend on those before it.
  Handle.seed = 0;
  const out = new DxfDrawing();
  out.setUnits('Millimeters');
  out.header('MEASUREMENT', [[70, 1]]);
  out.header('EXTMIN', corner(drawing.min));
  out.header('EXTMAX', corner(drawing.max));
  for (const layer of LAYERS) {
    const { colour } = styleOf(layer, options.lines);
    out.addLayer(layer, DxfDrawing.ACI.WHITE, 'CONTINUOUS');
    out.setActiveLayer(layer);
    out.layers[layer]?.setTrueColor(Number.parseInt(colour.slice(1), 16));
    const shapes = drawing.shapes.filter((s) => s.layer === layer);
    if (shapes.length > 0) out.activeLayer?.addShape(entities(layer, shapes) as never);
  }
  return `${out.toDxfString()}\n`;
}

/** The library writes what it is given; given text, it cannot fall back on exponents or seventeen digits. */
const n = (value: number, digits = DIGITS): string => written(value, digits);

const corner = (p: FlatPoint): [number, number][] => [
  [10, n(p.x) as never],
  [20, n(p.y) as never],
  [30, 0],
];

/** What the library asks of an entity: it sets the owner, then calls `tags`. */
interface Entities {
  ownerObjectHandle: string;
  readonly tags: (manager: { push(code: number, value: string): void }) => void;
}

/**
 * All entities of a layer, handed over as one run of tags. The library frames the file (versions, tables, owners, objects) and
 * would take a call for every tag of every entity, four times the time of the rest of the file.
 */
function entities(layer: Layer, shapes: readonly Shape[]): Entities {
  const handles = shapes.map(() => (++Handle.seed).toString(16).toUpperCase());
  return {
    ownerObjectHandle: '0',
    tags(manager) {
      const owner = this.ownerObjectHandle;
      const head = (type: string, i: number): string =>
        `${type}\n5\n${handles[i]}\n330\n${owner}\n100\nAcDbEntity\n8\n${layer}\n100\n`;
      manager.push(0, shapes.map((s, i) => entity(s, (type) => head(type, i))).join('\n0\n'));
    },
  };
}

const point = (code: 10 | 11, p: FlatPoint): string => `${code}\n${n(p.x)}\n${code + 10}\n${n(p.y)}\n${code + 20}\n0`;

/** Tags of one entity after its leading 0; subclass markers and order as the format's reference gives them. */
function entity(shape: Shape, head: (type: string) => string): string {
  if (shape.kind === 'circle') return `${head('CIRCLE')}AcDbCircle\n${point(10, shape.center)}\n40\n${n(shape.radius)}`;
  const spans = spansOf(shape);
  const only = spans.length === 1 && !shape.closed ? spans[0] : undefined;
  if (only?.kind === 'line') return `${head('LINE')}AcDbLine\n${point(10, only.a)}\n${point(11, only.b)}`;
  if (only?.kind === 'arc') return arc(only, head('ARC'));
  const corners = vertices(shape, spans);
  return `${head('LWPOLYLINE')}AcDbPolyline\n90\n${corners.length}\n70\n${shape.closed ? 1 : 0}\n${corners.join('\n')}`;
}

function arc(s: ArcSpan, head: string): string {
  // An ARC runs counter-clockwise from its first to its second angle.
  const from = s.sweep > 0 ? s.start : s.start + s.sweep;
  const angles = `100\nAcDbArc\n50\n${turn(from)}\n51\n${turn(from + Math.abs(s.sweep))}`;
  return `${head}AcDbCircle\n${point(10, s.center)}\n40\n${n(s.radius)}\n${angles}`;
}

const turn = (rad: number): string => n(((toDeg(rad) % 360) + 360) % 360, 9);

/** A vertex a span, with the bulge of the span that begins there; an open path has one vertex more. */
function vertices(path: Path, spans: readonly Span[]): string[] {
  const at = (p: FlatPoint): string => `10\n${n(p.x)}\n20\n${n(p.y)}`;
  const points = spans.map((s) =>
    s.kind === 'line' ? at(s.a) : `${at(s.a)}\n42\n${n(Math.tan(s.sweep / 4), BULGE_DIGITS)}`,
  );
  const last = spans.at(-1);
  return path.closed || last === undefined ? points : [...points, at(last.b)];
}
