import { describe, expect, test } from 'vitest';
import { dryRun, startDryRun } from '../../src/dryrun/dry-run.ts';
import { interpret } from '../../src/dryrun/interpret.ts';
import type { FoundHole } from '../../src/dryrun/report.ts';
import { REFUSAL_IDS, REMARK_IDS } from '../../src/dryrun/rules.ts';
import { seeded } from '../../src/geometry/random.ts';
import { dryRunSayings } from '../../src/say/dryrun.ts';
import { sayable } from '../fuzz/programs.ts';
import { context, MACHINE, soundProgram } from '../helpers/drill-program.ts';
import { FAULTS } from '../helpers/faults.ts';

const C = context();
const SOUND = soundProgram(C);
const BYTES = new TextEncoder().encode(`${SOUND.join('\n')}\n`);

function judge(program: string | Uint8Array): void {
  const { value, facts } = dryRun([program], C);
  sayable(facts);
  expect(facts.length).toBeLessThan(2000);
  expect(value.seconds).toBeGreaterThanOrEqual(0);
  expect(Number.isFinite(value.seconds)).toBe(true);
}

describe('random programs', () => {
  test('sound programs with bytes changed, lost and doubled (seeds 1 to 20)', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const random = seeded(seed);
      const bytes = [...BYTES];
      for (let k = 0; k < 1 + Math.floor(random.uniform() * 6); k++) {
        const at = Math.floor(random.uniform() * bytes.length);
        const what = random.uniform();
        if (what < 0.5) bytes[at] = Math.floor(random.uniform() * 256);
        else if (what < 0.75) bytes.splice(at, 1 + Math.floor(random.uniform() * 40));
        else bytes.splice(at, 0, ...bytes.slice(at, at + Math.floor(random.uniform() * 60)));
      }
      judge(Uint8Array.from(bytes));
    }
  });

  test('every planted fault can be said', () => {
    for (const fault of FAULTS) {
      const c = fault.context?.(C) ?? C;
      const planted = fault.plant(soundProgram(C, fault.style), (n) => n >> 1);
      sayable(dryRun([planted.join('\n')], c).facts);
    }
  });
});

describe('cases that could hang or fill the memory', () => {
  const facts = (program: string): string[] => dryRun([program], C).facts.map((f) => f.id);

  test('a line of megabytes, of NULs, of nothing, without an end', () => {
    expect(facts(`G0 X${'1'.repeat(3_000_000)}`)).toContain('line-too-long');
    for (const c of ['\0', '(', '[', ' ', '%', 'é']) expect(facts(c.repeat(1_000_000)), c).toContain('line-too-long');
    expect(facts('\0'.repeat(200))).toContain('character-illegal');
    expect(facts('('.repeat(200))).toContain('comment-nested');
    expect(facts('['.repeat(200))).toContain('formula-not-supported');
    expect(facts('')).toEqual(['nothing-drilled', 'end-missing']);
  });

  test('a cycle that would peck or repeat for ever', () => {
    const start = 'G21 G17 G90 G94 G98 F100\nG0 Z40\nG0 X50 Y0 A0\n';
    expect(facts(`${start}G83 X50 Z-900 R1 Q0.00001\nM2`)).toContain('cycle-endless');
    expect(facts(`${start}G81 X50 Z-9 R1 L999999999\nM2`)).toContain('cycle-endless');
  });

  test('an endless program: the facts stay bounded', () => {
    const run = startDryRun(C);
    for (let i = 0; i < 30_000; i++) run.push(`G0 X1 X2\nG1 Z-${i % 50}\nG41\n`);
    expect(run.finish().facts.length).toBeLessThan(400);
  });

  test('a program that never ends is left, with the reason', () => {
    const endless = (line: string, mostLines?: number): string => {
      const run = startDryRun({ ...C, ...(mostLines === undefined ? {} : { mostLines }) });
      let pushed = 0;
      while (run.push(line.repeat(1000)) && pushed < 100_000) pushed++;
      return String(run.finish().facts.find((f) => f.id === 'program-endless')?.facts?.['why']);
    };
    expect(endless('y\n')).toBe('more than 100000 lines in a row break the language');
    expect(endless('(nothing)\n')).toBe('more than 5000000 lines in a row move nothing');
    expect(endless('G0 X1\nX2\n', 200_000)).toBe('it has more than 200000 lines');
    expect(endless('\0'.repeat(1000))).toBe('the line is longer than 64 million bytes');
  });

  test('numbers beyond any machine', () => {
    expect(facts('G21 G90 G0 Z1e999')).toContain('letter-unknown');
    expect(facts(`G21 G90 G0 Z${'9'.repeat(200)}`)).toContain('number-too-large');
  });

  test('a bit that a wrong number sends a thousand kilometres through the wood', () => {
    const c = { ...C, removal: true };
    const start = 'G21 G17 G90 G94 G98 F100\nG0 Z40\nT5 M6\nS6000 M3\nG0 X50 Y0 A0\nG1 Z-5\n';
    for (const way of [
      'X900000000',
      'A900000000',
      'X900000000 A900000000',
      'G2 X50 Y0 I90000000',
      'G3 X60 I5 Z-900000000',
      'Y-900000000\nX900000000\nY900000000',
    ])
      expect(dryRun([`${start}${way}\nG0 Z40\nM2`], c).facts.length).toBeGreaterThan(0);
  });

  test('bores without any tool, and with tools of no size', () => {
    const ring = 'G1 Z-9 F100\nG2 X55 Y0 I-5\nX55 I-5\nG0 Z40\nM2';
    const start = 'G21 G17 G90 G94 G98\nG0 Z40\nG0 X55 Y0 A0\n';
    expect(facts(start + ring)).toContain('no-tool');
    const nothing = { ...C, removal: true, tools: C.tools.map((t) => ({ ...t, diameter: 0 })) };
    expect(dryRun([`${start}T5 M6\nS900 M3\n${ring}`], nothing).value.seconds).toBeGreaterThan(0);
  });

  test('nothing is read after the end', () => {
    const run = startDryRun(C);
    expect(run.push('M2\n')).toBe(false);
    expect(run.push('G0 X1\n')).toBe(false);
    expect(run.lines()).toBe(1);
    expect(run.finish().facts.map((f) => f.id)).toContain('lines-after-end');
  });
});

describe('laws of reading', () => {
  const whole = dryRun([BYTES], C);

  test('the pieces a program comes in do not matter, nor whether they are text or bytes', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const random = seeded(seed);
      const pieces: (string | Uint8Array)[] = [];
      for (let at = 0; at < BYTES.length; ) {
        const to = Math.min(BYTES.length, at + 1 + Math.floor(random.uniform() * (seed < 4 ? 3 : 900)));
        const piece = BYTES.slice(at, to);
        pieces.push(random.uniform() < 0.5 ? piece : new TextDecoder().decode(piece));
        at = to;
      }
      expect(dryRun(pieces, C)).toEqual(whole);
    }
  });

  test('line ends CR, LF and both, case, blanks, line numbers and comments change nothing', () => {
    const placed = (holes: readonly FoundHole[]) =>
      holes.map(({ first_line, last_line, ...hole }) => ({ ...hole, lines: last_line - first_line }));
    const holes = placed(whole.value.holes);
    const variants = [
      SOUND.join('\r'),
      SOUND.join('\r\n'),
      SOUND.join('\n').toLowerCase(),
      SOUND.map((l) => l.replaceAll(' ', '')).join('\n'),
      SOUND.map((l) => l.replaceAll(/(\d)/g, '$1 ').trim()).join('\n'),
      SOUND.map((l, i) => `N${i * 10} ${l} (line ${i})`).join('\n'),
      SOUND.map((l) => l.split(' ').reverse().join(' ')).join('\n'),
      `%\n${SOUND.slice(0, -1).join('\n')}\n%\nwhatever (`,
    ];
    for (const v of variants) {
      const { value, facts } = dryRun([v], C);
      expect(facts.filter((f) => f.level !== 'note')).toEqual([]);
      expect(placed(value.holes)).toEqual(holes);
    }
  });

  test('lines given one by one are the same program', () => {
    expect([...interpret(SOUND, MACHINE)]).toEqual([...interpret(SOUND.join('\n'), MACHINE)]);
  });

  test('every rule of the language has a sentence', () => {
    for (const id of [...REFUSAL_IDS, ...REMARK_IDS]) expect(dryRunSayings[id], id).toBeDefined();
  });
});
