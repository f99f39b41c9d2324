import type { Saying } from '../model/finding.ts';
import { footSayings } from './fit-feet.ts';
import { holeSayings } from './fit-holes.ts';
import { hoopSayings, rodSayings } from './fit-rods.ts';
import { screwSayings } from './fit-screws.ts';
import { seasonSayings } from './fit-seasons.ts';
import { shellSayings } from './fit-shell.ts';
import { snareSayings } from './fit-snares.ts';
import { alike } from './fit-words.ts';
import { word } from './saying.ts';

/** What the fit checks find, in a builder's words; the cure in both directions where there are two. */
export const fitSayings: Readonly<Record<string, Saying>> = {
  ...rodSayings,
  ...hoopSayings,
  ...footSayings,
  ...holeSayings,
  ...snareSayings,
  ...shellSayings,
  ...screwSayings,
  ...seasonSayings,
  'not-checked': {
    text: (f) => `Not checked: ${word(f, 'check')}${alike(f)}. Needs ${word(f, 'needs')}.`,
    try: (f) => `Add ${word(f, 'needs')} to the jig file.`,
    source: 'the jig file',
  },
};
