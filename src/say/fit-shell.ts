import type { Fact, Saying } from '../model/finding.ts';
import { has, mm, PRACTICE, size } from './fit-words.ts';
import { limit, measured, num, word } from './saying.ts';

const guess = (f: Fact): string => (has(f, 'misread') ? ` (this looks like a ${word(f, 'misread')})` : '');

/** The shell, its head and its state. */
export const shellSayings: Record<string, Saying> = {
  'shell-too-large': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, larger than the ${num(f, 'inches', 2)} in (${limit(f)}) of its head: the head does not go on${guess(f)}.`,
    try: (f) =>
      `Measure the girth again (now ${mm(f, 'girth')}); else turn or sand the shell down by ${size(f, 'under')} and a little room, or use the next head size.`,
    source: 'derived: a head of nominal size goes over a shell of at most that size',
  },
  'shell-too-small': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, ${mm(f, 'under')} under the ${num(f, 'inches', 2)} in of its head: the head floats${guess(f)}.`,
    try: (f) =>
      `Measure the girth again (now ${mm(f, 'girth')}); else build the edge out to at least ${limit(f)}, or use the next smaller head.`,
    source: PRACTICE,
  },
  'shell-tight': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, only ${size(f, 'under')} under its head: it binds when the wood swells${guess(f)}.`,
    try: (f) => `Sand the shell to at most ${limit(f)} at the edges, or check the girth.`,
    source: PRACTICE,
  },
  'shell-loose': {
    text: (f) => `The shell is ${measured(f, 2)} across, ${mm(f, 'under')} under its head, more than usual${guess(f)}.`,
    try: () => 'Measure the girth again; centre the head before tightening.',
    source: PRACTICE,
  },
  'shell-too-large-for-hoop': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, the ${word(f, 'side')} hoop ${limit(f, 2)} inside: it does not go over.`,
    try: () => 'Measure both again, or use the hoop of the next size.',
    source: 'derived',
  },
  'wall-implausible': {
    text: (f) =>
      word(f, 'way') === 'thin'
        ? `A wall of ${measured(f, 2)} is thinner than any wooden shell (${limit(f)}).`
        : `A wall of ${measured(f)} is thicker than a shell of this size is made (${limit(f)}).`,
    try: (f) =>
      word(f, 'way') === 'thin'
        ? `Check the unit: the same number in inches is ${mm(f, 'inches')}.`
        : 'Check the unit: centimetres or inches may have been taken for millimetres.',
    source: PRACTICE,
  },
  'bed-narrow': {
    text: (f) => `A snare bed ${measured(f)} wide is narrower than a strap (${limit(f)}).`,
    try: () => 'Check the unit of beds.width.',
    source: PRACTICE,
  },
  'bed-deep': {
    text: (f) => `A snare bed ${measured(f)} deep is unusual; ${limit(f)} and less is common.`,
    try: () => 'Check the unit of beds.depth.',
    source: PRACTICE,
  },
  'vent-wide': {
    text: (f) => `A vent of ${measured(f)} is unusually wide (up to ${limit(f)} is common).`,
    try: () => 'Check the unit of its drill.',
    source: PRACTICE,
  },
  'lug-counts-differ': {
    text: (f) => `${limit(f, 0)} lugs serve the top hoop, but ${measured(f, 0)} the bottom one.`,
    try: () => 'Check the counts of the rows against both hoops.',
    source: PRACTICE,
  },
  'edges-uncut': {
    text: () => 'The bearing edges are not cut yet: cutting them moves every height that is measured from an edge.',
    try: () => 'Cut the edges first, or measure every row from the same uncut edge and cut nothing off the depth.',
    source: PRACTICE,
  },
  'out-of-round': {
    text: (f) => `The shell is ${measured(f)} out of round; up to ${limit(f)} passes unseen.`,
    try: () => 'Clamp it round before marking, and try the head on both edges.',
    source: PRACTICE,
  },
  'out-of-square': {
    text: (f) => `The shell's depth differs by ${measured(f)}; up to ${limit(f)} is usual.`,
    try: () => 'Level the edges before marking; each row is measured from its own edge.',
    source: PRACTICE,
  },
  'skin-added': {
    text: (f) =>
      `The skin of ${measured(f, 2)} is added to the radius: the shell is drilled at ${mm(f, 'diameter', 2)} across.`,
    try: () => '',
    source: 'the jig file',
  },
  'shell-outside-batch': {
    text: (f) =>
      `The girth of this shell, ${measured(f)}, lies outside the batch (${mm(f, 'least')} to ${mm(f, 'most')}).`,
    try: () => 'Check the girth, or widen batch.girth.',
    source: 'the jig file',
  },
  contradiction: {
    text: (f) => `${word(f, 'one')} says ${measured(f)} and ${word(f, 'other')} says ${limit(f)}: ${word(f, 'what')}.`,
    try: (f) => `Measure ${word(f, 'one')} and ${word(f, 'other')} again; one of them may be in the wrong unit.`,
    source: 'derived: both cannot be true',
  },
};
