import DxfDrawing from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import { type ArcSpan, type Span, spansOf } from '../drawing/spans.ts';
import { type Drawing, LAYERS, type Layer, type Path, type Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { LineStyles } from '../model/sheet.ts';
import { toDeg, wrapDeg } from '../units/scalar.ts';
import { toPlainDxf } from './dxf-plain.ts';
import { DIGITS, putFlat, putPoint } from './dxf-point.ts';
import { type Ink, newInk, put, textOf } from './ink.ts';
import { styleOf } from './layers.ts';
import { written } from './number.ts';

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
      const ink = newInk();
      const common = `\n330\n${this.ownerObjectHandle}\n100\nAcDbEntity\n8\n${layer}\n100\n`;
      for (const [i, shape] of shapes.entries()) {
        if (i > 0) put(ink, '\n0\n');
        putEntity(ink, shape, `\n5\n${handles[i]}${common}`);
      }
      manager.push(0, textOf(ink));
    },
  };
}

/** Tags of one entity after its leading 0; subclass markers and order as the format's reference gives them. */
function putEntity(ink: Ink, shape: Shape, head: string): void {
  if (shape.kind === 'circle') {
    put(ink, `CIRCLE${head}AcDbCircle`);
    putPoint(ink, 10, shape.center);
    put(ink, `\n40\n${n(shape.radius)}`);
    return;
  }
  const spans = spansOf(shape);
  const only = spans.length === 1 && !shape.closed ? spans[0] : undefined;
  if (only === undefined) putPolyline(ink, shape, spans, head);
  else if (only.kind === 'arc') putArc(ink, only, head);
  else {
    put(ink, `LINE${head}AcDbLine`);
    putPoint(ink, 10, only.a);
    putPoint(ink, 11, only.b);
  }
}

function putArc(ink: Ink, s: ArcSpan, head: string): void {
  // An ARC runs counter-clockwise from its first to its second angle.
  const from = s.sweep > 0 ? s.start : s.start + s.sweep;
  put(ink, `ARC${head}AcDbCircle`);
  putPoint(ink, 10, s.center);
  put(ink, `\n40\n${n(s.radius)}\n100\nAcDbArc\n50\n${turn(from)}\n51\n${turn(from + Math.abs(s.sweep))}`);
}

const turn = (rad: number): string => n(wrapDeg(toDeg(rad)), 9);

/** A vertex a span, with the bulge of the span that begins there; an open path has one vertex more. */
function putPolyline(ink: Ink, path: Path, spans: readonly Span[], head: string): void {
  const last = path.closed ? undefined : spans.at(-1);
  const corners = spans.length + (last === undefined ? 0 : 1);
  put(ink, `LWPOLYLINE${head}AcDbPolyline\n90\n${corners}\n70\n${path.closed ? 1 : 0}`);
  for (const s of spans) {
    putFlat(ink, 10, s.a);
    if (s.kind === 'arc') put(ink, `\n42\n${n(Math.tan(s.sweep / 4), BULGE_DIGITS)}`);
  }
  if (last !== undefined) putFlat(ink, 10, last.b);
}
