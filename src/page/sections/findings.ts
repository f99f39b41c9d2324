import type { Finding, Level } from '../../model/finding.ts';
import { closeUp, namedPlaces } from '../../picture/close-up.ts';
import { inUnits } from '../../picture/length.ts';
import { rodCard } from '../../picture/rod-card.ts';
import { screwCard } from '../../picture/screw.ts';
import { sidePicture } from '../../picture/side.ts';
import { clip, esc } from '../../picture/svg.ts';
import { threadPicture } from '../../picture/thread.ts';
import { figure, list, plural, section } from '../html.ts';
import { screwAt } from '../screws.ts';
import type { View } from '../view.ts';
import { fits } from './drawings.ts';

const WORD: Readonly<Record<Level, string>> = { stop: 'STOP', care: 'CARE', note: 'NOTE' };
/** Pictures of findings on one page; a file with hundreds of faults shows the first ones. */
const MOST_PICTURES = 24;

/** None are from before an edit. */
const NONE: ReadonlySet<Finding> = new Set();

/** The line at the very top: may the builder drill or not. `old` are findings from before an edit. */
export function verdict(findings: readonly Finding[], old = NONE): string {
  const stops = together(findings).filter((same) => same[0]!.level === 'stop');
  const cares = findings.filter((f) => f.level === 'care');
  const waiting =
    old.size > 0
      ? ` ${plural(old.size, 'finding')} of program, template and collar ${old.size === 1 ? 'is' : 'are'} from before your change.`
      : '';
  if (stops.length > 0) {
    const items = stops
      .slice(0, 6)
      .map(([f]) => `<a href="#${anchor(f!, findings)}">${esc(sentence(brief(f!.text)))}</a>`);
    const more = stops.length > 6 ? [`and ${plural(stops.length - 6, 'more', 'more')} below`] : [];
    return `<div id="verdict" class="verdict stop" role="alert"><p><strong>STOP: do not drill or cut.</strong> ${plural(stops.length, 'thing')} must change first.${waiting}</p>${list([...items, ...more])}</div>`;
  }
  const care = cares.length > 0 ? ` Read the ${plural(cares.length, 'point')} marked CARE before you start.` : '';
  const unknown = findings.filter((f) => NOT_CHECKED.test(f.id)).length;
  const rest = unknown > 0 ? ` ${plural(unknown, 'check')} could not be made: see the notes for what they need.` : '';
  return `<div id="verdict" class="verdict clear" role="status"><p><strong>Nothing here says stop.</strong>${care}${rest}${waiting}</p></div>`;
}

const NOT_CHECKED = /not-checked/;

/** The first sentence of a finding; a second clause after a colon may go too, when enough stands before it. */
function brief(text: string): string {
  const first = text.split(/(?<=[^.]{12})\. /)[0]!.replace(/\.$/, '');
  const head = first.split(': ')[0]!;
  return clip(head.length > 24 ? head : first, 140);
}

const anchor = (f: Finding, all: readonly Finding[]): string => `finding-${all.indexOf(f) + 1}`;

/** Stops and cares with their pictures; notes after them, folded away on a screen and open on paper. */
export function findingsSection(view: View, old = NONE): string {
  const { findings } = view;
  if (findings.length === 0) return section('matters', 'What matters first', '<p>No findings.</p>');
  const shown = new Set<string>();
  const groups = together(findings);
  const items = groups.filter((g) => g[0]!.level !== 'note').map((same) => one(same, view, shown, old));
  const notes = groups.filter((g) => g[0]!.level === 'note');
  const unknown = notes.filter((g) => NOT_CHECKED.test(g[0]!.id));
  const told = notes.filter((g) => !unknown.includes(g));
  const fold = (what: string, some: typeof notes): string =>
    some.length === 0
      ? ''
      : `<details class="notes"><summary>${what}</summary><ul>${some.map((g) => note(g, view, old)).join('')}</ul></details>`;
  return section(
    'matters',
    'What matters first',
    `${items.length > 0 ? `<ol class="findings">${items.join('')}</ol>` : '<p>Nothing says stop or care.</p>'}${fold(
      `Not checked, for want of a number: ${unknown.length}`,
      unknown,
    )}${fold(`Notes: what was found and assumed, ${told.length}`, told)}`,
  );
}

/** Findings that say the same of several places stand together: one sentence, all places. Order is kept. */
function together(findings: readonly Finding[]): readonly (readonly Finding[])[] {
  const groups = new Map<string, Finding[]>();
  for (const f of findings) {
    const key = JSON.stringify([f.level, f.id, f.text, f.try]);
    const same = groups.get(key);
    if (same) same.push(f);
    else groups.set(key, [f]);
  }
  return (['stop', 'care', 'note'] as const).flatMap((level) =>
    [...groups.values()].filter((g) => g[0]!.level === level),
  );
}

/** What several findings of one sentence share: the places to jump to, where they are, and how old they are. */
function heads(same: readonly Finding[], view: View, old: ReadonlySet<Finding>) {
  const lines = [...new Set(same.flatMap((s) => (s.line === undefined ? [] : [s.line])))];
  return {
    anchors: same.map((s) => `<span id="${anchor(s, view.findings)}"></span>`).join(''),
    where: esc(clip([...new Set(same.map((s) => s.at))].join(', '), 120)),
    line: lines.length > 0 ? `${lines.length === 1 ? 'Line' : 'Lines'} ${lines.join(', ')}.` : '',
    before: same.some((s) => old.has(s))
      ? '<p class="before"><b>From before your change</b>; worked out anew when you pause.</p>'
      : '',
  };
}

function one(same: readonly Finding[], view: View, shown: Set<string>, old: ReadonlySet<Finding>): string {
  const f = same[0]!;
  const { anchors, where, line, before } = heads(same, view, old);
  const fine = [f.source ? `Limit from: ${esc(f.source)}.` : '', line].filter((t) => t !== '');
  const pictures = same.map((s) => pictureOf(s, view, shown)).join('');
  return `<li class="finding ${f.level}"><p class="level">${anchors}${WORD[f.level]}</p><div>${before}<p class="where">${where}</p><p class="said">${esc(sentence(f.text))}</p>${
    f.try === '' ? '' : `<p class="try"><b>Try:</b> ${esc(f.try)}</p>`
  }${fine.length === 0 ? '' : `<p class="fine">${fine.join(' ')}</p>`}${pictures}</div></li>`;
}

function note(same: readonly Finding[], view: View, old: ReadonlySet<Finding>): string {
  const f = same[0]!;
  const { anchors, where, line, before } = heads(same, view, old);
  return `<li class="finding note">${anchors}${before}<p class="where">${where}${line === '' ? '' : ` · ${line}`}</p><p class="said">${esc(sentence(f.text))}</p>${
    f.try === '' ? '' : `<p class="try"><b>Try:</b> ${esc(f.try)}</p>`
  }</li>`;
}

const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** The picture that tells the finding: rod and hoop in section, everything else on the skin where it happens. Each once. */
function pictureOf(f: Finding, view: View, shown: Set<string>): string {
  if (shown.size >= MOST_PICTURES) return '';
  const once = (key: string, draw: () => string): string => {
    if (shown.has(key)) return '';
    const drawn = draw();
    if (drawn !== '') shown.add(key);
    return drawn;
  };
  const spoken = new Set([f.at, ...namedPlaces(f.at, view.layout).map((p) => p.group)]);
  if (/^rods?-/.test(f.id) && !/lean|line/.test(f.id)) {
    const card = view.rods.find((c) => c.at.some((a) => spoken.has(a)));
    if (card)
      return once(`rod ${card.row}`, () =>
        figure(
          rodCard(card.view),
          `Rod of ${inUnits(card.view.length, card.view.units)} in its lug, to scale: ${card.row}. ${fits(card.view)}`,
        ),
      );
  }
  if (/hoop|lean|skirt|bind|^rods?-/.test(f.id)) {
    const card = view.sides.find((c) => c.at.some((a) => spoken.has(a)));
    if (card)
      return once(`side ${card.row}`, () =>
        figure(sidePicture(card.view), `Cut through the wall, to scale: ${card.row}`),
      );
  }
  if (/screw|hole-tight|washer|casting/.test(f.id)) {
    const screw = screwAt(view.jig, view.layout, f.at);
    if (screw) {
      return once(`screw ${JSON.stringify(screw)}`, () =>
        figure(screwCard(screw), `The screw, to scale, at ${clip(f.at, 40)}: inside of the shell on the left`),
      );
    }
  }
  if (/thread/.test(f.id)) {
    // Two threads that do not match show nowhere on the skin.
    const rod = view.jig.rods?.thread;
    const lug = view.jig.rows.find((r) => spoken.has(r.name) || spoken.has(`${r.name}-lugs`))?.rod?.takes;
    if (!rod || !lug) return '';
    return once(`thread ${lug.name}`, () =>
      figure(threadPicture(rod, lug), 'Rod over lug, to scale: watch the crests run apart'),
    );
  }
  return once(`skin ${f.at}`, () => {
    const near = closeUp(view, f.at, f.text);
    return near === '' ? '' : figure(near, `On the skin at ${clip(f.at, 40)}, to scale`);
  });
}
