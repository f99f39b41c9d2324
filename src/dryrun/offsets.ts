import { ANY_AXIS, AXES, AXIS_AT, AXIS_BITS, at, bit, GROUP as G } from './codes.ts';
import { G0, moveTo } from './motion.ts';
import { emitMove } from './moves.ts';
import { type Run, refuse, say, unitsMatter, whole, worded } from './run.ts';
import { offsetsChanged } from './state.ts';

const P_BIT = bit('P');
const L_BIT = bit('L');
const P_AT = at('P');
const L_AT = at('L');

/** Step 19: G10, G28, G30 and the G92 family. */
export function offsets(run: Run): boolean {
  const { block, state } = run;
  if ((block.gGroups & (1 << G.single)) === 0) return true;
  switch (block.g[G.single]) {
    case 100:
      return setOrigin(run);
    case 280:
      return goHome(run, run.settings.home, 'G28');
    case 300:
      return goHome(run, run.settings.secondHome, 'G30');
    case 920:
      return setHere(run);
    case 921:
      state.g92.fill(0);
      state.g92Kept.fill(0);
      break;
    case 922:
      state.g92.fill(0);
      break;
    case 923:
      state.g92.set(state.g92Kept);
      break;
    default:
      return true;
  }
  offsetsChanged(state);
  return true;
}

function setOrigin(run: Run): boolean {
  const { block, state } = run;
  if ((block.words & L_BIT) === 0 || whole(block.value[L_AT]!, 2, 2) < 0)
    return refuse(run, 'code-not-supported', 'G10');
  const system = (block.words & P_BIT) === 0 ? -1 : whole(block.value[P_AT]!, 1, 9);
  if (system < 0) return refuse(run, 'number-not-whole', (block.words & P_BIT) === 0 ? 'G10' : worded(block, 'P'));
  unitsMatter(run, 'G10');
  state.originSet[system - 1] = 1;
  for (let axis = 0; axis < 6; axis++)
    if ((block.words & AXIS_BITS[axis]!) !== 0) state.origins[(system - 1) * 6 + axis] = wordValue(run, axis);
  offsetsChanged(state);
  return true;
}

/** To the point given, then home in all axes (section 3.5.8). */
function goHome(run: Run, home: Float64Array, word: string): boolean {
  const { block, state, settings } = run;
  if (!settings.homeKnown) say(run, 'home-unknown', word);
  if ((block.words & ANY_AXIS) !== 0 && !moveTo(run, G0, false)) return false;
  const { to } = state.step;
  to.set(home);
  // Rotary axes that the program never used are left alone.
  for (let axis = 4; axis < 6; axis++) if (Number.isNaN(state.position[axis]!)) to[axis] = Number.NaN;
  emitMove(run, 'rapid');
  return true;
}

function setHere(run: Run): boolean {
  const { block, state } = run;
  if ((block.words & ANY_AXIS) === 0) return refuse(run, 'axis-words-missing', 'G92');
  unitsMatter(run, 'G92');
  for (let axis = 0; axis < 6; axis++) {
    if ((block.words & AXIS_BITS[axis]!) === 0) continue;
    const wanted = wordValue(run, axis);
    const others = state.offset[axis]! - state.g92[axis]!;
    if (Number.isNaN(state.position[axis]!)) {
      say(run, 'zero-taken-here', worded(block, AXES[axis]!));
      state.position[axis] = wanted + others;
    }
    state.g92[axis] = state.position[axis]! - others - wanted;
  }
  state.g92Kept.set(state.g92);
  offsetsChanged(state);
  return true;
}

function wordValue(run: Run, axis: number): number {
  const written = run.block.value[AXIS_AT[axis]!]!;
  return axis < 3 && run.state.unit !== 0 ? written * run.state.unit : written;
}
