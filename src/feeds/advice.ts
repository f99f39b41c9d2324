import type { Machine, ToolKind } from '../model/machine.ts';
import type { Deg, Mm, MmPerMin, Rpm } from '../units/scalar.ts';

/** What the builder found to work; it overrides the tables. */
export interface Proven {
  readonly speed?: Rpm | undefined;
  readonly feed?: MmPerMin | undefined;
  readonly peck?: Mm | undefined;
}

export interface CutTool {
  readonly kind: ToolKind;
  readonly diameter: Mm;
  readonly lips?: number | undefined;
  readonly point?: Deg | undefined;
  readonly flute?: Mm | undefined;
  readonly maxSpeed?: Rpm | undefined;
}

/** What is asked of the tables: bit, wood, hole and what holds them. */
export interface FeedInput {
  /** A species or board id; undefined = not said: taken as a dense hardwood. */
  readonly wood: string | undefined;
  readonly tool: CutTool;
  /** How deep the tip goes from the skin. */
  readonly depth: Mm;
  readonly machine?: Machine | undefined;
  readonly proven?: Proven | undefined;
}

/** One step of the reckoning: which number, why it is what it is, and where that comes from. */
export interface Reason {
  readonly what: string;
  readonly value: string;
  readonly because: string;
  readonly source: string;
}

/** Limits that can act on a recommendation. */
export type LimitName =
  | 'spindle-min'
  | 'spindle-max'
  | 'bit-speed'
  | 'machine-feed'
  | 'spindle-torque'
  | 'thinnest-chip'
  | 'greatest-feed'
  | 'proven';

/** Numbers to set, where they come from and which limits acted. */
export interface FeedAdvice {
  readonly speed: Rpm;
  readonly feed: MmPerMin;
  readonly feedPerRev: Mm;
  readonly feedPerLip: Mm;
  readonly chipThickness: Mm;
  /** Depth of one peck, or null for one stroke. */
  readonly peck: Mm | null;
  readonly pecks: number;
  /** How far a boring helix goes down each turn; null for drills. */
  readonly pitch: Mm | null;
  /** Rim speed, m/min. */
  readonly cuttingSpeed: number;
  /** W, N m, N. */
  readonly power: number;
  readonly torque: number;
  readonly thrust: number;
  readonly reasons: readonly Reason[];
  readonly limits: readonly LimitName[];
}

/** Numbers on the way to an advice, before and after each limit. */
export interface Draft {
  speed: number;
  feedPerRev: Mm;
  readonly lips: number;
  readonly point: number;
  readonly pitch: Mm | null;
  readonly reasons: Reason[];
  readonly limits: LimitName[];
}
