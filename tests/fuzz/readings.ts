import fc from 'fast-check';
import { measuredShell } from '../../src/jobs/measured.ts';
import { blankReadings } from '../../src/measured/pairs.ts';
import { readReadings } from '../../src/measured/readings.ts';
import { planned } from '../helpers/jigs.ts';
import { bytes, mutationsOf } from './edits.ts';
import { complained, finite, sameTwice, told } from './said.ts';
import type { Fuzzed } from './suite.ts';

/** A drum of nine holes, so that a million forms of it take minutes. */
const { jig, layout } = planned({
  jig: 1,
  name: 'Small',
  shell: { diameter: '200 mm', depth: '120 mm', wall: '6 mm' },
  lugs: {
    count: 3,
    rows: [{ edge: 'top', distance: '36 mm' }],
    holes: { layout: 'upright', spacing: '20 mm', drill: '5 mm', screw: 'M4 x 12' },
  },
  fittings: [
    {
      name: 'vent',
      role: 'vent',
      at: 30,
      edge: 'bottom',
      distance: '60 mm',
      holes: { layout: 'single', drill: '10 mm' },
    },
    {
      name: 'strainer',
      role: 'other',
      at: 180,
      edge: 'bottom',
      distance: '40 mm',
      holes: { layout: 'across', spacing: '30 mm', drill: '5 mm', screw: 'M5 x 12' },
    },
  ],
});

const BLANK = blankReadings(jig, layout).trimEnd().split('\n');
/** The form filled in as a caliper reads the shell that was planned: straight through space, to a twentieth. */
const FILLED = BLANK.map((line) => {
  const [kind = '', from = '', to = '', , over = ''] = line.split(',');
  const [a, b] = [from, to].map((id) => layout.holes.find((h) => h.id === id));
  if (a === undefined) return line;
  const place = (h: typeof a): [number, number, number] => {
    const turn = (h.angle * Math.PI) / 180;
    return [layout.radius * Math.cos(turn), layout.radius * Math.sin(turn), h.height];
  };
  const far = to === 'top' ? layout.depth - a.height : a.height;
  const middles = b === undefined ? far : Math.hypot(...place(a).map((x, i) => x - place(b)[i]!));
  const rims = /outside|far/.test(kind + over) ? 1 : /inside|near/.test(kind + over) ? -1 : 0;
  const radii = (a.drill + (b?.drill ?? 0)) / 2;
  const mm = (Math.round((middles + rims * radii) * 20) / 20).toFixed(2);
  return [kind, from, to, mm, over].join(',').replace(/,$/, '');
});
const FORMS = [
  `${FILLED.join('\n')}\n`,
  `${BLANK.join('\n')}\n`,
  `\ufeff${FILLED.join('\r\n')}\r\n`,
  FILLED.map((l) => l.replaceAll(',', ';').replaceAll('.', ',')).join('\n'),
  FILLED.map((l) => l.replaceAll(',', '\t')).join('\r'),
];

const id = fc.constantFrom(...layout.holes.map((h) => h.id), 'top', 'bottom', 'lug-9', '');
const row = fc
  .tuple(
    fc.constantFrom('edge', 'chord', 'edge-near', 'edge-far', 'chord-outside', 'chord-inside', 'Chord', '', 'x'),
    id,
    id,
    fc.oneof(
      fc.double({ min: -1, max: 400, noNaN: true }).map((n) => n.toFixed(2)),
      fc.constantFrom('', '0', '-3', '1e9', '12 mm', '1,5', '1/2', '3 in', '"12"', '9'.repeat(400)),
    ),
    fc.constantFrom('', '', 'outside', 'inside', 'near', 'far', 'sideways'),
  )
  .map((f) => f.join(','));
const rows = fc
  .tuple(
    fc.constantFrom('kind,from,to,reading_mm,over', 'kind,from,to,reading_mm', 'over,kind,to,from,reading'),
    fc.array(row, { maxLength: 25 }),
  )
  .map(([head, all]) => [head, ...all].join('\n'));

/** Readings files: refused with place and cure, or reckoned to a report whose every number is one. */
export const readings: Fuzzed<string> = {
  name: 'readings',
  short: 40,
  inputs: fc.oneof(
    { weight: 4, arbitrary: mutationsOf(FORMS) },
    { weight: 3, arbitrary: rows },
    { weight: 1, arbitrary: bytes },
  ),
  holds(text) {
    // Any of the three line ends will do in this file.
    const lined = text.replace(/^\ufeff/, '').replace(/\r\n?/g, '\n');
    const { problems } = readReadings(text, layout);
    if (problems.length > 0) complained(problems, lined);
    const { report, findings } = measuredShell(jig, layout, text);
    if (problems.length > 0 && report.problems.length === 0) throw new Error('a fault of the text was forgotten');
    if (report.problems.length > 0) return complained(report.problems, lined);
    told(findings);
    finite(report, 'report');
    sameTwice(() => measuredShell(jig, layout, text));
  },
};
