import { arcTo } from './arcs.ts';
import { GROUP as G } from './codes.ts';
import { runCycle } from './cycles.ts';
import { emitMove, feedMove, target } from './moves.ts';
import { gWord, type Run, refuse, say, unitsMatter } from './run.ts';

/** Motion codes, times ten. */
export const G0 = 0;
export const G1 = 10;
export const G80 = 800;
export const isCycle = (code: number): boolean => code >= 810 && code <= 890;
export const isArc = (code: number): boolean => code === 20 || code === 30;

/** Step 20: motion. */
export function move(run: Run, motion: number): boolean {
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
export function moveTo(run: Run, motion: number, machine: boolean): boolean {
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
