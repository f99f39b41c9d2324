import type { Fact, Saying } from '../model/finding.ts';
import { atLeast, GEOMETRY, mm, others, size, value } from './fit-words.ts';
import { limit, measured, PRACTICE, trimmed, word } from './saying.ts';

/** Feet against each other, the rims and the beds. */
export const footSayings: Record<string, Saying> = {
  'feet-overlap': {
    text: (f) => `The feet of ${word(f, 'one')} and ${word(f, 'other')} overlap by ${measured(f)}${others(f)}.`,
    try: (f) =>
      word(f, 'sameRow') === 'yes'
        ? `Use fewer lugs, or narrower ones: they need ${size(f, 'around')} more between them round the shell.`
        : `Move ${word(f, 'other')} by ${size(f, 'around')} (${trimmed(Math.abs(value(f, 'aroundDeg')), 1)} deg) ${value(f, 'around') > 0 ? 'to the right' : 'to the left'} or by ${size(f, 'upright')} ${value(f, 'upright') > 0 ? 'up' : 'down'}${[word(f, 'one'), word(f, 'other')].some((id) => id.startsWith('lug-')) ? ', or turn the lugs half a pitch' : ''}.`,
    source: GEOMETRY,
  },
  'feet-close': {
    text: (f) =>
      `Only ${measured(f)} between the feet of ${word(f, 'one')} and ${word(f, 'other')}${others(f)}; below ${limit(f)} drilling errors make them touch.`,
    try: (f) => `Move ${word(f, 'other')} a millimetre away if you can.`,
    source: PRACTICE,
  },
  'lever-over-lug': { text: overhangText, try: leverCure, source: GEOMETRY },
  'lever-over-fitting': { text: overhangText, try: leverCure, source: GEOMETRY },
  'leg-rod-over-lug': { text: overhangText, try: legCure, source: GEOMETRY },
  'leg-rod-over-fitting': { text: overhangText, try: legCure, source: GEOMETRY },
  'leg-rod-on-rod': {
    text: (f) =>
      `The rod of ${f.at} runs over the tension rods: ${measured(f)} beside the line of one, they need ${limit(f)}.`,
    try: (f) =>
      `Move the leg ${atLeast(value(f, 'over'))} to either side, best between two lugs: at: { between: [i, j] }; if its rod runs outside the tension rods, say so with rod: { clear } and the hoop's ear-circle.`,
    source: GEOMETRY,
  },
  'leg-rod-near-ear': {
    text: (f) =>
      `The rod of ${f.at} passes the bottom hoop ${measured(f)} from an ear; ear and rod head take ${limit(f)}.`,
    try: (f) =>
      `Move the leg ${atLeast(value(f, 'over'))} away from that ear, best between two lugs: at: { between: [i, j] }.`,
    source: PRACTICE,
  },
  'foot-over-rim': {
    text: (f) => `The foot of ${f.at} reaches ${mm(f, 'over')} beyond the ${word(f, 'side')} edge${others(f)}.`,
    try: (f) =>
      `Set it ${atLeast(value(f, 'over'))} further from the ${word(f, 'side')} edge, or use a foot that is shorter there; check the edge and the unit of its distance.`,
    source: GEOMETRY,
  },
  'hole-over-rim': {
    text: (f) =>
      `The hole ${f.at} ${word(f, 'whole') === 'yes' ? 'lies' : `cuts ${mm(f, 'over')}`} beyond the ${word(f, 'side')} edge${others(f)}.`,
    try: (f) =>
      `Set it ${atLeast(value(f, 'over'))} further from the ${word(f, 'side')} edge; check the edge and the unit of its distance.`,
    source: GEOMETRY,
  },
  'hole-near-rim': {
    text: (f) =>
      `The hole ${f.at} leaves ${measured(f)} of wood to the ${word(f, 'side')} edge${others(f)}; less than half its diameter may split.`,
    try: (f) => `Set it ${atLeast((f.limit ?? 0) - (f.measured ?? 0))} further in.`,
    source: PRACTICE,
  },
  'hole-in-bed': {
    text: (f) =>
      `The hole ${f.at} cuts into a snare bed: it reaches down to ${measured(f)} above the bottom edge, the bed is ${limit(f)} deep there${others(f)}.`,
    try: (f) => `Set it ${atLeast(value(f, 'over'))} higher, or ${atLeast(value(f, 'inward'))} to the side of the bed.`,
    source: GEOMETRY,
  },
  'foot-in-bed': {
    text: (f) =>
      `The foot of ${f.at} hangs over a snare bed: it reaches down to ${measured(f)} above the bottom edge, the bed is ${limit(f)} deep there${others(f)}.`,
    try: (f) => `Set it ${atLeast(value(f, 'over'))} higher, or ${atLeast(value(f, 'inward'))} to the side of the bed.`,
    source: GEOMETRY,
  },
};

/** How far round the shell, and which way. */
const aside = (f: Fact): string =>
  `${atLeast(Math.abs(value(f, 'around')))} (${trimmed(Math.abs(value(f, 'aroundDeg')), 1)} deg) to the ${value(f, 'around') > 0 ? 'right' : 'left'}`;

function overhangText(f: Fact): string {
  return `The ${word(f, 'part')} of ${f.at} lies over ${word(f, 'other')} by ${measured(f)}${others(f)}: both stand out from the shell.`;
}

function leverCure(f: Fact): string {
  return `Move ${f.at} by ${aside(f)} or by ${atLeast(Math.abs(value(f, 'upright')))} ${value(f, 'upright') > 0 ? 'up' : 'down'}, or turn the lugs half a pitch; if the lever passes over, say so with lever: { clear } and foot: { stands }.`;
}

function legCure(f: Fact): string {
  return `Move ${f.at} by ${aside(f)}, best between two lugs: at: { between: [i, j] }; if its rod passes over, say so with rod: { clear } and foot: { stands }.`;
}
