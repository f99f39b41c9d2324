import type { Finding, Level } from '../../model/finding.ts';
import { closeUp, namedPlaces } from '../../picture/close-up.ts';
import { rodCard } from '../../picture/rod-card.ts';
import { sidePicture } from '../../picture/side.ts';
import { clip, esc } from '../../picture/svg.ts';
import { trimmed } from '../../say/saying.ts';
import { figure, list, plural, section } from '../html.ts';
import type { View } from '../view.ts';
import { fits } from './drawings.ts';

const WORD: Readonly<Record<Level, string>> = { stop: 'STOP', care: 'CARE', note: 'NOTE' };
/** Pictures of findings on one page; a file with hundreds of faults shows the first ones. */
const MOST_PICTURES = 24;

/** The line at the very top: may the builder drill or not. */
export function verdict(findings: readonly Finding[]): string {
  const stops = findings.filter((f) => f.level === 'stop');
  const cares = findings.filter((f) => f.level === 'care');
  if (stops.length > 0) {
    const items = stops.slice(0, 6).map((f) => `<a href="#${anchor(f, findings)}">${esc(f.text)}</a>`);
    const more = stops.length > 6 ? [`and ${plural(stops.length - 6, 'more', 'more')} below`] : [];
    return `<div id="verdict" class="verdict stop" role="alert"><p><strong>STOP: do not drill or cut.</strong> ${plural(stops.length, 'thing')} must change first.</p>${list([...items, ...more])}</div>`;
  }
  const care = cares.length > 0 ? ` Read the ${plural(cares.length, 'point')} marked CARE before you start.` : '';
  return `<div id="verdict" class="verdict clear" role="status"><p><strong>Nothing here says stop.</strong>${care} What could not be checked is listed under NOTE.</p></div>`;
}

const anchor = (f: Finding, all: readonly Finding[]): string => `finding-${all.indexOf(f) + 1}`;

export function findingsSection(view: View): string {
  const { findings } = view;
  if (findings.length === 0) return section('matters', 'What matters first', '<p>No findings.</p>');
  const shown = new Set<string>();
  const groups = (['stop', 'care', 'note'] as const).map((level) => {
    const some = findings.filter((f) => f.level === level);
    if (some.length === 0) return '';
    return `<ol class="findings">${some.map((f) => one(f, view, shown)).join('')}</ol>`;
  });
  return section('matters', 'What matters first', groups.join(''));
}

function one(f: Finding, view: View, shown: Set<string>): string {
  const facts = [
    f.source && f.level !== 'note' ? `Limit from: ${esc(f.source)}.` : '',
    f.line ? `Jig file, line ${f.line}.` : '',
  ]
    .filter((t) => t !== '')
    .join(' ');
  return `<li class="finding ${f.level}" id="${anchor(f, view.findings)}"><p class="level">${WORD[f.level]}</p><div><p class="said">${esc(f.text)}</p>${
    f.try === '' ? '' : `<p class="try"><b>Try:</b> ${esc(f.try)}</p>`
  }${facts === '' ? '' : `<p class="fine">${facts}</p>`}${f.level === 'note' ? '' : pictureOf(f, view, shown)}</div></li>`;
}

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
          `Rod of ${trimmed(card.view.length, 1)} mm in its lug, to scale: ${card.row}. ${fits(card.view)}`,
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
  return once(`skin ${f.at}`, () => {
    const near = closeUp(view, f.at, f.text);
    return near === '' ? '' : figure(near, `On the skin at ${clip(f.at, 40)}, to scale`);
  });
}
