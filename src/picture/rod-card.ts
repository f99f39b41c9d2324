import type { Mm } from '../units/scalar.ts';
import { bare, inUnits, type Units } from './length.ts';
import { el, label, line, n, picture, spread, wordWidth } from './svg.ts';

/** A tension rod in its lug, drawn to scale along the rod. All lengths in mm, depths below the lug's end face. */
export interface RodCard {
  readonly name: string;
  /** Under the rod's head to the lug's face, finger tight. */
  readonly way: Mm;
  /** Under the head. */
  readonly length: Mm;
  readonly washer: Mm;
  readonly ear: Mm;
  readonly catch: Mm;
  readonly bottom: Mm;
  readonly travel: Mm;
  /** Threaded length from the tip, when known. */
  readonly threaded?: Mm;
  /** Rod diameter for the drawing; the length alone is what is judged. */
  readonly diameter: Mm;
  /** Lengths that fit, when a window exists. */
  readonly window?: { readonly least: Mm; readonly most: Mm };
  /** Stock lengths inside the window. */
  readonly fitting: readonly Mm[];
  readonly units: Units;
}

/** Depth of the tip below the face, finger tight and at full tension. */
export const tipDepths = (rod: Pick<RodCard, 'length' | 'way' | 'travel'>): readonly [Mm, Mm] => [
  rod.length - rod.way,
  rod.length - rod.way + rod.travel,
];

export function rodCard(rod: RodCard): string {
  const [loose, tight] = tipDepths(rod);
  const low = Math.max(rod.bottom + 8, tight + 6);
  const high = -rod.way - 11.5;
  const unit = (low - high) / 60;
  const size = 2.9 * Math.max(1, unit);
  const wide = 9 * Math.max(1, unit);
  const cols = [wide, wide * 3.2] as const;
  const textX = wide * 4.6;
  const marks: (readonly [Mm, string, string])[] = [
    [-rod.way, `head ${inUnits(rod.way, rod.units)} above the face`, ''],
    [0, "lug's face", ''],
    [rod.catch, `first thread bites, ${inUnits(rod.catch, rod.units)} deep`, ''],
    [loose, `tip finger tight: ${inUnits(loose, rod.units)} deep`, 'bold'],
    [tight, `tip at full tension: ${inUnits(tight, rod.units)} deep`, 'bold'],
    [rod.bottom, `end of the thread: ${inUnits(rod.bottom, rod.units)} deep`, ''],
  ];
  if (rod.window) {
    const [a, b] = [rod.window.least - rod.way, rod.window.most - rod.way];
    marks.push([
      (a + b) / 2,
      `finger tight, the tip belongs ${bare(a, rod.units)} to ${inUnits(b, rod.units)} deep`,
      'soft',
    ]);
  }
  const places = spread(
    marks.map(([y]) => y),
    size * 1.35,
  );
  const body = [
    ...cols.map((x, i) => lugBody(rod, x, wide, low) + rodBody(rod, x, i === 0 ? 0 : rod.travel, rod.bottom)),
    rod.window
      ? el('rect', {
          class: 'good',
          x: cols[0] - wide * 0.8,
          y: rod.window.least - rod.way,
          width: wide * 1.6,
          height: Math.max(0.3, rod.window.most - rod.window.least),
        })
      : '',
    line(0, rod.catch, textX - 2, rod.catch, 'lead'),
    line(0, rod.bottom, textX - 2, rod.bottom, 'limit'),
    ...marks.map(([y, text, cls], i) => {
      const at = places[i]!;
      const x = y === loose ? cols[0] : y === tight ? cols[1] : textX - 2;
      return (
        el('path', { class: 'lead', d: `M${n(x)} ${n(y)}L${n(textX - 2)} ${n(y)}L${n(textX - 0.6)} ${n(at)}` }) +
        label(textX, at + size * 0.35, text, cls, size)
      );
    }),
    label(cols[0], high + size, 'finger tight', 'mid soft', size),
    label(cols[1], high + size, 'full tension', 'mid soft', size),
  ].join('');
  return picture(
    {
      x: -1,
      y: high - 1,
      width:
        textX +
        1 +
        wordWidth(
          marks.map(([, text]) => text),
          size,
        ),
      height: low - high + 2,
    },
    `Rod of ${inUnits(rod.length, rod.units)} in ${rod.name}, to scale: tip ${inUnits(loose, rod.units)} below the face finger tight, ${inUnits(tight, rod.units)} at full tension, thread from ${bare(rod.catch, rod.units)} to ${inUnits(rod.bottom, rod.units)}`,
    'rod',
    body,
  );
}

function lugBody(rod: RodCard, x: number, wide: number, low: number): string {
  const bore = rod.diameter / 2 + 0.4;
  return (
    el('rect', { class: 'metal', x: x - wide * 0.8, y: 0, width: wide * 1.6, height: low - 1, rx: 1 }) +
    el('rect', { class: 'bore', x: x - bore, y: 0, width: 2 * bore, height: rod.bottom }) +
    el('path', { class: 'thread', d: teeth(x, bore, rod.catch, rod.bottom) })
  );
}

/** Thread drawn as slanted strokes; the pitch is only a sign. */
function teeth(x: number, half: number, from: Mm, to: Mm): string {
  let d = '';
  for (let y = from; y < to - 0.5; y += 1.2) d += `M${n(x - half)} ${n(y)}l0.7 0.5M${n(x + half)} ${n(y)}l-0.7 0.5`;
  return d;
}

function rodBody(rod: RodCard, x: number, moved: Mm, bottom: Mm): string {
  const half = rod.diameter / 2;
  const seat = -rod.way + moved;
  const tip = seat + rod.length;
  const inside = Math.min(tip, bottom);
  const shank = rod.threaded === undefined ? undefined : tip - rod.threaded;
  return [
    // The hoop's ear and the washer under the head.
    el('rect', { class: 'metal', x: x - half * 4, y: seat + rod.washer, width: half * 8, height: 3 }),
    el('rect', { class: 'rod', x: x - half * 2, y: seat, width: half * 4, height: Math.max(rod.washer, 0.4) }),
    el('rect', { class: 'rod', x: x - half * 1.8, y: seat - 4.5, width: half * 3.6, height: 4.5, rx: 0.6 }),
    el('rect', { class: 'rod', x: x - half, y: seat, width: 2 * half, height: Math.max(0, inside - seat) }),
    tip > bottom ? el('rect', { class: 'bad', x: x - half, y: bottom, width: 2 * half, height: tip - bottom }) : '',
    shank !== undefined ? line(x - half, shank, x + half, shank, 'thread') : '',
  ].join('');
}
