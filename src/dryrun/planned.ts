import type { Block } from './block.ts';
import { ANY_AXIS, AXES, AXIS_BITS, bit, GROUP as G } from './codes.ts';
import { G80, isArc, isCycle } from './motion.ts';
import { gWord, type Run, refuse, worded } from './run.ts';

/** No motion code: the line moves nothing, or breaks a rule and has been refused. */
export const NO_MOTION = -1;
export const REFUSED = -2;

const IJK = bit('I') | bit('J') | bit('K');
const ALWAYS = bit('F') | bit('S') | bit('T') | bit('N');
const CYCLES_WITH_DWELL = [820, 860, 890];
/** G10, G28, G30 and G92 take the axis words of their line. */
const AXES_TAKEN_BY = [100, 280, 300, 920];

/** The line's word of group 0, or -1. */
const singleOf = (block: Block): number => ((block.gGroups & (1 << G.single)) !== 0 ? block.g[G.single]! : -1);

/** The motion this line makes: its own word, or the one in force if the line has axis words that nothing else takes. */
export function plannedMotion(run: Run): number {
  const { block, state } = run;
  const takesAxes = AXES_TAKEN_BY.includes(singleOf(block));
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
export function wordsAreUsed(run: Run, motion: number): boolean {
  const { block } = run;
  const single = singleOf(block);
  let used = ALWAYS;
  if (motion !== NO_MOTION || AXES_TAKEN_BY.includes(single)) used |= ANY_AXIS;
  if (isCycle(motion)) used |= bit('R') | bit('L');
  if (CYCLES_WITH_DWELL.includes(motion) || single === 40 || single === 100) used |= bit('P');
  if (motion === 830) used |= bit('Q');
  if (isArc(motion)) used |= bit('R') | IJK;
  if (single === 100) used |= bit('L');
  if ((block.gGroups & (1 << G.length)) !== 0 && block.g[G.length] === 430) used |= bit('H');
  const idle = block.words & ~used;
  if (idle === 0) return true;
  const letter = String.fromCharCode(65 + (31 - Math.clz32(idle)));
  return refuse(run, 'word-unused', worded(block, letter));
}
