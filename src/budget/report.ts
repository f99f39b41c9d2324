import type { ErrorTerm } from '../model/accuracy.ts';
import type { Method, Pattern } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';

/** A chance and where it comes from. `error` is the standard error of a simulated one. */
export interface Chance {
  readonly value: number;
  readonly how: 'closed form' | 'simulated' | 'one hole';
  readonly error?: number;
}

export interface GroupBudget {
  /** Row or fitting, as `Placed.group`. */
  readonly group: string;
  readonly at: readonly string[];
  readonly holes: number;
  readonly drill_mm: Mm;
  readonly screw_mm: Mm;
  /** Hole less screw. */
  readonly clearance_mm: Mm;
  /** Lost to parallel screws in holes that point to the shell's axis, at the outermost hole. */
  readonly walk_mm: Mm;
  /** One fitting of the group; null when it was not simulated. */
  readonly goesOn: Chance | null;
  readonly straight: Chance | null;
  /** Hole that lifts the whole drum to the level wanted. */
  readonly drillFor_mm: { readonly goesOn: Mm | null; readonly straight: Mm | null };
}

export interface TermShare extends ErrorTerm {
  /** Standard deviation in the term's unit. */
  readonly sigma: number;
}

export interface MethodBudget {
  readonly method: Method;
  readonly name: string;
  readonly bores: 'radial' | 'parallel';
  readonly terms: readonly TermShare[];
  readonly sigma: {
    readonly hole: { readonly around_mm: Mm; readonly along_mm: Mm };
    readonly place: { readonly around_mm: Mm; readonly along_mm: Mm };
  };
  readonly groups: readonly GroupBudget[];
  /** All fittings together; null when one of them is not known. */
  readonly drum: { readonly goesOn: number | null; readonly straight: number | null; readonly fittings: number };
}

export interface BudgetReport {
  readonly level: number;
  readonly samples: number;
  readonly methods: readonly MethodBudget[];
  /** Groups left out, with what they need. */
  readonly notChecked: readonly { readonly group: string; readonly needs: string }[];
}

/** Fittings of one pattern that are screwed on. */
export interface Group {
  readonly group: string;
  readonly at: readonly string[];
  readonly key: string;
  readonly pattern: Pattern;
  readonly screw: Mm;
}
