import { ANY_AXIS, bit, GROUP as G, M_GROUP_OF as M } from './codes.ts';
import { modes, setFeed } from './modes.ts';
import { G0, G1, G80, move, moveTo } from './motion.ts';
import { emit } from './moves.ts';
import { offsets } from './offsets.ts';
import { NO_MOTION, plannedMotion, REFUSED, wordsAreUsed } from './planned.ts';
import { gWord, type Run, refuse } from './run.ts';

const F_BIT = bit('F');
const PLAIN = ANY_AXIS | F_BIT | bit('N');

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
  if (!modes(run)) return;
  if (!offsets(run)) return;
  if (motion !== NO_MOTION && !move(run, motion)) return;
  if ((block.gGroups & (1 << G.motion)) !== 0 && block.g[G.motion] === G80) state.motion = G80;
  stops(run);
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
