import { esc } from '../picture/svg.ts';

/** Pieces of the page's markup. `body` is markup already; titles and captions are plain text. */
export const section = (id: string, title: string, body: string, cls = ''): string =>
  `<section id="${id}" aria-labelledby="${id}-title"${cls === '' ? '' : ` class="${cls}"`}><h2 id="${id}-title">${esc(title)}</h2>${body}</section>`;

/** A section with nothing to show keeps its place, so that it can come back after an edit. */
export const orPlace = (id: string, html: string): string =>
  html === '' ? `<section id="${id}" hidden></section>` : html;

/** A picture with words under it. Wide drawings scroll in a box that the keyboard reaches. */
export const figure = (svg: string, caption: string, wide = false): string =>
  `<figure${wide ? ' class="wide"' : ''}>${wide ? `<div class="scroll" tabindex="0" role="group" aria-label="${esc(caption)}">${svg}</div>` : svg}<figcaption>${esc(caption)}</figcaption></figure>`;

/** A box that stays ticked. `id` is its name in the store; `text` is markup. */
export const tick = (id: string, text: string, cls = ''): string =>
  `<label class="tick${cls === '' ? '' : ` ${cls}`}"><input type="checkbox" data-tick="${esc(id)}"><span>${text}</span></label>`;

export const list = (items: readonly string[], cls = ''): string =>
  items.length === 0
    ? ''
    : `<ul${cls === '' ? '' : ` class="${cls}"`}>${items.map((i) => `<li>${i}</li>`).join('')}</ul>`;

export interface Column {
  readonly head: string;
  readonly cls?: string;
}

/** A table in a box that scrolls sideways on a narrow screen. The first cell of a row is its heading. */
export function table(caption: string, columns: readonly Column[], rows: readonly TableRow[]): string {
  const head = columns.map((c) => `<th scope="col"${c.cls ? ` class="${c.cls}"` : ''}>${c.head}</th>`).join('');
  const body = rows
    .map(
      (r) =>
        `<tr${r.attrs ?? ''}>${r.cells.map((c, i) => (i === 0 ? `<th scope="row">${c}</th>` : `<td${columns[i]?.cls ? ` class="${columns[i]!.cls}"` : ''}>${c}</td>`)).join('')}</tr>`,
    )
    .join('');
  return `<div class="scroll" tabindex="0" role="group" aria-label="${esc(caption)}"><table><caption>${esc(caption)}</caption><thead><tr>${head}</tr></thead><tbody>${body}</tbody></table></div>`;
}

export interface TableRow {
  readonly cells: readonly string[];
  /** Ready attributes with a leading space. */
  readonly attrs?: string;
}

/** `1–4, 7, 9–10` from sorted whole numbers. */
export function ranges(numbers: readonly number[]): string {
  const out: string[] = [];
  for (let i = 0; i < numbers.length; ) {
    let j = i;
    while (j + 1 < numbers.length && numbers[j + 1] === numbers[j]! + 1) j++;
    out.push(j - i >= 2 ? `${numbers[i]}–${numbers[j]}` : numbers.slice(i, j + 1).join(', '));
    i = j + 1;
  }
  return out.join(', ');
}

export const plural = (count: number, one: string, many = `${one}s`): string => `${count} ${count === 1 ? one : many}`;
