/** `stop`: do not drill or cut. `care`: look twice. `note`: assumed, or not checked and what it needs. */
export type Level = 'stop' | 'care' | 'note';

/** What a stage found, as data; the sentence is made last, by `say`. Ids are words with hyphens and never change meaning. */
export interface Fact {
  readonly level: Level;
  readonly id: string;
  /** Fitting, hole, row or move it speaks of, e.g. `lug-top-3`, `strainer`, `shell`, `line 12`. */
  readonly at: string;
  readonly measured: number | null;
  readonly limit: number | null;
  /** Unit of `measured` and `limit`: `mm`, `deg`, `turns`, `rev/min`, `mm/min`, `%`, or '' for a count. */
  readonly unit: string;
  /** Names and numbers the sentence needs (already chosen, not yet rounded). */
  readonly facts?: Readonly<Record<string, string | number>>;
  /** Jig file's or program's line, 1-based. */
  readonly line?: number;
}

/** A fact with its sentence, the smallest cure, and where the limit comes from. This is what `--json` prints. */
export interface Finding {
  readonly level: Level;
  readonly id: string;
  readonly at: string;
  readonly text: string;
  readonly measured: number | null;
  readonly limit: number | null;
  readonly unit: string;
  readonly try: string;
  readonly source?: string;
  readonly line?: number;
}

/** How one finding id is said. `text` and `try` get the fact with numbers unrounded and round them themselves. */
export interface Saying {
  readonly text: (fact: Fact) => string;
  readonly try: (fact: Fact) => string;
  /** Publication and table, or "common practice, no source", or "derived: …". */
  readonly source: string;
}
