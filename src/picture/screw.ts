import type { Mm } from '../units/scalar.ts';
import { inUnits, type Units } from './length.ts';
import { el, label, line, picture, spread, wordWidth } from './svg.ts';

/** A screw from inside the shell into its casting, to scale; x grows outwards from under the screw's head. mm. */
export interface ScrewCard {
  readonly text: string;
  /** Under the head. */
  readonly length: Mm;
  readonly diameter: Mm;
  readonly drill: Mm;
  readonly washer: Mm;
  /** Outside diameter of the washer. */
  readonly washerOutside: Mm;
  readonly ring: Mm;
  readonly wall: Mm;
  readonly gasket: Mm;
  /** Depth of thread in the casting, when known. */
  readonly tapped?: Mm;
  readonly units: Units;
}

export function screwCard(s: ScrewCard): string {
  const grip = s.washer + s.ring + s.wall + s.gasket;
  const tip = s.length;
  const deep = grip + Math.max(s.tapped ?? 0, tip - grip, 6) + 4;
  const half = Math.max(s.washerOutside, s.drill, 4 * s.diameter) / 2 + 4;
  const size = Math.max(1.6, deep / 18);
  const r = s.diameter / 2;
  const held = tip - grip;
  const layer = (cls: string, from: Mm, width: Mm): string =>
    width <= 0 ? '' : el('rect', { class: cls, x: from, y: -half, width, height: 2 * half });
  const body = [
    layer('ring', s.washer, s.ring),
    layer('cut', s.washer + s.ring, s.wall),
    layer('foot', s.washer + s.ring + s.wall, s.gasket),
    layer('metal', grip, deep - grip),
    el('rect', { class: 'bore', x: s.washer, y: -s.drill / 2, width: grip - s.washer, height: s.drill }),
    s.tapped === undefined
      ? ''
      : el('rect', { class: 'bore', x: grip, y: -r - 0.2, width: s.tapped, height: 2 * r + 0.4 }),
    s.washer > 0
      ? el('rect', { class: 'rod', x: 0, y: -s.washerOutside / 2, width: s.washer, height: s.washerOutside })
      : '',
    el('rect', {
      class: 'rod',
      x: -s.diameter * 0.7,
      y: -s.diameter,
      width: s.diameter * 0.7,
      height: 2 * s.diameter,
      rx: 0.4,
    }),
    el('rect', {
      class: 'rod',
      x: 0,
      y: -r,
      width: Math.min(tip, s.tapped === undefined ? tip : grip + s.tapped),
      height: 2 * r,
    }),
    s.tapped !== undefined && held > s.tapped
      ? el('rect', { class: 'bad', x: grip + s.tapped, y: -r, width: held - s.tapped, height: 2 * r })
      : '',
    s.tapped === undefined ? '' : line(grip + s.tapped, -half, grip + s.tapped, half, 'limit'),
  ].join('');
  const marks = [
    `${s.text}: ${inUnits(s.length, s.units)} under the head`,
    `passes ${inUnits(grip, s.units)} of washer, ${s.ring > 0 ? 'ring, ' : ''}wall${s.gasket > 0 ? ', gasket' : ''}`,
    `${inUnits(Math.max(0, held), s.units)} in the casting${s.tapped === undefined ? '' : `, threaded ${inUnits(s.tapped, s.units)} deep`}`,
    `hole ${inUnits(s.drill, s.units)} for a screw of ${inUnits(s.diameter, s.units)}`,
  ];
  const places = spread(
    marks.map((_, i) => (i - 1.5) * size * 1.5),
    size * 1.4,
  );
  const x = deep + size;
  return picture(
    { x: -s.diameter - 2, y: -half - 1, width: x + s.diameter + 3 + wordWidth(marks, size), height: 2 * half + 2 },
    `Screw ${marks.join('; ')}`,
    'side screw',
    body + marks.map((text, i) => label(x, places[i]! + size * 0.35, text, '', size)).join(''),
  );
}
