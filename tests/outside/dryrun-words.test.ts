import { describe, expect, test } from 'vitest';
import { interpret } from '../../src/dryrun/interpret.ts';
import type { InterpretOptions } from '../../src/dryrun/options.ts';
import { readProgram } from '../../src/dryrun/program.ts';
import type { Problem } from '../../src/dryrun/rules.ts';
import type { StartState } from '../../src/dryrun/state.ts';
import type { Step } from '../../src/dryrun/step.ts';
import { MACHINE } from '../helpers/drill-program.ts';

/**
 * Words, lines and states of NISTIR 6556 (sections named at each test; the report's tables from memory), one by one:
 * what is taken, what is refused and by which rule, and what a line leaves behind.
 */
const START: StartState = {
  x: 0,
  y: 0,
  z: 0,
  a: 0,
  units: 'mm',
  plane: 'xy',
  distance: 'absolute',
  feed: 100,
  motion: 0,
  returns: 98,
};

/** Everything a program does, steps copied out of the one record they come in. */
function read(program: string | Uint8Array, start: StartState = {}, options: InterpretOptions = {}, from = START) {
  const steps: Step[] = [];
  const problems: Problem[] = [];
  const reader = readProgram(
    {
      step: (s) => steps.push({ ...s, from: Float64Array.from(s.from), to: Float64Array.from(s.to) }),
      problem: (p) => problems.push(p),
    },
    { ...options, start: { ...from, ...start } },
  );
  const more = reader.push(program);
  reader.finish();
  const said = problems.filter((p) => p.id !== 'end-missing').map((p) => `${p.line} ${p.id} ${p.word}`);
  return { steps, problems, said, more, lines: reader.lines() };
}

const said = (program: string, start: StartState = {}, options: InterpretOptions = {}): string[] =>
  read(program, start, options).said;
const at = (program: string, axis = 0, start: StartState = {}, options: InterpretOptions = {}): number | undefined =>
  read(program, start, options).steps.at(-1)?.to[axis];

describe('numbers (3.3.2.1)', () => {
  test.each([
    ['X5', 5],
    ['X+5', 5],
    ['X-5', -5],
    ['X-.5', -0.5],
    ['X5.', 5],
    ['X005.50', 5.5],
    ['X - 1 2 . 5', -12.5],
    ['X\t1\t.\t5', 1.5],
    ['X\t-5', -5],
    ['x5y1', 5],
    ['X0.1', 0.1],
    ['X123456.789012345', 123456.789012345],
    // More digits than a double holds: the nearest double, as the language of this test reads it.
    ['X0.12345678901234567890', Number('0.12345678901234567890')],
    ['X3.141592653589793238462643383279', Math.PI],
    ['X-3.14159 26535 89793 23846', -Math.PI],
    ['X0.00000000000000000000000001', 1e-26],
    ['X0.0000000000000000000001', 1e-22],
    ['X123456789.12345678', 123456789.12345678],
    ['X999999999.9', 999999999.9],
  ])('G0 %s is %d', (word, value) => {
    const got = read(`G0 ${word}`);
    expect(got.said).toEqual([]);
    expect(got.steps[0]!.to[0]).toBe(value);
  });

  test.each([
    ['G0 X', 'number-missing X'],
    ['G0 X-', 'number-missing X-'],
    ['G0 X+ Y1', 'number-missing X+'],
    ['G0 XY1', 'number-missing X'],
    ['G0 X.', 'number-missing X.'],
    ['G0 X--1', 'character-illegal X--1'],
    ['G0 X(1)1', 'number-missing X(1)1'],
    ['G0 X1.2.3', 'number-malformed X1.2.3'],
    ['G0 X1..2', 'number-malformed X1..2'],
    ['G0 X.1.2', 'number-malformed X.1.2'],
    ['G0 X#1', 'formula-not-supported X#1'],
    ['G0 X[1]', 'formula-not-supported X[1]'],
    ['G0 X$', 'character-illegal X$'],
    ['G0 X1000000000', 'number-too-large X1000000000'],
    ['G0 X-1000000000', 'number-too-large X-1000000000'],
    ['G0 X1=2', 'character-illegal =2'],
    ['G0 X1 )', 'character-illegal )'],
    ['#1', 'formula-not-supported #1'],
    ['[1]', 'formula-not-supported [1]'],
    ['E1', 'letter-unknown E1'],
    ['G0 u1', 'letter-unknown u1'],
    ['G0 O1', 'letter-unknown O1'],
    ['G0 V1', 'letter-unknown V1'],
    ['G0 W1', 'letter-unknown W1'],
    ['X1 N5', 'line-number-malformed N5'],
    ['G0 N5', 'line-number-malformed N5'],
    ['M3 N5', 'line-number-malformed N5'],
    ['N1 N2', 'line-number-malformed N2'],
    ['N1.5 G0', 'line-number-malformed N1.5'],
    ['N1. G0', 'line-number-malformed N1.'],
    ['N-1 G0', 'line-number-malformed N-1'],
    ['N+1 G0', 'line-number-malformed N+1'],
    ['G0 X1 / Y1', 'bar-not-first / Y1'],
    ['X1 / Y1', 'bar-not-first / Y1'],
    ['M5 / Y1', 'bar-not-first / Y1'],
    ['//G0 X1', 'bar-not-first /G0 X1'],
    ['G0 %', 'percent-not-alone %'],
    ['%%', 'percent-not-alone %'],
    ['% G0', 'percent-not-alone % G0'],
    ['G0 (a\rX1', 'comment-open (a'],
    ['G0 é', 'character-illegal <c3><a9>'],
    ['G0 \u0001', 'character-illegal <01>'],
    ['G0 \u007f', 'character-illegal <7f>'],
    ['G0 ~', 'character-illegal ~'],
  ])('%s is refused', (line, problem) => {
    const got = read(line);
    expect(got.said[0]).toBe(`1 ${problem}`);
    expect(got.problems[0]).toMatchObject({ level: 'stop', executed: false });
    expect(got.steps.filter((s) => s.line === 1)).toEqual([]);
  });

  test('N00001 to five digits; the number itself means nothing', () => {
    expect(said('N99999 G0 X1\nN0 G0 X2\nN1\nN2 M8\nN3 G17 X1')).toEqual([]);
    expect(said('N100000 G0')).toEqual(['1 line-number-malformed N100000']);
  });

  test('words that touch do not run into each other, and a line number moves nothing', () => {
    expect(at('G1X12345.67890', 0)).toBe(12345.6789);
    expect(at('N1 G0 X1', 3, { a: 5 })).toBe(5);
  });

  test('a bad word is shown short: 24 characters, and not the next word', () => {
    expect(said(`G0 X1 ${'$'.repeat(40)}`)).toEqual([`1 character-illegal ${'$'.repeat(24)}`]);
    // The first rule broken is the one told, and as far along the line as it is broken.
    const late = `G0 X1${' '.repeat(245)}${'$'.repeat(40)}`;
    expect(said(late)).toEqual([`1 character-illegal ${'$'.repeat(24)}`]);
    expect(said(`${late}\n`)).toEqual([`1 character-illegal ${'$'.repeat(24)}`]);
    expect(said('G0 X1 X2 Y3')).toEqual(['1 word-twice X2']);
    expect(said('G0 X1 X2Y3')).toEqual(['1 word-twice X2']);
  });
});

describe('the words of table 4', () => {
  // Codes times ten, by what this dry run does with them.
  const moves = [0, 10, 20, 30, 810, 820, 830, 850, 860, 890];
  const sets = [
    [170, 180, 190],
    [900, 910],
    [930, 940],
    [200, 210],
    [400],
    [430, 490],
    [980, 990],
    [540, 550, 560, 570, 580, 590, 591, 592, 593],
    [610, 611, 640],
    [40, 100, 280, 300, 530, 920, 921, 922, 923],
    [800, ...moves],
  ];
  const refused = [382, 410, 420, 840, 870, 880];
  const known = new Set(sets.flat());

  test('every G from 0 to 99.9: taken, refused by name, or unknown', () => {
    const program = Array.from({ length: 1000 }, (_, code) => `G${code / 10}`);
    const { problems } = read(program.join('\n'));
    for (const [code, word] of program.entries()) {
      const about = problems
        .filter((p) => p.line === code + 1 && (p.id === 'code-unknown' || p.id === 'code-not-supported'))
        .map((p) => p.id);
      // G10 alone lacks its L and is refused by the same name.
      const byName = refused.includes(code) || code === 100;
      expect(about, word).toEqual(byName ? ['code-not-supported'] : known.has(code) ? [] : ['code-unknown']);
    }
    for (const far of ['G100', 'G-1', 'G1000', 'G0.05', 'G1.0002', 'G0.9998'])
      expect(said(`${far} X1`)).toEqual([`1 code-unknown ${far}`]);
    // A field that must be whole may miss it by 0.0001 (3.3.2.1).
    expect(said('G1.00009 X1\nG0.99991 X2\nG0.0001 X3\nM0.0001\nT0.0001')).toEqual([]);
    expect(said('G0.00011 X3\nM0.00011\nT0.00011')).toEqual([
      '1 code-unknown G0.00011',
      '2 code-unknown M0.00011',
      '3 number-not-whole T0.00011',
    ]);
  });

  test('every M from 0 to 99', () => {
    const taken = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 30, 48, 49, 60];
    for (let code = 0; code < 100; code++) {
      const ids = read(`S1 T1 M${code}`).problems.map((p) => p.id);
      expect(ids.includes('code-unknown'), `M${code}`).toBe(!taken.includes(code));
    }
    for (const far of ['M-1', 'M100', 'M3.001', 'M2.999']) expect(said(far)).toEqual([`1 code-unknown ${far}`]);
    expect(said('S1 M3.00009\nM4.99991')).toEqual([]);
  });

  test('two of one group never share a line, two of different groups do', () => {
    const pairs = sets
      .filter((g) => g.length > 1)
      .flatMap((g) => g.map((a, i) => [a / 10, g[(i + 1) % g.length]! / 10]));
    expect(said(pairs.map(([a, b]) => `G${a} G${b}`).join('\n'))).toEqual(
      pairs.map(([, b], i) => `${i + 1} two-of-one-group G${b}`),
    );
    expect(said('G40 G40')).toEqual(['1 two-of-one-group G40']);
    expect(said('G0 G17 G90 G94 G21 G40 G49 G98 G54 G61 G53 X1')).toEqual(['1 machine-coordinates G53']);
    for (const pair of ['M0 M1', 'M3 M4', 'M7 M7', 'M8 M8', 'M8 M9', 'M9 M7', 'M48 M49', 'M6 M6'])
      expect(said(`S1 T1 ${pair}`)).toEqual([`1 two-of-one-group ${pair.split(' ')[1]}`]);
    expect(said('M7 M8\nM8 M7')).toEqual([]);
    // Four M words on a line (3.3.6).
    expect(said('S1 T1 M6 M3 M8 M48')).toEqual([]);
    expect(said('S1 T1 M6 M3 M8 M48 M0')).toEqual(['1 two-of-one-group M0']);
  });

  test.each([
    ['G1 X1 P1', 'P1'],
    ['G1 X1 Q1', 'Q1'],
    ['G1 X1 R1', 'R1'],
    ['G1 X1 I1', 'I1'],
    ['G1 X1 J1', 'J1'],
    ['G1 X1 K1', 'K1'],
    ['G1 X1 L1', 'L1'],
    ['G1 X1 H1', 'H1'],
    ['G1 X1 D1', 'D1'],
    ['G4 P1 X1 G80', undefined],
    ['G81 X1 Z-1 R1 P1', 'P1'],
    ['G81 X1 Z-1 R1 Q1', 'Q1'],
    ['G82 X1 Z-1 R1 P1 Q1', 'Q1'],
    ['G83 X1 Z-1 R1 Q1 P1', 'P1'],
    ['G2 X1 I1 P1', 'P1'],
    ['G2 X1 I1 L1', 'L1'],
    ['G10 L2 P1 X1 R1', 'R1'],
    ['G49 H1', 'H1'],
    ['G92 X1 P1', 'P1'],
    ['G28 X1 P1', 'P1'],
    ['G4 P1 L1', 'L1'],
    ['M3 S1 P1', 'P1'],
  ])('3.3.6: %s leaves %s without use', (line, word) => {
    const first = said(line, {}, { home: [0, 0, 0, 0, 0, 0] })[0];
    if (word === undefined) expect(first).toBe('1 axis-words-without-motion X1');
    else expect(first).toBe(`1 word-unused ${word}`);
  });

  test('and those that have a use', () => {
    expect(said('G43 H0\nG4 P1\nG82 X1 Z-1 R1 P1\nG83 X1 Z-1 R1 Q1 L2\nG80\nG10 L2 P1 X0\nG92 X1\nG92.1')).toEqual([]);
    expect(said('G43 H0\nG0 X1 H1')).toEqual(['2 word-unused H1']);
    expect(said('S1 M3\nG86 X1 Z-1 R1 P1\nG89 X1 Z-1 R1 P1\nG80')).toEqual([]);
    expect(said('G2 X2 Y0 I1 J0\nG3 X0 R1\nG18 G2 X2 Z0 I1 K0')).toEqual([]);
  });
});

describe('a refused line does nothing at all', () => {
  test.each([
    ['G17 G1 X1 F-1', 'number-negative F-1'],
    ['G4 G1 X1', 'dwell-missing G4'],
    ['G43 G1 X1', 'number-not-whole G43'],
    ['G91 G28 X1 M0', 'position-unknown X1'],
    ['G91 G0 B1 M0', 'position-unknown B1'],
  ])('%s does not move', (line, problem) => {
    const got = read(line, line.includes('G28') ? { x: Number.NaN } : {}, { home: [0] });
    expect(got.said).toEqual([`1 ${problem}`]);
    expect(got.steps).toEqual([]);
  });

  test('what it says is not kept for the lines after it', () => {
    // With G93 in force, G1 would want an F of its own.
    expect(said('G93 X1 X1\nM8\nG1 X2')).toEqual(['1 word-twice X1']);
    expect(read('G64 X1 X1\nM8\nG0 X2').steps).toMatchObject([{ blended: false }]);
  });
});

describe('feed, spindle, tools', () => {
  test('S while it turns is heard at once, before it turns is kept; M5 stops; M4 is the other way', () => {
    const spindle = read('S500\nM3\nS600\nM5\nS700\nM4\nM3 S800').steps.map((s) => [
      s.kind,
      s.line,
      s.direction,
      s.speed,
    ]);
    expect(spindle).toEqual([
      ['spindle', 2, 'cw', 500],
      ['spindle', 3, 'cw', 600],
      ['spindle', 4, 'off', 0],
      ['spindle', 6, 'ccw', 700],
      ['spindle', 7, 'cw', 800],
    ]);
    expect(said('S-0.1')).toEqual(['1 number-negative S-0.1']);
    const unknown = read('M3');
    expect(unknown.said).toEqual(['1 speed-unset M3']);
    expect(unknown.steps[0]).toMatchObject({ direction: 'cw', speed: 0 });
    expect(said('M4\nM5\nM4')).toEqual(['1 speed-unset M4']);
    expect(said('M5')).toEqual([]);
    expect(read('M3', { speed: 900 }).steps[0]).toMatchObject({ speed: 900 });
  });

  test('3.6.3: a tool change stops the spindle and puts in what T named', () => {
    const steps = read('S500 M3\nT3\nM6\nG0 X1\nT5 M6').steps;
    expect(steps.map((s) => [s.kind, s.tool, s.direction, s.speed])).toEqual([
      ['spindle', -1, 'cw', 500],
      ['tool', 3, 'off', 0],
      ['rapid', 3, 'off', 0],
      ['tool', 5, 'off', 0],
    ]);
    // Off for good: S alone says nothing until M3.
    expect(read('S500 M3\nT3 M6\nS600').steps).toHaveLength(2);
    expect(said('M6')).toEqual(['1 tool-unset M6']);
    expect(said('T0 M6')).toEqual([]);
    expect(said('T99\nT0')).toEqual([]);
    expect(said('T100')).toEqual(['1 number-not-whole T100']);
    expect(said('T1.5')).toEqual(['1 number-not-whole T1.5']);
    expect(said('T-1')).toEqual(['1 number-not-whole T-1']);
    expect(said('T3', {}, { slots: 2 })).toEqual(['1 number-not-whole T3']);
    expect(said('T2.00005')).toEqual([]);
  });

  test('a feed is what was written, in its units; a negative one is refused, none cannot cut', () => {
    expect(read('G1 X1 F60').steps[0]!.feed).toBe(60);
    expect(read('G20\nG1 X1 F2').steps[0]!.feed).toBeCloseTo(50.8, 9);
    expect(read('G1 X0 Y1').steps[0]!.feed).toBe(100);
    expect(read('G0 A5\nG1 X1').steps[1]!.feed).toBe(100);
    expect(read('G0 X1').steps[0]!.feed).toBeNaN();
    expect(said('F-1')).toEqual(['1 number-negative F-1']);
    expect(said('G1 F-1 X1')).toEqual(['1 number-negative F-1']);
    expect(said('G1 X1 F0')).toEqual(['1 feed-zero F0']);
    expect(said('G93 G1 X1 F0')).toEqual(['1 feed-zero F0']);
    expect(said('G20\nG1 X1')).toEqual(['2 feed-in-other-units F100']);
    expect(said('F60\nG1 X1')).toEqual([]);
    expect(read('G93 G1 X1 F2\nG94 G1 X2 F60').steps.map((s) => [s.inverse, s.feed])).toEqual([
      [true, 2],
      [false, 60],
    ]);
  });

  test('inches are for X Y Z and their feeds; degrees stay degrees; without units everything is as written', () => {
    const turned = read('G20\nG0 X1 Y1 Z1 A90 B90 C90', { b: 0, c: 0 }).steps[0]!;
    expect([...turned.to]).toEqual([25.4, 25.4, 25.4, 90, 90, 90]);
    // A full circle ends where it starts, and still is a way along X and Y.
    expect(read('G20\nG2 X0 Y0 I1 F2').steps[0]!.feed).toBeCloseTo(50.8, 9);
    expect(read('G1 X1 F60\nG0 X2').steps.map((s) => s.feed)).toEqual([60, Number.NaN]);
    const bare = read('G90 G1 X7 F60', {}, {}, {});
    expect(bare.steps[0]!.to[0]).toBe(7);
    expect(bare.steps[0]!.feed).toBe(60);
    expect(bare.said).toEqual(['1 units-unset G1']);
    expect(read('G90 F60\nG21 G1 X7', {}, {}, {}).said).toEqual([]);
    expect(read('G90 F60\nG20 G1 X7', {}, {}, {}).said).toEqual([]);
  });

  test('G64 rounds corners until G61 or G61.1', () => {
    const blended = read('G0 X9\nG64 G0 X1\nX2\nG61\nX3\nG64\nX4\nG61.1\nX5').steps.map((s) => s.blended);
    expect(blended).toEqual([false, true, true, false, true, false]);
  });

  test('G4 dwells by seconds, nothing else does', () => {
    expect(read('G4 P1.5').steps).toMatchObject([{ kind: 'dwell', seconds: 1.5, line: 1 }]);
    expect(said('G4')).toEqual(['1 dwell-missing G4']);
    expect(said('G4 P0')).toEqual([]);
  });

  test('3.6.1: M0 and M60 stop, M1 if the switch says so, M2 and M30 end', () => {
    const steps = read('M0\nM1\nM60\nG0 X1 M0\nM30\nG0 X9').steps;
    expect(steps.map((s) => [s.kind, s.line, s.kind === 'pause' && s.optional])).toEqual([
      ['pause', 1, false],
      ['pause', 2, true],
      ['pause', 3, false],
      ['rapid', 4, false],
      ['pause', 4, false],
      ['end', 5, false],
    ]);
    expect(read('M2').steps.map((s) => s.kind)).toEqual(['end']);
    expect([...interpret('M1\nM30', MACHINE)]).toEqual([
      { kind: 'pause', line: 1, optional: true },
      { kind: 'end', line: 2 },
    ]);
  });
});

describe('where numbers are counted from', () => {
  test('3.5.10: a length offset lies on Z, by H, until G49', () => {
    const lengths = { 1: 50, 2: 60.5 };
    expect(at('G43 H1\nG0 Z10', 2, {}, { lengths })).toBe(60);
    expect(at('G43 H2\nG0 X10 Z0', 0, {}, { lengths })).toBe(10);
    expect(at('G43 H2\nG0 X10 Z0', 2, {}, { lengths })).toBe(60.5);
    expect(at('G43 H1\nG49\nG0 Z10', 2, {}, { lengths })).toBe(10);
    expect(at('G43 H1\nG43 H0\nG0 Z10', 2, {}, { lengths })).toBe(10);
    expect(at('G43 H3\nG0 Z10', 2, {}, { lengths })).toBe(10);
    expect(said('G43')).toEqual(['1 number-not-whole G43']);
    expect(said('G43 H100')).toEqual(['1 number-not-whole H100']);
    expect(said('G43 H99')).toEqual([]);
    expect(said('G43 H1', { tool: 2 })).toEqual(['1 length-of-other-tool H1']);
    expect(said('G43 H1', { tool: 1 })).toEqual([]);
    expect(said('G43 H0', { tool: 2 })).toEqual([]);
    expect(said('G43 H1')).toEqual([]);
    expect(said('G43 H2', { tool: 0 })).toEqual(['1 length-of-other-tool H2']);
  });

  test('3.5.13: nine systems, each where G10 put it; one that was never put is said', () => {
    const systems = ['G54', 'G55', 'G56', 'G57', 'G58', 'G59', 'G59.1', 'G59.2', 'G59.3'];
    const set = systems.map((_, i) => `G10 L2 P${i + 1} X${10 * (i + 1)} A${i + 1}`).join('\n');
    for (const [i, system] of systems.entries()) {
      expect(at(`${set}\n${system}\nG0 X1 Y0`)).toBe(10 * (i + 1) + 1);
      expect(at(`${set}\n${system}\nG0 A0`, 3)).toBe(i + 1);
      expect(said(`${set}\n${system}`)).toEqual([]);
      expect(said(system)).toEqual(i === 0 ? [] : [`1 work-offset-unset ${system}`]);
    }
    // Set while in force: holds at once. Only the axes named are moved.
    expect(at('G10 L2 P1 X5 Y6\nG10 L2 P1 X7\nG0 X0 Y0', 1)).toBe(6);
    expect(at('G10 L2 P1 X5 Y6\nG0 Y1\nG10 L2 P1 X7\nG0 X0 Y0', 1)).toBe(6);
    expect(at('G20\nG10 L2 P1 X1 A30\nG0 X0', 0)).toBeCloseTo(25.4, 9);
    expect(at('G20\nG10 L2 P1 X1 A30\nG0 A0', 3)).toBe(30);
    for (const bad of ['P0', 'P10', 'P1.5']) expect(said(`G10 L2 ${bad} X1`)).toEqual([`1 number-not-whole ${bad}`]);
    expect(said('G10 L2 X1')).toEqual(['1 number-not-whole G10']);
    expect(said('G10 P1 X1')).toEqual(['1 code-not-supported G10']);
    // L and P count for their own line.
    expect(said('G10 L2 P1 X0\nG10 P1 X5')).toEqual(['2 code-not-supported G10']);
    expect(said('G10 L2 P1 X0\nG10 L2 X5')).toEqual(['2 number-not-whole G10']);
    expect(said('G10 L1 P1 X1')).toEqual(['1 code-not-supported G10']);
    expect(said('G10 L20 P1 X1')).toEqual(['1 code-not-supported G10']);
  });

  test('3.5.18: G92 in inches, beside other offsets, and from nowhere', () => {
    expect(at('G20\nG92 X1\nG0 X2')).toBeCloseTo(25.4, 9);
    expect(at('G10 L2 P1 X5\nG92 X0\nG0 X0')).toBe(0);
    expect(at('G10 L2 P1 X5\nG92 X0\nG92.1\nG0 X0')).toBe(5);
    expect(at('G92 X7 A9\nG0 A9', 3)).toBe(0);
    expect(at('G92 Y7\nG0 X3')).toBe(3);
    expect(said('G92')).toEqual(['1 axis-words-missing G92']);
    expect(at('G92.1\nG0 X3')).toBe(3);
    const nowhere = read('G92 X7\nG0 X8', { x: Number.NaN });
    expect(nowhere.said).toEqual(['1 zero-taken-here X7']);
    expect(nowhere.steps[0]!.from[0]).toBe(7);
    expect(nowhere.steps[0]!.to[0]).toBe(8);
    // A place called 7 where the zero lies at 5 is 12.
    const beside = read('G10 L2 P1 X5\nG92 X7\nG0 X8', { x: Number.NaN });
    expect([beside.steps[0]!.from[0], beside.steps[0]!.to[0]]).toEqual([12, 13]);
    const bare = read('G90 G92 X7\nG0 X8', {}, {}, {});
    expect([bare.steps[0]!.from[0], bare.steps[0]!.to[0]]).toEqual([7, 8]);
    expect(bare.said).toEqual(['1 units-unset G92', '1 zero-taken-here X7']);
    expect(read('G10 L2 P1 X1', {}, {}, {}).said).toEqual(['1 units-unset G10']);
  });

  test.each(['G92 X1', 'G92.1', 'G92.2', 'G92.3', 'G10 L2 P1 X1', 'G28', 'G30 X1'])('%s M0: and then stops', (line) => {
    expect(read(`${line} M0`).steps.at(-1)).toMatchObject({ kind: 'pause' });
  });

  test('3.5.8: home through a point, B and C only if they were ever used', () => {
    const home = [1, 2, 3, 4, 5, 6];
    const alone = read('G28', {}, { home });
    expect(alone.said).toEqual([]);
    expect([...alone.steps[0]!.to]).toEqual([1, 2, 3, 4, Number.NaN, Number.NaN]);
    const used = read('G28 B9', { b: 0, c: 0 }, { home });
    expect(used.steps.map((s) => [...s.to])).toEqual([
      [0, 0, 0, 0, 9, 0],
      [1, 2, 3, 4, 5, 6],
    ]);
    expect(said('G28')).toEqual(['1 home-unknown G28']);
    expect(said('G30')).toEqual(['1 home-unknown G30']);
    expect([...read('G28', {}, {}).steps[0]!.to].slice(0, 4)).toEqual([0, 0, 0, 0]);
    expect(said('G91 G28 X1', { x: Number.NaN }, { home })).toEqual(['1 position-unknown X1']);
    // The motion in force is not changed by it.
    expect(read('G1 X1\nG28 X2\nX3', {}, { home }).steps.map((s) => s.kind)).toEqual([
      'feed',
      'rapid',
      'rapid',
      'feed',
    ]);
  });

  test('3.5.12: machine coordinates for one line, straight only', () => {
    expect(said('G53 G81 X1 Z-1 R1')).toEqual(['1 machine-coordinates-need-a-line G53']);
    expect(said('G53 G2 X1 I1')).toEqual(['1 machine-coordinates-need-a-line G53']);
    expect(read('G10 L2 P1 X10\nG53 G1 X1\nX1').steps.map((s) => [s.kind, s.to[0]])).toEqual([
      ['feed', 1],
      ['feed', 11],
    ]);
    expect(at('G91\nG53 G0 X5', 0, { x: 3 })).toBe(5);
    // For its own line and for no other word of its group.
    expect(at('G10 L2 P1 X10\nG53 G0 X1\nG17 X1')).toBe(11);
    expect(at('G10 L2 P1 X10\nG4 P1 G0 X1')).toBe(11);
  });

  test('incremental, back to absolute, and from an unknown place', () => {
    expect(read('G91 G0 X1\nX1\nG90 X1').steps.map((s) => s.to[0])).toEqual([1, 2, 1]);
    expect(said('G91 G0 B1')).toEqual(['1 position-unknown B1']);
    expect(said('G91 G1 X1', { x: Number.NaN })).toEqual(['1 position-unknown X1']);
    // The axis told is one that the line moves and that is unknown: X is known, B is not moved.
    expect(said('G91 G0 X1 C2')).toEqual(['1 position-unknown C2']);
  });

  test('G80 ends a cycle; with nothing in force an axis word is refused', () => {
    expect(said('G80\nX1')).toEqual(['2 axis-words-without-motion X1']);
    expect(said('G80\nC1 Z2 Y3')).toEqual(['2 axis-words-without-motion Y3']);
    expect(said('G80 B4')).toEqual(['1 axis-words-without-motion B4']);
    expect(said('G80 G92 X1\nG0 X2')).toEqual([]);
    // Refused, it ends nothing: G0 is still in force two lines on.
    expect(said('G80 X1\nM8\nX2')).toEqual(['1 axis-words-without-motion X1']);
    expect(said('X1 Y2', { motion: Number.NaN })).toHaveLength(1);
    expect(said('G2')).toEqual(['1 axis-words-missing G2']);
    expect(said('G10 L2 P1 X1 G1')).toEqual(['1 axis-words-twice-used G1']);
    expect(said('G92 G0 X1')).toEqual(['1 axis-words-twice-used G0']);
    expect(said('G30 G0 X1')).toEqual(['1 axis-words-twice-used G0']);
    expect(said('G17 Y1')).toEqual([]);
    expect(said('G0')).toEqual(['1 axis-words-missing G0']);
    expect(said('F50')).toEqual([]);
    expect(said('G17 G0')).toEqual(['1 axis-words-missing G0']);
    // The motion in force stays with a line of other words.
    expect(read('G1 X1\nG17\nX2').steps.map((s) => s.kind)).toEqual(['feed', 'feed']);
  });

  test('what a program starts from is what it is given', () => {
    const blank: StartState = {};
    const ids = (program: string, start: StartState): string[] =>
      read(program, start, {}, blank)
        .problems.map((p) => p.id)
        .filter((id) => id !== 'end-missing');
    const inches = { units: 'in', distance: 'absolute' } as const;
    expect(read('X1 Y2', { ...inches, motion: 0 }, {}, blank).steps[0]!.to.slice(0, 2)).toEqual(
      Float64Array.of(25.4, 50.8),
    );
    expect(read('X1', { ...inches, motion: 1, feed: 2 }, {}, blank).steps[0]).toMatchObject({
      kind: 'feed',
      feed: 50.8,
    });
    expect(ids('X1', { ...inches, motion: 1, feed: 2 })).toEqual([]);
    expect(read('G0 X1', { units: 'mm', distance: 'incremental', x: 5 }, {}, blank).steps[0]!.to[0]).toBe(6);
    const round = { units: 'mm', distance: 'absolute', x: 0, y: 0, z: 0, feed: 9 } as const;
    expect(ids('G2 X2 I1', round)).toEqual(['plane-unset']);
    for (const [plane, line] of [
      ['xy', 'G2 X2 I1'],
      ['xz', 'G2 X2 I1'],
      ['yz', 'G2 Y2 J1'],
    ] as const) {
      const step = read(line, { ...round, plane }, {}, blank).steps[0]!;
      expect(step.axis2).toBe({ xy: 2, xz: 1, yz: 0 }[plane]);
    }
    expect(ids('G17 G81 X0 Y0 Z-1 R1', round)).toEqual(['cycle-return-unset']);
    expect(ids('G2 X2 I1', { ...round, distance: undefined as never, plane: 'xy' })).toEqual(['distance-unset']);
    expect([...read('G0 X9', { x: 1, y: 2, z: 3, a: 4, b: 5, c: 6 }).steps[0]!.from]).toEqual([1, 2, 3, 4, 5, 6]);
    expect(read('G0 X9', { tool: 7 }).steps[0]!.tool).toBe(-1);
  });
});

describe('cycles at their edges (3.5.16)', () => {
  test.each([
    ['G81 X1 R1', {}, 'cycle-words-missing G81'],
    ['G81 X1 Z-1', {}, 'cycle-words-missing G81'],
    ['G83 X1 Z-1 R1', {}, 'cycle-peck-missing G83'],
    ['G83 X1 Z-1 R1 Q-1', {}, 'cycle-peck-missing Q-1'],
    ['G82 X1 Z-1 R1', {}, 'dwell-missing G82'],
    ['G82 X1 Z-1 R1 P-1', {}, 'number-negative P-1'],
    ['G89 X1 Z-1 R1', {}, 'dwell-missing G89'],
    ['G89 X1 Z-1 R1 P-1', {}, 'number-negative P-1'],
    ['G86 X1 Z-1 R1', {}, 'dwell-missing G86'],
    ['G86 X1 Z-1 R1 P1', {}, 'cycle-needs-spindle G86'],
    ['G81 A0 Z-1 R1', { a: 10 }, 'cycle-turns A0'],
    ['G81 A0', { a: 0 }, 'axis-words-missing G81'],
    ['G93 G81 X1 Z-1 R1 F1', {}, 'cycle-in-inverse-time G81'],
    ['G81 X1 Z-1 R1 L1.5', {}, 'number-not-whole L1.5'],
    ['G81 X1 Z-1 R1 L-1', {}, 'number-not-whole L-1'],
    ['G83 X1 Z-100 R1 Q0.001', {}, 'cycle-endless G83'],
    ['G81 X1 Z-1 R1 L100001', {}, 'cycle-endless G81'],
    ['G81 X1 Z-1 R1', { z: Number.NaN, x: Number.NaN }, 'position-unknown G81'],
    ['G91 G81 X1 Z-1 R1 A1', {}, 'cycle-turns A1'],
  ] as const)('%s is refused', (line, start, problem) => {
    const got = read(line, start);
    expect(got.said.at(-1)).toBe(`1 ${problem}`);
    expect(got.steps).toEqual([]);
  });

  test('words kept belong to their cycle: another cycle asks for them again', () => {
    expect(said('G81 X1 Z-1 R1\nX2\nG82 X3 P1')).toEqual(['3 cycle-words-missing G82']);
    expect(said('G83 X1 Z-1 R1 Q1\nX2\nG83 X3')).toEqual([]);
    expect(said('G82 X1 Z-1 R1 P1\nX2')).toEqual([]);
  });

  test('a rotary word that stays where it is may stand there', () => {
    expect(said('G81 X1 Z-1 R1 A10', { a: 10 })).toEqual([]);
    expect(said('G91 G81 X1 Z-1 R1 A0', { a: 10 })).toEqual([]);
    expect(said('G10 L2 P1 A5\nG81 X1 Z-1 R1 A5', { a: 10 })).toEqual([]);
  });

  test('what a cycle does is marked as its own, and nothing after it', () => {
    const steps = read('G81 X1 Z-1 R1\nG80\nG0 X2').steps;
    expect(steps.map((s) => s.cycle)).toEqual([true, true, true, true, false]);
    // Refused halfway, at its first feed of nothing.
    const broken = read('G81 X1 Z-1 R1 F0\nG0 X2');
    expect(broken.said).toEqual(['1 feed-zero F0']);
    expect(broken.steps.at(-1)!.cycle).toBe(false);
    const back = read('G20 G85 X1 Z-1 R1 F0\nG0 X2');
    expect(back.steps.at(-1)!.cycle).toBe(false);
  });

  test('offsets and inches reach R, bottom and peck', () => {
    const levels = (program: string, options: InterpretOptions = {}): number[] =>
      read(program, { z: 50 }, options).steps.map((s) => Number(s.to[2]!.toFixed(6)));
    expect(levels('G10 L2 P1 Z10\nG99 G81 X1 Z-1 R2')).toEqual([50, 12, 9, 12]);
    expect(levels('G20\nG99 G83 X0 Y0 Z-1 R0 Q0.5 F1')).toEqual([0, -12.7, 0, -12.446, -25.4, 0]);
    expect(levels('G99 G83 X0 Y0 Z-2 R0 Q1', { cycleBackOff: 0.1 })).toEqual([0, -1, 0, -0.9, -2, 0]);
    expect(levels('G99 G83 X0 Y0 Z-2 R0 Q5')).toEqual([0, -2, 0]);
    // Q that goes in exactly: no peck of nothing at the end.
    expect(levels('G99 G83 X0 Y0 Z-0.3 R0 Q0.1').filter((z, i, all) => z < all[i - 1]! && z < 0)).toHaveLength(3);
    expect(levels('G99 G81 X0 Y0 Z0 R0')).toEqual([0]);
  });

  test.each(['G81 X1 Z-1 R1', 'G85 X1 Z-1 R1', 'G89 X1 Z-1 R1 P0', 'G81 X0 Y0 Z0 R0', 'G83 X1 Z-2 R1 Q1 L2'])(
    '%s M0: stops when it is done, and not when it was refused on the way',
    (line) => {
      expect(read(`${line} M0`).said).toEqual([]);
      expect(read(`${line} M0`).steps.at(-1)).toMatchObject({ kind: 'pause', cycle: false });
      if (line.includes('Z0')) return;
      const refused = read(`${line} F0 M0`);
      expect(refused.said).toEqual(['1 feed-zero F0']);
      expect(refused.steps.every((s) => s.kind === 'rapid')).toBe(true);
    },
  );

  test('an axis that the line does not name stays; offsets and missing units reach the place of the hole too', () => {
    const ends = (program: string, start: StartState = {}, from?: StartState): number[][] =>
      read(program, start, {}, from)
        .steps.filter((s) => s.kind === 'feed')
        .map((s) => [...s.to.slice(0, 3)].map((v) => Number(v.toFixed(6))));
    expect(ends('G91 G99 G81 X5 Y0 Z-1 R-1\nY3', { z: 9 })).toEqual([
      [5, 0, 7],
      [5, 3, 6],
    ]);
    expect(ends('G10 L2 P1 X10 Y20\nG81 X1 Y2 Z-1 R1')).toEqual([[11, 22, -1]]);
    expect(ends('G20\nG91 G99 G81 X1 Y0 Z-0.5 R-1 F1', { z: 50.8 })).toEqual([[25.4, 0, 12.7]]);
    expect(ends('G90 G17 G98 F10 G0 X0 Y0 Z5\nG81 X1 Y2 Z-3 R1', {}, {})).toEqual([[1, 2, -3]]);
  });

  test('G86 stops what turned, either way, at the bottom and starts it the same way', () => {
    const turned = read('S900 M4\nG86 X1 Z-1 R1 P2', { z: 5 }).steps.map((s) => [
      s.kind,
      s.direction,
      s.speed,
      s.to[2],
    ]);
    expect(turned).toEqual([
      ['spindle', 'ccw', 900, 5],
      ['rapid', 'ccw', 900, 5],
      ['rapid', 'ccw', 900, 1],
      ['feed', 'ccw', 900, -1],
      ['dwell', 'ccw', 900, -1],
      ['spindle', 'off', 0, -1],
      ['rapid', 'off', 0, 5],
      ['spindle', 'ccw', 900, 5],
    ]);
  });

  test('100 000 strokes are the most', () => {
    let strokes = 0;
    const reader = readProgram(
      { step: (s) => (strokes += s.kind === 'feed' ? 1 : 0), problem: () => undefined },
      { start: START },
    );
    reader.push('G81 X1 Z-1 R1 L100000\n');
    expect(strokes).toBe(100_000);
  });
});

describe('the file (3.1, 3.3)', () => {
  /** What is said of a program that comes in pieces, and where its moves go along X. */
  function inPieces(...pieces: string[]): { said: string[]; x: number[] } {
    const said: string[] = [];
    const x: number[] = [];
    const reader = readProgram(
      {
        step: (s) => void (s.kind === 'rapid' && x.push(s.to[0]!)),
        problem: (p) => said.push(`${p.line} ${p.id} ${p.word}`),
      },
      { start: START },
    );
    for (const piece of pieces) reader.push(piece);
    reader.finish();
    return { said, x };
  }

  test('a byte-order mark is passed over and said, once, and only whole and at the start', () => {
    const marked = read('\ufeffG0 X1\n');
    expect(marked.said).toEqual(['1 byte-order-mark U+FEFF']);
    expect(marked.steps).toHaveLength(1);
    expect(read('\ufeff').problems.map((p) => p.id)).toEqual(['byte-order-mark', 'end-missing']);
    expect(read(Uint8Array.of(0xef, 0xbb, 0x47, 0x30)).said[0]).toContain('character-illegal');
    expect(read(Uint8Array.of(0xef, 0xbb, 0xbe, 0x47)).said[0]).toContain('character-illegal');
    expect(read(Uint8Array.of(0xef, 0xba, 0xbf, 0x47)).said[0]).toContain('character-illegal');
    expect(read(Uint8Array.of(0x58, 0xbb, 0xbf, 0x47, 0x30)).said[0]).toContain('X');
    expect(said('G0 X1\n\ufeffG0 X2')[0]).toContain('2 character-illegal');
  });

  test('lines are counted whatever ends them', () => {
    expect(read('G0 X1\r\nG0 X2\rG0 X3\n\nG0 Q1').said).toEqual(['5 axis-words-missing G0']);
    expect(read('G0 X1\r\nG0 X2\rG0 X3\n\nG0 X4').lines).toBe(5);
    expect(read('').lines).toBe(0);
    expect(read('G0 X1\n').lines).toBe(1);
    expect(read('\r\r\n\n').lines).toBe(3);
    expect(said('\n$')).toEqual(['2 character-illegal $']);
    expect(said('G0 X1\n\n\n$')).toEqual(['4 character-illegal $']);
    expect(said('G0 X1\r\n$')).toEqual(['2 character-illegal $']);
  });

  test('percent at both ends; one that closes nothing; one that is never closed', () => {
    expect(said('%\nG0 X1\n%')).toEqual([]);
    expect(said('\n\n%\nG0 X1\n%\n')).toEqual([]);
    expect(said('(first)\n%\nG0 X1\n%\n')).toEqual([]);
    expect(said('G0 X1\n%\n')).toEqual(['2 percent-stray %']);
    expect(said('%\nG0 X1\n')).toEqual(['2 percent-missing %']);
    // A line counts before the %, whether it was refused or had a comment; a comment alone does not.
    expect(said('$\nG0 X1\n%')).toEqual(['1 character-illegal $', '3 percent-stray %']);
    expect(said('G0 X1 ;a\nG0 X2\n%')).toEqual(['1 semicolon-comment ;', '3 percent-stray %']);
    expect(said(';first\n%\nG0 X1\n%\n')).toEqual(['1 semicolon-comment ;']);
    expect(read('%\nM2\n').problems).toEqual([]);
    expect(read('%\nG0 X1\n%\nG0 X2\n').steps).toHaveLength(1);
  });

  test('the first line after the end is said once; blanks and a percent are not', () => {
    const afterEnd = (tail: string[]): string[] => {
      const problems: Problem[] = [];
      const reader = readProgram({ step: () => undefined, problem: (p) => problems.push(p) }, { start: START });
      expect(reader.push('G0 X1\nM2\n')).toBe(false);
      for (const piece of tail) expect(reader.push(piece)).toBe(false);
      reader.finish();
      return problems.map((p) => `${p.line} ${p.id} ${p.level}${p.word}`);
    };
    expect(afterEnd([])).toEqual([]);
    expect(afterEnd([' \n', '%\r\n\t'])).toEqual([]);
    expect(afterEnd(['\nG0 X1', 'G0 X2'])).toEqual(['3 lines-after-end note']);
    // The same where all comes in one piece, and where the end itself comes in two.
    expect(said('G0 X1\nM2\n\nG0 X2\nG0 X3\n')).toEqual(['3 lines-after-end ']);
    expect(said('%\nG0 X1\n%\nx')).toEqual(['4 lines-after-end ']);
    expect(said('G0 X1\nM30\n%\n \t\r\n')).toEqual([]);
    expect(inPieces('M2', '\nG0 X9\n')).toEqual({ said: ['2 lines-after-end '], x: [] });
    expect(inPieces('M', '2\n')).toEqual({ said: [], x: [] });
    const long = `M2\n${' '.repeat(70_000)}`;
    expect(said(long)).toEqual([]);
    expect(said(`${long}x`)).toEqual(['2 lines-after-end ']);
    expect(read('G0 X1').problems).toMatchObject([{ id: 'end-missing', line: 1, word: '' }]);
  });

  test('pieces may end anywhere', () => {
    const x = (...at: number[]) => ({ said: [], x: at });
    expect(inPieces('G0 X1', '\nG0 X2', '\nM2\n')).toEqual(x(1, 2));
    expect(inPieces('G0 X1', '\rG0 X2\rM2\r')).toEqual(x(1, 2));
    expect(inPieces('G0 X1\nG0 X2\n', 'G0 X3', '4\nM2\n')).toEqual(x(1, 2, 34));
    expect(inPieces('', 'G', '', '0 X', '5', '\n', '', 'M2\n')).toEqual(x(5));
    // Lines are counted the same, however their ends are cut.
    expect(inPieces('G0 X1', '\n\n$\nM2\n').said).toEqual(['3 character-illegal $']);
    expect(inPieces('G0 X1\r', '\n$\nM2\n').said).toEqual(['2 character-illegal $']);
    expect(inPieces('G0 X1', '\r', '\n$\nM2\n').said).toEqual(['2 character-illegal $']);
    // The mark counts at the very start alone, though nothing may come before it.
    expect(inPieces('', '\ufeffG0 X1\n', 'M2\n')).toEqual({ said: ['1 byte-order-mark U+FEFF'], x: [1] });
    expect(inPieces('G0 X1\n', '\ufeffG0 X2\n', 'M2\n').said[0]).toContain('2 character-illegal');
    expect(inPieces('G0 X1', '\ufeffY2\n', 'M2\n').said[0]).toContain('1 character-illegal');
    expect(inPieces('\ufeff', '\ufeff\n', 'M2\n').said[1]).toContain('1 character-illegal');
  });

  test('semicolons are remarked once, and what follows them is no program', () => {
    const got = read('G0 X1 ; Y5 ( $\n; more\nX2');
    expect(got.said).toEqual(['1 semicolon-comment ;']);
    expect(got.steps.map((s) => [s.to[0], s.to[1]])).toEqual([
      [1, 0],
      [2, 0],
    ]);
    expect(got.problems[0]).toMatchObject({ level: 'note', executed: true });
    expect(read('G0 X1 ;a\rG0 X2').said).toEqual(['1 semicolon-comment ;']);
    expect(read('G0 X1 ;a\rG0 X2').steps).toHaveLength(2);
  });

  test('a letter beyond ASCII in a comment is remarked, once; tabs are plain', () => {
    const got = read('(plain\tone)\n(caf\u00e9)\n(na\u00efve) G0 X1');
    expect(got.said).toEqual(['2 comment-not-ascii (caf<c3><a9>)']);
    expect(got.steps).toHaveLength(1);
    expect(said('G0 X1 ;caf\u00e9\n;\u00e9')).toEqual(['1 semicolon-comment ;', '1 comment-not-ascii ;caf<c3><a9>']);
    // Bytes that print nothing are no characters of the language, in comments either.
    // Of two on a line the first.
    expect(said('(caf\u00e9) (na\u00efve)')).toEqual(['1 comment-not-ascii (caf<c3><a9>) (na<c3><af>']);
    expect(said('G0 X1 (caf\u00e9)(na\u00efve)')).toEqual(['1 comment-not-ascii (caf<c3><a9>)(na<c3><af>']);
    expect(said('(a\u0001b)')).toEqual(['1 character-illegal <01>b)']);
    expect(said('G0 X1 ;a\u0001\tb')).toEqual(['1 character-illegal <01><09>b']);
    expect(said(';\tplain ~')).toEqual(['1 semicolon-comment ;']);
    expect(said('(~)')).toEqual([]);
    expect(said('(\u007f)')).toEqual(['1 comment-not-ascii (<7f>)']);
  });

  test('deleted lines do nothing, not even wrong, when the switch is on', () => {
    expect(said('/G0 $\n/X1 X1', {}, { blockDelete: true })).toEqual([]);
    expect(said('/G0 $')).toEqual(['1 character-illegal $']);
    expect(said('  / G0 X1\nG0 $', {}, { blockDelete: true })).toEqual(['2 character-illegal $']);
    // They still are lines before the %.
    expect(said('/G0 X1\n%', {}, { blockDelete: true })).toEqual(['2 percent-stray %']);
    expect(said('/G0 $\n%', {}, { blockDelete: true })).toEqual(['2 percent-stray %']);
  });

  test('256 characters, however they come; thousands more are no more wrong', () => {
    const padded = (n: number): string => `G0 X1${' '.repeat(n - 5)}`;
    expect(said(`${padded(256)}\nX2`)).toEqual([]);
    expect(said(`${padded(257)}\nX2`)).toEqual(['1 line-too-long G0']);
    expect(said(padded(5000))).toEqual(['1 line-too-long G0']);
    expect(said(`${padded(5000)}\nG0 Q1`)).toEqual(['1 line-too-long G0', '2 axis-words-missing G0']);
    const pieces: string[] = [];
    const reader = readProgram(
      { step: () => undefined, problem: (p) => pieces.push(`${p.line} ${p.id} ${p.word}`) },
      { start: START },
    );
    for (const part of ['G0 X1', ' '.repeat(3000), ' '.repeat(3000), '\r', '\nG0 Q1\nM2\n']) reader.push(part);
    reader.finish();
    expect(pieces).toEqual(['1 line-too-long G0', '2 axis-words-missing G0']);
  });

  test('long texts are cut between characters, never inside one', () => {
    // A pair of halves lies across the place where a text of 65 536 units is cut.
    const text = `(${'x'.repeat(65_534)}\u{1f941})\n`;
    const lines = `${'(y)\n'.repeat(16_383)}(12\u{1f941})\nG0 X1\nM2\n`;
    expect(lines.slice(65_535, 65_537)).toBe('\u{1f941}');
    // Whole, as its four bytes show.
    expect(said(lines)).toEqual(['16384 comment-not-ascii (12<f0><9f><a5><81>)']);
    expect(said(text)[0]).toContain('line-too-long');
    expect(read(lines).steps.map((s) => s.line)).toEqual([16_385, 16_386]);
  });

  test('what comes after the end is not even asked for', () => {
    function* lines(): Generator<string> {
      yield 'G0 X1\n';
      yield 'M2\n';
      throw new Error('asked for more');
    }
    expect([...interpret(lines(), MACHINE, { start: START })].map((m) => m.kind)).toEqual(['rapid', 'end']);
  });

  test('a text of many pieces is read once; its moves are plain data', () => {
    const line = 'G1 X1 C2 F3\n';
    const moves = [...interpret(line.repeat(1000), MACHINE, { start: { ...START, x: 9 } })];
    expect(moves.filter((m) => m.kind === 'feed').map((m) => m.line)).toEqual(
      Array.from({ length: 1000 }, (_, i) => i + 1),
    );
    expect(moves[0]).toEqual({
      kind: 'feed',
      line: 1,
      from: { x: 9, y: 0, z: 0, a: 0 },
      to: { x: 1, y: 0, z: 0, a: 0, c: 2 },
      feed: 3,
      feedMode: 'per-minute',
      spindle: 0,
      tool: -1,
    });
    expect(
      [...interpret(['\rG0 X1', 'G0 X2'], MACHINE, { start: START })].flatMap((m) =>
        m.kind === 'rapid' ? m.line : [],
      ),
    ).toEqual([2, 3]);
  });

  test('what the controller does not understand is told at its first line, and still moves', () => {
    const simple = { understands: { ...MACHINE.understands, arcs: false, inverseTime: false, cycles: false } };
    const program = 'G2 X2 I1\nG3 X0 I-1\nG81 X1 Z-1 R1\nG80\nG93 G1 X1 F2\nX2 F2\nM2';
    const told = [...interpret(program, simple, { start: START })].flatMap((m) =>
      m.kind === 'problem' ? `${m.line} ${m.id} ${m.word}` : [],
    );
    expect(told).toEqual([
      '1 machine-lacks arcs',
      '3 machine-lacks drilling cycles',
      '5 machine-lacks inverse-time feed',
    ]);
    const kinds = (machine: typeof simple) =>
      [...interpret(program, machine, { start: START })].map((m) => m.kind).filter((k) => k !== 'problem');
    expect(kinds(simple)).toEqual(kinds(MACHINE));
    expect([...interpret(program, MACHINE, { start: START })].filter((m) => m.kind === 'problem')).toEqual([]);
  });

  test('pieces given one by one end their lines; a text is read as it is', () => {
    expect(
      [...interpret(['G0 X1', 'G0 X2\n', 'M2\r'], MACHINE)].filter((m) => m.kind !== 'problem').map((m) => m.line),
    ).toEqual([1, 2, 3]);
    const bytes = new TextEncoder();
    const half = [bytes.encode('G21 G90 G'), bytes.encode('0 X1\nM2\n')];
    expect([...interpret(half, MACHINE)].map((m) => m.kind)).toEqual(['rapid', 'end']);
    const after = [...interpret(['M2', 'G0 X1'], MACHINE)];
    expect(after.map((m) => (m.kind === 'problem' ? m.id : m.kind))).toEqual(['end', 'lines-after-end']);
  });
});
