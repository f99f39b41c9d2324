import { rootSumSquare, uniformSigma } from '../geometry/statistics.ts';
import type { ErrorTerm } from '../model/accuracy.ts';
import { type Mm, type Rad, toRad } from '../units/scalar.ts';

/** How far apart equal attempts fall: standard deviations, by what they spoil. */
export interface Spread {
  /** Each hole on its own: mm round the shell and along it. */
  readonly hole: { readonly around: Mm; readonly along: Mm };
  /** A pattern drawn too large or small, as a fraction of its size. */
  readonly stretch: { readonly around: number; readonly along: number };
  /** A pattern turned as a whole, radians. */
  readonly lean: Rad;
  /** The whole fitting beside its place, at the hole farthest from the strainer line and from the edge. */
  readonly place: { readonly around: Mm; readonly along: Mm };
}

export interface ShellSize {
  readonly radius: Mm;
  readonly depth: Mm;
}

/** Standard deviation of one term in its own unit. */
export const sigmaOf = (term: ErrorTerm): number => (term.spread === 'sigma' ? term.size : uniformSigma(term.size));

/** Adds up a method's terms: independent errors by the root of the sum of squares. */
export function spreadOf(terms: readonly ErrorTerm[], shell: ShellSize): Spread {
  const sum = (pick: (t: ErrorTerm) => number): number => rootSumSquare(terms.map(pick));
  const acts = (t: ErrorTerm, axis: 'around' | 'along'): boolean => t.axis === axis || t.axis === 'both';
  const mm = (t: ErrorTerm): number =>
    t.unit === 'mm' ? sigmaOf(t) : t.unit === 'deg' ? toRad(sigmaOf(t)) * shell.radius : 0;
  const stretch = (axis: 'around' | 'along') => sum((t) => (t.unit === 'stretch' && acts(t, axis) ? sigmaOf(t) : 0));
  const hole = (axis: 'around' | 'along') => sum((t) => (t.each === 'hole' && acts(t, axis) ? mm(t) : 0));
  const place = (axis: 'around' | 'along', farthest: Mm) =>
    rootSumSquare([sum((t) => (t.each !== 'hole' && acts(t, axis) ? mm(t) : 0)), stretch(axis) * farthest]);
  return {
    hole: { around: hole('around'), along: hole('along') },
    stretch: { around: stretch('around'), along: stretch('along') },
    lean: sum((t) => (t.axis === 'lean' ? toRad(sigmaOf(t)) : 0)),
    place: { around: place('around', Math.PI * shell.radius), along: place('along', shell.depth / 2) },
  };
}
