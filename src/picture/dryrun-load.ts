import { trimmed } from '../say/saying.ts';
import type { Mm } from '../units/scalar.ts';
import { el, label, line, n, picture } from './svg.ts';

/** Chip load of one bit: `series` begin of each stretch of time, least and greatest chip in it, mm a lip. */
export interface LoadRow {
  readonly name: string;
  readonly allowed: readonly [Mm, Mm] | null;
  readonly series: readonly (readonly [seconds: number, least: Mm, most: Mm])[];
}

const LONG = 220;
const HIGH = 30;
const ROW = 48;
/** A chip that never changes is still drawn. */
const THIN = 0.8;

/** Chip load over time, a row a bit, against the band that bit bears in this wood; what lies outside is filled dark. */
export function loadPicture(rows: readonly LoadRow[], each: number, seconds: number): string {
  const last = Math.max(seconds, each);
  const across = (t: number): number => (t / last) * LONG;
  const body = rows.map((row, i) => {
    const floor = i * ROW + HIGH;
    const most = Math.max(row.allowed?.[1] ?? 0, ...row.series.map(([, , high]) => high)) * 1.1 || 1;
    const up = (chip: Mm): number => floor - (chip / most) * HIGH;
    const bars = row.series.map(([t, low, high]) => {
      const out = row.allowed !== null && (low < row.allowed[0] || high > row.allowed[1]);
      const height = Math.max(THIN, up(low) - up(high));
      return el('rect', { class: out ? 'bad' : 'rod', x: across(t), y: up(high), width: across(each), height });
    });
    return [
      row.allowed === null
        ? ''
        : el('rect', {
            class: 'good',
            x: 0,
            y: up(row.allowed[1]),
            width: LONG,
            height: up(row.allowed[0]) - up(row.allowed[1]),
          }),
      ...bars,
      line(0, floor, LONG, floor, 'lead'),
      label(-3, floor - HIGH / 2, row.name, 'end', 5),
      label(0, floor + 7, words(row), 'soft', 4.5),
    ].join('');
  });
  const below = rows.length * ROW;
  return picture(
    { x: -70, y: -6, width: LONG + 80, height: below + 14 },
    `Chip load over time of ${rows.length} bits`,
    'load',
    [...body, label(LONG, below + 3, `${n(Math.round(last))} s`, 'end soft', 5)].join(''),
  );
}

function words({ allowed, series }: LoadRow): string {
  const least = Math.min(...series.map(([, low]) => low));
  const most = Math.max(...series.map(([, , high]) => high));
  const bears = allowed === null ? '' : `, bears ${trimmed(allowed[0], 3)} to ${trimmed(allowed[1], 3)}`;
  return `${trimmed(least, 3)} to ${trimmed(most, 3)} mm a lip${bears}`;
}
