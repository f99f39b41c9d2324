import type { Edge } from '../../model/jig.ts';
import { el, label, line } from '../../picture/svg.ts';
import { trimmed } from '../../say/saying.ts';
import type { Mm } from '../../units/scalar.ts';
import { section } from '../html.ts';
import type { View } from '../view.ts';

/** What a sheet of A4 leaves for a strip, mm. */
const TALLEST = 230;
const WIDE = 46;

interface Mark {
  readonly down: Mm;
  readonly who: string;
}

/** Strips to cut out and hold against the shell: one an edge, with the height of every hole measured from it. */
export function gaugeSection(view: View): string {
  const strips = (['top', 'bottom'] as const)
    .map((edge) => ({ edge, marks: marksFrom(view, edge) }))
    .filter((s) => s.marks.length > 0);
  const tall = strips.filter((s) => s.marks[s.marks.length - 1]!.down > TALLEST);
  const drawn = strips.filter((s) => !tall.includes(s)).map((s) => strip(s.edge, s.marks));
  if (drawn.length === 0) return '';
  return section(
    'gauge',
    'Height gauge, 1:1 on paper',
    `<p>Print at 100 % and check the ruler with yours. Cut out, fold back the tab and hook it over the edge: the lines are the heights of the holes.</p>${tall.map((s) => `<p class="fine">From the ${s.edge} edge: too tall for a sheet of paper, use the table.</p>`).join('')}<div class="strips">${drawn.join('')}${ruler()}</div>`,
  );
}

/** Distances from the edge a fitting is measured from; from the middle counts from the bottom. One mark a height. */
function marksFrom(view: View, edge: Edge): readonly Mark[] {
  const found = new Map<string, { down: Mm; who: Set<string> }>();
  for (const p of view.layout.placed) {
    if ((p.edge === 'top' ? 'top' : 'bottom') !== edge) continue;
    for (const h of p.holes) {
      const down = edge === 'top' ? view.layout.depth - h.height : h.height;
      const key = down.toFixed(2);
      const mark = found.get(key) ?? { down, who: new Set<string>() };
      mark.who.add(p.role === 'lug' ? 'lugs' : p.group);
      found.set(key, mark);
    }
  }
  return [...found.values()]
    .map((m) => ({ down: m.down, who: [...m.who].slice(0, 3).join(', ') }))
    .sort((a, b) => a.down - b.down);
}

const TAB = 12;

function strip(edge: string, marks: readonly Mark[]): string {
  const tall = marks[marks.length - 1]!.down + 8;
  const body = marks.map(
    (m) =>
      line(0, m.down, 18, m.down, 'edge') +
      label(19, m.down + 1, `${trimmed(m.down, 2)} ${m.who}`.slice(0, 24), '', 2.6),
  );
  return paper(
    WIDE,
    tall + TAB,
    -TAB,
    el('rect', { class: 'tear', x: 0.2, y: -TAB + 0.2, width: WIDE - 0.4, height: tall + TAB - 0.4 }) +
      line(0, 0, WIDE, 0, 'edge') +
      label(2, -4, `tab: fold over the ${edge} edge`, '', 2.8) +
      body.join(''),
    `Height gauge from the ${edge} edge`,
  );
}

function ruler(): string {
  const ticks = Array.from({ length: 101 }, (_, i) => line(0, i, i % 10 === 0 ? 8 : i % 5 === 0 ? 6 : 4, i, 'lead'));
  const numbers = Array.from({ length: 11 }, (_, i) => label(9, i * 10 + 1, String(i * 10), '', 2.6));
  return paper(20, 104, -2, ticks.join('') + numbers.join(''), 'Ruler of 100 mm to check the print');
}

/** A drawing at true size: its width and height are lengths in mm. */
const paper = (width: Mm, height: Mm, top: Mm, body: string, title: string): string =>
  el(
    'svg',
    {
      class: 'picture true',
      width: `${width}mm`,
      height: `${height.toFixed(2)}mm`,
      viewBox: `0 ${top} ${width} ${height.toFixed(2)}`,
      role: 'img',
      'aria-label': title,
    },
    body,
  );
