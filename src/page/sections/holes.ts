import { chord } from '../../geometry/frames.ts';
import type { Hole, Layout } from '../../model/layout.ts';
import { clip, esc } from '../../picture/svg.ts';
import { type Mm, wrapDeg } from '../../units/scalar.ts';
import { tolerance } from '../../units/tolerance.ts';
import { type Column, section, type TableRow, table } from '../html.ts';
import { cell } from '../number.ts';
import type { View } from '../view.ts';

/** Going round at one height: the next hole with growing angle, and the chord to it. Alone in its ring: undefined. */
export interface Neighbour {
  readonly next: Hole;
  readonly chord: Mm;
}

export function neighbours(layout: Layout): ReadonlyMap<string, Neighbour> {
  const sorted = [...layout.holes].sort((a, b) => a.height - b.height || a.angle - b.angle);
  const out = new Map<string, Neighbour>();
  for (let i = 0; i < sorted.length; ) {
    let j = i;
    while (j < sorted.length && sorted[j]!.height - sorted[i]!.height <= tolerance.same) j++;
    const ring = sorted.slice(i, j).sort((a, b) => a.angle - b.angle);
    if (ring.length > 1) {
      ring.forEach((hole, k) => {
        const next = ring[(k + 1) % ring.length]!;
        out.set(hole.id, { next, chord: chord(layout.radius, wrapDeg(next.angle - hole.angle)) });
      });
    }
    i = j;
  }
  return out;
}

const COLUMNS: readonly Column[] = [
  { head: 'Hole' },
  { head: 'Angle' },
  { head: 'Arc from the strainer line', cls: 'num' },
  { head: 'Above bottom edge', cls: 'num' },
  { head: 'Below top edge', cls: 'num' },
  { head: 'Bit', cls: 'num' },
  { head: 'Pilot', cls: 'num' },
  { head: 'Chord from the line', cls: 'num' },
  { head: 'Chord to the next', cls: 'num' },
  { head: 'Across its outsides', cls: 'num' },
];

/** Every hole with arc and chord distances: the tape measures arcs, the caliper chords. */
export function holesSection(view: View): string {
  const near = neighbours(view.layout);
  const rows: TableRow[] = view.holes.map((h) => {
    const number = view.numbers.get(h.id) ?? 0;
    const n = near.get(h.id);
    return {
      attrs: ` data-hole="${esc(h.id)}" data-of="${esc(h.fitting)}" data-arc-mm="${h.arc_mm.toFixed(4)}" data-height-mm="${h.height_mm.toFixed(4)}" data-angle-deg="${h.angle_deg.toFixed(5)}"`,
      cells: [
        `<button type="button" class="pick" aria-pressed="false" data-pick="${esc(h.id)}"><b>${number}</b> ${esc(clip(h.id, 28))}</button>`,
        `${h.angle_deg.toFixed(3)}°`,
        cell(h.arc_mm),
        cell(h.height_mm),
        cell(h.from_top_mm),
        cell(h.drill_mm, 1),
        h.pilot_mm ? cell(h.pilot_mm, 1) : '–',
        cell(chord(view.layout.radius, h.angle_deg)),
        n ? `<span class="to">to ${view.numbers.get(n.next.id)}</span> ${cell(n.chord)}` : 'alone at its height',
        n ? cell(n.chord + (h.drill_mm + n.next.drill) / 2) : '–',
      ],
    };
  });
  return section(
    'holes',
    'Hole table',
    `<p>Millimetres, inches beneath. Arcs lie along the outside skin: for a tape. Chords are straight across it, middle to middle at one height: for a caliper. “Next” is the neighbour at the same height going to the right; “across its outsides” is what the caliper shows over the far sides of the two drilled holes.</p>${table(
      'Holes',
      COLUMNS,
      rows,
    )}`,
  );
}
