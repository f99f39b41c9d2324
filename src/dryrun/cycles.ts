import { tolerance } from '../units/tolerance.ts';
import { PLANES } from './arcs.ts';
import { ANY_AXIS, AXES, AXIS_AT, AXIS_BITS, at, bit } from './codes.ts';
import { emitDwell, emitMove, emitSpindle, feedMove } from './moves.ts';
import { gWord, type Run, refuse, say, whole, worded } from './run.ts';

/** Pecks and repeats that one line may ask for; more is a slip of the pen, and would never end. */
const MOST = 100_000;
const P = at('P');
const Q = at('Q');
const R = at('R');
const L = at('L');

/**
 * G81 G82 G83 G85 G86 G89 (section 3.5.16). `before` is the motion that was in force: R, bottom, P and Q are kept while
 * the same cycle goes on. For the plane XY the drill goes along Z; other planes permute the axes.
 */
export function runCycle(run: Run, code: number, before: number): boolean {
  const { state, block } = run;
  const { cycle, step } = state;
  const word = gWord(code);
  const [one, two, drill] = PLANES[state.plane]!;
  if (state.inverse) return refuse(run, 'cycle-in-inverse-time', word);
  if (code !== before) cycle.r = cycle.bottom = cycle.q = cycle.p = Number.NaN;
  if ((block.words & ANY_AXIS & (AXIS_BITS[0]! | AXIS_BITS[1]! | AXIS_BITS[2]!)) === 0)
    return refuse(run, 'axis-words-missing', word);
  for (let axis = 3; axis < 6; axis++) {
    if ((block.words & AXIS_BITS[axis]!) === 0) continue;
    const value = block.value[AXIS_AT[axis]!]!;
    const turn = state.distance === 1 ? value : value + state.offset[axis]! - state.position[axis]!;
    if (!(Math.abs(turn) <= tolerance.noise)) return refuse(run, 'cycle-turns', worded(block, AXES[axis]!));
  }
  const keep = (letterAt: number, mask: number, kept: number): number =>
    (block.words & mask) !== 0 ? block.value[letterAt]! : kept;
  cycle.r = keep(R, bit('R'), cycle.r);
  cycle.bottom = keep(AXIS_AT[drill]!, AXIS_BITS[drill]!, cycle.bottom);
  cycle.q = keep(Q, bit('Q'), cycle.q);
  cycle.p = keep(P, bit('P'), cycle.p);
  if (Number.isNaN(cycle.r + cycle.bottom)) return refuse(run, 'cycle-words-missing', word);
  if (code === 830 && !(cycle.q > 0))
    return refuse(run, 'cycle-peck-missing', Number.isNaN(cycle.q) ? word : `Q${cycle.q}`);
  if (code === 820 || code === 860 || code === 890) {
    if (Number.isNaN(cycle.p)) return refuse(run, 'dwell-missing', word);
    if (cycle.p < 0) return refuse(run, 'number-negative', `P${cycle.p}`);
  }
  if (code === 860 && state.turning === 'off') return refuse(run, 'cycle-needs-spindle', word);
  const repeats = (block.words & bit('L')) === 0 ? 1 : whole(block.value[L]!, 1, Number.MAX_SAFE_INTEGER);
  if (repeats < 0) return refuse(run, 'number-not-whole', worded(block, 'L'));
  if (state.returns === -1) say(run, 'cycle-return-unset', word);

  const unit = state.unit === 0 ? 1 : state.unit;
  const start = state.position[drill]!;
  const incremental = state.distance === 1;
  if (Number.isNaN(start + (incremental ? state.position[one]! + state.position[two]! : 0)))
    return refuse(run, 'position-unknown', word);
  const retract = incremental ? start + cycle.r * unit : cycle.r * unit + state.offset[drill]!;
  const bottom = incremental ? retract + cycle.bottom * unit : cycle.bottom * unit + state.offset[drill]!;
  if (retract < bottom - tolerance.noise) return refuse(run, 'cycle-retract-below-bottom', `R${cycle.r}`);
  const pecks = code === 830 ? Math.max(1, Math.ceil((retract - bottom) / (cycle.q * unit) - tolerance.noise)) : 1;
  if (repeats * pecks > MOST) return refuse(run, 'cycle-endless', word);
  const clear = state.returns === 99 ? retract : Math.max(start, retract);

  step.cycle = true;
  const finished = (): boolean => {
    step.cycle = false;
    return true;
  };
  const give = (): false => {
    step.cycle = false;
    return false;
  };
  if (start < retract) rapidAlong(run, drill, retract);
  for (let turn = 0; turn < repeats; turn++) {
    positionOver(run, one, two);
    rapidAlong(run, drill, retract);
    for (let peck = 1; peck <= pecks; peck++) {
      // Levels are counted from R, never from the peck before: repeated subtraction would add a peck of nothing.
      const level = peck === pecks ? bottom : retract - peck * cycle.q * unit;
      if (!feedAlong(run, drill, level)) return give();
      if (peck === pecks) break;
      const out = run.settings.peckClears === 'retract' ? retract : clear;
      rapidAlong(run, drill, out);
      rapidAlong(run, drill, Math.min(out, level + run.settings.cycleBackOff));
    }
    if (code === 820 || code === 860 || code === 890) emitDwell(run, cycle.p);
    if (code === 850 || code === 890) {
      if (!feedAlong(run, drill, clear)) return give();
    } else if (code === 860) {
      const { turning } = state;
      state.turning = 'off';
      emitSpindle(run);
      rapidAlong(run, drill, clear);
      state.turning = turning;
      emitSpindle(run);
    } else rapidAlong(run, drill, clear);
  }
  return finished();
}

/** Traverse in the plane at the level the tool is on. */
function positionOver(run: Run, one: number, two: number): void {
  const { state, block } = run;
  const { to } = state.step;
  to.set(state.position);
  let moves = false;
  for (const axis of [one, two]) {
    if ((block.words & AXIS_BITS[axis]!) === 0) continue;
    const value = block.value[AXIS_AT[axis]!]! * (state.unit === 0 ? 1 : state.unit);
    to[axis] = state.distance === 1 ? state.position[axis]! + value : value + state.offset[axis]!;
    if (to[axis] !== state.position[axis]) moves = true;
  }
  if (moves) emitMove(run, 'rapid');
}

/** Moves of no length are left out. */
function rapidAlong(run: Run, axis: number, level: number): void {
  const { state } = run;
  if (Math.abs(state.position[axis]! - level) <= tolerance.noise) return;
  state.step.to.set(state.position);
  state.step.to[axis] = level;
  emitMove(run, 'rapid');
}

function feedAlong(run: Run, axis: number, level: number): boolean {
  const { state } = run;
  if (Math.abs(state.position[axis]! - level) <= tolerance.noise) return true;
  state.step.to.set(state.position);
  state.step.to[axis] = level;
  return feedMove(run, 'feed');
}
