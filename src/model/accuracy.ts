/** Ways of marking and drilling. */
export type Method = 'tape' | 'paper-wrap' | 'cut-wrap' | 'collar' | 'rotary';

/** One thing that goes wrong when holes are marked and drilled, and by how much. */
export interface ErrorTerm {
  readonly id: string;
  /** What goes wrong, in a builder's words. */
  readonly what: string;
  /** Round the shell, along its axis, both alike, or a lean of the whole pattern. */
  readonly axis: 'around' | 'along' | 'both' | 'lean';
  /** Fresh for each hole, one for all holes of a fitting, or one for the whole shell. */
  readonly each: 'hole' | 'fitting' | 'shell';
  /** `sigma`: one standard deviation of a bell curve. `within`: anywhere within plus or minus `size`, evenly. */
  readonly spread: 'sigma' | 'within';
  readonly size: number;
  /** `deg`: at the shell's radius when `around`. `stretch`: a fraction of the distance it acts over. */
  readonly unit: 'mm' | 'deg' | 'stretch';
  readonly source: string;
  /** The builder's own figure, and the table's that it takes the place of. */
  readonly own?: { readonly builtIn?: string };
}

/** The workshop's own accuracy: the tables of error terms it works with, where they differ from the built-in ones. */
export interface Accuracy {
  /** Chance wanted that the whole drum goes together, 0…1. */
  readonly level?: number;
  readonly terms: Partial<Readonly<Record<Method, readonly ErrorTerm[]>>>;
}
