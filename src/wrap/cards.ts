import { bounds, moveShape } from '../drawing/paths.ts';
import { tiling } from '../drawing/room.ts';
import type { Drawing, Part } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { PaperProfile } from '../model/sheet.ts';
import type { Mm } from '../units/scalar.ts';
import { fittingCards } from './fitting-card.ts';
import { type RodFit, rodCards } from './rod-card.ts';

export type { RodFit } from './rod-card.ts';

/**
 * Cards of 1:1 to cut out and hold against the real thing: one for every row of lugs whose rods can be reckoned, one for
 * every kind of fitting with holes. Finished size, to be nested or printed. `rods`: lengths that fit, where they are known.
 */
export const cardParts = (jig: Jig, rods: readonly RodFit[] = []): Part[] => [
  ...rodCards(jig, rods),
  ...fittingCards(jig),
];

/** Blank paper between two cards. */
const BETWEEN: Mm = 6;

/** The cards laid out on pages, as they are cut: rows from the top left, no card across two pages unless it is larger. */
export function cardPages(cards: readonly Part[], paper: PaperProfile, title: string): Drawing[] {
  const page = tiling(paper, 1, 1)?.tile;
  if (page === undefined || cards.length === 0) return [];
  const rows: { cards: { card: Part; x: Mm }[]; width: Mm; height: Mm }[] = [];
  for (const card of cards) {
    const { min, max } = bounds([card.outer]);
    const [w, h] = [max.x - min.x, max.y - min.y];
    const row = rows.at(-1);
    if (row === undefined || row.width + BETWEEN + w > page.width)
      rows.push({ cards: [{ card, x: 0 }], width: w, height: h });
    else {
      row.cards.push({ card, x: row.width + BETWEEN });
      row.width += BETWEEN + w;
      row.height = Math.max(row.height, h);
    }
  }
  const pages: (typeof rows)[] = [];
  let used = 0;
  for (const row of rows) {
    const last = pages.at(-1);
    if (last === undefined || used + BETWEEN + row.height > page.height) {
      pages.push([row]);
      used = row.height;
    } else {
      last.push(row);
      used += BETWEEN + row.height;
    }
  }
  return pages.map((own, i) => {
    let y = 0;
    const shapes = own.flatMap((row) => {
      y -= row.height;
      const laid = row.cards.flatMap(({ card, x }) => {
        const { min } = bounds([card.outer]);
        return [card.outer, ...card.inner, ...card.marks].map((s) => moveShape(s, x - min.x, y - min.y));
      });
      y -= BETWEEN;
      return laid;
    });
    const box = bounds(shapes);
    return { title: `${title}: cards ${i + 1}`, min: box.min, max: box.max, shapes };
  });
}
