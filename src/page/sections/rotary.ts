import { pathPicture } from '../../picture/dryrun-map.ts';
import { timePicture } from '../../picture/dryrun-section.ts';
import { setupPicture } from '../../picture/setup.ts';
import { esc } from '../../picture/svg.ts';
import { spell } from '../../say/saying.ts';
import type { PageData } from '../data.ts';
import { figure, section, table } from '../html.ts';
import { setupView, sharesOf, wayOf } from '../machine-views.ts';
import { replayOf } from '../replay.ts';
import type { View } from '../view.ts';

/** The setup sheet: one page on paper. Of a withheld program it shows no pictures to work from. */
export function rotarySection({ jig, layout }: View, data: Pick<PageData, 'rotary' | 'dryRun'>): string {
  const { rotary, dryRun } = data;
  if (!rotary) return '';
  const moves = rotary.withheld ? [] : replayOf(rotary.program, jig.rotary.machine, jig.shell.radius);
  const tools = rotary.tools.map((t) => ({ cells: [`T${t.id}`, esc(t.what), esc(t.for)] }));
  const ran = dryRun
    ? `<p>Dry run: ${spell(dryRun.seconds)}, ${dryRun.holes} holes found.</p>`
    : '<p>The program was not run dry.</p>';
  const pictures =
    moves.length === 0
      ? ''
      : `${figure(setupPicture(setupView(jig, layout, rotary, moves)), 'The shell on the machine, to scale')}<div class="pair">${figure(
          timePicture(sharesOf(jig, moves)),
          'Where the time goes: dark cutting, light the rest',
        )}</div>${figure(pathPicture(layout, wayOf(layout, rotary, moves)), "The way of the bits over the skin, in the program's order", true)}`;
  return section(
    'rotary',
    'Setup sheet, rotary axis',
    `<ol>${rotary.setup.map((s) => `<li>${esc(s)}</li>`).join('')}</ol>${table('Tools', [{ head: 'No.' }, { head: 'Bit' }, { head: 'For' }], tools)}${ran}${
      rotary.withheld ? '<p><b>The program is withheld</b> until nothing says stop.</p>' : ''
    }${pictures}`,
    'sheet',
  );
}
