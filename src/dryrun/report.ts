import type { Deg, Mm } from '../units/scalar.ts';
import type { ChipLoad, HoleLoad } from './load.ts';
import type { Inspected } from './measure.ts';

/** A hole the program leaves, measured from what the bits do. Named for `dry-run.json`. */
export interface FoundHole {
  /** The planned hole's id, or `extra-1` … for holes that belong to none. */
  readonly id: string;
  /** Place of the axis on the outside skin. */
  readonly angle_deg: Deg;
  readonly height_mm: Mm;
  /** Of the circle as large as what is open through the whole wall; for a hole that is not through, its width at the skin. */
  readonly diameter_mm: Mm;
  /** Of the widest pin that goes through: a bore by chords is a polygon, and its sides lie nearer than its corners. 0: not through. */
  readonly clear_mm: Mm;
  readonly entrance_mm: Mm;
  readonly through: boolean;
  /** Depth of the deepest tip below Z0. */
  readonly depth_mm: Mm;
  readonly how: 'drilled' | 'bored' | 'marked';
  /** Tools that worked here, in order. */
  readonly tools: readonly number[];
  /** Way from the planned place over the skin; null for extra holes. */
  readonly off_mm: Mm | null;
  readonly seconds: number;
  /** Chip load of each bit here, and when. */
  readonly chip_load: readonly HoleLoad[];
  readonly first_line: number;
  readonly last_line: number;
}

/** Where the time goes, in seconds. */
export interface TimeSplit {
  readonly rapid: number;
  readonly feed: number;
  readonly dwell: number;
  readonly spinUp: number;
  readonly toolChange: number;
}

export interface ToolTime {
  readonly tool: number;
  readonly seconds: number;
  readonly feed: number;
  readonly holes: number;
  /** Way of the tip while cutting, mm. */
  readonly cut_mm: Mm;
  /** Least and greatest feed a turn in the wood, mm; divided by the lips it is the chip. null: never below the skin. */
  readonly feed_per_turn_mm: readonly [Mm, Mm] | null;
}

/** One tool's work at one place, in the order of the program. */
export interface Visit {
  readonly line: number;
  readonly tool: number;
  readonly angle_deg: Deg;
  readonly height_mm: Mm;
}

/** What a program would do to the shell. */
export interface DryRunReport {
  readonly seconds: number;
  /** Through or to depth: what counts as a hole. */
  readonly holes: readonly FoundHole[];
  /** Centre marks, scores and pilots that nothing opened up. */
  readonly marks: readonly FoundHole[];
  readonly split: TimeSplit;
  /** The way of the work; at most 5000 visits. */
  readonly visits: readonly Visit[];
  readonly perTool: readonly ToolTime[];
  /** Chip load of each bit over the time of the program. */
  readonly chip_load: ChipLoad;
  /** Pauses that wait for a hand; their length is nobody's to know. */
  readonly pauses: number;
  readonly lines: number;
  readonly moves: number;
  readonly planned: number;
  readonly inPlace: number;
  readonly kind: 'drilling' | 'marking' | 'rehearsal' | 'nothing';
  /** The wood that is gone and the holes it leaves, when asked for. */
  readonly removed?: { readonly volume_mm3: number; readonly complete: boolean; readonly holes: readonly Inspected[] };
  /** Greatest and least position of each axis the program went to; null where it never went. */
  readonly reach: Readonly<Record<'x' | 'y' | 'z' | 'a', readonly [number, number] | null>>;
}

/** What the places say about the plan. */
export interface Judged {
  readonly kind: DryRunReport['kind'];
  readonly holes: FoundHole[];
  readonly marks: FoundHole[];
  readonly inPlace: number;
}
