import { MM_PER_INCH } from '../units/scalar.ts';
import { ANY_AXIS, AXES, AXIS_BITS, AXIS_OF, bit } from './codes.ts';
import { gWord, type Run, refuse, say, worded } from './run.ts';
import type { State } from './state.ts';
import type { StepKind } from './step.ts';

const F_BIT = bit('F');

/** Fills `step.to` from the axis words. */
export function target(run: Run, machine: boolean): boolean {
  const { block, state } = run;
  const { position, offset } = state;
  const { to } = state.step;
  for (let axis = 0; axis < 6; axis++) to[axis] = position[axis]!;
  const perUnit = state.unit === 0 ? 1 : state.unit;
  // The axes that the line names and no others: most lines name one or two.
  for (let left = block.words & ANY_AXIS; left !== 0; left &= left - 1) {
    const letter = 31 - Math.clz32(left & -left);
    const axis = AXIS_OF[letter]!;
    const value = axis < 3 ? block.value[letter]! * perUnit : block.value[letter]!;
    if (machine) to[axis] = value;
    else if (state.distance !== 1) to[axis] = value + offset[axis]!;
    // An increment from nowhere leads nowhere: NaN would spread, so the line is refused.
    else if (Number.isNaN(position[axis]!)) return refuse(run, 'position-unknown', worded(block, lostAxis(run)));
    else to[axis] = position[axis]! + value;
  }
  return true;
}

/** The first axis that the line moves from an unknown place. */
const lostAxis = ({ block, state }: Run): string =>
  AXES[AXIS_BITS.findIndex((mask, axis) => (block.words & mask) !== 0 && Number.isNaN(state.position[axis]!))]!;

/** Emits a cutting move towards `step.to` with the feed in force. `kind` is `feed` or `arc`. */
export function feedMove(run: Run, kind: 'feed' | 'arc'): boolean {
  const { state, block } = run;
  const { step } = state;
  if (state.inverse) {
    if ((block.words & F_BIT) === 0) return refuse(run, 'feed-missing', gWord(state.motion));
    if (state.feed === 0) return refuse(run, 'feed-zero', 'F0');
    step.feed = state.feed;
  } else if (Number.isNaN(state.feed)) {
    say(run, 'feed-unset', gWord(state.motion));
    step.feed = Number.NaN;
  } else {
    if (state.feed === 0) return refuse(run, 'feed-zero', 'F0');
    if (state.feedUnit !== state.unit && state.feedUnit !== 0) say(run, 'feed-in-other-units', `F${state.feed}`);
    // F counts along X Y Z if any of them moves; rotary axes keep up (section 2.1.2.5).
    const inches = state.unit === MM_PER_INCH && (kind === 'arc' || movesLinear(state));
    step.feed = inches ? state.feed * MM_PER_INCH : state.feed;
  }
  step.inverse = state.inverse;
  emitMove(run, kind);
  return true;
}

/** Whether X, Y or Z moves; an axis never named stays unknown. */
function movesLinear({ position, step }: State): boolean {
  for (let axis = 0; axis < 3; axis++)
    if (step.to[axis] !== position[axis] && !Number.isNaN(step.to[axis]!)) return true;
  return false;
}

/** Hands the step on and stands at its end. The two position arrays change places: nothing is copied. */
export function emitMove(run: Run, kind: 'rapid' | 'feed' | 'arc'): void {
  const { state } = run;
  const { step } = state;
  step.kind = kind;
  step.line = run.line;
  step.blended = state.blended;
  if (kind === 'rapid') step.feed = Number.NaN;
  const before = step.from;
  step.from = state.position;
  state.position = step.to;
  run.listener.step(step);
  step.to = before;
}

export function emit(run: Run, kind: StepKind): void {
  const { state } = run;
  const { step } = state;
  step.kind = kind;
  step.line = run.line;
  const before = step.from;
  const after = step.to;
  step.from = state.position;
  step.to = state.position;
  run.listener.step(step);
  step.from = before;
  step.to = after;
}

export function emitDwell(run: Run, seconds: number): void {
  run.state.step.seconds = seconds;
  emit(run, 'dwell');
}

export function emitSpindle(run: Run): void {
  const { state } = run;
  state.step.direction = state.turning;
  state.step.speed = state.turning === 'off' || Number.isNaN(state.speed) ? 0 : state.speed;
  emit(run, 'spindle');
}
