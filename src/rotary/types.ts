import type { Hole } from '../model/layout.ts';
import type { Machine, Tool } from '../model/machine.ts';
import type { Deg, Mm, MmPerMin, Rpm } from '../units/scalar.ts';

/** What a pass does at a hole. */
export type OperationKind = 'centre-mark' | 'pilot' | 'drill' | 'bore' | 'edge-break';

/** One visit of one bit to one hole. Z is 0 at the high spot of the outside skin, down is minus. */
export interface Operation {
  readonly kind: OperationKind;
  readonly hole: Hole;
  readonly tool: Tool;
  /** Why this bit and this way, in a builder's words. */
  readonly because: string;
  readonly x: Mm;
  /** Off the axis, for holes drilled parallel to their fitting's radius; else 0. */
  readonly y: Mm;
  /** Within one turn, signed as the machine is wired. */
  readonly a: Deg;
  /** Where the tip turns back. */
  readonly bottom: Mm;
  readonly speed: Rpm;
  readonly feed: MmPerMin;
  /** Strokes; 1 = straight down. */
  readonly pecks: number;
  /** Boring: how far down each turn. */
  readonly pitch?: Mm;
}

export type Axis = 'x' | 'y' | 'z' | 'a';
export type Target = Partial<Readonly<Record<Axis, number>>>;

/** A program before it is text: absolute positions in mm and degrees, unrounded. */
export type Step =
  | { readonly kind: 'comment'; readonly text: string }
  | { readonly kind: 'setup' }
  | { readonly kind: 'tool'; readonly tool: Tool }
  /** A machine that changes bits knows their lengths from its table. */
  | { readonly kind: 'length'; readonly tool: number }
  | { readonly kind: 'spindle'; readonly speed: Rpm }
  | { readonly kind: 'spindle-off' }
  | { readonly kind: 'dwell'; readonly seconds: number }
  | { readonly kind: 'pause' }
  | { readonly kind: 'rapid'; readonly to: Target }
  /** mm/min; deg/min when only A moves. */
  | { readonly kind: 'feed'; readonly to: Target; readonly feed: number }
  /** Inverse time: the move takes 1 / `rate` minutes. */
  | { readonly kind: 'timed'; readonly to: Target; readonly rate: number }
  /** A turn anticlockwise seen from above about (x, y), beginning and ending at x + orbit, down to z on its way. */
  | {
      readonly kind: 'circle';
      readonly x: Mm;
      readonly y: Mm;
      readonly orbit: Mm;
      readonly z: Mm;
      readonly feed: MmPerMin;
    }
  /** One hole from the clearance height and back to it: to R, down in `pecks` strokes, out. */
  | {
      readonly kind: 'drill';
      readonly x: Mm;
      readonly bottom: Mm;
      readonly approach: Mm;
      readonly clearance: Mm;
      readonly pecks: number;
      readonly feed: MmPerMin;
    }
  /** What is done over a hole. Holes that differ only in A share one object, written and timed once. */
  | { readonly kind: 'visit'; readonly steps: readonly Step[] }
  | { readonly kind: 'end' };

/** How the program is to drill. */
export interface RotaryOptions {
  /** Digest of the plan the program belongs to. */
  readonly digest: string;
  /** Version of the program that wrote it. */
  readonly version: string;
  /** Start again at this hole's first operation (of tool `fromTool`, when given) and go on from there. */
  readonly fromHole?: string | undefined;
  readonly fromTool?: number | undefined;
  /** Only this fitting, row, role or hole. */
  readonly only?: string | undefined;
  /** Spindle off, the tip never below 5 mm above the skin. */
  readonly rehearse?: boolean | undefined;
  /** Score crosses on tape instead of drilling. */
  readonly markOnly?: boolean | undefined;
  /** Shells drilled one after the other, with a pause between. */
  readonly batch?: number | undefined;
  readonly style?: 'cycles' | 'long-hand' | undefined;
  readonly units?: 'mm' | 'in' | undefined;
  /** One program for each tool besides the whole one. */
  readonly onePerTool?: boolean | undefined;
  /** No backing: drill right through, or stop when the point shows and finish from inside. */
  readonly unbacked?: 'through' | 'two-sided' | undefined;
  /** Holes of parallel screws: towards the axis (default), or parallel to each other by Y where the machine has it. */
  readonly parallel?: 'radial' | 'by-y' | undefined;
  /** Go to the far side after every hole, so that the shell is weakened evenly. */
  readonly alternate?: boolean | undefined;
}

/** What the setup sheet shows. */
export interface SetupSheet {
  readonly machine: Machine;
  readonly datum: 'top' | 'bottom';
  /** Sign of A against the shell angle. */
  readonly sign: 1 | -1;
  readonly shell: { readonly radius: Mm; readonly inside: Mm; readonly depth: Mm; readonly wall: Mm };
  readonly backing: Mm;
  readonly runout: Mm;
  /** Tip heights above the high spot: between holes, and where feeding begins. */
  readonly clearance: Mm;
  readonly approach: Mm;
  readonly tools: readonly {
    readonly tool: Tool;
    readonly use: string;
    readonly speed: Rpm;
    readonly feed: MmPerMin;
    /** Deepest the tip goes below the skin. */
    readonly deepest: Mm;
    readonly holes: number;
  }[];
  readonly steps: readonly string[];
}

/** The program and how it came about. */
export interface RotaryPlan {
  /** The whole program; '' when it cannot be made. */
  readonly text: string;
  readonly made: boolean;
  /** With `onePerTool`: each tool's own program, in order. */
  readonly programs: readonly { readonly tool: number; readonly text: string }[];
  /** In the order they are drilled. */
  readonly operations: readonly Operation[];
  readonly tools: readonly Tool[];
  /** Hole ids in the order they are finished. */
  readonly order: readonly string[];
  /** Estimate: moves with the machine's accelerations, dwells, tool changes; pauses for hands not counted. */
  readonly seconds: number;
  readonly setup: SetupSheet;
}
