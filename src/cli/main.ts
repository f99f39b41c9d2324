import { Command, CommanderError } from 'commander';
import { MOST_LINES } from '../dryrun/endless.ts';
import { nearest } from '../units/nearest.ts';
import type { Context } from './context.ts';
import { BadInput, type Complaint, EXIT, sentence } from './failure.ts';
import { type Terminal, terminal } from './terminal.ts';
import { VERSION } from './version.ts';

type Options = Readonly<Record<string, unknown>>;
type Action = (args: readonly string[], options: Options, context: Context) => Promise<number>;
/** A command's module; the options it declares are what the command line was told to read. */
type CommandModule = { readonly run: (args: readonly string[], options: never, context: Context) => Promise<number> };

/**
 * The command line: arguments, help, exit status. Each command is a module of its own, loaded only when it is called,
 * so that help and short commands start at once. Gives the exit status; never ends the process itself.
 */
export async function main(argv: readonly string[]): Promise<number> {
  const json = argv.includes('--json');
  const t = terminal(argv.includes('--quiet'));
  let status: number = EXIT.done;
  const program = build(async (action, args, options) => {
    status = await action(args, options, { terminal: t, json });
  });
  try {
    if (argv.length === 0) {
      t.err(program.helpInformation());
      return EXIT.badInput;
    }
    const [help, about] = argv;
    if (help === 'help' && /^(?!help$)[^-]/.test(about ?? '') && !program.commands.some((c) => c.name() === about))
      program.error(`unknown command '${about}'`, { code: 'commander.unknownCommand', exitCode: EXIT.badInput });
    await program.parseAsync([...argv], { from: 'user' });
    return status;
  } catch (error) {
    const wrong = error instanceof CommanderError && error.exitCode !== 0;
    return failed(wrong ? new BadInput([complaintOf(error, program, argv)]) : error, t, json);
  }
}

/** What is wrong with the words of the command line, with the nearest command or option that there is. */
function complaintOf(error: CommanderError, program: Command, argv: readonly string[]): Complaint {
  const found = error.message.replace(/^error: |\.$/g, '');
  const command = program.commands.find((c) => c.name() === argv.find((word) => !word.startsWith('-')));
  const help = `lugwright ${command === undefined ? '' : `${command.name()} `}--help`;
  const options = [...(command ?? program).options.flatMap((o) => o.long ?? []), '--help'];
  const names = (found: string, known: readonly string[]): Complaint => {
    const bare = new Map(known.map((name) => [name.replace(/^-+/, ''), name]));
    const given = /'(.*)'/.exec(found)?.[1]?.replace(/^-+|=.*$/g, '') ?? '';
    const meant = bare.get(nearest(given, [...bare.keys()]) ?? '');
    // Right in itself, and refused: it stands before the command.
    if (bare.has(given)) return { found, allowed: 'options after the command', try: `write ${meant} at the end` };
    return { found, allowed: known.join(', '), try: meant === undefined ? help : `${meant}, or see ${help}` };
  };
  if (error.code === 'commander.unknownCommand')
    return names(found, [...program.commands.map((c) => c.name()), 'help']);
  if (error.code === 'commander.unknownOption') return names(found, options);
  // An option that is missing may be there under another name.
  const strange = argv.find((word) => /^--./.test(word) && !options.includes(word.replace(/=.*$/, '')));
  if (error.code === 'commander.missingMandatoryOptionValue' && strange !== undefined)
    return names(`unknown option '${strange}'`, options);
  return { found, allowed: `what ${help} shows`, try: help };
}

function failed(error: unknown, t: Terminal, json: boolean): number {
  if (error instanceof CommanderError) return EXIT.done;
  if (error instanceof BadInput) {
    if (json) t.out(`${JSON.stringify({ ok: false, exit: EXIT.badInput, errors: error.complaints }, null, 2)}\n`);
    for (const c of error.complaints.slice(0, 20)) t.err(`${sentence(c)}\n`);
    if (error.complaints.length > 20) t.err(`and ${error.complaints.length - 20} more.\n`);
    return EXIT.badInput;
  }
  const text = error instanceof Error ? error.message : String(error);
  if (json) t.out(`${JSON.stringify({ ok: false, exit: EXIT.ownFault, errors: [{ found: text }] }, null, 2)}\n`);
  t.err(
    `This is a fault of lugwright itself, not of your file: ${text}. Nothing was written. Try the same command with LUGWRIGHT_TRACE=1 and report what it prints, with the jig file.\n`,
  );
  if (process.env['LUGWRIGHT_TRACE'] && error instanceof Error) t.err(`${error.stack}\n`);
  return EXIT.ownFault;
}

function build(run: (action: Action, args: readonly string[], options: Options) => Promise<void>): Command {
  const program = new Command('lugwright')
    .description('From a shell and a bag of drum hardware to drilled holes in the right place.')
    .version(VERSION, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'show help')
    .helpCommand('help [command]', 'show help for a command')
    .exitOverride()
    // Told in this program's own words.
    .configureOutput({ outputError: () => undefined })
    .showSuggestionAfterError(false);
  const add = (name: string, about: string, example: string, load: () => Promise<CommandModule>): Command => {
    const command = program
      .command(name)
      .description(about)
      .option('--json', 'machine-readable on standard output, nothing else there')
      .option('--quiet', 'no progress and no summary on standard error')
      .addHelpText('after', `\nExample:\n  ${example}`)
      .exitOverride()
      .showSuggestionAfterError(false);
    command.action(async (...all: unknown[]) => {
      const args = all.slice(0, -2) as string[];
      await run((await load()).run as Action, args, command.opts());
    });
    return command;
  };

  add(
    'new <file>',
    'ask for the main measurements (or take them as options) and write a commented jig file',
    'lugwright new my-snare.yaml --name "My snare" --diameter "14 in" --depth "6.5 in" --wall 7mm --lugs 10',
    () => import('./new.ts'),
  )
    .option('--name <text>', 'name of the build')
    .option('--diameter <length>', 'outside diameter')
    .option('--circumference <length>', 'outside girth, instead of the diameter')
    .option('--depth <length>', 'depth, edge to edge')
    .option('--wall <length>', 'wall thickness')
    .option('--lugs <count>', 'lugs in a row')
    .option('--kind <kind>', 'snare, tom, floor-tom or bass', 'tom')
    .option('--units <units>', 'mm or in', 'mm')
    .option('--force', 'replace a file that is there');
  add(
    'check <jig>',
    'will it go together? prints every finding, drills nothing',
    'lugwright check jigs/kettle-row-wrong.yaml --suggest',
    () => import('./check.ts'),
  ).option('--suggest', 'propose the smallest changes that clear every stop, proven by checking again');
  add(
    'make <jig>',
    'the main job: plan, check, wrap template, collar, rotary program, dry run and bench page',
    'lugwright make jigs/kettle-row-snare.yaml',
    () => import('./make.ts'),
  )
    .option('--out <folder>', "the set's own folder (default: output/<name of the jig>)")
    .option('--dxf <flavour>', 'polylines, or plain (lines, arcs and circles only, for old machines)', 'polylines')
    .option('--solid', 'also collar.3mf: the assembled collar as a solid')
    .option('--anyway', 'write the rotary program even when a finding says stop; it then begins with a halt')
    .option(
      '--printer-measured <XxY>',
      'what the 100 mm rulers on page 1 of wrap.pdf measured across and up, e.g. 99.4x99.8',
    )
    .option('--cycles <how>', 'drilling moves: as the machine says, cycles, or long-hand', 'machine')
    .option('--from-hole <id>', 'begin the rotary program at this hole')
    .option('--from-tool <number>', 'with this bit')
    .option('--mark-only', 'score crosses on tape instead of drilling: the honest rehearsal')
    .option('--one-per-tool', 'besides rotary.nc, one program for each bit')
    .option('--program-units <units>', 'mm or in', 'mm')
    .option('--alternate', 'go to the far side after every hole')
    .option('--unbacked <how>', 'no backing: through, or two-sided')
    .option('--parallel <how>', 'parallel screws: radial holes, or by-y', 'radial')
    .option('--only <fitting>', 'only this fitting in the rotary program')
    .option('--rehearse', 'rotary program with the spindle off, raised above the shell')
    .option('--batch <count>', 'shells drilled one after another by the rotary program');
  add(
    'dry-run <program>',
    'run any drilling program against a jig: moves, time, clashes, holes found against planned',
    'lugwright dry-run output/kettle-row-snare-14-x-6-1-2/rotary.nc --jig jigs/kettle-row-snare.yaml',
    () => import('./dry-run.ts'),
  )
    .requiredOption('--jig <jig>', 'the jig file to judge it by')
    .option('--trace', 'print every move')
    .option('--pictures <folder>', 'draw what is gone, the way of the work, time by tool and a section, as SVG')
    .option('--section <hole>', 'the hole to cut through in the pictures')
    .option('--partial', 'the program drills only part of the plan: holes left out are no fault')
    .option('--block-delete', 'skip lines that begin with /')
    .option(
      '--most-lines <count>',
      'read no further than so many lines: for programs that never end',
      String(MOST_LINES),
    );
  add(
    'feeds',
    'speed, feed and peck for a bit in a wood, with the reason for each',
    'lugwright feeds --wood sugar-maple --tool brad-point --diameter 6mm --machine rotary-slow',
    () => import('./feeds.ts'),
  )
    .requiredOption('--wood <id>', 'species or board')
    .requiredOption('--tool <kind>', 'twist, brad-point, spur, stepped, end-mill or v-bit')
    .requiredOption('--diameter <length>', 'cutting diameter')
    .option('--machine <name>', 'built-in machine or a YAML profile')
    .option('--depth <length>', 'depth of the hole', '8 mm')
    .option('--lips <count>', 'cutting lips');
  add(
    'measured <jig> <readings>',
    'compare caliper readings of a drilled shell with the plan: what goes on, what to open, turn or plug',
    'lugwright measured jigs/kettle-row-snare.yaml readings.csv',
    () => import('./measured.ts'),
  ).option('--picture <file>', 'also draw plan against measured, as SVG');
  add(
    'coupon',
    'a kerf and fit test piece; --reading turns its measurement into kerf',
    'lugwright coupon --sheet laser-600x400 --material birch-ply-6 --out coupon',
    () => import('./coupon.ts'),
  )
    .requiredOption('--sheet <name>', 'built-in sheet or a YAML profile')
    .requiredOption('--material <name>', 'built-in material or a YAML profile')
    .option('--reading <length>', 'all slips side by side, one caliper reading')
    .option('--slot <number>', 'the narrowest numbered slot that a slip slides into by hand')
    .option('--thickness <length>', 'measured thickness of the sheet')
    .option('--profile <file>', "the builder's own material profile to keep the result in")
    .option('--dxf <flavour>', 'polylines, or plain (lines, arcs and circles only, for old machines)', 'polylines')
    .option('--out <folder>', 'folder for the coupon files', 'coupon');
  add(
    'schema',
    'print the JSON Schema of the jig file',
    'lugwright schema > jig.schema.json',
    () => import('./schema.ts'),
  ).option('--profile <kind>', 'of a profile instead: sheet, material, paper, machine or accuracy');
  return program;
}
