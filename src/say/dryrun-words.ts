import type { Fact, Saying } from '../model/finding.ts';
import { num, word } from './saying.ts';

/** Words and sources that the sentences of the dry run share. */
export const LANGUAGE = 'NISTIR 6556 (RS274/NGC)';
export const DERIVED = "derived: the tool's way against the shell's cylinders";
export const PLAN = 'the plan of this jig file';

export const tool = (f: Fact): string => `tool ${word(f, 'tool')}`;
export const place = (f: Fact): string => `${num(f, 'angle', 2)} deg, ${num(f, 'height', 2)} mm above the bottom edge`;

export function saying(text: Saying['text'], cure: Saying['try'], source: string = DERIVED): Saying {
  return { text, try: cure, source };
}
