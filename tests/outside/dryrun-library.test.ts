import { expect, test } from 'vitest';
import { findMachine, type HungShell, inspect, interpret, type Machine, type Move, removal } from '../../src/index.ts';

// As somebody would use it who knows nothing but the library: a shell, one bit, a program, and no jig file.
const machine: Machine = findMachine('rotary-slow')!;
const hung: HungShell = {
  shell: { radius: 178, inside: 171, wall: 7, depth: 140 },
  machine,
  datum: 'bottom',
  tools: [{ id: 1, kind: 'twist', diameter: 6, lips: 2, flute: 40, stickout: 50, shank: 6 }],
};
const program = [
  'G21 G17 G90 G94',
  'G0 Z30',
  'T1 M6',
  'S1500 M3',
  'G0 X40 Y0 A20',
  'G0 Z2',
  'G1 Z-11 F200',
  'G0 Z30',
  'M2',
];

test('a program is read, the wood taken away and the hole measured, each alone', () => {
  const moves: Move[] = [];
  for (const m of interpret(program.join('\n'), machine)) {
    if (m.kind === 'problem') throw new Error(`${m.line} ${m.word} ${m.rule}`);
    moves.push(m);
  }
  expect(moves.map((m) => m.kind)).toEqual(['rapid', 'tool', 'spindle', 'rapid', 'rapid', 'feed', 'rapid', 'end']);
  const gone = removal(moves, hung);
  const holes = inspect(gone, { holes: [{ id: 'mine', angle: 20, height: 40, drill: 6 }] });
  expect(holes).toHaveLength(1);
  expect(holes[0]).toMatchObject({ id: 'mine', wall_left_mm: null });
  expect(holes[0]!.off_mm!).toBeLessThan(0.01);
  expect(Math.abs(holes[0]!.entrance!.diameter_mm - 6)).toBeLessThan(0.02);
  expect(Math.abs(holes[0]!.exit!.diameter_mm - 6)).toBeLessThan(0.02);
  // About pi r^2 times the wall.
  expect(gone.volume / (Math.PI * 9 * 7)).toBeCloseTo(1, 2);
});

test('nothing is read ahead of what is asked for', () => {
  function* endless(): Generator<string> {
    for (let i = 0; ; i++) yield `G21 G90 G0 X${i % 90}`;
  }
  const reader = interpret(endless(), machine);
  for (let i = 0; i < 5; i++) expect(reader.next().done).toBe(false);
  expect(reader.return(undefined).done).toBe(true);
});

test('a shell hung by its top edge on an axis wired the other way shows the same hole', () => {
  const moves = [...interpret(program, machine)].filter((m): m is Move => m.kind !== 'problem');
  const [hole] = inspect(removal(moves, { ...hung, datum: 'top', machine: { a: 'reversed' } }), {
    holes: [{ id: 'same', angle: 20, height: 100, drill: 6 }],
  });
  expect(hole!.off_mm!).toBeLessThan(0.01);
});

test('what the controller does not understand is told once, with its line, and followed all the same', () => {
  const bored = [...program.slice(0, 6), 'G2 X40 Y0 I-1 J0 F200', 'G2 X40 Y0 I-1 J0', ...program.slice(6)];
  const read = (arcs: boolean) =>
    [...interpret(bored, { understands: { ...machine.understands, arcs } })].filter((m) => m.kind !== 'tool');
  const problems = read(false).filter((m) => m.kind === 'problem');
  expect(problems).toMatchObject([{ id: 'machine-lacks', level: 'care', line: 7, word: 'arcs', executed: true }]);
  expect(read(false).filter((m) => m.kind !== 'problem')).toEqual(read(true));
  expect(read(true).filter((m) => m.kind === 'arc')).toHaveLength(2);
});
