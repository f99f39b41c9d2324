import { type Span, spansOf } from '../drawing/spans.ts';
import { type Drawing, LAYERS, type Layer, type Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import { toDeg } from '../units/scalar.ts';
import { LAYER_STYLES } from './layers.ts';
import { written } from './number.ts';

/** A nanometre: ends that were one point before rounding are one point after. */
const DIGITS = 6;
const ANGLE_DIGITS = 9;

/**
 * The oldest DXF every reader takes (AC1009): header, layer table, and LINE, ARC and CIRCLE entities, nothing else. The unit
 * variables are younger than this version; readers that do not know them pass over them.
 */
export function toPlainDxf(drawing: Drawing): string {
  const tags: (string | number)[] = [];
  const put = (...pairs: (string | number)[]): void => {
    tags.push(...pairs);
  };
  put(0, 'SECTION', 2, 'HEADER', 9, '$ACADVER', 1, 'AC1009', 9, '$INSUNITS', 70, 4, 9, '$MEASUREMENT', 70, 1);
  put(9, '$EXTMIN', ...corner(drawing.min), 9, '$EXTMAX', ...corner(drawing.max), 0, 'ENDSEC');
  put(0, 'SECTION', 2, 'TABLES', 0, 'TABLE', 2, 'LTYPE', 70, 1);
  put(0, 'LTYPE', 2, 'CONTINUOUS', 70, 0, 3, 'Solid line', 72, 65, 73, 0, 40, 0, 0, 'ENDTAB');
  put(0, 'TABLE', 2, 'LAYER', 70, LAYERS.length + 1, ...layerTags('0', 7));
  for (const layer of LAYERS) put(...layerTags(layer, LAYER_STYLES[layer].index));
  put(0, 'ENDTAB', 0, 'ENDSEC', 0, 'SECTION', 2, 'BLOCKS', 0, 'ENDSEC', 0, 'SECTION', 2, 'ENTITIES');
  const lines = [tags.join('\n')];
  for (const layer of LAYERS) {
    for (const shape of drawing.shapes) if (shape.layer === layer) addEntities(lines, shape, layer);
  }
  lines.push('0\nENDSEC\n0\nEOF', '');
  return lines.join('\n');
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

const at = (p: FlatPoint): string => `10\n${n(p.x)}\n20\n${n(p.y)}\n30\n0`;

function addEntities(lines: string[], shape: Shape, layer: Layer): void {
  if (shape.kind === 'circle') {
    lines.push(`0\nCIRCLE\n8\n${layer}\n${at(shape.center)}\n40\n${n(shape.radius)}`);
    return;
  }
  for (const s of spansOf(shape)) lines.push(entity(s, layer));
}

function entity(s: Span, layer: Layer): string {
  if (s.kind === 'line') return `0\nLINE\n8\n${layer}\n${at(s.a)}\n11\n${n(s.b.x)}\n21\n${n(s.b.y)}\n31\n0`;
  const from = s.sweep > 0 ? s.start : s.start + s.sweep;
  const angle = (rad: number): string => written(((toDeg(rad) % 360) + 360) % 360, ANGLE_DIGITS);
  const angles = `50\n${angle(from)}\n51\n${angle(from + Math.abs(s.sweep))}`;
  return `0\nARC\n8\n${layer}\n${at(s.center)}\n40\n${n(s.radius)}\n${angles}`;
}
