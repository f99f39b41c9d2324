import type { Fact, Saying } from '../model/finding.ts';
import { limit, MACHINE, measured, num, PRACTICE, TOOLS, word } from './saying.ts';

const bit = (f: Fact): string => `${num(f, 'diameter', 2)} mm ${word(f, 'kind')}`;

/** What the reckoning of speeds and feeds finds. */
export const feedSayings: Readonly<Record<string, Saying>> = {
  'wood-assumed': {
    text: (f) => `The wood is not named: cut as ${word(f, 'wood')}.`,
    try: () => 'Name the wood (shell.wood, or --wood).',
    source: PRACTICE,
  },
  'flute-too-short': {
    text: (f) => `The ${bit(f)} goes ${measured(f)} deep and has only ${limit(f)} of flute: chips jam${count(f)}.`,
    try: (f) => `Take a bit with at least ${Math.ceil(f.measured ?? 0)} mm of flute.`,
    source: PRACTICE,
  },
  'bit-over-speed': {
    text: (f) => `The slowest this spindle turns is ${measured(f, 0)}; the bit may turn no faster than ${limit(f, 0)}.`,
    try: () => 'Take a bit made for the speed, or a slower spindle.',
    source: TOOLS,
  },
  'spindle-too-fast': {
    text: (f) =>
      `${word(f, 'machine')} cannot turn slower than ${measured(f, 0)}; a ${bit(f)} in ${word(f, 'wood')} wants ${limit(f, 0)}. ` +
      `Its rim would run at ${num(f, 'rim', 0)} m/min and burns above ${num(f, 'ceiling', 0)}.`,
    try: (f) =>
      `Bore the hole with an end mill smaller than ${num(f, 'diameter', 2)} mm that walks round it, or drill on a slower spindle; ` +
      'if it must be this bit, go in and out quickly and never dwell.',
    source: `${PRACTICE}: drill-press chart; the rim speed is the greatest the chart itself reaches`,
  },
  'chip-too-thin': {
    text: (f) =>
      `The chip is ${measured(f, 3)} thick; below ${limit(f, 3)} the edge rubs and burns (${word(f, 'limits')}).`,
    try: () => 'Turn slower or feed faster; if the machine cannot, take a smaller bit or one with fewer lips.',
    source: `${PRACTICE}: 0.025 to 0.05 mm`,
  },
  'speed-outside-machine': {
    text: (f) => `${measured(f, 0)} is outside what spindle and bit can do (${limit(f, 0)}).`,
    try: (f) => `Ask for ${limit(f, 0)}, or use another bit.`,
    source: MACHINE,
  },
  'zero-pecks': {
    text: (f) => `Pecks of ${measured(f)} never reach the bottom.`,
    try: () => 'Give the depth of one peck, more than 0 mm, or leave it out.',
    source: 'NISTIR 6556 section 3.5.16.4',
  },
  'feed-outside-machine': {
    text: (f) => `A feed of ${measured(f, 0)} is more than the machine makes (${limit(f, 0)}).`,
    try: (f) => `Ask for ${limit(f, 0)} or less.`,
    source: MACHINE,
  },
};

/** How many holes share the fault, when more than the one named. */
export function count(f: Fact): string {
  const holes = Number(f.facts?.['count'] ?? 1);
  return holes > 1 ? ` (${holes} holes, this is the worst)` : '';
}
