import type { Fact, Saying } from '../model/finding.ts';
import { atLeast, mm, value } from './fit-words.ts';
import { limit, measured, num, trimmed } from './saying.ts';

/** The equations and the table they are fed with. */
const WOOD_SOURCE = 'Wood Handbook FPL-GTR-282 equation 4-5 and FPL-GTR-190 table 13-5';

const grows = (f: Fact, key: string): string =>
  `${value(f, key) < 0 ? 'shrinks' : 'grows'} by ${trimmed(Math.abs(value(f, key)), 2)} mm`;
const fromHere = (f: Fact): string =>
  `From the workshop (${num(f, 'from', 1)} % moisture) to its home (${num(f, 'to', 1)} %)`;

/** Wood that moves. */
export const seasonSayings: Record<string, Saying> = {
  'season-movement': {
    text: (f) =>
      `${fromHere(f)} the girth ${grows(f, 'girth')} (at most ${trimmed(Math.abs(value(f, 'girthMost')), 2)}), the diameter ${grows(f, 'diameter')}, the depth ${grows(f, 'depth')}.`,
    try: () => '',
    source: WOOD_SOURCE,
  },
  'season-head-binds': {
    text: (f) =>
      `${fromHere(f)} the shell may grow to ${measured(f, 1)} across; its ${mm(f, 'nominal')} head is tight above ${limit(f)}.`,
    try: (f) =>
      `Let the wood settle at home before fitting, or sand ${atLeast((f.measured ?? 0) - (f.limit ?? 0))} off the diameter at the edges.`,
    source: WOOD_SOURCE,
  },
  'season-head-floats': {
    text: (f) =>
      `${fromHere(f)} the shell may shrink to ${measured(f, 1)} across; its ${mm(f, 'nominal')} head is loose below ${limit(f)}.`,
    try: () => 'Let the wood settle at home before turning it to size.',
    source: WOOD_SOURCE,
  },
  'season-collar': {
    text: (f) =>
      `The shell's radius may change by ${measured(f, 2)} with the climate, more than the ${limit(f, 2)} clearance of the collar.`,
    try: (f) =>
      `Drill in the climate the collar was cut for, or give the collar ${trimmed(Math.ceil((f.measured ?? 0) * 10) / 10, 1)} mm of clearance and shims.`,
    source: WOOD_SOURCE,
  },
  'season-out-of-round': {
    text: (f) => `${fromHere(f)} the shell may go ${measured(f)} out of round at worst.`,
    try: () => 'Let the wood settle at home, and true it up before marking.',
    source: `${WOOD_SOURCE}; mixed sawing at its worst, derived`,
  },
};
