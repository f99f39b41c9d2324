import { esc } from '../../picture/svg.ts';
import type { PageData } from '../data.ts';
import { section, tick } from '../html.ts';
import type { View } from '../view.ts';
import { workSteps } from '../work/order.ts';

/** The job step by step, with boxes that stay ticked. */
export function workSection(view: View, extra: Pick<PageData, 'rotary' | 'collar'>): string {
  const steps = workSteps(view, extra).map((step) => {
    const cautions = step.cautions.map((c) => `<p class="caution"><b>Caution:</b> ${esc(c.text)}</p>`).join('');
    const boxes = step.ticks.map((t) => tick(t.id, t.text, t.cls)).join('');
    return `<li class="step"><h3>${tick(`step-${step.id}`, esc(step.title))}</h3>${cautions}${step.body.map((b) => `<p>${b}</p>`).join('')}${
      boxes === '' ? '' : `<div class="boxes">${boxes}</div>`
    }<p class="sure"><b>It went right when:</b> ${step.sure}</p></li>`;
  });
  return section(
    'work',
    'Order of work',
    `<p id="tick-note" class="fine">Ticks are kept on this device, for this plan.</p><ol class="steps">${steps.join('')}</ol>`,
  );
}
