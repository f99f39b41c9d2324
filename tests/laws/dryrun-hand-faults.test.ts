import { expect, test } from 'vitest';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import type { Hole } from '../../src/model/layout.ts';
import { dryRunSayings } from '../../src/say/dryrun.ts';
import { context, MACHINE, plan } from '../helpers/drill-program.ts';

/**
 * A program as a person writes it at the machine, and slips of that hand: rows by G91 and L, pecks, words kept from line
 * to line, a chip dwell back to R, strokes long-hand in inverse time, A below nought and past a turn.
 */
const hole = (id: string, angle: number, height: number, drill: number): Hole => ({
  ...plan().holes[0]!,
  id,
  fitting: id,
  angle,
  height,
  drill,
  pilot: 2.5,
});
const C = context({
  layout: {
    ...plan(),
    holes: [
      ...[32, 60, 88].map((h, i) => hole(`row-${i}`, 0, h, 6)),
      hole('peck-a', 10, 103.3, 6),
      hole('peck-b', 10, 128.7, 6),
      hole('long-a', 350, 40, 6),
      hole('long-b', 350, 70, 6),
      hole('dwell-a', 95, 50, 6),
      hole('dwell-b', 95, 75.5, 6),
    ],
  },
});

const pass = (tool: number, speed: number, feed: number, deep: number): string[] => [
  'M5',
  'G0 Z50.',
  `T${tool} M6`,
  `M3 S${speed}`,
  'G4 P3.',
  'G0 X4. Y0. A0.',
  'Z5.',
  `G91 G81 X28. Z-${1 + deep} R-4. L3 F${feed}`,
  'G90 G80',
  'G0 A10.',
  'X103.3',
  `G83 X103.3 Z-${deep} R1. Q2.5 F${feed}`,
  'X128.7',
  'G80',
  'G0 A-10. X40.',
  'Z1.',
  `G93 G1 Z-${deep} F${(feed / (1 + deep)).toFixed(2)}`,
  'G0 Z3.',
  'X70.',
  'Z1.',
  `G1 Z-${deep} F${(feed / (1 + deep)).toFixed(2)}`,
  'G0 Z5. G94',
  'A455. X50.',
  `G99 G82 X50. Z-${deep} R2. P.2 F${feed}`,
  'X75.5',
  'G98 G80',
  'G0 Z5.',
];
const SOUND = ['G21 G17 G90 G94', 'G80 G98 G54', 'G0 Z50.', ...pass(2, 3000, 300, 8.4), ...pass(3, 1500, 220, 9.4)];
const END = ['M5', 'G0 Z50.', 'M30'];
const PROGRAM = [...SOUND, ...END];

type Judge = Partial<typeof C>;
const levels = (lines: readonly string[], over: Judge = {}): Map<string, string> => {
  const { facts } = dryRun([`${lines.join('\n')}\n`], { ...C, ...over });
  return new Map(facts.filter((f) => f.level !== 'note').map((f) => [f.id, f.level]));
};

/** The n-th line that matches, changed; 0 is the first, -1 the last. */
const change = (re: RegExp, how: string | ((line: string) => string), n = -1): string[] => {
  const at = PROGRAM.flatMap((l, i) => (re.test(l) ? [i] : [])).at(n)!;
  const line = PROGRAM[at]!;
  return PROGRAM.toSpliced(at, 1, ...(typeof how === 'string' ? line.replace(re, how) : how(line)).split('\n'));
};
const after = (re: RegExp, line: string, n = -1): string[] => change(re, (l) => `${l}\n${line}`, n);
const before = (re: RegExp, line: string, n = -1): string[] => change(re, (l) => `${line}\n${l}`, n);
const drop = (re: RegExp, n = -1): string[] =>
  PROGRAM.toSpliced(PROGRAM.flatMap((l, i) => (re.test(l) ? [i] : [])).at(n)!, 1);
const all = (re: RegExp, to: string): string[] => PROGRAM.map((l) => l.replace(re, to));

test('the program is sound, in other spellings too', () => {
  for (const lines of [
    PROGRAM,
    PROGRAM.map((l) => l.toLowerCase().replaceAll(' ', '')),
    all(/(\d)\.(?!\d)/g, '$1'),
    all(/A455\./, 'A95.'),
    all(/A-10\./, 'A350.'),
    all(/^X(\d)/, 'X+0$1'),
    PROGRAM.map((l, i) => `N${i + 1} ${l}`),
    ['%', ...PROGRAM, '%'],
  ])
    expect(levels(lines)).toEqual(new Map());
});

const CASES: readonly (readonly [name: string, expect: string, lines: readonly string[], over?: Judge])[] = [
  ['one hole too many in a row', 'hole-extra', change(/L3/, 'L4')],
  ['one too few', 'hole-only-piloted', change(/L3/, 'L2')],
  ['one too few in both passes', 'hole-missing', all(/L3/, 'L2')],
  ['a row that never ends', 'outside-travel', change(/L3/, 'L30')],
  ['a row repeated no times', 'number-not-whole', change(/L3/, 'L0')],
  ['K where L is meant', 'word-unused', change(/L3/, 'K3')],
  ['a row’s step with its point too early', 'hole-extra', change(/X28\./, 'X2.8')],
  ['a row that starts at its first hole', 'hole-extra', change(/X4\. Y0/, 'X32. Y0')],
  ['steps never ended', 'outside-travel', change(/^G90 G80/, 'G80', 0)],
  ['a row by steps without G91', 'rapid-into-wood', change(/G91 G81/, 'G81')],
  ['a row’s depth from the skin, not from R', 'hole-not-through', change(/Z-10\.4 R/, 'Z-8. R')],
  ['a row’s R as a place', 'hole-not-through', change(/R-4\./, 'R1.')],
  ['one A with the other sign', 'hole-only-piloted', change(/A-10\./, 'A10.')],
  ['A a nought short', 'hole-extra', change(/A10\./, 'A1.')],
  ['A by half a turn', 'hole-extra', change(/A455\./, 'A275.')],
  ['A past a turn on an axis that is wound', 'axis-wound', PROGRAM, { machine: { ...MACHINE, rotary: [-360, 360] } }],
  ['a turn by steps made twice', 'hole-extra', change(/^A455\. X50\./, 'G91 A105.\nA105.\nG90 X50.')],
  ['the same place again, a turn on', 'hole-doubled', after(/^G98 G80/, 'G0 Z5. A95.\nG81 X50. Z-9.4 R2. F220\nG80')],
  ['the axis called nought where it stands', 'hole-extra', after(/^G0 A10\./, 'G92 A0.\nA10.')],
  ['X called nought, and not undone', 'outside-travel', before(/^G0 A10\./, 'G92 X300.')],
  ['a zero for the second bit only', 'hole-misplaced', after(/^T3/, 'G10 L2 P1 X.4')],
  ['another offset, set, for the second bit', 'hole-misplaced', after(/^T3/, 'G10 L2 P2 X.4 A0 Z0\nG55')],
  ['A’s zero turned in the table', 'job-turned', change(/^G80 G98/, 'G10 L2 P1 A7.\nG80 G98', 0)],
  ['inches from half-way', 'outside-travel', before(/^G0 A10\./, 'G20')],
  ['a length of another bit', 'length-of-other-tool', after(/^T3/, 'G43 H2')],
  ['a length that is not nought', 'hole-not-through', after(/^T3/, 'G43 H3'), { interpret: { lengths: { 3: 3 } } }],
  ['inverse time left on', 'cycle-in-inverse-time', change(/ G94$/, '')],
  ['a feed a minute in inverse time', 'feed-breaks-bit', change(/^(G93 G1 .*) F[\d.]+/, '$1 F220')],
  ['no feed on a line in inverse time', 'feed-missing', change(/^(G1 .*) F[\d.]+/, '$1')],
  ['an inverse time of nothing', 'feed-zero', change(/^(G1 .*) F[\d.]+/, '$1 F0')],
  ['feed a turn', 'code-unknown', change(/^M3 S1500/, 'G95 M3 S1500')],
  ['another plane in front of a cycle', 'hole-only-piloted', change(/^G83/, 'G18 G83')],
  ['a cycle never ended', 'hole-extra', drop(/^G80$/).map((l) => l.replace(/^G0 A-10\. X40\./, 'X40.'))],
  ['a cycle never ended, and A', 'cycle-turns', change(/^G80\nG0|^G0 A-10/, 'G83 A-10')],
  ['a bottom without its minus', 'cycle-retract-below-bottom', change(/^(G83 .*)Z-/, '$1Z')],
  ['a bottom from the axis', 'outside-travel', change(/^(G83 .*)Z-9\.4/, '$1Z-154.3')],
  ['pecks of a micron', 'cycle-endless', change(/Q2\.5/, 'Q.00001')],
  ['the chip dwell in milliseconds', 'dwell-long', change(/P\.2/, 'P200')],
  ['a dwell by X', 'dwell-missing', change(/^G4 P3\./, 'G4 X3.')],
  [
    'the spindle started after the row',
    'spindle-off-in-wood',
    after(/^G90 G80/, 'M3').map((l) => (l === 'M3 S1500' ? 'S1500' : l)),
  ],
  ['the next bit called a pass too early', 'hole-doubled', change(/^T2 M6/, 'T3 M6', 0)],
  [
    'bits called one pass late',
    'tool-unset',
    PROGRAM.map((l) => l.replace(/^T(\d) M6/, 'M6\nT$1'))
      .join('\n')
      .split('\n'),
  ],
  ['the same bit again', 'hole-doubled', change(/^T3 M6/, 'T2 M6')],
  ['back up less than out of the hole', 'rapid-into-wood', change(/^G0 Z3\./, 'G0 Z-3.')],
  ['a shell turned on the way up', 'turned-in-wood', change(/^G0 Z5\. G94/, 'G0 Z-3. G94')],
  ['R inside the wood, back to R only', 'rapid-into-wood', change(/R2\. P/, 'R-2. P')],
  ['no room from hole to hole', 'low-over-shell', change(/^G0 Z3\./, 'G0 Z.2')],
  [
    'a row copied to another angle',
    'hole-extra',
    change(/^G0 A10\./, 'X4. A45.\nG91 G81 X28. Z-10.4 R-4. L3 F220\nG90 G80\nG0 A10.'),
  ],
  ['one hole beside the axis', 'hole-misplaced', change(/^X128\.7/, 'X128.7 Y2.')],
  ['one hole a little beside it', 'hole-misplaced', change(/^X128\.7/, 'X128.7 Y.4')],
  ['a place to the wrong hole of the drawing', 'hole-only-piloted', change(/^X128\.7/, 'X103.3')],
  ['two figures changed about', 'hole-misplaced', change(/^X128\.7/, 'X127.8')],
  ['a figure twice', 'outside-travel', change(/^X128\.7/, 'X1288.7')],
  ['half of the lines switched off', 'hole-missing', all(/^(X128)/, '/$1'), { interpret: { blockDelete: true } }],
  ['a percent line in the middle', 'hole-only-piloted', ['%', ...before(/^T3 M6/, '%')]],
  ['a subprogram', 'code-unknown', change(/^M3 S1500/, 'M98 P1000\nM3 S1500')],
  ['a label', 'letter-unknown', ['O1000', ...PROGRAM]],
  ['a number as computers write it', 'letter-unknown', change(/X103\.3 Z/, 'X1.033E2 Z')],
  ['the letter l for a one', 'number-missing', change(/^X128\.7/, 'Xl28.7')],
  ['two points', 'number-malformed', change(/^X128\.7/, 'X12.8.7')],
  ['a line number of six digits', 'line-number-malformed', change(/^X128\.7/, 'N100000 X128.7')],
  ['a thread', 'code-not-supported', change(/^G83/, 'G84')],
  ['a probe', 'code-not-supported', after(/^T3/, 'G38.2 Z-10. F50')],
  ['home between two holes', 'home-unknown', before(/^G0 A-10/, 'G28')],
  ['to the machine’s nought', 'machine-coordinates', after(/^T3/, 'G53 G0 Z0.')],
  ['a look at the work with the spindle on', 'pause-while-turning', before(/^X128\.7/, 'M0')],
  ['four times the speed', 'speed-high-for-bit', change(/S1500/, 'S6000')],
  ['a pass of the drill to clean the holes', 'hole-doubled', [...SOUND, ...pass(3, 1500, 220, 9.4), ...END]],
];

/** What looks odd but may be meant. */
const CARES = new Set([
  'dwell-long',
  'home-unknown',
  'machine-coordinates',
  'pause-while-turning',
  'low-over-shell',
  'speed-high-for-bit',
]);

test.each(CASES.map(([name, id, lines, over]) => [name, id, lines, over] as const))('%s: %s', (_, id, lines, over) => {
  const told = levels(lines, over);
  expect([told.get(id), [...told].join(' ')]).toEqual([CARES.has(id) ? 'care' : 'stop', expect.any(String)]);
});

test('a shell larger than the machine swings, and one as large', () => {
  const across = 2 * C.shell.radius;
  const swings = (swing: number) => levels(SOUND, { machine: { ...MACHINE, swing } }).get('shell-over-swing');
  expect([swings(across - 0.01), swings(across)]).toEqual(['stop', undefined]);
});

test('a hole of a quarter inch is called by the size of its bit', () => {
  const missing = { level: 'stop', id: 'hole-missing', at: 'vent', measured: null, limit: 6.35, unit: 'mm' } as const;
  expect(dryRunSayings['hole-missing']!.text({ ...missing, facts: { angle: 0, height: 32 } })).toMatch(
    /6\.35 mm planned/,
  );
});
