import { clip } from '../../picture/svg.ts';
import { typedValue, withValue } from '../fields.ts';
import { complaint, recompute } from '../recompute.ts';
import { drawingsSection } from '../sections/drawings.ts';
import { findingsSection, verdict } from '../sections/findings.ts';
import { gaugeSection } from '../sections/gauge.ts';
import { holesSection } from '../sections/holes.ts';
import { assumedSection, shoppingSection } from '../sections/rest.ts';
import { workSection } from '../sections/work.ts';
import { type Change, splice } from '../splice.ts';
import type { View } from '../view.ts';
import type { LiveData } from './data.ts';

/** Sections drawn at every key press, and those that may come a moment later. */
const FIRST = ['verdict', 'matters', 'shell'] as const;
const LATER = ['holes', 'gauge', 'work', 'buy', 'assumed'] as const;
/** A pause in typing after which the long lists are drawn, ms. */
const PAUSE = 120;

/** Brings the fields to life. `redrawn` is called after sections were replaced, to set ticks and lights again. */
export function startEditing(data: LiveData, redrawn: (view: View | undefined) => void): void {
  const { source } = data;
  const inputs = [...document.querySelectorAll<HTMLInputElement>('#change input[data-path]')];
  if (!source || inputs.length === 0) return;
  const asMade = new Map([...FIRST, ...LATER].map((id) => [id as string, document.getElementById(id)?.outerHTML]));
  const state = document.getElementById('change-state')!;
  const save = document.getElementById('save-jig') as HTMLButtonElement;
  const undo = document.getElementById('undo-jig') as HTMLButtonElement;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const changes = (): Change[] =>
    inputs
      .filter((i) => i.value.trim() !== i.dataset['was']!.trim())
      .map((i) => ({ path: i.dataset['path']!, text: i.value }));

  const update = (): void => {
    const now = changes();
    undo.disabled = now.length === 0;
    for (const input of inputs) complain(input, '');
    clearTimeout(timer);
    if (now.length === 0) {
      for (const [id, html] of asMade) if (html !== undefined) replace(id, html);
      save.disabled = true;
      state.textContent = 'As in the jig file.';
      redrawn(undefined);
      return;
    }
    const raw = now.reduce<unknown>((r, c) => withValue(r, c.path.split('.'), typedValue(c.text)), source.object);
    const result = recompute(raw, { profiles: source.profiles ?? {}, lines: source.lines ?? {} });
    save.disabled = !result.ok;
    if (!result.ok) {
      state.textContent = 'Not worked out: see the field that is wrong.';
      const elsewhere: string[] = [];
      for (const issue of result.issues) {
        const path = issue.path.join('.');
        const input = inputs.find((i) => i.dataset['path'] === path);
        if (input) complain(input, complaint(issue));
        else elsewhere.push(`${path}: ${complaint(issue)}`);
      }
      if (elsewhere.length > 0) state.textContent = elsewhere.join(' ');
      return;
    }
    const { view } = result;
    replace('verdict', verdict(view.findings));
    replace('matters', findingsSection(view));
    replace('shell', drawingsSection(view));
    state.textContent = `Changed: ${now.map((c) => `${clip(c.path, 60)} ${clip(c.text.trim(), 24)}`).join(', ')}. Findings here are those of the fit checks; template, collar and program are checked when the set is made again.`;
    redrawn(view);
    timer = setTimeout(() => {
      replace('holes', holesSection(view));
      replace('gauge', gaugeSection(view));
      replace('work', workSection(view, data));
      replace('buy', shoppingSection(view, data));
      replace('assumed', assumedSection(view));
      redrawn(view);
    }, PAUSE);
  };

  for (const input of inputs) {
    input.addEventListener('input', update);
    input.addEventListener('keydown', (event) => {
      const by = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : 0;
      const stepped = by === 0 ? undefined : step(input.value, by);
      if (stepped === undefined) return;
      event.preventDefault();
      input.value = stepped;
      update();
    });
  }
  undo.addEventListener('click', () => {
    for (const input of inputs) input.value = input.dataset['was']!;
    update();
  });
  save.addEventListener('click', () => download(`${data.slug}.yaml`, splice(source.text, source.spans, changes())));
}

/** What was last put into each place; the same again costs the browser nothing. */
const inPlace = new Map<string, string>();

function replace(id: string, html: string): void {
  if (inPlace.get(id) === html) return;
  inPlace.set(id, html);
  const old = document.getElementById(id);
  // A section with nothing to show leaves its place, so that it can come back.
  if (old) old.outerHTML = html === '' ? `<section id="${id}" hidden></section>` : html;
}

function complain(input: HTMLInputElement, text: string): void {
  const place = document.getElementById(`${input.id}-wrong`);
  if (place && place.textContent !== text) place.textContent = text;
  if (text === '') input.removeAttribute('aria-invalid');
  else input.setAttribute('aria-invalid', 'true');
}

/** The number one up or down, half a unit for lengths with a unit and one for counts; fractions are left alone. */
function step(value: string, by: number): string | undefined {
  const m = /^\s*(-?\d+(?:\.\d+)?)(\s*(?:mm|cm|in|deg)?)\s*$/.exec(value);
  if (!m) return undefined;
  const unit = m[2]!;
  const size = unit.trim() === 'mm' ? 0.5 : unit.trim() === 'in' ? 0.0625 : 1;
  return `${Math.round((Number(m[1]) + by * size) * 1e4) / 1e4}${unit}`;
}

function download(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/yaml' }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 1000);
}
