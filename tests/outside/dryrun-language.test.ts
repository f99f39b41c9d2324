import { describe, expect, test } from 'vitest';
import { interpret } from '../../src/dryrun/interpret.ts';
import type { InterpretOptions } from '../../src/dryrun/options.ts';
import type { Problem } from '../../src/dryrun/rules.ts';
import type { StartState } from '../../src/dryrun/state.ts';
import type { Move } from '../../src/model/move.ts';
import { MACHINE } from '../helpers/drill-program.ts';

/**
 * Programs worked out in, or by the rules of, NISTIR 6556 ("The NIST RS274NGC Interpreter - Version 3", August 2000).
 * `published` = the report's own numbers; the others were derived by hand from the section named. T = traverse, F = feed.
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

type Straight = Extract<Move, { kind: 'rapid' | 'feed' }>;
const ofKind =
  (kind: 'rapid' | 'feed') =>
  (m: Move | Problem): m is Straight =>
    m.kind === kind;

interface Did {
  readonly moves: string[];
  readonly problems: string[];
  readonly all: ReturnType<typeof collect>;
}

function collect(program: string, start: StartState, options: InterpretOptions) {
  return [...interpret(program, MACHINE, { ...options, start: { ...START, ...start } })];
}

const r = (n: number): string => String(Number(n.toFixed(6)) + 0);

function run(program: string, start: StartState = {}, options: InterpretOptions = {}): Did {
  const all = collect(program, start, options);
  const moves: string[] = [];
  const problems: string[] = [];
  for (const m of all) {
    if (m.kind === 'problem') {
      if (m.id !== 'end-missing') problems.push(`${m.line} ${m.id} ${m.word}`);
    } else if (m.kind === 'rapid' || m.kind === 'feed' || m.kind === 'arc')
      moves.push(`${m.kind === 'rapid' ? 'T' : 'F'}(${r(m.to.x)},${r(m.to.y)},${r(m.to.z)})`);
    else if (m.kind === 'dwell') moves.push(`dwell ${m.seconds}`);
  }
  return { moves, problems, all };
}

const inch = (did: Did): string[] =>
  did.moves.map((m) => m.replace(/-?[\d.]+/g, (n) => String(Number((Number(n) / 25.4).toFixed(6)) + 0)));

describe('drilling cycles', () => {
  test('V1 published, 3.5.16.2 example 1', () => {
    expect(run('G90 G81 G98 X4 Y5 Z1.5 R2.8', { x: 1, y: 2, z: 3 }).moves).toEqual([
      'T(4,5,3)',
      'T(4,5,2.8)',
      'F(4,5,1.5)',
      'T(4,5,3)',
    ]);
  });

  test('V2 published, 3.5.16.2 example 2', () => {
    expect(run('G91 G81 G98 X4 Y5 Z-0.6 R1.8 L3', { x: 1, y: 2, z: 3 }).moves).toEqual([
      'T(1,2,4.8)',
      'T(5,7,4.8)',
      'F(5,7,4.2)',
      'T(5,7,4.8)',
      'T(9,12,4.8)',
      'F(9,12,4.2)',
      'T(9,12,4.8)',
      'T(13,17,4.8)',
      'F(13,17,4.2)',
      'T(13,17,4.8)',
    ]);
  });

  test('V3 published, table 10', () => {
    expect(run('g91 g81 x3 y2 z-0.8 r1.5 l2', { x: 30, y: 1, z: -0.5 }).moves).toEqual([
      'T(30,1,1)',
      'T(33,3,1)',
      'F(33,3,0.2)',
      'T(33,3,1)',
      'T(36,5,1)',
      'F(36,5,0.2)',
      'T(36,5,1)',
    ]);
  });

  const V4 = [
    'T(2,3,1)',
    'T(2,3,0.1)',
    'F(2,3,-0.15)',
    'T(2,3,0.1)',
    'T(2,3,-0.14)',
    'F(2,3,-0.4)',
    'T(2,3,0.1)',
    'T(2,3,-0.39)',
    'F(2,3,-0.6)',
  ];

  test('V4, 3.5.16.4 and 3.5.20: pecks in inches, 0.72 in of feed, 4.32 s at F10', () => {
    const did = run('G20\nG99 G83 X2 Y3 Z-0.6 R0.1 Q0.25 F10', { z: 25.4 });
    expect(inch(did)).toEqual([...V4, 'T(2,3,0.1)']);
    const fed = did.all.filter(ofKind('feed'));
    const length = fed.reduce((sum, m) => sum + Math.abs(m.to.z - m.from.z), 0);
    expect(length / 25.4).toBeCloseTo(0.72, 9);
    expect((length / fed[0]!.feed!) * 60).toBeCloseTo(4.32, 9);
  });

  test('V5, 3.5.16.4: G98 differs in the last move; chips may be cleared at the end level by an option', () => {
    const program = 'G20\nG98 G83 X2 Y3 Z-0.6 R0.1 Q0.25 F10';
    expect(inch(run(program, { z: 25.4 }))).toEqual([...V4, 'T(2,3,1)']);
    const high = inch(run(program, { z: 25.4 }, { peckClears: 'end-level' }));
    expect(high).toEqual([...V4.map((m, i) => (i === 3 || i === 6 ? 'T(2,3,1)' : m)), 'T(2,3,1)']);
  });

  test('V6, 3.5.16.4: exactly two pecks, no third', () => {
    expect(run('G99 G83 X0 Y0 Z-1 R0 Q0.5 F60', { z: 5 }).moves).toEqual([
      'T(0,0,0)',
      'F(0,0,-0.5)',
      'T(0,0,0)',
      'T(0,0,-0.246)',
      'F(0,0,-1)',
      'T(0,0,0)',
    ]);
  });

  test('V7, 3.5.16.4: ten pecks of a tenth, not eleven', () => {
    expect(run('G99 G83 X0 Y0 Z0 R1 Q0.1', { z: 5 }).moves.filter((m) => m.startsWith('F'))).toHaveLength(10);
  });

  test('V8, 3.5.16.3: dwell at the bottom', () => {
    expect(run('G82 G98 X1 Z-2 R1 P0.5 F100', { z: 5 }).moves).toEqual([
      'T(1,0,5)',
      'T(1,0,1)',
      'F(1,0,-2)',
      'dwell 0.5',
      'T(1,0,5)',
    ]);
  });

  test('V9, 3.5.16: words kept from line to line', () => {
    expect(run('G99 G81 X10 Y0 Z-3 R1 F120\nX20\nY10\nG80', { z: 5 }).moves).toEqual([
      'T(10,0,5)',
      'T(10,0,1)',
      'F(10,0,-3)',
      'T(10,0,1)',
      'T(20,0,1)',
      'F(20,0,-3)',
      'T(20,0,1)',
      'T(20,10,1)',
      'F(20,10,-3)',
      'T(20,10,1)',
    ]);
  });

  test('V10, 3.5.20: the same with G98 ends each hole at the first level', () => {
    expect(run('G98 G81 X10 Y0 Z-3 R1 F120\nX20\nY10\nG80', { z: 5 }).moves).toEqual([
      'T(10,0,5)',
      'T(10,0,1)',
      'F(10,0,-3)',
      'T(10,0,5)',
      'T(20,0,5)',
      'T(20,0,1)',
      'F(20,0,-3)',
      'T(20,0,5)',
      'T(20,10,5)',
      'T(20,10,1)',
      'F(20,10,-3)',
      'T(20,10,5)',
    ]);
  });

  test('V11, 3.5.16.1: first level below R', () => {
    expect(run('G81 G98 X3 Y0 Z-5 R1', { z: -2 }).moves).toEqual(['T(0,0,1)', 'T(3,0,1)', 'F(3,0,-5)', 'T(3,0,1)']);
  });

  test('V12, 3.5.16: incremental pecks, repeated', () => {
    expect(run('G91 G99 G83 X5 Y0 Z-2 R-1 Q1 L2', { z: 5 }).moves).toEqual([
      'T(5,0,5)',
      'T(5,0,4)',
      'F(5,0,3)',
      'T(5,0,4)',
      'T(5,0,3.254)',
      'F(5,0,2)',
      'T(5,0,4)',
      'T(10,0,4)',
      'F(10,0,3)',
      'T(10,0,4)',
      'T(10,0,3.254)',
      'F(10,0,2)',
      'T(10,0,4)',
    ]);
  });

  test('V13, 3.5.16: repeats in one place', () => {
    expect(run('G90 G99 G81 X4 Y4 Z-1 R1 L2', { z: 5 }).moves).toEqual([
      'T(4,4,5)',
      'T(4,4,1)',
      'F(4,4,-1)',
      'T(4,4,1)',
      'F(4,4,-1)',
      'T(4,4,1)',
    ]);
  });

  test('3.5.16.5, 3.5.16.6 and 3.5.16.9: G85 and G89 feed out; G86 stops the spindle and starts it again', () => {
    expect(run('G85 X1 Z-2 R1', { z: 5 }).moves).toEqual(['T(1,0,5)', 'T(1,0,1)', 'F(1,0,-2)', 'F(1,0,5)']);
    expect(run('G89 X1 Z-2 R1 P1', { z: 5 }).moves).toEqual([
      'T(1,0,5)',
      'T(1,0,1)',
      'F(1,0,-2)',
      'dwell 1',
      'F(1,0,5)',
    ]);
    const spindle = run('M3 S900\nG86 X1 Z-2 R1 P1', { z: 5 }).all.filter((m) => m.kind === 'spindle');
    expect(spindle.map((m) => m.direction)).toEqual(['cw', 'off', 'cw']);
  });

  test('3.5.16: in G18 the drill goes along Y, in G19 along X', () => {
    expect(run('G18 G99 G81 X1 Z2 Y-3 R1', { y: 5 }).moves).toEqual(['T(1,5,2)', 'T(1,1,2)', 'F(1,-3,2)', 'T(1,1,2)']);
    expect(run('G19 G99 G81 Y1 Z2 X-3 R1', { x: 5 }).moves).toEqual(['T(5,1,2)', 'T(1,1,2)', 'F(-3,1,2)', 'T(1,1,2)']);
  });

  test('V31, 3.5.16 and 2.1.2.5: two holes round the shell, A turned between them', () => {
    const did = run(
      'G21 G17 G90 G94 G98\nG0 X50 A0\nG83 X50 Y0 Z22 R31 Q4 F120\nG80\nG0 X50 A45\nG83 X80 Y0 Z22 R31 Q4\nG80',
      { z: 40 },
    );
    const hole = (x: number): string[] => [31, 27, 31, 27.254, 23, 31, 23.254, 22, 40].map((z) => `(${x},0,${z})`);
    const places = did.moves.map((m) => m.slice(1));
    expect(places).toEqual(['(50,0,40)', ...hole(50), '(50,0,40)', '(80,0,40)', ...hole(80)]);
    const fed = did.all.filter(ofKind('feed'));
    expect(fed.every((m) => m.feed === 120)).toBe(true);
    const perHole = fed.slice(0, 3).reduce((sum, m) => sum + Math.abs(m.to.z - m.from.z), 0);
    expect(perHole).toBeCloseTo(9.508, 9);
    expect(fed.slice(3).map((m) => m.to.a)).toEqual([45, 45, 45]);
  });
});

describe('arcs', () => {
  const arc = (did: Did) => did.all.find((m) => m.kind === 'arc')!;

  test('V14 published geometry, 3.5.3.2: helix of 15.395179 mm', () => {
    const m = arc(run('G17 G2 X10 Y16 I3 J4 Z9 F60', { x: 7, y: 7 }));
    expect(m.center).toEqual([10, 11]);
    expect(m.sweep).toBeCloseTo(-143.130102, 6);
    const flat = (5 * Math.PI * 143.13010235415598) / 180;
    expect(flat).toBeCloseTo(12.490458, 6);
    expect(Math.hypot(flat, 9)).toBeCloseTo(15.395179, 6);
  });

  test('V15, 3.5.3.1: short and long way round', () => {
    const short = arc(run('G3 X10 Y0 R10'));
    expect(short.center[0]).toBeCloseTo(5, 9);
    expect(short.center[1]).toBeCloseTo(8.660254, 6);
    expect(short.sweep).toBeCloseTo(60, 9);
    const long = arc(run('G3 X10 Y0 R-10'));
    expect(long.center[1]).toBeCloseTo(-8.660254, 6);
    expect(long.sweep).toBeCloseTo(300, 9);
  });

  test('V16 published, table 10 (its expression 6-[4*3/2] worked out: 0)', () => {
    const m = arc(run('g2 x0 r 7.01 z0.5', { x: 3, y: 1 }));
    expect([m.to.x, m.to.y, m.to.z]).toEqual([0, 1, 0.5]);
    expect(m.center[0]).toBeCloseTo(1.5, 9);
    expect(m.center[1]).toBeCloseTo(7.8476, 4);
    expect(m.sweep).toBeLessThan(0);
  });

  test('V17, 3.5.3.2: radii may differ by 0.002 mm', () => {
    expect(run('G2 X10 Y0 I5.002').problems).toEqual(['1 arc-does-not-close G2']);
    expect(run('G2 X10 Y0 I5.0005').problems).toEqual([]);
    expect(run('G20\nG2 X1 Y0 I0.50005 F9').problems).toEqual([]);
    expect(run('G20\nG2 X1 Y0 I0.5002 F9').problems).toEqual(['2 arc-does-not-close G2']);
  });

  test('3.5.3.2: end where it starts is a full circle in centre form, an error in R form', () => {
    expect(arc(run('G2 X0 Y0 I5')).sweep).toBe(-360);
    expect(run('G3 X0 Y0 R5').problems).toEqual(['1 arc-ends-where-it-starts G3']);
  });

  test('3.5.3: planes XZ and YZ, seen from their normal', () => {
    const xz = arc(run('G18 G3 X10 Z0 I5'));
    // G18: from + Y one sees Z to the right and X up, so that anticlockwise runs from Z to X.
    expect(xz.plane).toBe('xz');
    expect(xz.sweep).toBeCloseTo(180, 9);
    const yz = arc(run('G19 G2 Y10 Z0 J5'));
    expect(yz.plane).toBe('yz');
    expect(yz.sweep).toBeCloseTo(-180, 9);
  });

  test('3.5.3: words that are missing or mixed', () => {
    expect(run('G2 I5').problems).toEqual(['1 axis-words-missing G2']);
    expect(run('G2 Z5 I5').problems).toEqual(['1 arc-words-missing G2']);
    expect(run('G2 X5').problems).toEqual(['1 arc-words-missing G2']);
    expect(run('G2 X5 I5 R5').problems).toEqual(['1 arc-words-mixed G2']);
    expect(run('G2 X5 I5 K5').problems).toEqual(['1 arc-words-mixed G2']);
    expect(run('G2 X50 R5').problems).toEqual(['1 arc-radius-too-small R5']);
  });
});

describe('feeds and rotary axes', () => {
  const fed = (did: Did) => did.all.filter(ofKind('feed'));

  test('V18, 2.1.2.5 A: with X moving, F counts along X', () => {
    const m = fed(run('G94 G1 X30 A90 F60'))[0]!;
    expect(m.feed).toBe(60);
    expect((m.to.x - m.from.x) / m.feed!).toBe(0.5);
  });

  test('V19, 2.1.2.5 B and C: rotary axes alone, in degrees', () => {
    expect(fed(run('G1 A90 F60'))[0]!.feed).toBe(60);
    expect(fed(run('G20\nG1 A90 F60'))[0]!.feed, 'degrees know no inches').toBe(60);
    const m = fed(run('G1 A30 B40 F100', { b: 0 }))[0]!;
    expect(m.to).toMatchObject({ a: 30, b: 40 });
  });

  test('V20, 3.5.19: inverse time wants F on every line', () => {
    const did = run('G93 G1 X30 A90 F2\nX40');
    expect(fed(did)).toHaveLength(1);
    expect(fed(did)[0]).toMatchObject({ feed: 2, feedMode: 'inverse' });
    expect(did.problems).toEqual(['2 feed-missing G1']);
    expect(run('G93\nG0 X1').problems, 'rapids need none').toEqual([]);
  });

  test('2.1.2.4: A is wrapped linear: 350 to 370 turns by 20', () => {
    const last = run('G0 A350\nA370\nA10').all.filter(ofKind('rapid'));
    expect(last.map((m) => m.to.a - m.from.a)).toEqual([350, 20, -360]);
  });
});

describe('lines, coordinates, order', () => {
  test('V21 published, 3.3: blanks inside numbers', () => {
    expect(run('g0x +0. 12 34y 7').moves).toEqual(['T(0.1234,7,0)']);
  });

  test('V22, 3.3.2.2: parameters and expressions are refused by word, not passed over', () => {
    expect(run('#3=15').problems).toEqual(['1 formula-not-supported #3=15']);
    expect(run('G1 X#3').problems).toEqual(['1 formula-not-supported X#3']);
    expect(run('G1 X[2.0/3]').problems).toEqual(['1 formula-not-supported X[2.0/3]']);
  });

  test('V23 published, 3.5.18: G92 adds up, G92.2 takes it off, G92.3 puts it back', () => {
    expect(run('G92 X7\nG0 X7', { x: 4 }).moves).toEqual(['T(4,0,0)']);
    expect(run('G92 X7\nG92 X9\nG0 X9', { x: 4 }).moves).toEqual(['T(4,0,0)']);
    expect(run('G92 X7\nG92 X9\nG92.2\nG0 X4', { x: 4 }).moves).toEqual(['T(4,0,0)']);
    expect(run('G92 X7\nG92 X9\nG92.2\nG92.3\nG0 X9', { x: 4 }).moves).toEqual(['T(4,0,0)']);
    expect(run('G92 X7\nG92.1\nG92.3\nG0 X4', { x: 4 }).moves).toEqual(['T(4,0,0)']);
  });

  test('V24, 3.5.5 and 3.5.12: G10 moves the zero, not the tool; G53 looks past it', () => {
    expect(run('G10 L2 P1 X10\nG0 X0\nG53 G0 X0').moves).toEqual(['T(10,0,0)', 'T(0,0,0)']);
    expect(run('G10 L2 P2 X10\nG55 G0 X1\nG54 G0 X1').moves).toEqual(['T(11,0,0)', 'T(1,0,0)']);
    expect(run('G10 L2 P9 Y3\nG59.3 G0 Y1').moves).toEqual(['T(0,4,0)']);
  });

  test('V25, 3.5.8: home by way of a point', () => {
    expect(run('G28 X5', {}, { home: [100, 50, 0, 0, 0, 0] }).moves).toEqual(['T(5,0,0)', 'T(100,50,0)']);
    expect(run('G28', {}, { home: [100, 50, 0, 0, 0, 0] }).moves).toEqual(['T(100,50,0)']);
    expect(run('G30 X5', {}, { secondHome: [1, 2, 3, 0, 0, 0] }).moves).toEqual(['T(5,0,0)', 'T(1,2,3)']);
  });

  test('V26, 3.5.7: a change of units moves nothing', () => {
    expect(run('G20\nG0 X1\nG21\nG0 X25.4\nG91 X0.6').moves).toEqual(['T(25.4,0,0)', 'T(25.4,0,0)', 'T(26,0,0)']);
  });

  test('V27, 3.8: F, S, spindle, dwell, then motion, whatever the order on the line', () => {
    const kinds = run('G4 P1 G1 X10 F300 S500 M3').all.filter((m) => m.kind !== 'problem');
    expect(kinds.map((m) => m.kind)).toEqual(['spindle', 'dwell', 'feed']);
    expect(kinds[0]).toMatchObject({ speed: 500, direction: 'cw' });
    expect(kinds[2]).toMatchObject({ feed: 300, spindle: 500 });
  });

  test.each([
    ['G0 G1 X1', 'two-of-one-group G1'],
    ['M3 M5', 'two-of-one-group M5'],
    ['X1 X2', 'word-twice X2'],
    ['G80 X1', 'axis-words-without-motion X1'],
    ['G1 F100', 'axis-words-missing G1'],
    ['G28 G0 X1', 'axis-words-twice-used G0'],
    ['N123456 G0 X1', 'line-number-malformed N123456'],
    ['G0 X1 (a(b)', 'comment-nested (a(b)'],
    ['G0 X1 (a', 'comment-open (a'],
    ['G81 X1 Z-1 R-2', 'cycle-retract-below-bottom R-2'],
    ['G83 X1 Z-1 R1 Q0', 'cycle-peck-missing Q0'],
    ['G81 X1 Z-1 R1 L0', 'number-not-whole L0'],
    ['G81 X1 Z-1 R1 A10', 'cycle-turns A10'],
    ['G4 P-1', 'number-negative P-1'],
    ['S-1', 'number-negative S-1'],
    ['G0 E1', 'letter-unknown E1'],
    ['G0 X1e3', 'letter-unknown e3'],
  ])('V28, 3.3 to 3.5: %s is refused', (line, problem) => {
    const did = run(line);
    expect(did.problems).toEqual([`1 ${problem}`]);
    expect(did.moves).toEqual([]);
  });

  test.each([
    ['G81 X1 Z-1 R1 A10', { a: 10 }],
    ['M3 S0', {}],
    ['/G0 X1', {}],
    ['G40\nG40', {}],
    ['n5g0x.5', {}],
    ['G54.0 G0 X1', {}],
    ['M7 M8\nM9', {}],
    ['(one) G0 (two) X1 (three)', {}],
    ['G1.0 X1', {}],
    ['  \t \n\r\nG0 X1', {}],
  ] as const)('V29: %s is odd but within the language', (line, start) => {
    expect(run(line, start).problems).toEqual([]);
  });

  test.each([
    ['3.3.1', 'N-1 G0 X1', 'line-number-malformed N-1'],
    ['3.3.1', 'G0 N5 X1', 'line-number-malformed N5'],
    ['3.3.2.1', 'G0 X.', 'number-missing X.'],
    ['3.3.2.1', 'G0 X1-', 'character-illegal -'],
    ['3.3.4', 'G0 X1 )', 'character-illegal )'],
    ['3.3', '//G0 X1', 'bar-not-first /G0 X1'],
    ['3.4', 'G17 G18', 'two-of-one-group G18'],
    ['3.4', 'G90 G91', 'two-of-one-group G91'],
    ['3.4', 'G93 G94', 'two-of-one-group G94'],
    ['3.4', 'G20 G21', 'two-of-one-group G21'],
    ['3.4', 'G43 H1 G49', 'two-of-one-group G49'],
    ['3.4', 'G98 G99', 'two-of-one-group G99'],
    ['3.4', 'G54 G55', 'two-of-one-group G55'],
    ['3.4', 'G61 G64', 'two-of-one-group G64'],
    ['3.4', 'M0 M1', 'two-of-one-group M1'],
    ['3.4', 'M7 M9', 'two-of-one-group M9'],
    ['3.4', 'M48 M49', 'two-of-one-group M49'],
    ['3.4', 'M3 M6 M7 M48 M0', 'two-of-one-group M0'],
    ['3.4', 'G92 X1 G1', 'axis-words-twice-used G1'],
    ['3.5.4', 'G4', 'dwell-missing G4'],
    ['3.5.5', 'G10 L2 P10 X1', 'number-not-whole P10'],
    ['3.5.5', 'G10 L20 P1 X1', 'code-not-supported G10'],
    ['3.5.9', 'G38.2 X1', 'code-not-supported G38.2'],
    ['3.5.10', 'G41 D1', 'code-not-supported G41'],
    ['3.5.10', 'G42', 'code-not-supported G42'],
    ['3.5.11', 'G43', 'number-not-whole G43'],
    ['3.5.11', 'G43 H-1', 'number-not-whole H-1'],
    ['3.5.12', 'G53 G2 X1 I1', 'machine-coordinates-need-a-line G53'],
    ['3.5.16', 'G81 X1 R1', 'cycle-words-missing G81'],
    ['3.5.16', 'G93 G81 X1 Z-1 R1', 'cycle-in-inverse-time G81'],
    ['3.5.16.3', 'G82 X1 Z-1 R1', 'dwell-missing G82'],
    ['3.5.16.3', 'G82 X1 Z-1 R1 P-1', 'number-negative P-1'],
    ['3.5.16.5', 'G84 X1 Z-1 R1', 'code-not-supported G84'],
    ['3.5.16.7', 'G86 X1 Z-1 R1 P1', 'cycle-needs-spindle G86'],
    ['3.5.16.8', 'G87 X1 Z-1 R1 I1 J1 K1', 'code-not-supported G87'],
    ['3.5.16.9', 'G88 X1 Z-1 R1', 'code-not-supported G88'],
    ['3.5.18', 'G92', 'axis-words-missing G92'],
    ['3.5.19', 'G93 G1 X1', 'feed-missing G1'],
    ['3.7.1', 'F-1', 'number-negative F-1'],
    ['3.7.1', 'G1 X1 F0', 'feed-zero F0'],
    ['3.7.3', 'T-1', 'number-not-whole T-1'],
    ['3.7.3', 'T100', 'number-not-whole T100'],
    ['3.4 table 4', 'G70', 'code-unknown G70'],
    ['3.4 table 4', 'M98 P1', 'code-unknown M98'],
    ['3.3.2', 'O100', 'letter-unknown O100'],
    ['3.3.6', 'G1 X1 Q1', 'word-unused Q1'],
    ['3.3.6', 'G0 X1 H1', 'word-unused H1'],
  ])('%s: %s is refused by its word', (_, line, problem) => {
    const did = run(line, { z: 5 });
    expect(did.problems).toEqual([`1 ${problem}`]);
    expect(did.moves).toEqual([]);
  });

  test('3.3.4: comments in letters outside ASCII are named, and bytes that are no letters refused', () => {
    expect(run('G0 X1 (Ø 6)').problems).toEqual(['1 comment-not-ascii (<c3><98> 6)']);
    expect(run('G0 X1 (Ø 6)').moves).toEqual(['T(1,0,0)']);
    expect(run('G0 X1 (a\0b)').problems).toEqual(['1 character-illegal <00>b)']);
    expect(run('G0 X1 ; é').problems.map((p) => p.split(' ')[1])).toEqual(['semicolon-comment', 'comment-not-ascii']);
    expect(run('é0 X1').problems).toEqual(['1 character-illegal <c3><a9>0 X1']);
  });

  test('3.6.1 and 3.4: pauses, tool change and length in their order; coolant together', () => {
    const kinds = (program: string) => run(program).all.flatMap((m) => (m.kind === 'problem' ? [] : [m.kind]));
    expect(kinds('M0 G0 X1')).toEqual(['rapid', 'pause']);
    expect(kinds('T2 M6 S900 M3 G0 X1')).toEqual(['tool', 'spindle', 'rapid']);
    expect(run('T2 M6\nM1').all.find((m) => m.kind === 'pause')).toMatchObject({ optional: true });
    expect(run('M7 M8').problems).toEqual([]);
    // 3.5.11: the entry's length is added to Z; H0 and G49 take it off.
    expect(run('T2 M6 G43 H2 G0 Z1\nG49 G0 Z1\nG43 H2\nG43 H0 G0 Z2', {}, { lengths: { 2: 10 } }).moves).toEqual([
      'T(0,0,11)',
      'T(0,0,1)',
      'T(0,0,2)',
    ]);
  });

  test('V29, 3.3: block delete passes over the line when its switch is on', () => {
    expect(run('/G0 X1\nG0 X2', {}, { blockDelete: true }).moves).toEqual(['T(2,0,0)']);
    expect(run('/G0 X1\nG0 X2').moves).toEqual(['T(1,0,0)', 'T(2,0,0)']);
  });

  test('V30, 3.1: percent lines and the end of the program', () => {
    expect(run('%\nG0 X1').problems).toEqual(['2 percent-missing %']);
    expect(run('%\nG0 X1\n%\nG0 X2').moves).toEqual(['T(1,0,0)']);
    expect(run('%\nG0 X1\n%\n').problems).toEqual([]);
    const did = run('G0 X1\nM2\nG0 X2');
    expect(did.moves).toEqual(['T(1,0,0)']);
    expect(did.all.some((m) => m.kind === 'problem' && m.id === 'end-missing')).toBe(false);
    expect(run('G0 X1 M30').moves, 'the rest of its own line runs first').toEqual(['T(1,0,0)']);
  });

  test('3.3: a line has at most 256 characters', () => {
    const pad = (n: number): string => `G0 X1${' '.repeat(n - 5)}`;
    expect(run(pad(256)).problems).toEqual([]);
    expect(run(pad(257)).problems).toEqual(['1 line-too-long G0']);
  });
});

describe('a program that starts from nothing', () => {
  const bare = (program: string) =>
    [...interpret(program, MACHINE)].filter((m) => m.kind === 'problem').map((m) => m.id);

  test('is told what it moves without', () => {
    expect(bare('X1\nM2')).toEqual(['motion-unset']);
    expect(bare('G0 X1\nM2')).toEqual(['units-unset', 'distance-unset']);
    expect(bare('G21 G90 G1 X1\nM2')).toEqual(['feed-unset']);
    expect(bare('G21 G91 G0 X1\nM2')).toEqual(['position-unknown']);
    expect(bare('G21 G90 G94 G0 Z5\nG17 G98 F10 G81 X1 Y1 Z-1 R1\nM2')).toEqual([]);
    expect(bare('G21 G90 G17 G2 X1 I1 F9\nM2')).toEqual(['position-unknown']);
    expect(bare('M3\nM2')).toEqual(['speed-unset']);
    expect(bare('M6\nM2')).toEqual(['tool-unset']);
    expect(bare('')).toEqual(['end-missing']);
  });

  test('its places stay unknown until a line sets them', () => {
    const [up, aside] = [...interpret('G21 G90 G0 Z40\nG0 X5\nM2', MACHINE)].filter(ofKind('rapid'));
    expect(up!.from.z).toBeNaN();
    expect(up!.to.z).toBe(40);
    expect(up!.to.x).toBeNaN();
    expect(aside!.to).toMatchObject({ x: 5, z: 40 });
  });
});
