import type { Fact, Saying } from '../model/finding.ts';
import { atLeast, atMost, deg, mm, value } from './fit-words.ts';
import { limit, measured, PRACTICE, word } from './saying.ts';

/** Strainer, butt and wires. */
export const snareSayings: Record<string, Saying> = {
  'butt-not-opposite': {
    text: (f) =>
      `${word(f, 'butt')} at ${deg(f, 'buttAt')} is not opposite ${word(f, 'strainer')} at ${deg(f, 'strainerAt')}: off by ${measured(f, 2)}, ${mm(f, 'off')} round the shell.`,
    try: (f) => `Put ${word(f, 'butt')} at ${deg(f, 'want')}, or ${word(f, 'strainer')} at ${deg(f, 'wantStrainer')}.`,
    source: `derived: the snares cross the middle; 1 deg: ${PRACTICE}`,
  },
  'strap-askew': {
    text: (f) =>
      `The strap lines of ${word(f, 'strainer')} and ${word(f, 'butt')} are ${measured(f, 2)} from opposite (${mm(f, 'off')} round the shell).`,
    try: (f) => `Put ${word(f, 'butt')} at ${deg(f, 'want')}, or ${word(f, 'strainer')} at ${deg(f, 'wantStrainer')}.`,
    source: PRACTICE,
  },
  'strainer-not-at-snare-edge': { text: farText, try: farCure, source: 'derived: the snare edge is the bottom edge' },
  'butt-not-at-snare-edge': { text: farText, try: farCure, source: 'derived: the snare edge is the bottom edge' },
  'strainer-off-bed': {
    text: bedText,
    try: bedCure,
    source: `derived: beds lie at 0 and 180 deg; their middle half is flat: ${PRACTICE}`,
  },
  'butt-off-bed': {
    text: bedText,
    try: bedCure,
    source: `derived: beds lie at 0 and 180 deg; their middle half is flat: ${PRACTICE}`,
  },
  'strainer-off-line': {
    text: (f) => `${f.at} is at ${deg(f, 'at')}, but the strainer line is the 0 deg line everything is measured from.`,
    try: () => 'Put the strainer at 0 deg and turn everything else with it.',
    source: 'the datum of the jig file',
  },
  'snare-longer-than-shell': {
    text: (f) =>
      `The wires are ${measured(f)} from end plate to end plate, longer than the shell is wide (${limit(f)}).`,
    try: (f) => `Use wires of at most ${atMost(value(f, 'inside'))}, or measure them again and check the unit.`,
    source: 'derived',
  },
  'snare-long': {
    text: (f) =>
      `The wires are ${measured(f)} from end plate to end plate: their plates lie on the bearing edge (${limit(f)} between the crests).`,
    try: (f) => `Use wires of at most ${limit(f)}.`,
    source: PRACTICE,
  },
  'snare-implausible': {
    text: (f) =>
      `Wires of ${measured(f)} from end plate to end plate reach less than half across this shell (${mm(f, 'inside')} inside).`,
    try: (f) =>
      `Use wires of more than ${atLeast(value(f, 'inside') / 2)}, best a little under ${mm(f, 'inside')}; check the unit of snare.length.`,
    source: PRACTICE,
  },
  'snare-short': {
    text: (f) =>
      `The wires are ${measured(f)} from end plate to end plate, short for this shell (${mm(f, 'inside')} inside).`,
    try: (f) => `Check the length; ${limit(f)} and more is usual.`,
    source: PRACTICE,
  },
};

function farText(f: Fact): string {
  return `${f.at} sits ${measured(f)} above the bottom edge (${mm(f, 'fromTop')} from the top): the snare edge is the bottom one, and it must sit within ${limit(f)} of it.`;
}

function farCure(f: Fact): string {
  return word(f, 'edge') === 'top'
    ? `Write edge: bottom if its distance of ${mm(f, 'distance')} was measured from the bottom edge, or bring it down to ${limit(f)}.`
    : `Check its distance of ${mm(f, 'distance')}, or bring it down to ${limit(f)}.`;
}

function bedText(f: Fact): string {
  return `${f.at} pulls at ${deg(f, 'at')}, ${measured(f)} round the shell from the middle of the nearest snare bed; up to ${limit(f)} lies in its flat part.`;
}

function bedCure(f: Fact): string {
  return word(f, 'role') === 'strainer'
    ? 'Put the strainer at 0 deg: beds lie at 0 and 180 deg.'
    : 'Put the butt at 180 deg: beds lie at 0 and 180 deg.';
}
