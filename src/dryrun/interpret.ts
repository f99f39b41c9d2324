import type { MachinePoint } from '../model/frames.ts';
import type { Machine } from '../model/machine.ts';
import type { Move } from '../model/move.ts';
import type { Deg } from '../units/scalar.ts';
import { lackOf } from './lacks.ts';
import type { InterpretOptions } from './options.ts';
import { readProgram } from './program.ts';
import { type Problem, remark } from './rules.ts';
import { A, B, C, type Step, X, Y, Z } from './step.ts';

/** Where the tool stands; B and C only in programs that move them. NaN: no line has set it yet. */
interface Position extends MachinePoint {
  readonly b?: Deg;
  readonly c?: Deg;
}

/**
 * The moves and problems of a program in order, one after the other: nothing is read ahead of what the caller asks for.
 * A line that breaks the language comes out as a problem with line, word and rule; what follows is read as if it were
 * not there. What this machine's controller does not understand is a problem too, the first time, and its moves follow.
 * @param lines the whole text, its lines, or pieces that end at a line's end
 * @param machine what reads the program, as a machine profile has it; only what its controller understands matters
 * @param options switches of the controller; all may be left out
 * @returns a generator; positions absolute, in mm and degrees
 * @throws never
 * @source NISTIR 6556 (RS274/NGC, version 3)
 */
export function* interpret(
  lines: string | Iterable<string | Uint8Array>,
  machine: Pick<Machine, 'understands'>,
  options: InterpretOptions = {},
): Generator<Move | Problem> {
  const waiting: (Move | Problem)[] = [];
  const told = new Set<string>();
  const reader = readProgram(
    {
      step(step) {
        const lack = lackOf(step, machine.understands);
        if (lack !== undefined && !told.has(lack)) {
          told.add(lack);
          waiting.push(remark('machine-lacks', step.line, lack));
        }
        waiting.push(moveOf(step));
      },
      problem: (problem) => waiting.push(problem),
    },
    options,
  );
  const whole = typeof lines === 'string';
  for (const piece of whole ? pieces(lines) : lines) {
    const more = reader.push(piece);
    if (!whole && typeof piece === 'string' && !piece.endsWith('\n') && !piece.endsWith('\r') && more)
      reader.push('\n');
    yield* waiting;
    waiting.length = 0;
    if (!more) break;
  }
  reader.finish();
  yield* waiting;
}

/** Cuts a text into short pieces, so that few moves wait at a time. */
function* pieces(text: string): Generator<string> {
  const length = 4096;
  for (let from = 0; from < text.length; from += length) yield text.slice(from, from + length);
}

const positionOf = (p: Float64Array): Position => ({
  x: p[X]!,
  y: p[Y]!,
  z: p[Z]!,
  a: p[A]!,
  ...(Number.isNaN(p[B]!) ? {} : { b: p[B]! }),
  ...(Number.isNaN(p[C]!) ? {} : { c: p[C]! }),
});

const PLANE_NAMES = ['yz', 'xz', 'xy'] as const;

/** A step as plain data of its own. */
function moveOf(step: Step): Move {
  const { line } = step;
  const feedMode = step.inverse ? 'inverse' : 'per-minute';
  switch (step.kind) {
    case 'rapid':
      return {
        kind: 'rapid',
        line,
        from: positionOf(step.from),
        to: positionOf(step.to),
        spindle: step.speed,
        tool: step.tool,
      };
    case 'feed':
      return {
        kind: 'feed',
        line,
        from: positionOf(step.from),
        to: positionOf(step.to),
        ...(Number.isNaN(step.feed) ? {} : { feed: step.feed }),
        feedMode,
        spindle: step.speed,
        tool: step.tool,
      };
    case 'arc':
      return {
        kind: 'arc',
        line,
        from: positionOf(step.from),
        to: positionOf(step.to),
        plane: PLANE_NAMES[step.axis2]!,
        center: [step.center0, step.center1],
        sweep: step.sweep,
        feed: step.feed,
        feedMode,
        spindle: step.speed,
        tool: step.tool,
      };
    case 'dwell':
      return { kind: 'dwell', line, seconds: step.seconds, at: positionOf(step.to) };
    case 'spindle':
      return { kind: 'spindle', line, speed: step.speed, direction: step.direction };
    case 'tool':
      return { kind: 'tool', line, tool: step.tool };
    case 'pause':
      return { kind: 'pause', line, optional: step.optional };
    case 'end':
      return { kind: 'end', line };
    default: {
      const never: never = step.kind;
      throw new Error(`unknown step ${String(never)}`);
    }
  }
}
