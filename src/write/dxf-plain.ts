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
  for (const layer of LAYERS) {
    for (const shape of drawing.shapes) if (shape.layer === layer) put(...entities(shape, layer));
  }
  put(0, 'ENDSEC', 0, 'EOF');
  return `${tags.join('\n')}\n`;
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

function entities(shape: Shape, layer: Layer): (string | number)[] {
  if (shape.kind === 'circle') return [0, 'CIRCLE', 8, layer, ...corner(shape.center), 40, n(shape.radius)];
  return spansOf(shape).flatMap((s) => entity(s, layer));
}

function entity(s: Span, layer: Layer): (string | number)[] {
  if (s.kind === 'line') return [0, 'LINE', 8, layer, ...corner(s.a), 11, n(s.b.x), 21, n(s.b.y), 31, 0];
  const from = s.sweep > 0 ? s.start : s.start + s.sweep;
  const angle = (rad: number): string => written(((toDeg(rad) % 360) + 360) % 360, ANGLE_DIGITS);
  return [
    0,
    'ARC',
    8,
    layer,
    ...corner(s.center),
    40,
    n(s.radius),
    50,
    angle(from),
    51,
    angle(from + Math.abs(s.sweep)),
  ];
}
