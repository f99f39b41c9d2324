import type { Mm } from '../units/scalar.ts';

/** A screw thread by its major diameter and pitch. */
export interface Thread {
  /** As people write it: `M4`, `12-24 UNC`, `1/4-20 UNC`, `5.5 x 1.06`. */
  readonly name: string;
  readonly diameter: Mm;
  readonly pitch: Mm;
}
