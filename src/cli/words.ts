import { LENGTH_SPELLINGS, readLength } from '../units/length.ts';
import { nearest } from '../units/nearest.ts';
import { badInput } from './failure.ts';

/** A length above 0 given as an option, in mm; bare numbers are mm on the command line. */
export function lengthOption(option: string, text: string): number {
  const r = readLength(text, 'mm');
  if (!r.ok || r.value <= 0)
    throw badInput(
      `${option} ${text}${r.ok ? '' : `: ${r.why}`}`,
      `${LENGTH_SPELLINGS} (mm here), more than 0`,
      'write a number and a unit, e.g. 6mm',
    );
  return r.value;
}

/** A whole number from 1 to `most` given as an option; undefined when it was not given. */
export function wholeOption(option: string, text: string | undefined, most: number): number | undefined {
  if (text === undefined) return undefined;
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1 || n > most)
    throw badInput(`${option} ${text}`, `a whole number from 1 to ${most}`, 'give a number');
  return n;
}

/** One of a few words given as an option. */
export function wordOption<T extends string>(option: string, word: string, words: readonly T[]): T {
  if (!(words as readonly string[]).includes(word))
    throw badInput(`${option} ${word}`, words.join(', '), meantBy(option, word, words));
  return word as T;
}

/** What to try for a word that is none of those there are. */
export function meantBy(option: string, word: string, words: readonly string[]): string {
  const meant = nearest(word, words);
  return meant === undefined ? 'choose one of these' : `${option} ${meant}`;
}
