import { trimmed } from '../say/saying.ts';
import type { Mm } from '../units/scalar.ts';
import { el, label, line, n, picture } from './svg.ts';

/** A cut through one hole along the shell's axis: at each depth below the skin the stretches of X that are gone. */
export interface SectionSlice {
  readonly depth: Mm;
  readonly thickness: Mm;
  readonly gone: readonly (readonly [from: Mm, to: Mm])[];
}

export interface HoleSection {
  readonly id: string;
  /** Middle of the hole along the shell, and its planned width. */
  readonly x: Mm;
  readonly planned: Mm | null;
  readonly wall: Mm;
  readonly backing: Mm;
  readonly slices: readonly SectionSlice[];
}

/** Drawing units a millimetre: a section is small, and viewers that scale line widths must not drown it. */
const UNITS = 20;

/** The wall cut through the middle of a hole, outside up, to scale, with its widths at both skins. */
export function sectionPicture(real: HoleSection): string {
  const s = enlarged(real);
  const widest = Math.max(s.planned ?? 0, ...s.slices.flatMap((slice) => slice.gone.map(([a, b]) => b - a)), UNITS);
  const half = widest * 0.8 + 4 * UNITS;
  const size = half * 0.09;
  const body = [
    el('rect', { class: 'cut', x: -half, y: 0, width: 2 * half, height: s.wall }),
    s.backing > 0 ? el('rect', { class: 'ring', x: -half, y: s.wall, width: 2 * half, height: s.backing }) : '',
    ...s.slices.flatMap((slice) =>
      slice.gone.map(([a, b]) =>
        el('rect', {
          class: 'skin',
          x: a - s.x,
          y: slice.depth - slice.thickness / 2,
          width: b - a,
          height: slice.thickness,
        }),
      ),
    ),
    line(-half, 0, half, 0, 'edge'),
    line(-half, s.wall, half, s.wall, 'edge'),
    line(0, -size * 2, 0, s.wall + s.backing + size, 'zero'),
    ...(s.planned === null
      ? []
      : [-1, 1].map((side) => line((side * s.planned!) / 2, -size, (side * s.planned!) / 2, s.wall + size, 'limit'))),
    label(
      0,
      -size * 2.6,
      `${s.id}: ${widthAt(real, 'outside')} outside, ${widthAt(real, 'inside')} inside`,
      'mid bold',
      size,
    ),
    label(
      -half,
      s.wall + s.backing + size * 1.6,
      `wall ${trimmed(real.wall, 1)} mm${s.backing > 0 ? `, backing ${trimmed(real.backing, 1)} mm` : ''}`,
      'soft',
      size * 0.9,
    ),
  ].join('');
  return picture(
    { x: -half, y: -size * 4.5, width: 2 * half, height: s.wall + s.backing + size * 7 },
    `Section through ${s.id}: ${widthAt(real, 'outside')} wide outside, ${widthAt(real, 'inside')} inside`,
    'section',
    body,
  );
}

const enlarged = (s: HoleSection): HoleSection => ({
  ...s,
  x: s.x * UNITS,
  planned: s.planned === null ? null : s.planned * UNITS,
  wall: s.wall * UNITS,
  backing: s.backing * UNITS,
  slices: s.slices.map((slice) => ({
    depth: slice.depth * UNITS,
    thickness: slice.thickness * UNITS,
    gone: slice.gone.map(([a, b]) => [a * UNITS, b * UNITS] as const),
  })),
});

function widthAt(s: HoleSection, side: 'outside' | 'inside'): string {
  const order = [...s.slices].sort((a, b) => a.depth - b.depth);
  const slice = side === 'outside' ? order[0] : order[order.length - 1];
  const width = slice ? slice.gone.reduce((sum, [a, b]) => sum + b - a, 0) : 0;
  return width > 0 ? `${trimmed(width, 2)} mm` : 'closed';
}

/** Time of one tool, in seconds. */
export interface ToolShare {
  readonly tool: number;
  readonly name: string;
  readonly feed: number;
  readonly other: number;
}

const BAR = 8;
const ROW = 14;
const LONG = 200;

/** Where the time goes: a bar a tool, cutting dark, the rest light. */
export function timePicture(shares: readonly ToolShare[]): string {
  const most = Math.max(1, ...shares.map((t) => t.feed + t.other));
  const width = (seconds: number): number => (seconds / most) * LONG;
  const rows = shares.map((t, i) => {
    const y = i * ROW;
    return [
      label(-3, y + BAR * 0.8, t.name, 'end', 5),
      el('rect', { class: 'metal', x: 0, y, width: width(t.feed), height: BAR }),
      el('rect', { class: 'foot', x: width(t.feed), y, width: width(t.other), height: BAR }),
      label(
        width(t.feed + t.other) + 3,
        y + BAR * 0.8,
        `${n(Math.round(t.feed + t.other))} s, cutting ${n(Math.round(t.feed))} s`,
        'soft',
        5,
      ),
    ].join('');
  });
  const total = shares.reduce((sum, t) => sum + t.feed + t.other, 0);
  return picture(
    { x: -70, y: -4, width: LONG + 150, height: Math.max(1, shares.length) * ROW + 4 },
    `Time by tool, ${Math.round(total)} seconds in all`,
    'time',
    rows.join(''),
  );
}
