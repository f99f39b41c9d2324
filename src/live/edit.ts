import { programAgain, recompute, sheetsAgain, type Worked } from '../jobs/recompute.ts';
import type { Finding } from '../model/finding.ts';
import type { MadePart } from '../page/data.ts';
import { typedValue, withValue } from '../page/fields.ts';
import type { LiveData } from '../page/live-data.ts';
import { drawingsSection } from '../page/sections/drawings.ts';
import { findingsSection, verdict } from '../page/sections/findings.ts';
import { gaugeSection } from '../page/sections/gauge.ts';
import { holesSection } from '../page/sections/holes.ts';
import { replaySection } from '../page/sections/replay.ts';
import { assumedSection, budgetSection, shoppingSection } from '../page/sections/rest.ts';
import { rotarySection } from '../page/sections/rotary.ts';
import { workSection } from '../page/sections/work.ts';
import { type Change, splice } from '../page/splice.ts';
import type { View } from '../page/view.ts';
import { solidScene } from '../picture/solid.ts';
import { clip } from '../picture/svg.ts';
import type { RotaryOptions } from '../rotary/types.ts';
import { collarSayings } from '../say/collar.ts';
import { inOrder } from '../say/say.ts';
import { wrapSayings } from '../say/wrap.ts';
import { complain, complaint, download, step } from './field.ts';
import { asMade, replace } from './places.ts';
import { restartReplay } from './replay.ts';
import type { Bench } from './unpack.ts';

/** Pauses in typing after which the program is written and run again, and the template and collar laid again, ms. */
const PAUSE = { program: 150, sheets: 500 } as const;

/** Findings of the stages after the fit check, as they are known now. */
interface Later {
  readonly program: readonly Finding[];
  readonly sheets: readonly Finding[];
  /** Those that are still from before the change. */
  readonly old: { readonly program: boolean; readonly sheets: boolean };
}

const ofSheets = (f: Finding): boolean => f.id in wrapSayings || f.id in collarSayings;

/** Brings the fields to life. */
export function startEditing(data: LiveData, options: RotaryOptions, bench: Bench, replayAsMade: () => void): void {
  const { source } = data;
  const inputs = [...document.querySelectorAll<HTMLInputElement>('#change input[data-path]')];
  if (inputs.length === 0) return;
  const state = document.getElementById('change-state')!;
  const save = document.getElementById('save-jig') as HTMLButtonElement;
  const undo = document.getElementById('undo-jig') as HTMLButtonElement;
  const made: Later = {
    program: data.later.filter((f) => !ofSheets(f)),
    sheets: data.later.filter(ofSheets),
    old: { program: false, sheets: false },
  };
  const backToFile = asMade();
  let later = made;
  let timer: ReturnType<typeof setTimeout> | undefined;

  const changes = (): Change[] =>
    inputs
      .filter((i) => i.value.trim() !== i.dataset['was']!.trim())
      .map((i) => ({ path: i.dataset['path']!, text: i.value }));

  /** At every key press: the fit check's findings are new, the others stand beside them and say that they are old. */
  const showFindings = (worked: Worked): View => {
    const old = new Set([...(later.old.program ? later.program : []), ...(later.old.sheets ? later.sheets : [])]);
    const findings = inOrder([...worked.view.findings, ...later.program, ...later.sheets]);
    const view = { ...worked.view, findings };
    replace('verdict', verdict(findings, old));
    replace('matters', findingsSection(view, old));
    return view;
  };

  const showProgram = (worked: Worked): Pick<MadePart, 'rotary' | 'dryRun'> => {
    const { findings, made: again } = programAgain(worked, options);
    later = { ...later, program: findings, old: { ...later.old, program: false } };
    const view = showFindings(worked);
    replace('holes', holesSection(view));
    replace('gauge', gaugeSection(view));
    replace('assumed', assumedSection(view));
    replace('chances', budgetSection(again));
    replace('rotary', rotarySection(view, again));
    replace('replay', replaySection(again.rotary));
    restartReplay(worked, again, view.findings, bench);
    bench.redrawn();
    return again;
  };

  const showSheets = (worked: Worked, program: Pick<MadePart, 'rotary' | 'dryRun'>): void => {
    const { findings, made: again } = sheetsAgain(worked, data.digest);
    later = { ...later, sheets: findings, old: { ...later.old, sheets: false } };
    const view = showFindings(worked);
    replace('work', workSection(view, { ...program, ...again }));
    replace('buy', shoppingSection(view, again));
    state.textContent = `${changed()} All of this page is worked out anew. The files of the set are still those from before: save the jig file and make the set again.`;
    bench.redrawn();
  };

  const changed = (): string =>
    `Changed: ${changes()
      .map((c) => `${clip(c.path, 60)} ${clip(c.text.trim(), 24)}`)
      .join(', ')}.`;

  const update = (): void => {
    const now = changes();
    undo.disabled = now.length === 0;
    for (const input of inputs) complain(input, '');
    clearTimeout(timer);
    if (now.length === 0) {
      backToFile();
      later = made;
      save.disabled = true;
      state.textContent = 'As in the jig file.';
      bench.redrawn();
      replayAsMade();
      return;
    }
    const raw = now.reduce<unknown>((r, c) => withValue(r, c.path.split('.'), typedValue(c.text)), source.object);
    const worked = recompute(raw, { profiles: source.profiles ?? {}, lines: source.lines });
    save.disabled = !worked.ok;
    if (!worked.ok) {
      state.textContent = 'Not worked out: see the field that is wrong.';
      const elsewhere: string[] = [];
      for (const issue of worked.issues) {
        const path = issue.path.join('.');
        const input = inputs.find((i) => i.dataset['path'] === path);
        if (input) complain(input, complaint(issue));
        else elsewhere.push(`${path}: ${complaint(issue)}`);
      }
      if (elsewhere.length > 0) state.textContent = elsewhere.join(' ');
      return;
    }
    later = { ...later, old: { program: true, sheets: true } };
    const view = showFindings(worked);
    replace('shell', drawingsSection(view));
    state.textContent = `${changed()} Fit and pictures are new; program, template and collar follow when you pause.`;
    bench.redrawn();
    timer = setTimeout(() => {
      bench.scene(solidScene(worked.jig, worked.layout));
      const program = showProgram(worked);
      timer = setTimeout(() => showSheets(worked, program), PAUSE.sheets);
    }, PAUSE.program);
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
