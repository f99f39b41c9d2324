/**
 * Picking a hole anywhere lights it up everywhere: drawings, table, boxes. Its numbers stand in a bar at the foot of the
 * screen, copied from the table so that there is one truth on the page.
 */
let picked: string | undefined;
/** The hole that is lit and its fitting. */
let lit: readonly [hole: string | undefined, fitting: string | undefined] = [undefined, undefined];
const listeners: ((hole: string | undefined, fitting: string | undefined) => void)[] = [];

/** Told of the pick that stands and of every later one; the 3D view lights the same hole. */
export const onPick = (listener: (hole: string | undefined, fitting: string | undefined) => void): void => {
  listeners.push(listener);
  listener(...lit);
};

export function startPicking(): void {
  document.addEventListener('click', (event) => {
    const target = event.target instanceof Element ? event.target : null;
    const button = target?.closest<HTMLElement>('[data-pick]');
    if (button) return pick(button.dataset['pick'] === picked ? undefined : button.dataset['pick']);
    const mark = target?.closest<Element>('svg [data-hole]');
    if (mark) return pick(mark.getAttribute('data-hole') ?? undefined);
    const fitting = target?.closest<Element>('svg [data-fitting]')?.getAttribute('data-fitting');
    if (fitting) pick(firstHoleOf(fitting));
  });
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && picked !== undefined) pick(undefined);
  });
}

export function pick(hole: string | undefined): void {
  picked = hole;
  relight();
}

/** Lights the picked hole in whatever is on the page now; called again after sections were drawn anew. */
export function relight(): void {
  for (const e of document.querySelectorAll('.lit')) if (!e.closest('svg.close')) e.classList.remove('lit');
  const row = picked === undefined ? null : document.querySelector(`#holes tr[data-hole="${CSS.escape(picked)}"]`);
  const fitting = row?.getAttribute('data-of') ?? undefined;
  if (row && picked !== undefined) {
    const hole = CSS.escape(picked);
    for (const e of document.querySelectorAll(`[data-hole="${hole}"]`)) e.classList.add('lit');
    document.querySelector(`[data-tick="hole-${hole}"]`)?.closest('label')?.classList.add('lit');
    if (fitting !== undefined) {
      for (const e of document.querySelectorAll(`svg.above [data-fitting="${CSS.escape(fitting)}"]`))
        e.classList.add('lit');
    }
  }
  show(row);
  for (const b of document.querySelectorAll<HTMLElement>('[data-pick]')) {
    const pressed = String(b.dataset['pick'] === picked);
    if (b.getAttribute('aria-pressed') !== pressed) b.setAttribute('aria-pressed', pressed);
  }
  lit = [row ? picked : undefined, fitting];
  for (const listener of listeners) listener(...lit);
}

const firstHoleOf = (fitting: string): string | undefined =>
  document.querySelector<HTMLElement>(`#holes tr[data-of="${CSS.escape(fitting)}"]`)?.dataset['hole'];

function show(row: Element | null): void {
  const bar = document.getElementById('picked');
  if (!bar) return;
  bar.hidden = row === null;
  if (!row) return;
  const heads = [...document.querySelectorAll('#holes thead th')].map((th) => th.textContent ?? '');
  const list = document.createElement('dl');
  [...row.children].forEach((cell, i) => {
    if (i === 0) return;
    const item = document.createElement('div');
    const term = document.createElement('dt');
    term.textContent = heads[i] ?? '';
    const value = document.createElement('dd');
    value.append(...[...cell.cloneNode(true).childNodes]);
    item.append(term, value);
    list.append(item);
  });
  const title = document.createElement('p');
  title.className = 'which';
  title.textContent = `Hole ${row.querySelector('.pick')?.textContent ?? ''}`;
  bar.querySelector('.what')?.replaceChildren(title, list);
}

/** The bar's own buttons: the hole before, the hole after, and away. */
export function startBar(): void {
  const step = (by: number): void => {
    const ids = [...document.querySelectorAll<HTMLElement>('#holes tr[data-hole]')].map((tr) => tr.dataset['hole']!);
    const at = picked === undefined ? -1 : ids.indexOf(picked);
    pick(ids[(at + by + ids.length) % ids.length]);
  };
  document.getElementById('pick-before')?.addEventListener('click', () => step(-1));
  document.getElementById('pick-after')?.addEventListener('click', () => step(1));
  document.getElementById('pick-away')?.addEventListener('click', () => pick(undefined));
}
