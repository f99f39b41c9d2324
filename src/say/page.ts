import { PRACTICE } from './saying.ts';

/**
 * Cautions of the bench page in plain words, each with where it comes from. A caution stands beside the step where the
 * harm can happen.
 */
export interface Caution {
  readonly text: string;
  readonly source: string;
}

/** Woods with published complaints of breathing or skin beyond those of every wood; matched inside the wood's id. */
const SHARP_WOODS = /cedar|iroko|padauk|bubinga|rosewood|teak|mahogany|khaya|sapele|oak|beech|ebony|yew|redwood|walnut/;

export function dust(wood: string | undefined, build: string | undefined): Caution {
  const sharp = wood !== undefined && SHARP_WOODS.test(wood);
  const glue = build === 'ply' || /ply|mdf/.test(wood ?? '');
  return {
    text: `Wood dust can cause cancer and asthma. Draw it off at the bit; a P3 or N95 mask comes on top of that, not instead.${
      sharp
        ? ' This wood is also known to trouble lungs or skin: gloves off at the drill, long sleeves buttoned, wash after.'
        : ''
    }${glue ? ' Ply dust carries glue as well.' : ''}`,
    source: 'IARC Monographs 62 and 100C (wood dust, Group 1); masks: from memory',
  };
}

export const cautions = Object.freeze({
  eyes: {
    text: 'Eye protection on, ears covered. No gloves, loose sleeves or hair near a turning bit; take the chuck key out.',
    source: 'from memory: 29 CFR 1910.212 and .213',
  },
  hold: {
    text: 'Hold the shell in a cradle or clamps so that it cannot spin when the bit breaks through.',
    source: PRACTICE,
  },
  bigBit: {
    text: 'A wide bit belongs in a drill press, slow, with the shell clamped; never in the hand.',
    source: PRACTICE,
  },
  laser: {
    text: 'Never leave the laser alone, keep an extinguisher in reach and the extraction running. Never cut PVC, vinyl or any sheet you cannot name.',
    source: 'common practice, no source; open beams: IEC 60825-1 class 4',
  },
  rotary: {
    text: 'First run: spindle off, tool above the shell, one line at a time, a hand on the stop. After any slip find A0 again.',
    source: PRACTICE,
  },
  burr: {
    text: 'Keep fingertips out of the holes until the edges are broken: splinters inside are long and sharp.',
    source: PRACTICE,
  },
} satisfies Readonly<Record<string, Caution>>);
