/**
 * Every smallness the program compares with, each with its reason. `noise` is float error and nobody's choice;
 * the rest are workshop decisions. Bare `1e-…` literals elsewhere are a fault.
 */
export const tolerance = Object.freeze({
  /** Float error on coordinates below 10 m and angles below 100 turns. */
  noise: 1e-9,
  /** Two path ends closer than this (mm) are one point; a tenth of what any writer prints. */
  join: 1e-5,
  /** Holes and lines closer than this (mm) are the same mark: far below what a bench can see. */
  same: 1e-3,
  /** Widest gap (mm) between an arc and the chords standing in for it, where a format or a machine needs chords. */
  chord: 0.01,
  /** How near (mm) an iterated best fit comes to the true least: a thousandth of what a caliper reads. */
  fit: 1e-6,
});
