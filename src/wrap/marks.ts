import { clipped } from '../drawing/clip.ts';
import { chain, moveShape, segment } from '../drawing/paths.ts';
import type { Box } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Jig, MarkStyle } from '../model/jig.ts';
import type { Hole } from '../model/layout.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { acrossFlat, footShape, holeCircle, oldHole, placeOf, type Skin } from './skin.ts';

/** Diameter of a centre-punch hole: it takes a punch or a brad's point (common practice, no source). */
const PUNCH: Mm = 1.5;
/** How far the arms of a crosshair stand out beyond the drill's ring. */
const ARM: Mm = 3;

export interface PlacedMark {
  readonly hole: Hole;
  /** Its number on the template, from 1 in the layout's order. */
  readonly number: number;
  readonly at: FlatPoint;
  /** Circle with the hole's id: cut out, or the drill's ring. */
  readonly circle: Shape;
  readonly extra: readonly Shape[];
}

/** Circle (and crosshair) of every hole, each exactly once, in the turn from `start`. */
export function holeMarks(skin: Skin, start: Mm, style: MarkStyle): PlacedMark[] {
  return skin.layout.holes.map((hole, i) => {
    const at = { x: placeOf(skin, hole.angle, start), y: hole.height };
    return { hole, number: i + 1, at, ...drawnAs(style, hole, at) };
  });
}

function drawnAs(style: MarkStyle, hole: Hole, at: FlatPoint): Pick<PlacedMark, 'circle' | 'extra'> {
  if (style === 'guide') return { circle: holeCircle('CUT-INNER', at, hole.drill, hole.id), extra: [] };
  if (style === 'punch') return { circle: holeCircle('CUT-INNER', at, PUNCH, hole.id), extra: [] };
  const arm = hole.drill / 2 + ARM;
  const cross = [
    segment('SCORE', hole.id, { x: at.x - arm, y: at.y }, { x: at.x + arm, y: at.y }),
    segment('SCORE', hole.id, { x: at.x, y: at.y - arm }, { x: at.x, y: at.y + arm }),
  ];
  const pilot = hole.pilot !== undefined && hole.pilot < hole.drill ? hole.pilot : undefined;
  const ring =
    pilot === undefined
      ? []
      : [{ kind: 'circle', layer: 'SCORE', center: at, radius: pilot / 2, from: `${hole.id} pilot` } as const];
  return { circle: holeCircle('SCORE', at, hole.drill, hole.id), extra: [...cross, ...ring] };
}

/** Width that a hole's mark takes. */
export const markWidth =
  (style: MarkStyle) =>
  (drill: Mm): Mm =>
    style === 'guide' ? drill : style === 'punch' ? PUNCH : drill + 2 * ARM;

/** Outlines, bed marks and lines of the template, clipped to `sheet`. Lines last: where two run together the first stays. */
export function lines(jig: Jig, skin: Skin, sheet: Box): { readonly feet: Shape[]; readonly lines: Shape[] } {
  const start = sheet.min.x;
  const { depth } = skin.layout;
  const inSheet = (shape: Shape): Shape[] =>
    [-skin.turn, 0, skin.turn].flatMap((d) => clipped(d === 0 ? shape : moveShape(shape, d, 0), sheet));
  const feet = skin.layout.placed.flatMap((p) =>
    p.foot === undefined
      ? []
      : inSheet(footShape(skin, p.foot, { x: placeOf(skin, p.angle, start), y: p.height }, p.id)),
  );
  const old = jig.shell.holes.flatMap((h) =>
    oldHole({ x: placeOf(skin, h.angle, start), y: h.height }, h.diameter).flatMap(inSheet),
  );
  const beds = bedMarks(jig, skin, start).flatMap(inSheet);
  const upright = (angle: Deg, from: string): Shape => {
    const x = placeOf(skin, angle, start);
    return segment('SCORE', from, { x, y: 0 }, { x, y: depth });
  };
  const angles = [...new Set(skin.layout.placed.map((p) => p.angle))].filter((a) => a !== 0);
  const lugLines = angles.map((a) => upright(a, `line ${a}`));
  return { feet: [...feet, ...old, ...beds], lines: [upright(0, 'strainer line'), ...lugLines] };
}

/** Where the snare beds begin, end and reach to: on the strainer line and opposite, at the bottom edge. */
function bedMarks(jig: Jig, skin: Skin, start: Mm): Shape[] {
  const { beds } = jig;
  if (beds === undefined) return [];
  const half = acrossFlat(skin, beds.width / 2);
  return [0, 180].map((angle) => {
    const x = placeOf(skin, angle, start);
    return chain('SCORE', 'snare bed', [
      { x: x - half, y: 0 },
      { x: x - half, y: beds.depth },
      { x: x + half, y: beds.depth },
      { x: x + half, y: 0 },
    ]);
  });
}
