import { clip, esc } from '../../picture/svg.ts';
import type { PageData } from '../data.ts';
import { list, section, table, tick } from '../html.ts';
import { named } from '../number.ts';
import { supplies } from '../shopping.ts';
import type { View } from '../view.ts';

/** To tick off before starting; what rests on a number that the jig file leaves out says so. */
export function shoppingSection(view: View, data: Pick<PageData, 'sheets' | 'collar'>): string {
  const items = supplies(view, data.sheets, data.collar).map((s, i) => {
    const guess = s.assumed
      ? ` <span class="guess">Assumed, not in the jig file: ${s.assumed.map((k) => `<code>${esc(k)}</code>`).join(', ')}</span>`
      : '';
    const count = typeof s.count === 'number' ? `${s.count} ×` : `${esc(s.count)}:`;
    return tick(`buy-${i}`, `<b>${count}</b> ${esc(s.what)} <span class="fine">${esc(s.why)}</span>${guess}`);
  });
  return section('buy', 'Shopping list', list(items, 'supplies'));
}

export function assumedSection(view: View): string {
  const { assumptions } = view.jig;
  if (assumptions.length === 0) return section('assumed', 'Assumed', '<p>Nothing: the jig file says everything.</p>');
  const rows = assumptions.map((a) => ({
    cells: [`<code>${esc(clip(a.key, 60))}</code>`, esc(clip(a.value, 80)), esc(clip(a.why, 200))],
  }));
  return section(
    'assumed',
    'Assumed',
    `<p>Not in the jig file, so filled in. Write what you measure into the file and make the set again.</p>${table('Filled in', [{ head: 'Key' }, { head: 'Taken as' }, { head: 'Why' }], rows)}`,
  );
}

export function budgetSection(data: Pick<PageData, 'budget'>): string {
  if (!data.budget) return '';
  const rows = data.budget.lines.map((l) => ({ cells: [esc(l.what), esc(l.value), esc(l.why)] }));
  return section(
    'chances',
    'How sure is it',
    table('Chances from the accuracy of each step', [{ head: 'What' }, { head: 'Value' }, { head: 'Why' }], rows),
  );
}

export function filesSection(
  data: Pick<PageData, 'files' | 'notMade' | 'version' | 'digest' | 'jig' | 'source'>,
): string {
  const made = data.files.map((f) => `<code>${esc(f.name)}</code> ${esc(f.what)}`);
  const not = data.notMade.map((f) => `${esc(f.what)}: ${esc(f.why)}`);
  const text = `<details><summary>The jig file</summary><pre tabindex="0"><bdi>${esc(data.source.text)}</bdi></pre></details>`;
  return section(
    'files',
    'In this set',
    `${list(made)}${not.length > 0 ? `<h3>Not made</h3>${list(not)}` : ''}${text}<p class="fine">${named(clip(data.jig.name, 200))} · plan ${esc(data.digest.slice(0, 12))} · made by lugwright ${esc(data.version)}</p>`,
  );
}
