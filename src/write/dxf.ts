import DxfDrawing from 'dxf-writer';
import Handle from 'dxf-writer/src/Handle.js';
import { type Span, spansOf } from '../drawing/spans.ts';
import { type Drawing, LAYERS, type Path, type Shape } from '../model/drawing.ts';
import type { LineStyles } from '../model/sheet.ts';
import { toDeg } from '../units/scalar.ts';
import { toPlainDxf } from './dxf-plain.ts';
import { styleOf } from './layers.ts';
import { written } from './number.ts';

/** A nanometre, so that contours stay closed to 1e-6 mm after reading back. */
const DIGITS = 6;
/** Bulges are ratios: on a 1 m chord twelve digits keep the arc to a nanometre. */
const BULGE_DIGITS = 12;

export interface DxfOptions {
  /** `polylines` (AC1021) joins a contour into one entity; `plain` (AC1009) is loose lines, arcs and circles for old machines. */
  readonly flavour?: 'polylines' | 'plain';
  readonly lines?: LineStyles;
}

/**
 * A drawing as DXF in millimetres ($INSUNITS 4): LINE, ARC, CIRCLE and LWPOLYLINE only, a layer for each purpose, in the
 * order of the cut. The same drawing gives the same bytes. Throws RangeError for a coordinate that cannot be written.
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
    for (const shape of drawing.shapes) if (shape.layer === layer) draw(out, shape);
  }
  return `${out.toDxfString()}\n`;
}

/** The library writes what it is given; given text, it cannot fall back on exponents or seventeen digits. */
const n = (value: number, digits = DIGITS): number => written(value, digits) as unknown as number;

const corner = (p: { x: number; y: number }): [number, number][] => [
  [10, n(p.x)],
  [20, n(p.y)],
  [30, 0],
];

function draw(out: DxfDrawing, shape: Shape): void {
  if (shape.kind === 'circle') {
    out.drawCircle(n(shape.center.x), n(shape.center.y), n(shape.radius));
    return;
  }
  const spans = spansOf(shape);
  const only = spans.length === 1 && !shape.closed ? spans[0] : undefined;
  if (only?.kind === 'line') out.drawLine(n(only.a.x), n(only.a.y), n(only.b.x), n(only.b.y));
  else if (only?.kind === 'arc') drawArc(out, only);
  else out.drawPolyline(vertices(shape, spans) as never, shape.closed);
}

function drawArc(out: DxfDrawing, s: Extract<Span, { kind: 'arc' }>): void {
  // An ARC runs counter-clockwise from its first to its second angle.
  const from = s.sweep > 0 ? s.start : s.start + s.sweep;
  out.drawArc(n(s.center.x), n(s.center.y), n(s.radius), turn(from), turn(from + Math.abs(s.sweep)));
}

const turn = (rad: number): number => n(((toDeg(rad) % 360) + 360) % 360, 9);

function vertices(path: Path, spans: readonly Span[]): number[][] {
  const points = spans.map((s) => {
    const at = [n(s.a.x), n(s.a.y)];
    return s.kind === 'line' ? at : [...at, n(Math.tan(s.sweep / 4), BULGE_DIGITS)];
  });
  const last = spans.at(-1);
  return path.closed || last === undefined ? points : [...points, [n(last.b.x), n(last.b.y)]];
}
