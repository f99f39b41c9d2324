import { type Span, spansOf } from '../drawing/spans.ts';
import { type Drawing, LAYERS, type Layer, type Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import { toDeg, wrapDeg } from '../units/scalar.ts';
import { DIGITS, putPoint } from './dxf-point.ts';
import { type Ink, newInk, put, textOf } from './ink.ts';
import { LAYER_STYLES } from './layers.ts';
import { written } from './number.ts';

const ANGLE_DIGITS = 9;

/**
 * The oldest DXF every reader takes (AC1009): header, layer table, and LINE, ARC and CIRCLE entities, nothing else. The unit
 * variables are younger than this version; readers that do not know them pass over them.
 */
export function toPlainDxf(drawing: Drawing): string {
  const tags: (string | number)[] = [];
  const tag = (...pairs: (string | number)[]): void => {
    tags.push(...pairs);
  };
  tag(0, 'SECTION', 2, 'HEADER', 9, '$ACADVER', 1, 'AC1009', 9, '$INSUNITS', 70, 4, 9, '$MEASUREMENT', 70, 1);
  tag(9, '$EXTMIN', ...corner(drawing.min), 9, '$EXTMAX', ...corner(drawing.max), 0, 'ENDSEC');
  tag(0, 'SECTION', 2, 'TABLES', 0, 'TABLE', 2, 'LTYPE', 70, 1);
  tag(0, 'LTYPE', 2, 'CONTINUOUS', 70, 0, 3, 'Solid line', 72, 65, 73, 0, 40, 0, 0, 'ENDTAB');
  tag(0, 'TABLE', 2, 'LAYER', 70, LAYERS.length + 1, ...layerTags('0', 7));
  for (const layer of LAYERS) tag(...layerTags(layer, LAYER_STYLES[layer].index));
  tag(0, 'ENDTAB', 0, 'ENDSEC', 0, 'SECTION', 2, 'BLOCKS', 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES');
  const ink = newInk();
  put(ink, tags.join('\n'));
  for (const layer of LAYERS) {
    for (const shape of drawing.shapes) if (shape.layer === layer) putEntities(ink, shape, layer);
  }
  put(ink, '\n0\nENDSEC\n0\nEOF\n');
  return textOf(ink);
}

const n = (value: number): string => written(value, DIGITS);

const corner = (p: FlatPoint): (string | number)[] => [10, n(p.x), 20, n(p.y), 30, 0];

const layerTags = (name: string, colour: number): (string | number)[] => [
  0,
  'LAYER',
  2,
  name,
  70,
  0,
  62,
  colour,
  6,
  'CONTINUOUS',
];

function putEntities(ink: Ink, shape: Shape, layer: Layer): void {
  if (shape.kind === 'path') {
    for (const s of spansOf(shape)) putSpan(ink, s, layer);
    return;
  }
  put(ink, `\n0\nCIRCLE\n8\n${layer}`);
  putPoint(ink, 10, shape.center);
  put(ink, `\n40\n${n(shape.radius)}`);
}

function putSpan(ink: Ink, s: Span, layer: Layer): void {
  if (s.kind === 'line') {
    put(ink, `\n0\nLINE\n8\n${layer}`);
    putPoint(ink, 10, s.a);
    putPoint(ink, 11, s.b);
    return;
  }
  const from = s.sweep > 0 ? s.start : s.start + s.sweep;
  const angle = (rad: number): string => written(wrapDeg(toDeg(rad)), ANGLE_DIGITS);
  put(ink, `\n0\nARC\n8\n${layer}`);
  putPoint(ink, 10, s.center);
  put(ink, `\n40\n${n(s.radius)}\n50\n${angle(from)}\n51\n${angle(from + Math.abs(s.sweep))}`);
}
