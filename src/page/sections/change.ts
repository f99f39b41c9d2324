import { clip, esc } from '../../picture/svg.ts';
import type { SourcePage } from '../data.ts';
import { fieldsOf } from '../fields.ts';
import { section } from '../html.ts';

/** Fields for the numbers a builder plays with. The page's script brings them to life; without it they stay hidden. */
export function changeSection(source: SourcePage): string {
  const fields = fieldsOf(source.object, (path) => source.spans[path] !== undefined);
  if (fields.length === 0) return '';
  const inputs = fields
    .map((f, i) => {
      const id = `field-${i}`;
      return `<div class="field"><label for="${id}"><bdi>${esc(clip(f.label, 48))}</bdi></label><input id="${id}" data-path="${esc(f.path)}" data-was="${esc(f.value)}" value="${esc(f.value)}" autocomplete="off" spellcheck="false" aria-describedby="${id}-wrong"><p class="wrong" id="${id}-wrong" aria-live="polite"></p></div>`;
    })
    .join('');
  return section(
    'change',
    'Change and see',
    `<p>Change a number and everything on this page follows. Lengths as in the jig file: 36 mm, 1-1/2 in. Nothing on disk changes until you save the file and make the set again.</p><div class="fields">${inputs}</div><p id="change-state" class="fine" aria-live="polite">As in the jig file.</p><p><button type="button" id="save-jig" disabled>Save the changed jig file</button> <button type="button" id="undo-jig" disabled>Back to the file</button></p>`,
    'screen able-only',
  );
}
