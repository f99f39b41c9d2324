import { MM_PER_INCH } from '../units/scalar.ts';
import { arcTo } from './arcs.ts';
import type { Block } from './block.ts';
import { ANY_AXIS, AXES, AXIS_AT, AXIS_BITS, at, bit, GROUP, M_GROUP_OF } from './codes.ts';
import { runCycle } from './cycles.ts';
import { emit, emitDwell, emitMove, emitSpindle, feedMove, target } from './moves.ts';
import { gWord, type Run, refuse, say, unitsMatter, whole, worded } from './run.ts';
import { offsetsChanged } from './state.ts';

const G = GROUP;
const M = M_GROUP_OF;
const F_BIT = bit('F');
const S_BIT = bit('S');
const T_BIT = bit('T');
const P_BIT = bit('P');
const Q_BIT = bit('Q');
const L_BIT = bit('L');
const R_BIT = bit('R');
const H_BIT = bit('H');
const IJK = bit('I') | bit('J') | bit('K');
const ALWAYS = F_BIT | S_BIT | T_BIT | bit('N');
const PLAIN = ANY_AXIS | F_BIT | bit('N');
const [F_AT, S_AT, T_AT, P_AT, L_AT, H_AT] = ['F', 'S', 'T', 'P', 'L', 'H'].map(at) as [
  number,
  number,
  number,
  number,
  number,
  number,
];
const G0 = 0;
const G1 = 10;
const G80 = 800;
const CYCLES_WITH_DWELL = [820, 860, 890];

const isCycle = (code: number): boolean => code >= 810 && code <= 890;
const isArc = (code: number): boolean => code === 20 || code === 30;

/** Executes the block in the order of NISTIR 6556 section 3.8 table 8. */
export function execute(run: Run): void {
  const { state, block } = run;
  // Most lines of a long program are plain moves.
  if ((block.gGroups & ~(1 << G.motion)) === 0 && block.mGroups === 0 && (block.words & ~PLAIN) === 0) {
    const motion = (block.gGroups & (1 << G.motion)) !== 0 ? block.g[G.motion]! : state.motion;
    if (motion === G0 || motion === G1) {
      if ((block.words & F_BIT) !== 0 && !setFeed(run)) return;
      if ((block.words & ANY_AXIS) !== 0) {
        state.motion = motion;
        moveTo(run, motion, false);
        return;
      }
      if (block.gGroups === 0) return;
      refuse(run, 'axis-words-missing', gWord(motion));
      return;
    }
  }
  const motion = plannedMotion(run);
  if (motion === REFUSED || !wordsAreUsed(run, motion)) return;
  if (!settings(run)) return;
  if (!offsets(run)) return;
  if (motion !== NO_MOTION && !move(run, motion)) return;
  if ((block.gGroups & (1 << G.motion)) !== 0 && block.g[G.motion] === G80) state.motion = G80;
  stops(run);
}

const NO_MOTION = -1;
const REFUSED = -2;

/** The motion this line makes: its own word, or the one in force if the line has axis words that nothing else takes. */
function plannedMotion(run: Run): number {
  const { block, state } = run;
  const single = (block.gGroups & (1 << G.single)) !== 0 ? block.g[G.single]! : NO_MOTION;
  const takesAxes = single === 100 || single === 280 || single === 300 || single === 920;
  const hasAxes = (block.words & ANY_AXIS) !== 0;
  if ((block.gGroups & (1 << G.motion)) !== 0) {
    const code = block.g[G.motion]!;
    if (code === G80) {
      if (hasAxes && !takesAxes) return refuse(run, 'axis-words-without-motion', firstAxis(block)) || REFUSED;
      return NO_MOTION;
    }
    if (takesAxes) return refuse(run, 'axis-words-twice-used', gWord(code)) || REFUSED;
    if (!hasAxes) return refuse(run, 'axis-words-missing', gWord(code)) || REFUSED;
    return code;
  }
  if (!hasAxes || takesAxes) return NO_MOTION;
  if (state.motion === -1) return refuse(run, 'motion-unset', firstAxis(block)) || REFUSED;
  if (state.motion === G80) return refuse(run, 'axis-words-without-motion', firstAxis(block)) || REFUSED;
  return state.motion;
}

const firstAxis = (block: Block): string =>
  worded(block, AXES[AXIS_BITS.findIndex((mask) => (block.words & mask) !== 0)] ?? 'X');

/** Every letter on the line must have something that uses it. */
function wordsAreUsed(run: Run, motion: number): boolean {
  const { block } = run;
  const single = (block.gGroups & (1 << G.single)) !== 0 ? block.g[G.single]! : NO_MOTION;
  let used = ALWAYS;
  if (motion !== NO_MOTION || single === 100 || single === 280 || single === 300 || single === 920) used |= ANY_AXIS;
  if (isCycle(motion)) used |= R_BIT | L_BIT;
  if (CYCLES_WITH_DWELL.includes(motion) || single === 40 || single === 100) used |= P_BIT;
  if (motion === 830) used |= Q_BIT;
  if (isArc(motion)) used |= R_BIT | IJK;
  if (single === 100) used |= L_BIT;
  if ((block.gGroups & (1 << G.length)) !== 0 && block.g[G.length] === 430) used |= H_BIT;
  const idle = block.words & ~used;
  if (idle === 0) return true;
  const letter = String.fromCharCode(65 + (31 - Math.clz32(idle)));
  return refuse(run, 'word-unused', worded(block, letter));
}

/** Steps 2 to 18 of the order of execution. */
function settings(run: Run): boolean {
  const { block, state } = run;
  const g = block.gGroups;
  if ((g & (1 << G.feedMode)) !== 0) state.inverse = block.g[G.feedMode] === 930;
  if ((block.words & F_BIT) !== 0 && !setFeed(run)) return false;
  if ((block.words & S_BIT) !== 0) {
    if (block.value[S_AT]! < 0) return refuse(run, 'number-negative', worded(block, 'S'));
    state.speed = block.value[S_AT]!;
    if (state.turning !== 'off' && (block.mGroups & (1 << M.spindle)) === 0) emitSpindle(run);
  }
  if ((block.words & T_BIT) !== 0) {
    const tool = whole(block.value[T_AT]!, 0, run.settings.slots);
    if (tool < 0) return refuse(run, 'number-not-whole', worded(block, 'T'));
    state.nextTool = tool;
  }
  if ((block.mGroups & (1 << M.change)) !== 0) changeTool(run);
  if ((block.mGroups & (1 << M.spindle)) !== 0) {
    const code = block.m[M.spindle];
    state.turning = code === 3 ? 'cw' : code === 4 ? 'ccw' : 'off';
    if (state.turning !== 'off' && Number.isNaN(state.speed)) say(run, 'speed-unset', `M${code}`);
    emitSpindle(run);
  }
  if ((g & (1 << G.single)) !== 0 && block.g[G.single] === 40 && !dwell(run)) return false;
  if ((g & (1 << G.plane)) !== 0) state.plane = ((190 - block.g[G.plane]!) / 10) as 0 | 1 | 2;
  if ((g & (1 << G.units)) !== 0) state.unit = block.g[G.units] === 200 ? MM_PER_INCH : 1;
  if ((g & (1 << G.length)) !== 0 && !setLength(run)) return false;
  if ((g & (1 << G.system)) !== 0) selectSystem(run);
  if ((g & (1 << G.path)) !== 0) state.blended = block.g[G.path] === 640;
  if ((g & (1 << G.distance)) !== 0) state.distance = block.g[G.distance] === 910 ? 1 : 0;
  if ((g & (1 << G.cycleReturn)) !== 0) state.returns = block.g[G.cycleReturn] === 980 ? 98 : 99;
  return true;
}

function setFeed(run: Run): boolean {
  const { state, block } = run;
  const feed = block.value[F_AT]!;
  if (feed < 0) return refuse(run, 'number-negative', worded(block, 'F'));
  state.feed = feed;
  state.feedUnit = state.unit;
  return true;
}

/** The spindle stops for a tool change (section 3.6.3). */
function changeTool(run: Run): void {
  const { state } = run;
  if (state.nextTool < 0) say(run, 'tool-unset', 'M6');
  state.tool = state.nextTool;
  state.turning = 'off';
  state.step.direction = 'off';
  state.step.speed = 0;
  state.step.tool = state.tool;
  emit(run, 'tool');
}

function dwell(run: Run): boolean {
  const { block } = run;
  if ((block.words & P_BIT) === 0) return refuse(run, 'dwell-missing', 'G4');
  if (block.value[P_AT]! < 0) return refuse(run, 'number-negative', worded(block, 'P'));
  emitDwell(run, block.value[P_AT]!);
  return true;
}

function setLength(run: Run): boolean {
  const { block, state, settings } = run;
  if (block.g[G.length] === 490) state.length = 0;
  else {
    const entry = (block.words & H_BIT) === 0 ? -1 : whole(block.value[H_AT]!, 0, settings.slots);
    if (entry < 0) return refuse(run, 'number-not-whole', (block.words & H_BIT) === 0 ? 'G43' : worded(block, 'H'));
    if (entry !== 0 && state.tool >= 0 && entry !== state.tool) say(run, 'length-of-other-tool', `H${entry}`);
    state.length = settings.lengths[entry] ?? 0;
  }
  offsetsChanged(state);
  return true;
}

function selectSystem(run: Run): void {
  const { block, state } = run;
  const code = block.g[G.system]!;
  state.system = code >= 590 ? 5 + (code - 590) : (code - 540) / 10;
  if (state.system !== 0 && state.originSet[state.system] === 0) say(run, 'work-offset-unset', gWord(code));
  offsetsChanged(state);
}

/** Step 19: G10, G28, G30 and the G92 family. */
function offsets(run: Run): boolean {
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

/** Step 20: motion. */
function move(run: Run, motion: number): boolean {
  const { block, state } = run;
  const before = state.motion;
  const machine = (block.gGroups & (1 << G.single)) !== 0 && block.g[G.single] === 530;
  if (machine && motion !== G0 && motion !== G1) return refuse(run, 'machine-coordinates-need-a-line', 'G53');
  state.motion = motion;
  if (motion === G0 || motion === G1) {
    if (machine) say(run, 'machine-coordinates', 'G53');
    return moveTo(run, motion, machine);
  }
  unitsMatter(run, gWord(motion));
  if (state.plane === -1) {
    say(run, 'plane-unset', gWord(motion));
    state.plane = 2;
  }
  if (state.distance === -1) say(run, 'distance-unset', gWord(motion));
  return isCycle(motion) ? runCycle(run, motion, before) : arcTo(run, motion === 20);
}

/** A straight move; unnamed axes stay. */
function moveTo(run: Run, motion: number, machine: boolean): boolean {
  const { state } = run;
  if (state.unit === 0) unitsMatter(run, gWord(motion));
  if (state.distance === -1) say(run, 'distance-unset', gWord(motion));
  if (!target(run, machine)) return false;
  if (motion === G0) {
    emitMove(run, 'rapid');
    return true;
  }
  return feedMove(run, 'feed');
}

/** Step 21: M0, M1, M2, M30, M60. */
function stops(run: Run): void {
  const { block, state } = run;
  if ((block.mGroups & (1 << M.stop)) === 0) return;
  const code = block.m[M.stop];
  if (code === 2 || code === 30) {
    state.ended = true;
    emit(run, 'end');
    return;
  }
  state.step.optional = code === 1;
  emit(run, 'pause');
}

function wordValue(run: Run, axis: number): number {
  const written = run.block.value[AXIS_AT[axis]!]!;
  return axis < 3 && run.state.unit !== 0 ? written * run.state.unit : written;
}
