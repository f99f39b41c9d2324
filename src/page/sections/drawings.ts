import { abovePicture, rings } from '../../picture/above.ts';
import { rodCard } from '../../picture/rod-card.ts';
import { sidePicture } from '../../picture/side.ts';
import { unrolledPicture } from '../../picture/unrolled.ts';
import { trimmed } from '../../say/saying.ts';
import { figure, section } from '../html.ts';
import { both } from '../number.ts';
import { rodCardOf, sideOf } from '../rods.ts';
import type { View } from '../view.ts';

/** The shell flat, from above, and the hardware in section; each to scale. */
export function drawingsSection(view: View): string {
  const { jig, layout } = view;
  const { shell } = jig;
  const facts = `<p>Outside ${both(2 * shell.radius)} across, ${both(shell.girth)} round, ${both(shell.depth)} deep, wall ${both(shell.wall)}.</p>`;
  const above = rings(jig, layout).map((ring) =>
    figure(
      abovePicture(jig, layout, ring),
      `From above${ring.rows.length > 0 ? `, ${ring.rows.join(' and ')}` : ''}: numbers between lugs are chords in mm, straight across the outside skin`,
    ),
  );
  const cards = jig.rows.map((row) => {
    const card = rodCardOf(jig, row);
    if (!card)
      return `<p class="fine">${row.name} row: no rod picture, for the jig file does not give the rod, the hoop's ear and the lug's reach.</p>`;
    const fits = card.window
      ? `Rods from ${trimmed(card.window.least, 1)} to ${trimmed(card.window.most, 1)} mm fit${card.fitting.length > 0 ? `; from your stock: ${card.fitting.map((s) => trimmed(s, 1)).join(', ')} mm` : ''}`
      : 'No rod length fits here';
    return figure(rodCard(card), `${row.name} row, rod of ${trimmed(card.length, 1)} mm. ${fits}`);
  });
  const sides = jig.rows.map((row) => {
    const side = sideOf(jig, row);
    return side ? figure(sidePicture(side), `Cut through the wall, ${row.name} row (drawn rim up)`) : '';
  });
  return section(
    'shell',
    'The shell',
    `${facts}${figure(unrolledPicture(view), 'Unrolled, seen from outside, to scale. Each hole has the number of the table', true)}<div class="pair">${above.join('')}${cards.join('')}${sides.join('')}</div>`,
  );
}
