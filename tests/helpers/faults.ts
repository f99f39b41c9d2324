import type { DryRunContext } from '../../src/dryrun/context.ts';
import type { ProgramStyle } from './drill-program.ts';

/** Faults a builder, an editor or a cable can put into a sound program. `pick` chooses among n with a seed. */
export interface Fault {
  readonly name: string;
  /** Ids of which one at least must be raised, as a stop unless `level` says otherwise. */
  readonly expect: readonly string[];
  readonly level?: 'care' | 'note';
  readonly plant: (lines: readonly string[], pick: (n: number) => number) => readonly string[];
  readonly style?: ProgramStyle;
  readonly context?: (c: DryRunContext) => DryRunContext;
}

type Pick = (n: number) => number;

const indices = (lines: readonly string[], re: RegExp): number[] => lines.flatMap((l, i) => (re.test(l) ? [i] : []));

/** Changes one line among those that match. */
const one =
  (re: RegExp, change: (line: string) => string) =>
  (lines: readonly string[], pick: Pick): string[] => {
    const hits = indices(lines, re);
    const at = hits[pick(hits.length)]!;
    return lines.map((l, i) => (i === at ? change(l) : l));
  };
const all =
  (re: RegExp, change: (line: string) => string) =>
  (lines: readonly string[]): string[] =>
    lines.map((l) => (re.test(l) ? change(l) : l));
const drop =
  (re: RegExp) =>
  (lines: readonly string[], pick: Pick): string[] => {
    const hits = indices(lines, re);
    const at = hits[pick(hits.length)]!;
    return lines.filter((_, i) => i !== at);
  };
const dropAll =
  (re: RegExp) =>
  (lines: readonly string[]): string[] =>
    lines.filter((l) => !re.test(l));
const before =
  (re: RegExp, insert: string) =>
  (lines: readonly string[], pick: Pick): string[] => {
    const hits = indices(lines, re);
    const at = hits[pick(hits.length)]!;
    return [...lines.slice(0, at), insert, ...lines.slice(at)];
  };
const word =
  (letter: string, change: (n: number) => number) =>
  (line: string): string =>
    line.replace(new RegExp(`${letter}(-?[\\d.]+)`), (_, n) => letter + String(Number(change(Number(n)).toFixed(5))));

/** The last feed stroke of a hole drilled long-hand, and the rapid out after it. */
const LAST_STROKE = /^G1 Z-(?!4\.[0-7]|[0-3]\.)[\d.]+ F[23]\d\d$/;
const STATION = /^G0 X[\d.]+ Y0 A/;
const OUT = /^G0 Z10$/;

/** Lines of one whole drilled hole: from its station to the rapid out. */
function blocks(lines: readonly string[]): [number, number][] {
  return indices(lines, STATION)
    .map((i): [number, number] => [i, lines.findIndex((l, k) => k > i && OUT.test(l))])
    .filter(([a, b]) => b > a && !lines.slice(a, b).some((l) => /G3/.test(l)));
}

export const FAULTS: readonly Fault[] = [
  {
    name: 'every A with the other sign',
    expect: ['job-mirrored'],
    plant: all(
      /A/,
      word('A', (a) => -a),
    ),
  },
  {
    name: 'the machine is wired the other way',
    expect: ['job-mirrored'],
    plant: (l) => l,
    context: (c) => ({ ...c, machine: { ...c.machine, a: 'reversed' } }),
  },
  {
    name: 'the whole job turned',
    expect: ['job-turned'],
    plant: (l, pick) => {
      const by = 3 + pick(15);
      return all(
        /A/,
        word('A', (a) => a + by),
      )(l);
    },
  },
  {
    name: 'X zero shifted',
    expect: ['job-shifted'],
    plant: (l, pick) => {
      const by = 1 + pick(9);
      return all(
        /X/,
        word('X', (x) => x + by),
      )(l);
    },
  },
  {
    name: 'shell the other way round',
    expect: ['job-from-other-edge'],
    plant: (l) => l,
    style: { datum: 'top' },
  },
  {
    name: 'X counted from the other edge',
    expect: ['job-from-other-edge'],
    plant: all(
      STATION,
      word('X', (x) => 152 - x),
    ),
  },
  {
    name: 'inches taken for millimetres',
    expect: ['units-mistaken'],
    plant: all(/G20/, (l) => l.replace('G20', 'G21')),
    style: { inch: true },
  },
  {
    name: 'millimetres taken for inches',
    expect: ['units-mistaken'],
    plant: all(/G21/, (l) => l.replace('G21', 'G20')),
  },
  {
    name: 'A in radians',
    expect: ['angles-scaled'],
    plant: all(
      STATION,
      word('A', (a) => (a * Math.PI) / 180),
    ),
  },
  {
    name: 'every A a hundredth too large',
    expect: ['angles-scaled'],
    plant: all(
      STATION,
      word('A', (a) => a * 1.01),
    ),
  },
  {
    name: 'every X a fiftieth too small',
    expect: ['lengths-scaled'],
    plant: all(
      STATION,
      word('X', (x) => x * 0.98),
    ),
  },
  { name: 'no units', expect: ['units-unset'], plant: all(/G21/, (l) => l.replace('G21 ', '')) },
  { name: 'no G90', expect: ['distance-unset'], level: 'care', plant: all(/G90/, (l) => l.replace('G90 ', '')) },
  { name: 'G91 for G90', expect: ['position-unknown'], plant: all(/G90/, (l) => l.replace('G90', 'G91')) },
  { name: 'no height at the start', expect: ['z-unknown'], plant: dropAll(/^G0 Z40$/) },
  { name: 'no feed at all', expect: ['feed-unset'], plant: all(/F/, (l) => l.replace(/ F[\d.]+/, '')) },
  {
    name: 'a lost decimal point in X',
    expect: ['outside-travel', 'hole-missing'],
    plant: one(/^G0 X\d+\.\d/, (l) => l.replace(/X(\d+)\./, 'X$1')),
  },
  {
    name: 'a lost decimal point in Z',
    expect: ['outside-travel', 'through-backing', 'hits-mandrel'],
    plant: one(LAST_STROKE, (l) => l.replace(/Z-(\d+)\.(\d)/, 'Z-$1$2.')),
  },
  {
    name: 'a decimal point too early in A',
    expect: ['hole-missing', 'hole-misplaced', 'hole-only-piloted', 'hole-doubled', 'hole-extra'],
    plant: one(/A\d{2,}/, (l) => l.replace(/A(\d+)\.?/, (_, d) => `A${d.slice(0, -1)}.${d.slice(-1)}`)),
  },
  {
    name: 'a lost minus at the bottom',
    expect: ['hole-not-through'],
    plant: (l, pick) => {
      const [, b] = blocks(l)[20 + pick(10)]!;
      return l.map((line, i) => (i === b - 1 ? line.replace('Z-', 'Z') : line));
    },
  },
  {
    name: 'a lost minus at the bottom of a pilot',
    expect: ['pilot-shallow'],
    level: 'care',
    plant: (l, pick) => {
      const [, b] = blocks(l)[pick(20)]!;
      return l.map((line, i) => (i === b - 1 ? line.replace('Z-', 'Z') : line));
    },
  },
  { name: 'a lost spindle start', expect: ['spindle-off-in-wood'], plant: drop(/M3/) },
  { name: 'the spindle backwards', expect: ['spindle-backwards'], plant: one(/M3/, (l) => l.replace('M3', 'M4')) },
  {
    name: 'M3 without S',
    expect: ['speed-unset', 'spindle-off-in-wood'],
    plant: all(/S\d+ M3/, (l) => l.replace(/S\d+ /, '')),
  },
  { name: 'S0', expect: ['spindle-off-in-wood'], plant: one(/S\d+ M3/, (l) => l.replace(/S\d+/, 'S0')) },
  {
    name: 'ten times the speed',
    expect: ['speed-outside-spindle'],
    plant: one(/S\d+ M3/, (l) => l.replace(/S(\d+)/, 'S$10')),
  },
  {
    name: 'a tenth of the speed',
    expect: ['speed-outside-spindle'],
    plant: one(/S\d{4} M3/, (l) =>
      l.replace(/S(\d+)\d/, 'S$1').replace(/S(\d+)/, (_, s) => `S${Math.min(Number(s), 400)}`),
    ),
  },
  {
    name: 'ten times the feed',
    expect: ['feed-over-machine', 'feed-breaks-bit'],
    plant: one(
      LAST_STROKE,
      word('F', (f) => f * 10),
    ),
  },
  {
    name: 'a tenth of the feed',
    expect: ['feed-low-for-bit'],
    level: 'care',
    plant: one(
      LAST_STROKE,
      word('F', (f) => f / 10),
    ),
  },
  {
    name: 'a lost retract',
    expect: [
      'turned-in-wood',
      'sideways-in-wood',
      'rapid-into-wood',
      'tool-change-in-shell',
      'spindle-stopped-in-wood',
    ],
    plant: drop(OUT),
  },
  {
    name: 'a rapid for a plunge',
    expect: ['rapid-into-wood'],
    plant: one(LAST_STROKE, (l) => l.replace('G1', 'G0').replace(/ F\d+/, '')),
  },
  { name: 'the shell turns in the hole', expect: ['turned-in-wood'], plant: before(OUT, 'G0 A361.5') },
  {
    name: 'a drill dragged sideways',
    expect: ['sideways-in-wood'],
    plant: (l, pick) => {
      const [a] = blocks(l)[pick(blocks(l).length)]!;
      const at = l.findIndex((line, i) => i > a && OUT.test(line));
      return [...l.slice(0, at), `G1 X${90 + pick(5)}.5`, ...l.slice(at)];
    },
  },
  {
    name: 'swapped tools',
    expect: ['full-before-pilot', 'hole-wrong-size', 'hole-only-piloted', 'hole-not-through'],
    plant: all(/^T[23] /, (l) => l.replace(/T[23]/, (t) => (t === 'T2' ? 'T3' : 'T2'))),
  },
  {
    name: 'a lost tool change',
    expect: [
      'no-tool',
      'hole-wrong-size',
      'hole-only-piloted',
      'hole-only-marked',
      'hole-not-through',
      'sideways-in-wood',
      'turned-in-wood',
    ],
    plant: drop(/^T\d M6/),
  },
  { name: 'a tool nobody has', expect: ['tool-not-in-jig'], plant: one(/^T\d M6/, (l) => l.replace(/T\d/, 'T77')) },
  {
    name: 'a tool of another size in the holder',
    expect: ['hole-wrong-size'],
    plant: (l) => l,
    context: (c) => ({ ...c, tools: c.tools.map((t) => (t.id === 3 ? { ...t, diameter: 6.5, shank: 6.5 } : t)) }),
  },
  {
    name: 'a drill of another point',
    expect: ['hole-not-through'],
    plant: (l) => l,
    context: (c) => ({ ...c, tools: c.tools.map((t) => (t.id === 3 ? { ...t, point: 60 } : t)) }),
  },
  { name: 'M6 without T', expect: ['tool-unset'], plant: all(/^T2 M6/, () => 'M6') },
  { name: 'a tool change in the hole', expect: ['tool-change-in-shell'], plant: before(OUT, 'T3 M6') },
  {
    name: 'a hole left out',
    expect: ['hole-missing', 'hole-only-piloted', 'hole-wrong-size'],
    plant: (l, pick) => {
      const full = blocks(l).slice(20);
      const [a, b] = full[pick(full.length)]!;
      return l.filter((_, i) => i < a || i > b);
    },
  },
  {
    name: 'a hole drilled twice',
    expect: ['hole-doubled'],
    plant: (l, pick) => {
      const [a, b] = blocks(l)[pick(blocks(l).length)]!;
      return [...l.slice(0, b + 1), ...l.slice(a, b + 1), ...l.slice(b + 1)];
    },
  },
  {
    name: 'a doubled cycle line',
    expect: ['hole-doubled'],
    style: { cycles: true },
    plant: (l, pick) => {
      const hits = indices(l, /^G83/);
      const at = hits[pick(hits.length)]!;
      return [...l.slice(0, at + 1), ...l.slice(at)];
    },
  },
  {
    name: 'an extra hole',
    expect: ['hole-extra'],
    plant: (l, pick) => {
      const [a, b] = blocks(l)[20 + pick(10)]!;
      return [...l.slice(0, b + 1), ...l.slice(a, b + 1).map(word('A', (x) => x + 11)), ...l.slice(b + 1)];
    },
  },
  {
    name: 'one hole moved along',
    expect: ['hole-misplaced'],
    plant: (l, pick) => {
      const [a] = blocks(l)[20 + pick(10)]!;
      const x = l[a]!;
      return l.map((line) => (line === x ? word('X', (n) => n + 0.2)(line) : line));
    },
  },
  {
    name: 'one hole turned',
    expect: ['hole-misplaced'],
    plant: (l, pick) => {
      const [a] = blocks(l)[20 + pick(10)]!;
      const x = l[a]!;
      return l.map((line) => (line === x ? word('A', (n) => n + 0.5)(line) : line));
    },
  },
  {
    name: 'full holes off their pilots',
    expect: ['hole-misplaced', 'hole-extra', 'hole-missing', 'hole-only-piloted'],
    plant: (l, pick) => {
      const [a] = blocks(l)[20 + pick(10)]!;
      return l.map((line, i) => (i === a ? word('X', (n) => n + 1)(line) : line));
    },
  },
  {
    name: 'Y beside the axis',
    expect: ['hole-misplaced', 'hole-missing', 'hole-extra', 'job-turned'],
    plant: all(STATION, (l) => l.replace('Y0', 'Y3')),
  },
  {
    name: 'a hole too shallow',
    expect: ['hole-not-through'],
    plant: (l, pick) => {
      const [, b] = blocks(l)[20 + pick(10)]!;
      return l.map((line, i) => (i === b - 1 ? word('Z', (z) => z + 2.5)(line) : line));
    },
  },
  {
    name: 'a hole through the backing',
    expect: ['through-backing'],
    plant: (l, pick) => {
      const [, b] = blocks(l)[20 + pick(10)]!;
      return l.map((line, i) => (i === b - 1 ? word('Z', (z) => z - 11)(line) : line));
    },
  },
  {
    name: 'deeper than needed',
    expect: ['depth-past-allowance'],
    level: 'care',
    plant: (l, pick) => {
      const [, b] = blocks(l)[20 + pick(10)]!;
      return l.map((line, i) => (i === b - 1 ? word('Z', (z) => z - 5)(line) : line));
    },
  },
  {
    name: 'no allowance for the runout',
    expect: ['depth-ignores-runout'],
    level: 'care',
    plant: (l, pick) => {
      const [, b] = blocks(l)[20 + pick(10)]!;
      return l.map((line, i) => (i === b - 1 ? word('Z', (z) => z + 0.7)(line) : line));
    },
  },
  { name: 'the tip into the shaft', expect: ['hits-mandrel', 'hits-far-wall'], plant: before(OUT, 'G1 Z-150') },
  {
    name: 'the collet into the shell',
    expect: ['collet-hits-shell'],
    plant: (l) => l,
    context: (c) => ({ ...c, tools: c.tools.map((t) => (t.id === 3 ? { ...t, stickout: 8 } : t)) }),
  },
  {
    name: 'a shank wider than its hole',
    expect: ['shank-in-wall'],
    plant: (l) => l,
    context: (c) => ({ ...c, tools: c.tools.map((t) => (t.id === 2 ? { ...t, flute: 5, shank: 6 } : t)) }),
  },
  {
    name: 'pilots after the full holes',
    expect: ['full-before-pilot'],
    plant: (l) => {
      const tool = (n: number) => l.findIndex((line) => line.startsWith(`T${n} `));
      const [t2, t3, t4] = [tool(2) - 2, tool(3) - 2, tool(4) - 2];
      return [...l.slice(0, t2), ...l.slice(t3, t4), ...l.slice(t2, t3), ...l.slice(t4)];
    },
  },
  {
    name: 'a spur bit after a pilot',
    expect: ['spur-after-pilot'],
    level: 'care',
    plant: (l) => l,
    context: (c) => ({ ...c, tools: c.tools.map((t) => (t.id === 3 ? { ...t, kind: 'brad-point', lead: 1.2 } : t)) }),
  },
  {
    name: 'no pilots',
    expect: ['pilot-left-out'],
    level: 'care',
    plant: (l) => {
      const t2 = l.findIndex((x) => x.startsWith('T2 '));
      const t3 = l.findIndex((x) => x.startsWith('T3 '));
      return [...l.slice(0, t2), ...l.slice(t3)];
    },
  },
  {
    name: 'Z zero too high',
    expect: ['nothing-drilled'],
    plant: all(
      /Z/,
      word('Z', (z) => z + 15),
    ),
  },
  {
    name: 'Z zero a hand too high: the drills only scratch',
    expect: ['job-not-deep'],
    plant: all(
      /Z/,
      word('Z', (z) => z + 8),
    ),
  },
  {
    name: 'Z zero one too high',
    expect: ['depth-ignores-runout'],
    level: 'care',
    plant: all(
      /Z/,
      word('Z', (z) => z + 0.9),
    ),
  },
  {
    name: 'Z zero a little too low',
    expect: ['depth-past-allowance'],
    level: 'care',
    plant: all(
      /Z/,
      word('Z', (z) => z - 0.6),
    ),
  },
  {
    name: 'rapids that end on the skin',
    expect: ['approach-low'],
    level: 'care',
    plant: all(/^G0 Z1$/, () => 'G0 Z0.2'),
  },
  {
    name: 'A zero on the butt',
    expect: ['job-turned'],
    plant: all(
      /A/,
      word('A', (a) => a + 180),
    ),
  },
  {
    name: 'Y zero beside the axis',
    expect: ['job-beside-axis'],
    plant: (l) => l.map((x) => (/^G[0-3] .*Y/.test(x) ? word('Y', (y) => y + 2)(x) : x)),
  },
  {
    name: 'one hole from the other edge',
    expect: ['hole-missing', 'hole-extra', 'hole-doubled', 'hole-only-piloted'],
    plant: one(
      /^G0 X(?!76)[\d.]+ Y0 A/,
      word('X', (x) => 152 - x),
    ),
  },
  {
    name: 'a hole left out of the second shell',
    expect: ['shell-misses-hole'],
    plant: (l, pick) => {
      const body = l.slice(0, -1);
      const [a, b] = blocks(body)[pick(30)]!;
      return [...body, 'M0', ...body.slice(0, a), ...body.slice(b + 1), 'M2'];
    },
  },
  {
    name: 'a centre mark after the holes',
    expect: ['mark-after-hole'],
    level: 'care',
    plant: (l, pick) => {
      const [a] = blocks(l)[20 + pick(10)]!;
      const end = l.lastIndexOf('M5');
      return [
        ...l.slice(0, end),
        'M5',
        'T1 M6',
        'S3000 M3',
        'G4 P3',
        l[a]!,
        'G0 Z1',
        'G1 Z-1 F300',
        'G0 Z40',
        ...l.slice(end),
      ];
    },
  },
  {
    name: 'the V bit left in for the pilots',
    expect: ['v-bit-as-drill'],
    plant: all(/^T2 M6/, () => 'T1 M6'),
  },
  {
    name: 'a rapid where the second shell is still whole',
    expect: ['rapid-into-wood'],
    plant: (l, pick) => {
      const body = l.slice(0, -1);
      const [, b] = blocks(body)[20 + pick(10)]!;
      const second = body.map((x, i) => (i === b - 4 ? x.replace('G1', 'G0').replace(/ F.*/, '') : x));
      return [...body, 'M0', ...second, 'M2'];
    },
  },
  {
    name: 'two-sided work, mirrored',
    expect: ['job-mirrored'],
    plant: (l) =>
      l.map((x) => word('A', (a) => -a)(LAST_STROKE.test(x) ? word('Z', (z) => (z < -8 ? -7.2 : z))(x) : x)),
    context: (c) => ({ ...c, backing: 0 }),
  },
  {
    name: 'ten times the feed on a machine without Y',
    expect: ['feed-breaks-bit'],
    plant: (l, pick) =>
      one(
        LAST_STROKE,
        word('F', (f) => f * 8),
      )(
        l.map((x) => x.replace(' Y0', '')),
        pick,
      ),
    context: (c) => ({ ...c, machine: { ...c.machine, hasY: false, feed: 20000 } }),
  },
  {
    name: 'a letter from another alphabet in a comment',
    expect: ['comment-not-ascii'],
    level: 'note',
    plant: one(STATION, (l) => `${l} (Ø 6)`),
  },
  { name: 'a NUL in a comment', expect: ['character-illegal'], plant: one(STATION, (l) => `${l} (\0)`) },
  {
    name: 'Z zero too low',
    expect: ['rapid-into-wood', 'turned-in-wood'],
    plant: all(
      /Z/,
      word('Z', (z) => z - 4),
    ),
  },
  { name: 'file cut off', expect: ['end-missing'], plant: (l, pick) => l.slice(0, 20 + pick(l.length - 22)) },
  {
    name: 'file cut off inside a line',
    expect: ['end-missing'],
    plant: (l, pick) => {
      const text = l.join('\n');
      return text.slice(0, 200 + pick(text.length - 210)).split('\n');
    },
  },
  {
    name: 'an early end',
    expect: ['hole-missing', 'hole-only-piloted', 'hole-wrong-size', 'nothing-drilled'],
    plant: before(STATION, 'M30'),
  },
  { name: 'no M2', expect: ['end-missing'], plant: dropAll(/^M2$/) },
  { name: 'spindle never stopped', expect: ['spindle-left-on'], level: 'care', plant: dropAll(/^M5$/) },
  {
    name: 'a hand change while turning',
    expect: ['hand-change-while-turning'],
    plant: (l) =>
      all(
        /^T3 M6/,
        (x) => `M0\n${x}`,
      )(dropAll(/^M5$/)(l))
        .join('\n')
        .split('\n'),
  },
  {
    name: 'the letter O for a nought',
    expect: ['number-missing', 'letter-unknown'],
    plant: one(/X\d/, (l) => l.replace(/X\d/, 'XO')),
  },
  { name: 'an unknown code', expect: ['code-unknown'], plant: one(/^G1 /, (l) => l.replace('G1', 'G13')) },
  { name: 'cutter compensation', expect: ['code-not-supported'], plant: before(STATION, 'G41 D1') },
  {
    name: 'a parameter',
    expect: ['formula-not-supported'],
    plant: one(/^G1 Z/, (l) => l.replace(/Z-?[\d.]+/, 'Z#101')),
  },
  {
    name: 'an expression',
    expect: ['formula-not-supported'],
    plant: one(STATION, (l) => l.replace(/X([\d.]+)/, 'X[$1+0]')),
  },
  { name: 'a comment left open', expect: ['comment-open'], plant: one(STATION, (l) => `${l} (here`) },
  { name: 'two motion words', expect: ['two-of-one-group'], plant: one(/^G1 Z/, (l) => `G0 ${l}`) },
  { name: 'a word twice', expect: ['word-twice'], plant: one(STATION, (l) => `${l} X1`) },
  {
    name: 'A on a cycle line',
    expect: ['cycle-turns'],
    style: { cycles: true },
    plant: one(/^G83/, (l) => `${l} A3.3`),
  },
  {
    name: 'a cycle without R',
    expect: ['cycle-words-missing'],
    style: { cycles: true },
    plant: one(/^G83/, (l) => l.replace(/ R[\d.]+/, '')),
  },
  {
    name: 'R below the bottom',
    expect: ['cycle-retract-below-bottom'],
    style: { cycles: true },
    plant: one(/^G83/, (l) => l.replace(/R1/, 'R-30')),
  },
  {
    name: 'a peck of nothing',
    expect: ['cycle-peck-missing'],
    style: { cycles: true },
    plant: one(/^G83/, (l) => l.replace(/Q3/, 'Q0')),
  },
  {
    name: 'an arc that does not close',
    expect: ['arc-does-not-close'],
    plant: one(
      /^G3/,
      word('X', (x) => x + 0.1),
    ),
  },
  {
    name: 'a turn of a bore off its centre',
    expect: ['hole-wrong-size', 'hole-extra', 'hole-misplaced'],
    plant: one(
      /^G3 .*I-3\.9.*Z-/,
      word('I', (i) => i - 0.2),
    ),
  },
  {
    name: 'a bore of another size',
    expect: ['hole-wrong-size'],
    plant: all(/^G[13] X(79\.9|72)/, (l) => word('I', (i) => i + 0.2)(word('X', (x) => x - 0.2)(l))),
  },
  {
    name: 'a bore that stops early',
    expect: ['hole-not-through'],
    plant: all(/^G3 .*Z-[67]/, (l) => l.replace(/ Z-[\d.]+/, '')),
  },
  {
    name: 'A beyond a wound axis',
    expect: ['axis-wound'],
    plant: (l) => l,
    context: (c) => ({ ...c, machine: { ...c.machine, rotary: [-180, 180] } }),
  },
  {
    name: 'no Y axis on the machine',
    expect: ['axis-not-there'],
    plant: one(STATION, (l) => l.replace('Y0', 'Y2')),
    context: (c) => ({ ...c, machine: { ...c.machine, hasY: false } }),
  },
  {
    name: 'holes under the chuck plate',
    expect: ['in-chuck'],
    plant: (l) => l,
    context: (c) => ({ ...c, machine: { ...c.machine, fixture: { ...c.machine.fixture, chuck: 40 } } }),
  },
  {
    name: 'holes under the tailstock',
    expect: ['in-tailstock'],
    plant: (l) => l,
    context: (c) => ({ ...c, machine: { ...c.machine, fixture: { ...c.machine.fixture, tailstock: 40 } } }),
  },
  { name: 'a NUL', expect: ['character-illegal'], plant: one(STATION, (l) => `${l}\0`) },
  {
    name: 'a letter that only looks Latin',
    expect: ['character-illegal'],
    plant: one(STATION, (l) => l.replace('X', 'Х')),
  },
  { name: 'a negative dwell', expect: ['number-negative'], plant: one(/^G4/, (l) => l.replace('P', 'P-')) },
  {
    name: 'percent opened, never closed',
    expect: ['percent-missing'],
    plant: (l) => ['%', ...l.filter((x) => x !== 'M2')],
  },
];
