import { existsSync } from 'node:fs';
import { createInterface } from 'node:readline/promises';
import { resolveJig } from '../jig/resolve.ts';
import { parseText } from '../jig/text.ts';
import { KINDS, newJigText } from '../jobs/new-jig.ts';
import type { Context } from './context.ts';
import { BadInput, badInput, EXIT } from './failure.ts';
import { wordOption } from './words.ts';
import { writePlain } from './write-file.ts';

type Options = Readonly<
  Partial<Record<'name' | 'diameter' | 'circumference' | 'depth' | 'wall' | 'lugs' | 'kind' | 'units', string>>
> & { readonly force?: boolean };

const QUESTIONS = [
  ['name', 'What is the build called?'],
  ['diameter', 'Outside diameter, e.g. 355 mm or 14 in (leave empty to give the girth instead)?'],
  ['circumference', 'Outside girth by tape, e.g. 1115 mm?'],
  ['depth', 'Depth, edge to edge, e.g. 165 mm or 6-1/2 in?'],
  ['wall', 'Wall thickness, e.g. 6.6 mm?'],
  ['lugs', 'Lugs in a row?'],
] as const;

/** Writes a commented jig file. Asks for what the options leave out when there is somebody at a terminal to ask. */
export async function run(args: readonly string[], options: Options, { terminal, json }: Context): Promise<number> {
  const file = args[0] as string;
  if (file !== '-' && existsSync(file) && options.force !== true)
    throw badInput('there is a file already', 'a new name', 'choose another name, or --force to replace it', file);
  const given = await answers(options);
  const kind = wordOption('--kind', given.kind ?? 'tom', KINDS);
  const text = newJigText({
    name: need('--name', given.name),
    kind,
    units: wordOption('--units', given.units ?? 'mm', ['mm', 'in'] as const),
    girth: given.diameter
      ? { key: 'diameter', value: given.diameter }
      : { key: 'circumference', value: need('--diameter or --circumference', given.circumference) },
    depth: need('--depth', given.depth),
    wall: need('--wall', given.wall),
    lugs: wholeLugs(need('--lugs', given.lugs)),
  });
  refuseUnsound(file, text);
  if (file === '-') {
    terminal.out(text);
    return EXIT.done;
  }
  writePlain(file, text, options.force === true);
  if (json) terminal.out(`${JSON.stringify({ ok: true, exit: EXIT.done, file })}\n`);
  else if (!terminal.quiet)
    terminal.err(`Wrote ${file}. Put your own figures where it says MEASURE, then: lugwright check ${file}\n`);
  return EXIT.done;
}

async function answers(options: Options): Promise<Options> {
  const missing = QUESTIONS.filter(
    ([key]) =>
      options[key] === undefined &&
      !(key === 'circumference' && options.diameter) &&
      !(key === 'diameter' && options.circumference),
  );
  if (missing.length === 0 || process.stdin.isTTY !== true) return options;
  const asked: Record<string, string> = {};
  const ask = createInterface({ input: process.stdin, output: process.stderr });
  try {
    for (const [key, question] of missing) {
      if (key === 'circumference' && asked['diameter']) continue;
      const answer = (await ask.question(`${question} `)).trim();
      if (answer !== '') asked[key] = answer;
    }
  } finally {
    ask.close();
  }
  return { ...options, ...asked };
}

function need(option: string, value: string | undefined): string {
  if (value === undefined || value.trim() === '')
    throw badInput(
      `no ${option}`,
      'name, diameter or circumference, depth, wall and lugs',
      `give ${option}, or run the command at a terminal to be asked`,
    );
  return value;
}

function wholeLugs(text: string): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 2 || n > 64)
    throw badInput(`--lugs ${text}`, 'a whole number from 2 to 64', 'count the lugs of one row');
  return n;
}

/** What was typed must read back as a jig, or nothing is written. */
function refuseUnsound(file: string, text: string): void {
  const parsed = parseText(text);
  if (!parsed.ok) throw new BadInput(parsed.issues.map((i) => ({ file, ...i })));
  const resolved = resolveJig(parsed.raw);
  if (!resolved.ok)
    throw new BadInput(
      resolved.issues.map((i) => ({ key: parsed.place(i).key, found: i.found, allowed: i.allowed, try: i.try })),
    );
}
