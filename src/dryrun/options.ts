import type { Settings } from './run.ts';
import type { StartState } from './state.ts';

/** How to read a program. All of it may be left out. */
export interface InterpretOptions {
  /** How far G83 stops above the bottom it left, mm; default 0.254 (0.010 in, the reference's own constant). */
  readonly cycleBackOff?: number;
  /** Where G83 clears its chips between pecks; default `retract` (R). */
  readonly peckClears?: 'retract' | 'end-level';
  /** The operator's block-delete switch; default off: lines with `/` are executed. */
  readonly blockDelete?: boolean;
  /** Greatest tool and length slot; default 99. */
  readonly slots?: number;
  /** G28's and G30's places, absolute mm and degrees, X Y Z A B C; default all 0. */
  readonly home?: readonly number[];
  readonly secondHome?: readonly number[];
  /** Tool length offsets by H, mm; default 0: every tool is touched off on the skin. */
  readonly lengths?: Readonly<Record<number, number>>;
  /** What is set before the first line; default nothing. */
  readonly start?: StartState;
}

/** The options with what is left out filled in. */
export function settingsOf(options: InterpretOptions): Settings {
  return {
    cycleBackOff: options.cycleBackOff ?? 0.254,
    peckClears: options.peckClears ?? 'retract',
    slots: options.slots ?? 99,
    home: axes(options.home),
    secondHome: axes(options.secondHome),
    homeKnown: options.home !== undefined,
    lengths: options.lengths ?? {},
  };
}

const axes = (values: readonly number[] | undefined): Float64Array =>
  Float64Array.from({ length: 6 }, (_, axis) => values?.[axis] ?? 0);
