import { MM_PER_INCH } from '../units/scalar.ts';
import { at, bit, GROUP as G, M_GROUP_OF as M } from './codes.ts';
import { emit, emitDwell, emitSpindle } from './moves.ts';
import { gWord, type Run, refuse, say, whole, worded } from './run.ts';
import { offsetsChanged } from './state.ts';

const F_BIT = bit('F');
const S_BIT = bit('S');
const T_BIT = bit('T');
const P_BIT = bit('P');
const H_BIT = bit('H');
const F_AT = at('F');
const S_AT = at('S');
const T_AT = at('T');
const P_AT = at('P');
const H_AT = at('H');

/** Steps 2 to 18 of the order of execution: feed, speed, tool, dwell, and all that holds until it is changed. */
export function modes(run: Run): boolean {
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

export function setFeed(run: Run): boolean {
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
