import type { Fact, Saying } from '../model/finding.ts';
import { MM_PER_INCH } from '../units/scalar.ts';
import { atLeast, has, mm, size } from './fit-words.ts';
import { limit, measured, num, PRACTICE, trimmed, word } from './saying.ts';

/** A slip of the tape that would explain the size, said plainly. */
const guess = (f: Fact): string =>
  has(f, 'misread')
    ? `. It looks like a girth read ${word(f, 'misread')}: ${mm(f, 'girth')} for ${mm(f, 'meant')}`
    : '';

/** The shell, its head and its state. */
export const shellSayings: Record<string, Saying> = {
  'shell-too-large': {
    text: (f) =>
      `The shell is ${measured(f, 2)} across, larger than the ${num(f, 'inches', 2)} in (${limit(f)}) of its head: the head does not go on${guess(f)}.`,
    try: (f) =>
      has(f, 'bare')
        ? `Write shell.nominal: ${num(f, 'bare', 2)} in, if the head is named in inches: without a unit it is read as millimetres.`
        : `Measure the girth again (now ${mm(f, 'girth')}); else turn or sand the shell down by ${size(f, 'under')} and a little room, or use the next head size.`,
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
    try: (f) =>
      word(f, 'exact') === 'yes'
        ? `Measure the girth: this is the head's own size, not a shell's. Else sand the shell to at most ${limit(f)} at the edges.`
        : `Sand the shell to at most ${limit(f)} at the edges, or check the girth.`,
    source: PRACTICE,
  },
  'shell-loose': {
    text: (f) => `The shell is ${measured(f, 2)} across, ${mm(f, 'under')} under its head, more than usual${guess(f)}.`,
    try: (f) =>
      `Measure the girth again; else build the edge out by ${atLeast((f.limit ?? 0) - (f.measured ?? 0))}, or centre the head before tightening.`,
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
        : `Measure the wall again, ${limit(f)} at most; centimetres or inches may have been taken for millimetres: a tenth is ${trimmed((f.measured ?? 0) / 10, 1)} mm.`,
    source: PRACTICE,
  },
  'bed-narrow': {
    text: (f) => `A snare bed ${measured(f)} wide is narrower than a strap (${limit(f)}).`,
    try: (f) => `File it at least ${limit(f)} wide, or check the unit of beds.width.`,
    source: PRACTICE,
  },
  'bed-deep': {
    text: (f) => `A snare bed ${measured(f)} deep is unusual; ${limit(f)} and less is common.`,
    try: (f) => `File it ${limit(f)} deep or less, or check the unit of beds.depth.`,
    source: PRACTICE,
  },
  'size-unusual': {
    text: (f) =>
      `${word(f, 'key')} is ${measured(f, 2)}; ${num(f, 'low', 1)} to ${num(f, 'high', 1)}${f.unit === '' ? '' : ` ${f.unit}`} is usual.`,
    try: (f) =>
      has(f, 'meant')
        ? `Check ${word(f, 'key')}: ${mm(f, 'meant', 1)} was perhaps meant (${word(f, 'slip')}).`
        : `Measure ${word(f, 'key')} again; if it is right, let it stand.`,
    source: PRACTICE,
  },
  'ring-thicker-than-wide': {
    text: (f) =>
      `A reinforcement ring ${measured(f)} thick and ${limit(f)} wide: rings are wider, along the shell, than they are thick.`,
    try: (f) => `Swap its width and thickness if they were mixed up: width ${measured(f)}, thickness ${limit(f)}.`,
    source: PRACTICE,
  },
  'leg-high': {
    text: (f) => `${f.at} sits ${measured(f)} above the bottom edge; legs usually sit below ${limit(f)}.`,
    try: () => 'Check the edge its distance was measured from: legs are usually measured from the bottom edge.',
    source: PRACTICE,
  },
  'vent-narrow': {
    text: (f) => `A vent of ${measured(f, 2)} lets hardly any air through (${limit(f)} and more is common).`,
    try: (f) =>
      `Drill ${limit(f)} or more, or check the unit of its drill: the same number in inches is ${trimmed((f.measured ?? 0) * MM_PER_INCH, 1)} mm, in centimetres ${trimmed((f.measured ?? 0) * 10, 1)} mm.`,
    source: PRACTICE,
  },
  'vent-wide': {
    text: (f) => `A vent of ${measured(f)} is unusually wide (up to ${limit(f)} is common).`,
    try: (f) => `Drill ${limit(f)} or less, or check the unit of its drill.`,
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
