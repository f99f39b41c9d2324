import { abovePicture, rings } from '../../picture/above.ts';
import { bare, inUnits } from '../../picture/length.ts';
import { type RodCard, rodCard } from '../../picture/rod-card.ts';
import { sidePicture } from '../../picture/side.ts';
import { unrolledPicture } from '../../picture/unrolled.ts';
import { figure, section } from '../html.ts';
import { both } from '../number.ts';
import type { View } from '../view.ts';

/** The shell flat, from above, and the hardware in section; each to scale. */
export function drawingsSection(view: View): string {
  const { jig, layout } = view;
  const { shell } = jig;
  const facts = `<p>Outside ${both(2 * shell.radius)} across, ${both(shell.girth)} round, ${both(shell.depth)} deep, wall ${both(shell.wall)}.</p>`;
  const above = rings(jig, layout).map((ring) =>
    figure(
      abovePicture(jig, layout, ring),
      `From above${ring.rows.length > 0 ? `, ${ring.rows.join(' and ')}` : ''}. Numbers between lugs are chords in ${jig.units === 'in' ? 'inches' : 'millimetres'}: straight across the outside skin`,
    ),
  );
  const cards = view.rods.map((c) =>
    figure(rodCard(c.view), `Rod of ${inUnits(c.view.length, jig.units)}, ${c.row}, to scale. ${fits(c.view)}`),
  );
  const sides = view.sides.map((c) => figure(sidePicture(c.view), `Cut through the wall, ${c.row}, to scale, rim up`));
  const missing =
    jig.rows.length > 0 && cards.length === 0
      ? '<p class="fine">No picture of the rod: it needs the lug\'s rod measures, the hoop\'s ear and the rod length.</p>'
      : '';
  return section(
    'shell',
    'The shell',
    `${facts}${figure(unrolledPicture(view), 'Unrolled, seen from outside, to scale. Each hole has the number of the table', true)}${missing}<div class="pair">${above.join('')}${cards.join('')}${sides.join('')}</div>`,
  );
}

export function fits(card: RodCard): string {
  if (!card.window) return '';
  const { least, most } = card.window;
  const stock =
    card.fitting.length > 0
      ? `; of your stock: ${card.fitting.map((s) => bare(s, card.units)).join(', ')} ${card.units}`
      : '';
  return `Rods from ${bare(least, card.units)} to ${inUnits(most, card.units)} fit${stock}.`;
}
