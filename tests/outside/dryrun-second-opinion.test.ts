import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { interpret } from '../../src/dryrun/interpret.ts';
import { context, MACHINE, soundProgram } from '../helpers/drill-program.ts';

// Neither library describes its types to a strict compiler.
const load = createRequire(import.meta.url);
const Interpreter = load('gcode-interpreter') as new (o: {
  handlers: Record<string, (words: Words) => void>;
}) => {
  loadFromStringSync: (text: string) => void;
};
const { parseStringSync } = load('gcode-parser') as {
  parseStringSync: (text: string) => { words: [string, number][] }[];
};

/**
 * Two general G-code libraries read the same programs. They know no cycles, groups or units, so only long-hand programs
 * in millimetres are asked; there the two readings must agree on every end point.
 */
const SOUND = soundProgram(context());

type Words = Readonly<Record<string, number>>;

/** End points of every motion line, X Y Z A, by the general interpreter's own modal motion. */
function theirs(lines: readonly string[]): number[][] {
  const at: Record<string, number> = {};
  const points: number[][] = [];
  const move = (words: Words): void => {
    for (const axis of ['X', 'Y', 'Z', 'A']) if (words[axis] !== undefined) at[axis] = words[axis];
    if (['X', 'Y', 'Z', 'A'].some((axis) => words[axis] !== undefined))
      points.push(['X', 'Y', 'Z', 'A'].map((axis) => at[axis] ?? Number.NaN));
  };
  const runner = new Interpreter({ handlers: { G0: move, G1: move, G2: move, G3: move } });
  runner.loadFromStringSync(lines.join('\n'));
  return points;
}

const ours = (lines: readonly string[]): number[][] =>
  [...interpret(lines, MACHINE)].flatMap((m) =>
    m.kind === 'rapid' || m.kind === 'feed' || m.kind === 'arc' ? [[m.to.x, m.to.y, m.to.z, m.to.a]] : [],
  );

describe('a second reader', () => {
  test('agrees on every end point of a long-hand program', () => {
    const a = ours(SOUND);
    const b = theirs(SOUND);
    expect(a.length).toBeGreaterThan(200);
    expect(a).toEqual(b);
  });

  test('agrees when modal words are left out', () => {
    const lines = ['G21 G90', 'G0 X1 Y2 Z3 A4', 'X5', 'Y6', 'G1 Z-1 F100', 'X7 Y8', 'A90', 'G0 Z5', 'M2'];
    expect(ours(lines)).toEqual(theirs(lines));
  });

  test('a general parser splits each line into the same words', () => {
    const parsed = parseStringSync(SOUND.join('\n'));
    const letters = parsed.map((line) => line.words.map(([l, n]) => `${l}${n}`));
    const mine = SOUND.map((line) => line.split(' ').map((w) => w[0]! + Number(w.slice(1))));
    expect(letters).toEqual(mine);
  });
});
