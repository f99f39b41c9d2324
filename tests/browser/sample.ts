import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { type Made, make } from '../../src/jobs/make.ts';
import { programAgain, recompute } from '../../src/jobs/recompute.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Finding } from '../../src/model/finding.ts';
import type { PageData, PageTemplate } from '../../src/page/data.ts';
import { planHoles } from '../../src/page/view.ts';
import { inOrder } from '../../src/say/say.ts';

/** An invented build for tests of the page: eight single lugs a side, strainer, butt, a vent. */
export const SAMPLE = `jig: 1
name: Quiet Lane 13 x 6
units: mm
shell:
  diameter: 327.4 mm
  depth: 152 mm
  wall: 6.6 mm
  nominal: 13 in
  wood: black-cherry
  build: stave
  rings: { top: { width: 20 mm, thickness: 4 mm } }
  joints: [11.25 deg, 33.75 deg]
  holes: [ { at: 270 deg, edge: middle, distance: 0, diameter: 10 mm } ]
lugs:
  count: 8
  rows:
    - { edge: top, distance: 36 mm }
    - { edge: bottom, distance: 36 mm }
  holes: { layout: upright, spacing: 25.4 mm, drill: 6 mm, pilot: 2.5 mm, screw: M4 x 16, tapped: 10 mm, axes: parallel }
  foot: { width: 18 mm, height: 46 mm, gasket: 1 mm }
  rod: { face: 18 mm, catch: 6 mm, bottom: 28 mm, takes: 12-24 UNC, standoff: 14 mm }
rods: { length: { top: 42 mm, bottom: 42 mm }, thread: 12-24 UNC, threaded: 25 mm, washer: 1.5 mm, travel: 3 turns, stock: [35, 42, 50, 57] }
hoops: { top: { ear: 4 mm, skirt: 5 mm, ears: 8, ear-circle: 357.4 mm }, bottom: { ear: 4 mm } }
fittings:
  - { name: strainer, role: strainer, at: 0 deg, edge: bottom, distance: 46 mm,
      holes: { layout: upright, spacing: 28 mm, drill: 5 mm, screw: M4 x 12 }, foot: { width: 30 mm, height: 60 mm }, snare-line: 0 mm, drop: 20 mm }
  - { name: butt, role: butt, at: 180 deg, edge: bottom, distance: 46 mm,
      holes: { layout: upright, spacing: 28 mm, drill: 5 mm, screw: M4 x 12 }, foot: { width: 30 mm, height: 45 mm } }
  - { name: vent, role: vent, at: { between: [2, 3] }, edge: middle, distance: 0,
      holes: { layout: single, drill: 11 mm } }
beds: { width: 90 mm, depth: 2 mm }
`;

const FINDINGS: readonly Finding[] = [
  {
    level: 'stop',
    id: 'rod-bottoms',
    at: 'top-lugs',
    text: 'The top rods bottom 1.3 mm before the head is tight.',
    measured: 29.3,
    limit: 26,
    unit: 'mm',
    try: 'use 35 mm rods, or set the lugs 3.3 mm further from the edge',
    source: 'common practice, no source',
    line: 22,
  },
  {
    level: 'care',
    id: 'hoop-lean',
    at: 'top-lugs',
    text: 'The rods lean 1.2° outwards.',
    measured: 1.2,
    limit: 1,
    unit: 'deg',
    try: 'a gasket 1 mm thinner',
    source: 'common practice, no source',
  },
  {
    level: 'care',
    id: 'hole-in-bed',
    at: 'strainer-a',
    text: 'The lower hole of the strainer comes near the snare bed and lug-bottom-1.',
    measured: 4,
    limit: 5,
    unit: 'mm',
    try: 'raise the strainer 1 mm',
    source: 'common practice, no source',
  },
  {
    level: 'note',
    id: 'not-checked',
    at: 'shell',
    text: 'Not checked: whether the head fits. Needs shell.round.',
    measured: null,
    limit: null,
    unit: '',
    try: 'measure four diameters',
  },
];

export function samplePage(template: PageTemplate, text = SAMPLE, findings: readonly Finding[] = FINDINGS): PageData {
  const parsed = parseText(text);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const resolved = resolveJig(parsed.raw, { lines: parsed.lines });
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  const layout = layOut(resolved.jig);
  return {
    jig: resolved.jig,
    layout,
    plan: { holes: planHoles(layout) },
    findings,
    later: [],
    files: [
      { name: 'plan.json', what: 'everything computed' },
      { name: 'wrap-sheet-1.svg', what: 'wrap template, sheet 1' },
    ],
    notMade: [{ what: 'rotary.nc', why: 'a finding says stop' }],
    dryRun: null,
    rotary: null,
    budget: null,
    collar: null,
    sheets: { wrap: 1, collar: 0 },
    asked: {},
    source: { text, object: parsed.raw, spans: parsed.spans(), lines: parsed.lines },
    version: '0.1.0',
    digest: '0123456789abcdef0123456789abcdef',
    template,
  };
}

/** The sample as a build on a rotary, with a program that was really written and its dry run; as `change` makes it. */
export function samplePageWithProgram(
  template: PageTemplate,
  rotary = 'machine: rotary-slow, datum: bottom',
  change = (text: string): string => text,
): PageData {
  const text = change(`${SAMPLE}method: rotary\nrotary: { ${rotary}, backing: 12 mm, tools: default }\n`);
  const page = samplePage(template, text, []);
  const worked = recompute(page.source.object, { lines: page.source.lines });
  if (!worked.ok) throw new Error('the sample cannot be read');
  const { findings, made } = programAgain(worked, { digest: page.digest, version: page.version });
  if (!made.rotary) throw new Error('the sample has no program');
  const stops = worked.view.findings.filter((f) => f.level === 'stop');
  return { ...page, ...made, findings: inOrder([...stops, ...findings]), later: findings };
}

/** The set that the main job makes of a jig file. */
export async function madeSet(template: PageTemplate, text: string): Promise<Made> {
  const page = samplePage(template, text, []);
  return make({
    jig: page.jig,
    layout: page.layout,
    source: page.source,
    digest: page.digest.slice(0, 12),
    version: page.version,
    template,
    rotary: page.asked,
    solid: false,
    anyway: false,
    onStage: () => undefined,
  });
}

export const pageOf = (set: Made): string => String(set.files.find((f) => f.name === 'bench.html')?.data);
