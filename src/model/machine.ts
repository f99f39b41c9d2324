import type { Deg, Mm, MmPerMin, Rpm } from '../units/scalar.ts';

/** What a builder found to work on this machine; it overrides the tables. */
export interface ProvenFeed {
  readonly kind: ToolKind;
  readonly diameter: Mm;
  /** Any wood when left out. */
  readonly wood?: string;
  readonly speed?: Rpm;
  readonly feed?: MmPerMin;
  readonly peck?: Mm;
}

/** A small router with a rotary axis, by what it can do. */
export interface Machine {
  readonly name: string;
  readonly spindle: {
    readonly min: Rpm;
    readonly max: Rpm;
    readonly watts: number;
    /** Time to reach speed. */
    readonly seconds: number;
    /** Largest shank the collet takes. */
    readonly collet: Mm;
  };
  /** Largest diameter that turns under the gantry. */
  readonly swing: Mm;
  readonly travel: {
    readonly x: readonly [Mm, Mm];
    readonly y: readonly [Mm, Mm];
    /** About Z0 = the outside skin of the shell being drilled. */
    readonly z: readonly [Mm, Mm];
  };
  readonly hasY: boolean;
  /** mm/min; A in deg/min. */
  readonly rapid: { readonly x: MmPerMin; readonly y: MmPerMin; readonly z: MmPerMin; readonly a: number };
  /** Greatest feed, mm/min. */
  readonly feed: MmPerMin;
  /** mm/s^2; A in deg/s^2. */
  readonly acceleration: { readonly x: number; readonly y: number; readonly z: number; readonly a: number };
  /** `iso`: A turns as ISO 841 says; `reversed`: wired the other way. */
  readonly a: 'iso' | 'reversed';
  /** Endless, or wound between two limits. */
  readonly rotary: 'endless' | readonly [Deg, Deg];
  readonly stepsPerTurn?: number;
  readonly toolChange: 'hand' | 'machine';
  readonly toolChangeSeconds: number;
  /** What the controller understands. */
  readonly understands: {
    readonly cycles: boolean;
    readonly inverseTime: boolean;
    readonly arcs: boolean;
    /** It wants every line that does something to begin with N and a number. */
    readonly lineNumbers: boolean;
    readonly comments: 'brackets' | 'semicolon' | 'none';
    /** Decimals of a millimetre or degree it reads; an inch has one more. */
    readonly decimals: number;
  };
  readonly fixture: {
    /** Plates hold the shell from inside; cones and a tailstock press on its edges. */
    readonly hold: 'plates' | 'cones';
    /** Room in X at each end taken by what holds the shell; no tool below the skin there. */
    readonly chuck: Mm;
    readonly tailstock: Mm;
    /** Diameter of the shaft through the shell; 0 = none. */
    readonly mandrel: Mm;
    /** Also nothing below the skin between these X: a steady, a strap, a jaw. */
    readonly keepOut?: readonly { readonly from: Mm; readonly to: Mm }[];
  };
  /** Feeds that have proved themselves, most telling first. */
  readonly proven?: readonly ProvenFeed[];
}

/** What cuts. */
export type ToolKind = 'twist' | 'brad-point' | 'spur' | 'stepped' | 'end-mill' | 'v-bit';

/** A bit at hand: lengths in mm, from the tip upwards. */
export interface Tool {
  readonly id: number;
  readonly kind: ToolKind;
  readonly diameter: Mm;
  /** Point angle (twist, stepped, v-bit). */
  readonly point?: Deg;
  /** How far the centre spur leads the rim (brad-point, spur). */
  readonly lead?: Mm;
  readonly lips: number;
  readonly flute: Mm;
  /** From the collet to the tip. */
  readonly stickout: Mm;
  readonly shank: Mm;
  readonly maxSpeed?: Rpm;
  /** Stepped drill: pilot diameter and its length ahead of the full diameter. */
  readonly step?: { readonly diameter: Mm; readonly length: Mm };
}
