import { clip, esc, plain } from '../picture/svg.ts';
import type { PageData } from './data.ts';
import { orPlace, section } from './html.ts';
import type { LiveData } from './live-data.ts';
import { named } from './number.ts';
import { dataText, policy } from './policy.ts';
import { changeSection } from './sections/change.ts';
import { drawingsSection } from './sections/drawings.ts';
import { findingsSection, verdict } from './sections/findings.ts';
import { gaugeSection } from './sections/gauge.ts';
import { holesSection } from './sections/holes.ts';
import { replaySection } from './sections/replay.ts';
import { assumedSection, budgetSection, filesSection, shoppingSection } from './sections/rest.ts';
import { rotarySection } from './sections/rotary.ts';
import { workSection } from './sections/work.ts';
import { viewOf } from './view.ts';

/** The whole bench page as text: self-contained, no request to anywhere. The same data give the same bytes. */
export function fillPage(data: PageData): string {
  const view = viewOf(data);
  const { template } = data;
  const short = clip(plain(data.jig.name), 80);
  const stop = data.findings.some((f) => f.level === 'stop');
  const sections = [
    findingsSection(view),
    drawingsSection(view),
    changeSection(data.source),
    template.solid ? TURNING : '',
    shoppingSection(view, data),
    workSection(view, data),
    holesSection(view),
    orPlace('gauge', gaugeSection(view)),
    orPlace('rotary', rotarySection(view, data)),
    orPlace('replay', replaySection(data.rotary)),
    orPlace('chances', budgetSection(data)),
    assumedSection(view),
    filesSection(data),
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy(template)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<title>${stop ? 'STOP · ' : ''}${esc(short)} · bench page</title>
<style>${template.style}</style>
</head>
<body>
<a class="skip" href="#main">To the content</a>
<header><p class="kind">Bench page</p><h1>${named(clip(data.jig.name, 120))}</h1>${verdict(data.findings)}</header>
<nav aria-label="Parts of this page">${navigation(sections)}</nav>
<main id="main">${sections.join('\n')}</main>
${BAR}
<script type="application/json" id="data">${dataText(liveData(data))}</script>
<script type="text/plain" id="again-packed">${template.again.packed}</script>
${template.solid ? `<script type="text/plain" id="solid-packed">${template.solid.packed}</script>` : ''}
<script>${template.script}</script>
</body>
</html>
`;
}

/** What a section is called in the row of links: one word each, so that a phone shows most of them. */
const SHORT: Readonly<Record<string, string>> = {
  matters: 'Findings',
  shell: 'Shell',
  change: 'Change',
  turning: '3D',
  buy: 'Buy',
  work: 'Work',
  holes: 'Holes',
  gauge: 'Gauge',
  rotary: 'Setup',
  replay: 'Replay',
  chances: 'Chances',
  assumed: 'Assumed',
  files: 'Files',
};

/** Links made from the sections that are there. */
function navigation(sections: readonly string[]): string {
  const links = sections
    .map((s) => /^<section id="([^"]+)"[^>]*><h2/.exec(s)?.[1])
    .map((id) => (id ? `<li><a href="#${id}">${SHORT[id]}</a></li>` : ''));
  return `<ul>${links.join('')}</ul>`;
}

/** What the page's scripts need; the text of the page is not repeated. */
const liveData = ({ digest, version, source, asked, later, jig }: PageData): LiveData => ({
  digest,
  version,
  source,
  asked,
  later,
  slug: jig.slug,
});

/** The turning view's place; the canvas is filled when it comes near the screen. */
const TURNING = section(
  'turning',
  'Turn it',
  '<canvas id="solid-canvas" tabindex="0" role="img" aria-label="The finished drum, turning view. Arrow keys turn it; the flat drawings and the table hold the same holes."></canvas><p id="solid-note" class="fine" aria-live="polite">The turning view starts when this part of the page is seen.</p>',
  'screen live-only',
);

/** Where a picked hole's numbers stand; empty until one is picked. */
const BAR =
  '<aside id="picked" class="screen" aria-label="Picked hole" hidden><div class="what" aria-live="polite"></div><p><button type="button" id="pick-before">Hole before</button> <button type="button" id="pick-after">Hole after</button> <button type="button" id="pick-away">Close</button></p></aside>';
