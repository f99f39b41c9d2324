import type { DryRunContext } from '../../src/dryrun/context.ts';

/** A planner's program and what it is judged by; `inch`: its unit. */
export interface Sound {
  readonly name: string;
  readonly lines: readonly string[];
  readonly context: DryRunContext;
  readonly inch: boolean;
  readonly cycles: boolean;
}

/** A fault that harms whatever program of the planner it is put into. */
export interface PlannerFault {
  readonly name: string;
  readonly expect: readonly string[];
  readonly level?: 'care';
  /** Only where the program has drilling cycles. */
  readonly cycles?: true;
  readonly plant: (s: Sound, pick: (n: number) => number) => readonly string[];
  readonly context?: (c: DryRunContext) => DryRunContext;
}

type Pick = (n: number) => number;
const isComment = (line: string): boolean => line.startsWith('(');
const hits = (lines: readonly string[], re: RegExp): number[] =>
  lines.flatMap((l, i) => (re.test(l) && !isComment(l) ? [i] : []));
const all = (s: Sound, change: (line: string) => string): string[] =>
  s.lines.map((l) => (isComment(l) ? l : change(l)));
const one = (s: Sound, pick: Pick, re: RegExp, change: (line: string) => string): string[] => {
  const found = hits(s.lines, re);
  const at = found[pick(found.length)]!;
  return s.lines.with(at, change(s.lines[at]!));
};
const before = (s: Sound, at: number, line: string): string[] => s.lines.toSpliced(at, 0, line);
const word =
  (letter: string, change: (n: number) => number) =>
  (line: string): string =>
    line.replace(new RegExp(`${letter}(-?[\\d.]+)`), (_, n) => letter + Number(change(Number(n)).toFixed(5)));
const inUnit = (s: Sound, mm: number): number => (s.inch ? mm / 25.4 : mm);
const higher = (s: Sound, mm: number): string[] =>
  all(s, (l) => word('Z', (z) => z + inUnit(s, mm))(/G8[13]/.test(l) ? word('R', (r) => r + inUnit(s, mm))(l) : l));

/** Strokes that go through the wall. */
function deep(s: Sound): number[] {
  const wall = inUnit(s, s.context.shell.wall);
  return hits(s.lines, /^(G1|G98 G8[13]).* ?Z-/).filter((i) => -Number(/Z(-[\d.]+)/.exec(s.lines[i]!)![1]) > wall);
}

/** Every visit to one hole that is drilled through, moved along. */
function moveHole(s: Sound, pick: Pick, mm: number): string[] {
  let a = '';
  let x = '';
  const place = s.lines.map((l) => {
    if (isComment(l)) return '';
    a = /A(-?[\d.]+)/.exec(l)?.[1] ?? a;
    x = /^G0 X(-?[\d.]+)/.exec(l)?.[1] ?? x;
    return `${a} ${x}`;
  });
  const strokes = deep(s);
  const wanted = place[strokes[pick(strokes.length)]!]!;
  return s.lines.map((l, i) => (place[i] === wanted ? word('X', (v) => v + inUnit(s, mm))(l) : l));
}

function turned(s: Sound, pick: Pick): string[] {
  const by = 3 + pick(9);
  return all(
    s,
    word('A', (a) => a + by),
  );
}

export const PLANNER_FAULTS: readonly PlannerFault[] = [
  {
    name: 'every A with the other sign',
    expect: ['job-mirrored'],
    plant: (s) =>
      all(
        s,
        word('A', (a) => -a),
      ),
  },
  {
    name: 'A zero turned',
    expect: ['job-turned'],
    plant: turned,
  },
  {
    name: 'A zero on the butt',
    expect: ['job-turned', 'job-mirrored'],
    plant: (s) =>
      all(
        s,
        word('A', (a) => a + 180),
      ),
  },
  {
    name: 'X zero shifted',
    expect: ['job-shifted'],
    plant: (s) =>
      all(
        s,
        word('X', (x) => x + inUnit(s, 2)),
      ),
  },
  {
    name: 'X from the other edge',
    expect: ['job-from-other-edge'],
    plant: (s) =>
      all(
        s,
        word('X', (x) => inUnit(s, s.context.shell.depth) - x),
      ),
  },
  {
    name: 'the shell end for end',
    expect: ['job-from-other-edge'],
    plant: (s) => s.lines,
    context: (c) => ({ ...c, datum: c.datum === 'top' ? 'bottom' : 'top' }),
  },
  {
    name: 'an offset slipped in',
    expect: ['job-shifted'],
    plant: (s) => before(s, hits(s.lines, /^G0 Z/)[0]!, `G10 L2 P1 X${inUnit(s, 3).toFixed(4)}`),
  },
  {
    name: 'the other unit',
    expect: ['units-mistaken'],
    plant: (s) => all(s, (l) => l.replace(/G2[01]/, s.inch ? 'G21' : 'G20')),
  },
  { name: 'no set-up line', expect: ['units-unset'], plant: (s) => s.lines.filter((l) => !/^G2[01]/.test(l)) },
  { name: 'G91 for G90', expect: ['position-unknown'], plant: (s) => all(s, (l) => l.replace('G90', 'G91')) },
  {
    name: 'another work offset',
    expect: ['work-offset-unset'],
    level: 'care',
    plant: (s) => all(s, (l) => l.replace('G54', 'G56')),
  },
  { name: 'no M3', expect: ['spindle-off-in-wood'], plant: (s, pick) => one(s, pick, / M3/, () => '') },
  { name: 'M4', expect: ['spindle-backwards'], plant: (s, pick) => one(s, pick, / M3/, (l) => l.replace('M3', 'M4')) },
  {
    name: 'M5 before a hole',
    expect: ['spindle-off-in-wood'],
    plant: (s, pick) => before(s, deep(s)[pick(deep(s).length)]!, 'M5'),
  },
  { name: 'M6 without T', expect: ['tool-unset'], plant: (s) => all(s, (l) => l.replace(/T\d+ (?=M6)/, '')) },
  {
    name: 'a tool nobody has',
    expect: ['tool-not-in-jig'],
    plant: (s, pick) => one(s, pick, /^T\d+ M6/, (l) => l.replace(/T\d+/, 'T98')),
  },
  { name: 'no F', expect: ['feed-unset'], plant: (s) => all(s, (l) => l.replace(/ F[\d.]+/, '')) },
  {
    name: 'ten times the feed',
    expect: ['feed-breaks-bit', 'feed-over-machine'],
    plant: (s, pick) => {
      const at = deep(s)[pick(deep(s).length)]!;
      return s.lines.with(at, word('F', (f) => f * 10)(s.lines[at]!));
    },
  },
  {
    name: 'a dwell in milliseconds',
    expect: ['dwell-long'],
    level: 'care',
    plant: (s, pick) => one(s, pick, /^G4 /, (l) => l.replace('.', '0000.')),
  },
  { name: 'Z zero 3 too low', expect: ['rapid-into-wood'], plant: (s) => higher(s, -3) },
  { name: 'Z zero 0.8 too low', expect: ['approach-low'], level: 'care', plant: (s) => higher(s, -0.8) },
  { name: 'Z zero 0.9 too high', expect: ['depth-ignores-runout'], level: 'care', plant: (s) => higher(s, 0.9) },
  { name: 'Z zero 4 too high', expect: ['hole-not-through'], plant: (s) => higher(s, 4) },
  {
    name: 'a thicker wall',
    expect: ['hole-not-through'],
    plant: (s) => s.lines,
    context: (c) => ({ ...c, shell: { ...c.shell, inside: c.shell.inside - 4, wall: c.shell.wall + 4 } }),
  },
  { name: 'a hole 0.3 from its place', expect: ['hole-misplaced'], plant: (s, pick) => moveHole(s, pick, 0.3) },
  {
    name: 'a wound axis',
    expect: ['axis-wound'],
    plant: (s) => s.lines,
    context: (c) => ({ ...c, machine: { ...c.machine, rotary: [-100, 100] } }),
  },
  { name: 'cut off', expect: ['end-missing'], plant: (s, pick) => s.lines.slice(0, 20 + pick(s.lines.length - 21)) },
  {
    name: 'a comment left open',
    expect: ['comment-open'],
    plant: (s, pick) => one(s, pick, /^G/, (l) => `(${l}`),
  },
  {
    name: 'a comma for the point',
    expect: ['character-illegal'],
    plant: (s, pick) => one(s, pick, /X-?\d+\./, (l) => l.replace(/(X-?\d+)\./, '$1,')),
  },
  {
    name: 'a cycle line twice',
    expect: ['hole-doubled'],
    cycles: true,
    plant: (s, pick) => {
      const at = deep(s)[pick(deep(s).length)]!;
      return before(s, at, s.lines[at]!);
    },
  },
  {
    name: 'R below the skin',
    expect: ['rapid-into-wood'],
    cycles: true,
    plant: (s, pick) => {
      const at = deep(s)[pick(deep(s).length)]!;
      return s.lines.with(at, s.lines[at]!.replace(/R[\d.]+/, `R-${inUnit(s, 4).toFixed(4)}`));
    },
  },
  {
    name: 'back to a low R between holes',
    expect: ['low-over-shell'],
    level: 'care',
    cycles: true,
    plant: (s) => all(s, (l) => l.replace('G98', 'G99').replace(/R[\d.]+/, 'R0.003')),
  },
];
