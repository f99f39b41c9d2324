import { findMachine, MACHINE_NAMES } from '../data/machines.ts';
import { completeTool, TOOL_KINDS } from '../data/tools.ts';
import { findWood, WOOD_IDS } from '../data/wood.ts';
import { type FeedAdvice, feedRange, recommend } from '../feeds/feeds.ts';
import { machineProfile } from '../jig/profile.ts';
import type { Finding } from '../model/finding.ts';
import type { Machine, ToolKind } from '../model/machine.ts';
import { feedSayings } from '../say/feeds.ts';
import { sayAll } from '../say/say.ts';
import { trimmed } from '../say/saying.ts';
import { nearest } from '../units/nearest.ts';
import type { Context } from './context.ts';
import { badInput, EXIT } from './failure.ts';
import { readProfile } from './profile.ts';
import { exitFor, sayFindings } from './report.ts';
import { lengthOption, wholeOption } from './words.ts';

interface Options {
  readonly wood: string;
  readonly tool: string;
  readonly diameter: string;
  readonly machine?: string;
  readonly depth: string;
  readonly lips?: string;
}

export async function run(_args: readonly string[], options: Options, { terminal, json }: Context): Promise<number> {
  const wood = known('--wood', options.wood, WOOD_IDS);
  const kind = known('--tool', options.tool, TOOL_KINDS) as ToolKind;
  const diameter = lengthOption('--diameter', options.diameter);
  const [least, most] = feedRange(kind);
  if (diameter < least || diameter > most)
    throw badInput(
      `--diameter ${options.diameter}`,
      `${kind} bits from ${least} to ${trimmed(most, 2)} mm`,
      'check the unit, or choose another kind of bit',
    );
  const depth = lengthOption('--depth', options.depth);
  const machine: Machine | undefined =
    options.machine === undefined
      ? undefined
      : readProfile(options.machine, MACHINE_NAMES, findMachine, machineProfile, '--machine');
  const tool = completeTool({ id: 1, kind, diameter, lips: wholeOption('--lips', options.lips, 8) });
  const { value, facts } = recommend({ wood, tool, depth, machine });
  const findings = sayAll(facts, feedSayings);
  const exit = exitFor(findings);
  if (json)
    terminal.out(
      `${JSON.stringify({ ok: exit === EXIT.done, exit, ...asJson(wood, kind, diameter, depth, machine, value, findings) }, null, 2)}\n`,
    );
  else {
    terminal.out(asText(wood, kind, diameter, depth, machine, value));
    if (!terminal.quiet) terminal.out(sayFindings(findings, terminal));
  }
  return exit;
}

function known(option: string, value: string, names: readonly string[]): string {
  if (names.includes(value)) return value;
  const meant = nearest(value, names);
  throw badInput(
    `${option} ${value}`,
    names.join(', '),
    meant === undefined ? 'choose one of these' : `${option} ${meant}`,
  );
}

const round = (n: number, digits: number): number => Number(n.toFixed(digits)) + 0;

function asJson(
  wood: string,
  kind: ToolKind,
  diameter: number,
  depth: number,
  machine: Machine | undefined,
  a: FeedAdvice,
  findings: readonly Finding[],
) {
  return {
    wood,
    tool: kind,
    diameter_mm: diameter,
    depth_mm: depth,
    machine: machine?.name ?? null,
    speed_rev_min: Math.round(a.speed),
    feed_mm_min: round(a.feed, 1),
    feed_per_rev_mm: round(a.feedPerRev, 4),
    feed_per_lip_mm: round(a.feedPerLip, 4),
    chip_mm: round(a.chipThickness, 4),
    peck_mm: a.peck === null ? null : round(a.peck, 3),
    pecks: a.pecks,
    pitch_mm: a.pitch === null ? null : round(a.pitch, 3),
    rim_m_min: round(a.cuttingSpeed, 2),
    power_w: round(a.power, 2),
    torque_n_m: round(a.torque, 4),
    thrust_n: round(a.thrust, 1),
    limits: a.limits,
    reasons: a.reasons,
    findings,
  };
}

function asText(
  wood: string,
  kind: ToolKind,
  diameter: number,
  depth: number,
  machine: Machine | undefined,
  a: FeedAdvice,
): string {
  const peck =
    a.pitch !== null
      ? `helix down ${trimmed(a.pitch, 2)} mm a turn`
      : a.peck === null
        ? 'one stroke, no pecks'
        : `pecks of ${trimmed(a.peck, 1)} mm (${a.pecks})`;
  const lines = [
    `${kind} ${trimmed(diameter, 2)} mm in ${findWood(wood)?.common ?? wood}, ${trimmed(depth, 1)} mm deep${machine ? `, on ${machine.name}` : ''}`,
    `  speed   ${Math.round(a.speed)} rev/min   (${trimmed(a.cuttingSpeed, 1)} m/min at the rim)`,
    `  feed    ${Math.round(a.feed)} mm/min    (${trimmed(a.feedPerRev, 3)} mm a revolution, ${trimmed(a.feedPerLip, 3)} mm a lip)`,
    `  peck    ${peck}`,
    `  needs   ${trimmed(a.power, 0)} W, ${trimmed(a.torque, 3)} N m, about ${trimmed(a.thrust, 0)} N of thrust`,
    'Why:',
    ...a.reasons.map((r) => `  ${r.what}: ${r.value}: ${r.because} [${r.source}]`),
  ];
  return `${lines.join('\n')}\n`;
}
