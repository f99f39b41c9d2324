import { unroll } from '../geometry/frames.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { type SheetView, sheetBody } from './sheet.ts';
import { type Frame, label, picture } from './svg.ts';
import { openingAngle, within } from './window.ts';

/** Lettering as a fraction of the girth: readable on a screen and on a sheet of paper held at arm's length. */
export const LETTERING = 0.0112;

/** Numbers from 1 in the layout's order. */
export const holeNumbers = (layout: Layout): ReadonlyMap<string, number> =>
  new Map(layout.holes.map((h, i) => [h.id, i + 1]));

/** The whole skin with every foot and hole, lug names above and degrees below. */
export function unrolledPicture(view: SheetView): string {
  const { layout } = view;
  const from = openingAngle(layout.placed, layout.radius);
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const width = 2 * Math.PI * layout.radius;
  const size = width * LETTERING;
  const box: Frame = { x: left - size, y: -3.6 * size, width: width + 2 * size, height: layout.depth + 6.4 * size };
  const body =
    sheetBody(view, from, size) +
    scale(from, layout, size) +
    label(left, -2.5 * size, 'top edge up, seen from outside', 'soft', size * 0.9) +
    label(left + width, -2.5 * size, 'angles grow to the right', 'soft end', size * 0.9);
  return picture(
    box,
    `Shell unrolled, seen from outside: ${layout.holes.length} holes, ${layout.placed.length} fittings`,
    'unrolled',
    body,
  );
}

/** Names of lug lines above, degrees below. */
function scale(from: Deg, layout: Layout, size: Mm): string {
  const at = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, layout.radius).x;
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const all = layout.placed.filter((p) => p.role === 'lug');
  const numberOf = (p: Placed): string => p.id.slice(p.id.lastIndexOf('-') + 1);
  // Rows with lines of their own are told apart by name.
  const lines = new Map(all.map((p) => [numberOf(p), p.angle]));
  const rowsDiffer = all.some((p) => lines.get(numberOf(p)) !== p.angle);
  const lugs = new Map<Deg, string>();
  for (const p of all) if (!lugs.has(p.angle)) lugs.set(p.angle, `${rowsDiffer ? p.group : 'lug'} ${numberOf(p)}`);
  const out: string[] = [
    label(Math.max(at(0) - 4 * size, left - 0.8 * size), layout.depth + 2.4 * size, 'strainer line 0°', 'bold', size),
  ];
  // Lines nearer together than their names are wide keep the first name.
  let last = Number.NEGATIVE_INFINITY;
  for (const [angle, name] of [...lugs].sort(([a], [b]) => at(a) - at(b))) {
    if (at(angle) - last < size * (rowsDiffer ? 5 : 3.2)) continue;
    last = at(angle);
    out.push(label(at(angle), -0.9 * size, name, 'mid', size));
    if (Math.abs(at(angle) - at(0)) > size * 7) {
      out.push(label(at(angle), layout.depth + 2.4 * size, `${trimmed(angle, 2)}°`, 'soft mid', size * 0.9));
    }
  }
  return out.join('');
}
