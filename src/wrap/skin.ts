import { chain, circle, polygon, roundedRectangle } from '../drawing/paths.ts';
import { shapeBox } from '../drawing/spans.ts';
import { acrossAngle, flatRadius, unroll } from '../geometry/frames.ts';
import type { Path, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Foot } from '../model/jig.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';

/** The shell's skin laid flat for a sheet that keeps its length at R + k t. */
export interface Skin {
  readonly layout: Layout;
  /** R + k t. */
  readonly flat: Mm;
  /** Length of one full turn, 2 pi (R + k t). */
  readonly turn: Mm;
}

export function skinOf(layout: Layout, thickness: Mm, neutral: number): Skin {
  const flat = flatRadius(layout.radius, thickness, neutral);
  return { layout, flat, turn: 2 * Math.PI * flat };
}

/** Flat place of an angle, in the turn that begins at flat place `start`. */
export function placeOf(skin: Skin, angle: Deg, start: Mm): Mm {
  const x = unroll({ angle: wrapDeg(angle), height: 0 }, skin.flat).x;
  const turns = Math.floor((x - start) / skin.turn);
  return x - turns * skin.turn;
}

/** Flat length of an offset straight across the hardware: it lies at asin(x / R). Held at the quarter turn. */
export const acrossFlat = (skin: Skin, across: Mm): Mm => {
  const r = skin.layout.radius;
  return unroll({ angle: acrossAngle(Math.max(-r, Math.min(r, across)), r), height: 0 }, skin.flat).x;
};

/** Straight pieces in an oval outline: 64 stay within 0.05 mm of a 40 mm foot, a score line's own width. */
const OVAL = 64;

/** Outline of a foot whose origin lies at `at`, as it shows on the flat skin. */
export function footShape(skin: Skin, foot: Foot, at: FlatPoint, from: string): Path {
  const flat = (across: Mm, upright: Mm): FlatPoint => ({ x: at.x + acrossFlat(skin, across), y: at.y + upright });
  if (foot.outline !== undefined && foot.outline.length > 2) {
    return polygon(
      'SCORE',
      from,
      foot.outline.map((p) => flat(p.across, p.upright)),
    );
  }
  if (foot.shape === 'ellipse') {
    const [cx, cy] = [(foot.right - foot.left) / 2, (foot.up - foot.down) / 2];
    const [rx, ry] = [(foot.right + foot.left) / 2, (foot.up + foot.down) / 2];
    const points = Array.from({ length: OVAL }, (_, i) => {
      const a = (2 * Math.PI * i) / OVAL;
      return flat(cx + rx * Math.cos(a), cy + ry * Math.sin(a));
    });
    return polygon('SCORE', from, points);
  }
  return roundedRectangle('SCORE', from, flat(-foot.left, -foot.down), flat(foot.right, foot.up), foot.corner);
}

/** A stretch of flat length that a joint should keep off. */
export interface Block {
  readonly from: Mm;
  readonly to: Mm;
  /** A hole must never be cut; an outline or a line only when there is no other way. */
  readonly hard: boolean;
  readonly what: string;
}

/** What lies where along the turn (x, 0 at the strainer line, may pass one turn). */
export function blocksAround(skin: Skin, holeAcross: (drill: Mm) => Mm): Block[] {
  const blocks: Block[] = [{ from: 0, to: 0, hard: false, what: 'strainer line' }];
  for (const p of skin.layout.placed) {
    const x = placeOf(skin, p.angle, 0);
    blocks.push({ from: x, to: x, hard: false, what: p.id });
    if (p.foot !== undefined) {
      const box = shapeBox(footShape(skin, p.foot, { x, y: p.height }, p.id));
      blocks.push({ from: box.min.x, to: box.max.x, hard: false, what: p.id });
    }
    for (const h of p.holes) {
      const at = placeOf(skin, h.angle, 0);
      blocks.push({ from: at - holeAcross(h.drill) / 2, to: at + holeAcross(h.drill) / 2, hard: true, what: h.id });
    }
  }
  return blocks;
}

/** What lies where up the shell. */
export function blocksUp(layout: Layout, holeAcross: (drill: Mm) => Mm): Block[] {
  const feet = layout.placed.flatMap((p: Placed) =>
    p.foot === undefined ? [] : [{ from: p.height - p.foot.down, to: p.height + p.foot.up, hard: false, what: p.id }],
  );
  const holes = layout.holes.map((h) => ({
    from: h.height - holeAcross(h.drill) / 2,
    to: h.height + holeAcross(h.drill) / 2,
    hard: true,
    what: h.id,
  }));
  return [...feet, ...holes];
}

/** A hole of the shell that is there already: a cross, never a circle, so that nobody drills it. */
export function oldHole(at: FlatPoint, diameter: Mm): Shape[] {
  const r = diameter / 2;
  return [
    chain('SCORE', 'old hole', [
      { x: at.x - r, y: at.y - r },
      { x: at.x + r, y: at.y + r },
    ]),
    chain('SCORE', 'old hole', [
      { x: at.x - r, y: at.y + r },
      { x: at.x + r, y: at.y - r },
    ]),
  ];
}

/** Hole mark circle. */
export const holeCircle = (layer: 'CUT-INNER' | 'SCORE', at: FlatPoint, diameter: Mm, id: string): Shape =>
  circle(layer, id, at, diameter / 2, id);
