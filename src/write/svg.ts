import { type ArcSpan, arcSpan, pointOn } from '../drawing/spans.ts';
import { type Circle, type Drawing, LAYERS, type Seg, type Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { LineStyles } from '../model/sheet.ts';
import { type Ink, newInk, put, putNumber, textOf } from './ink.ts';
import { styleOf } from './layers.ts';
import { written } from './number.ts';

/** A tenth of a micrometre. */
const DIGITS = 4;

/**
 * A drawing as SVG at its real size: width and height in mm and a viewBox of the same numbers, so that 1 user unit is 1
 * mm; no transforms, no fonts, no style sheets. One titled group for each purpose, in the order of the cut. A circle
 * that marks a hole has the hole's id. y runs down from `drawing.top`.
 * @param drawing shapes in mm, y up
 * @param options line styles
 * @returns the file's text
 * @throws RangeError for a coordinate that is not finite or over 100 m away
 * @source SVG 1.1, units and viewBox
 */
export function toSvg(drawing: Drawing, options: { readonly lines?: LineStyles | undefined } = {}): string {
  const top = drawing.top ?? drawing.max.y;
  const width = n(drawing.max.x - drawing.min.x);
  const height = n(drawing.max.y - drawing.min.y);
  const box = `${n(drawing.min.x)} ${n(top - drawing.max.y)} ${width} ${height}`;
  const ink = newInk();
  put(ink, '<?xml version="1.0" encoding="UTF-8"?>\n');
  put(ink, '<svg xmlns="http://www.w3.org/2000/svg" version="1.1" ');
  put(ink, `width="${width}mm" height="${height}mm" viewBox="${box}">\n`);
  put(ink, `<title>${escaped(drawing.title)}</title>\n<desc>Millimetres, 1:1. ${width} x ${height} mm.</desc>\n`);
  for (const layer of LAYERS) {
    const shapes = drawing.shapes.filter((s) => s.layer === layer);
    if (shapes.length === 0) continue;
    const { title, colour, weight } = styleOf(layer, options.lines);
    const line = `stroke="${colour}" stroke-width="${n(weight)}" stroke-linejoin="round"`;
    put(ink, `<g id="${layer}" fill="none" ${line}>\n<title>${escaped(title)}</title>\n`);
    for (const shape of shapes) putElement(ink, shape, top);
    put(ink, '</g>\n');
  }
  put(ink, '</svg>\n');
  return textOf(ink);
}

const n = (value: number): string => written(value, DIGITS);

function putPoint(ink: Ink, p: FlatPoint, top: number): void {
  putNumber(ink, p.x, DIGITS);
  put(ink, ' ');
  putNumber(ink, top - p.y, DIGITS);
}

function putElement(ink: Ink, shape: Shape, top: number): void {
  if (shape.kind === 'circle') {
    put(ink, `${circle(shape, top)}\n`);
    return;
  }
  put(ink, '<path d="M');
  putPoint(ink, shape.start, top);
  let a = shape.start;
  const last = shape.segs.length - 1;
  for (let i = 0; i <= last; i++) {
    const s = shape.segs[i] as Seg;
    if (s.kind === 'arc') putArcs(ink, arcSpan(a, s.to, s.center, s.ccw), top);
    // The line that closes a path need not be said.
    else if (!shape.closed || i < last) {
      put(ink, 'L');
      putPoint(ink, s.to, top);
    }
    a = s.to;
  }
  put(ink, shape.closed ? 'Z"/>\n' : '"/>\n');
}

function circle(shape: Circle, top: number): string {
  const id = shape.id === undefined ? '' : `id="${escaped(shape.id)}" `;
  const place = `cx="${n(shape.center.x)}" cy="${n(top - shape.center.y)}" r="${n(shape.radius)}"/>`;
  // The same hole under its other names: to be found, not drawn, lest it be cut twice.
  const also = (shape.also ?? []).map((other) => `<circle id="${escaped(other)}" ${place}`);
  return `<circle ${id}${place}${also.length > 0 ? `<defs>${also.join('')}</defs>` : ''}`;
}

/**
 * Near half a turn the format's end-point arcs are ill-conditioned: the last digit of an end moves the centre by the square
 * root of its size. In parts of at most a third of a turn it moves by no more than the digit.
 */
const WIDEST = (2 * Math.PI) / 3;

function putArcs(ink: Ink, s: ArcSpan, top: number): void {
  const parts = Math.ceil(Math.abs(s.sweep) / WIDEST);
  const radius = n(s.radius);
  // Counter-clockwise with y up is against the sweep flag, whose angles grow with y down.
  const sweep = s.sweep > 0 ? 0 : 1;
  for (let i = 1; i <= parts; i++) {
    put(ink, `A${radius} ${radius} 0 0 ${sweep} `);
    putPoint(ink, i === parts ? s.b : pointOn(s, i / parts), top);
  }
}

const MARKS: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text for XML; characters XML 1.0 cannot hold (controls, lone surrogates) become blanks. */
const escaped = (text: string): string =>
  text.replace(/[\p{Cc}\p{Cs}\ufffe\uffff]/gu, ' ').replace(/[&<>"]/g, (c) => MARKS[c] as string);
