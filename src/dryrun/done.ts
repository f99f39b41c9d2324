import type { Mm } from '../units/scalar.ts';
import type { Station } from './stations.ts';

/** A rapid down a hole. */
export interface Entry {
  readonly line: number;
  readonly depth: Mm;
  readonly tool: number;
  readonly kind: string;
}

/** What was watched, for those who judge. */
export interface Done {
  readonly stations: readonly Station[];
  readonly touched: boolean;
  /** The spindle was on at some time. */
  readonly turned: boolean;
  /** Pauses for a hand. */
  readonly pauses: number;
  /** Rapids down holes of an earlier shell, if there are several. */
  readonly intoLast: readonly Entry[];
}
