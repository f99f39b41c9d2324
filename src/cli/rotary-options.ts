import type { RotaryOptions } from '../rotary/types.ts';
import { badInput } from './failure.ts';

/** The rotary program's options as the command line gives them. */
export interface RotaryWords {
  readonly cycles: string;
  readonly fromHole?: string;
  readonly fromTool?: string;
  readonly only?: string;
  readonly rehearse?: boolean;
  readonly markOnly?: boolean;
  readonly onePerTool?: boolean;
  readonly programUnits: string;
  readonly alternate?: boolean;
  readonly unbacked?: string;
  readonly parallel: string;
  readonly batch?: string;
}

export function rotaryOptions(words: RotaryWords): Omit<RotaryOptions, 'digest' | 'version'> {
  const style = oneOf('--cycles', words.cycles, ['machine', 'cycles', 'long-hand'] as const);
  return {
    style: style === 'machine' ? undefined : style,
    fromHole: words.fromHole,
    fromTool: whole('--from-tool', words.fromTool, 9999),
    only: words.only,
    rehearse: words.rehearse,
    markOnly: words.markOnly,
    onePerTool: words.onePerTool,
    units: oneOf('--program-units', words.programUnits, ['mm', 'in'] as const),
    alternate: words.alternate,
    unbacked:
      words.unbacked === undefined ? undefined : oneOf('--unbacked', words.unbacked, ['through', 'two-sided'] as const),
    parallel: oneOf('--parallel', words.parallel, ['radial', 'by-y'] as const),
    batch: whole('--batch', words.batch, 500),
  };
}

function oneOf<T extends string>(option: string, word: string, words: readonly T[]): T {
  if (!(words as readonly string[]).includes(word))
    throw badInput(`${option} ${word}`, words.join(', '), 'choose one of these');
  return word as T;
}

function whole(option: string, text: string | undefined, most: number): number | undefined {
  if (text === undefined) return undefined;
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1 || n > most)
    throw badInput(`${option} ${text}`, `a whole number from 1 to ${most}`, 'give a number');
  return n;
}
