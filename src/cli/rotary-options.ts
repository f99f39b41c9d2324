import type { Layout } from '../model/layout.ts';
import { holesOf, namesToDrill } from '../rotary/plan.ts';
import type { RotaryOptions } from '../rotary/types.ts';
import { badInput } from './failure.ts';
import { meantBy, wholeOption, wordOption } from './words.ts';

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

export function rotaryOptions(words: RotaryWords, layout: Layout): Omit<RotaryOptions, 'digest' | 'version'> {
  const style = wordOption('--cycles', words.cycles, ['machine', 'cycles', 'long-hand'] as const);
  const { only, fromHole } = words;
  const holes = layout.holes.map((hole) => hole.id);
  if (only !== undefined && holesOf(layout, only).length === 0) throw notThere('--only', only, namesToDrill(layout));
  if (fromHole !== undefined && !holes.includes(fromHole)) throw notThere('--from-hole', fromHole, holes);
  return {
    style: style === 'machine' ? undefined : style,
    fromHole,
    fromTool: wholeOption('--from-tool', words.fromTool, 9999),
    only,
    rehearse: words.rehearse,
    markOnly: words.markOnly,
    onePerTool: words.onePerTool,
    units: wordOption('--program-units', words.programUnits, ['mm', 'in'] as const),
    alternate: words.alternate,
    unbacked:
      words.unbacked === undefined
        ? undefined
        : wordOption('--unbacked', words.unbacked, ['through', 'two-sided'] as const),
    parallel: wordOption('--parallel', words.parallel, ['radial', 'by-y'] as const),
    batch: wholeOption('--batch', words.batch, 500),
  };
}

const notThere = (option: string, name: string, known: readonly string[]) =>
  badInput(`${option} ${name}: there is none of that name`, known.join(', '), meantBy(option, name, known));
