import { AXES, AXIS_AT, AXIS_BITS, bit } from './codes.ts';
import { gWord, type Run, refuse, say, worded } from './run.ts';
import type { StepKind } from './step.ts';

const F_BIT = bit('F');

/** Fills `step.to` from the axis words. */
export function target(run: Run, machine: boolean): boolean {
  const { block, state } = run;
  const { to } = state.step;
  const words = block.words;
  for (let axis = 0; axis < 6; axis++) {
    const here = state.position[axis]!;
    if ((words & AXIS_BITS[axis]!) === 0) {
      to[axis] = here;
      continue;
    }
    const written = block.value[AXIS_AT[axis]!]!;
    const value = axis < 3 && state.unit !== 0 ? written * state.unit : written;
    if (machine) to[axis] = value;
    else if (state.distance === 1) {
      // An increment from nowhere leads nowhere: NaN would spread, so the line is refused.
      if (Number.isNaN(here)) return refuse(run, 'position-unknown', worded(block, AXES[axis]!));
      to[axis] = here + value;
    } else to[axis] = value + state.offset[axis]!;
  }
  return true;
}

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
    const { position } = state;
    const { to } = step;
    // F counts along X Y Z if any of them moves; rotary axes keep up (section 2.1.2.5). One never named stays unknown.
    const moved = (axis: number): boolean => to[axis] !== position[axis] && !Number.isNaN(to[axis]!);
    const linear = kind === 'arc' || moved(0) || moved(1) || moved(2);
    step.feed = linear && state.unit !== 0 ? state.feed * state.unit : state.feed;
  }
  step.inverse = state.inverse;
  emitMove(run, kind);
  return true;
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
