import type { Mm } from '../units/scalar.ts';
import { inUnits, type Units } from './length.ts';
import { el, label, line, n, picture, spread, wordWidth } from './svg.ts';

/**
 * The shell's wall cut through a lug, to scale: wall, rim, the hoop coming down over it, the lug's body and the line of
 * the rod. Height is measured down from the bearing edge; outwards is to the right. mm.
 */
export interface SideView {
  readonly name: string;
  readonly wall: Mm;
  readonly distance: Mm;
  readonly foot: { readonly up: Mm; readonly down: Mm; readonly gasket: Mm };
  /** Pattern origin to the lug's face. */
  readonly face: Mm;
  /** Foot face to rod centre. */
  readonly standoff: Mm;
  /** Radius of the hoop's rod holes minus the shell's radius, when measured. */
  readonly earOut?: Mm;
  /** Rod seat above the bearing edge. */
  readonly ear: Mm;
  readonly skirt?: Mm;
  readonly travel: Mm;
  readonly units: Units;
  /** Heights of the holes, down from the bearing edge, with their bits. */
  readonly holes: readonly { readonly down: Mm; readonly drill: Mm }[];
}

export function sidePicture(v: SideView): string {
  const low = v.distance + v.foot.down + 10;
  const high = -v.ear - 12;
  const size = (low - high) * 0.04;
  const rodX = v.foot.gasket + v.standoff;
  const earX = v.earOut ?? rodX;
  const far = Math.max(rodX, earX) + 8;
  const textX = far + 3;
  const skirtEnd = v.skirt === undefined ? undefined : v.skirt + v.travel;
  const marks: readonly (readonly [Mm, Mm, string])[] = [
    [earX + 5, -v.ear, `rod's seat ${inUnits(v.ear, v.units)} above the edge`],
    [-v.wall / 2, 0, 'bearing edge'],
    ...(skirtEnd === undefined
      ? []
      : [[2.5, skirtEnd, `hoop's lowest at tension: ${inUnits(skirtEnd, v.units)} down`] as const]),
    [rodX, v.distance - v.face, `lug's face ${inUnits(v.distance - v.face, v.units)} down`],
    [0, v.distance, `middle of the holes ${inUnits(v.distance, v.units)} down`],
  ];
  const places = spread(
    marks.map(([, y]) => y),
    size * 1.35,
  );
  const body = [
    el('path', { class: 'cut', d: `M${n(-v.wall)} ${n(low)}V3L${n(-v.wall / 2)} 0L0 3V${n(low)}Z` }),
    ...v.holes.map((h) =>
      el('rect', { class: 'bore', x: -v.wall, y: h.down - h.drill / 2, width: v.wall, height: h.drill }),
    ),
    el('rect', {
      class: 'foot',
      x: 0,
      y: v.distance - v.foot.up,
      width: v.foot.gasket + 2,
      height: v.foot.up + v.foot.down,
    }),
    el('rect', {
      class: 'metal',
      x: v.foot.gasket,
      y: v.distance - v.face,
      width: v.standoff + 5,
      height: Math.max(4, v.face + v.foot.down * 0.6),
      rx: 1.5,
    }),
    line(-v.wall - 4, -0.6, 2, -0.6, 'head'),
    skirtEnd === undefined ? '' : el('rect', { class: 'metal', x: 1, y: -v.ear, width: 2, height: v.ear + skirtEnd }),
    el('rect', { class: 'metal', x: 1, y: -v.ear, width: earX + 4, height: 2.4 }),
    line(earX, -v.ear - 8, rodX, v.distance - v.face + 10, 'zero'),
    ...marks.map(([x, y, text], i) => {
      const at = places[i]!;
      return (
        el('path', { class: 'lead', d: `M${n(x)} ${n(y)}L${n(far)} ${n(y)}L${n(textX - 0.6)} ${n(at)}` }) +
        label(textX, at + size * 0.35, text, '', size)
      );
    }),
  ].join('');
  return picture(
    {
      x: -v.wall - 6,
      y: high,
      width:
        textX +
        v.wall +
        7 +
        wordWidth(
          marks.map(([, , text]) => text),
          size,
        ),
      height: low - high,
    },
    `Cut through the wall at ${v.name}, to scale`,
    'side',
    body,
  );
}
