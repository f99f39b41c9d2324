import { acrossAngle } from '../geometry/frames.ts';
import { asNote, fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout, Placed } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import type { Staged } from '../model/stage.ts';
import { checkNumbers, checkSwing, type Heights, heightsFor } from './check.ts';
import { planOperations } from './operations.ts';
import { type Pass, planPasses } from './passes.ts';
import { isParallel, signFor } from './place.ts';
import { programSteps } from './program.ts';
import { setupSheet } from './setup.ts';
import { programText } from './text.ts';
import { programSeconds } from './time.ts';
import type { Operation, RotaryOptions, RotaryPlan, Step } from './types.ts';

export type { RotaryOptions, RotaryPlan } from './types.ts';

/**
 * The drilling program for a machine with a rotary axis. Facts of level `stop` mean that the program should be
 * withheld; when the builder never asked for one they come as notes. A draft until it was run dry and rehearsed.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @param options digest and version for the header, and how to drill
 * @returns the program text in mm and degrees with its setup; `made` is false when there is nothing that could be run
 * @throws never
 * @source NISTIR 6556 (RS274/NGC, version 3); depths from cylinder-cylinder intersection (textbook)
 */
export function planRotary(jig: Jig, layout: Layout, options: RotaryOptions): Staged<RotaryPlan> {
  const h = heightsFor(jig.rotary.runout);
  const facts: Fact[] = [...checkSwing(jig, h), ...checkNumbers(jig, options.units ?? 'mm')];
  const picked = pickHoles(layout, options);
  facts.push(...picked.facts);
  const planned = planOperations(jig, layout, picked.holes, h, options);
  facts.push(...planned.facts, ...aboutBacking(jig, options), ...aboutParallel(jig, picked.holes, options));
  const { passes } = planPasses(planned.operations, jig.rotary.machine, layout.depth, options.alternate === true);
  const resumed = resume(passes, options);
  facts.push(...resumed.facts);
  const fits = !facts.some((f) => f.level === 'stop' && PREVENTS.has(f.id));
  const made = fits && !planned.missing && resumed.passes.length > 0;
  const value = compose(jig, layout, resumed.passes, h, options, made);
  const tamed = jig.rotary.asked ? facts : facts.map((f) => (NAMED.has(f.id) ? f : asNote(f)));
  return { value, facts: tamed.map((f) => withLine(jig, layout, f)) };
}

/** What the caller named and is not there: a stop even where nobody asked for a program before. */
const NAMED: ReadonlySet<string> = new Set(['no-such-fitting', 'no-such-hole']);
/** Findings after which nothing can be run at all. */
const PREVENTS: ReadonlySet<string> = new Set(['shell-over-swing', 'no-room-above', ...NAMED]);

function withLine(jig: Jig, layout: Layout, f: Fact): Fact {
  const placed = layout.placed.find((p) => p.id === f.at || p.holes.some((hole) => hole.id === f.at));
  const line = placed ? jig.lines[placed.key] : (toolLine(jig, f.at) ?? jig.lines['rotary']);
  return line === undefined ? f : { ...f, line };
}

/** Line of a bit in the list, for findings at `tool 3`. */
function toolLine(jig: Jig, at: string): number | undefined {
  const index = jig.rotary.tools.findIndex((t) => at === `tool ${t.id}`);
  return index < 0 ? undefined : (jig.lines[`rotary.tools.${index}`] ?? jig.lines['rotary.tools']);
}

function pickHoles(layout: Layout, o: RotaryOptions): { holes: readonly Hole[]; facts: Fact[] } {
  if (o.only === undefined) return { holes: layout.holes, facts: [] };
  const only = o.only;
  const holes = holesOf(layout, only);
  if (holes.length > 0) return { holes, facts: [] };
  const known = namesToDrill(layout).join(', ');
  return { holes, facts: [fact('stop', 'no-such-fitting', only, null, null, '', { known })] };
}

/** The holes of the row, fitting, role or hole of that name; none when there is none. */
export const holesOf = (layout: Layout, name: string): readonly Hole[] => [
  ...new Set([
    ...layout.placed.filter((p) => [p.id, p.group, p.role, spokenOf(p)].includes(name)).flatMap((p) => p.holes),
    ...layout.holes.filter((hole) => hole.id === name),
  ]),
];

/** Rows and fittings that `only` may name; holes and roles besides. */
export const namesToDrill = (layout: Layout): readonly string[] => [
  ...new Set([...layout.placed.map(spokenOf), ...layout.placed.map((p) => p.id)]),
];

/** What findings call the row or fitting: `top-lugs`, `vent`. */
const spokenOf = (p: Placed): string => (p.role === 'lug' ? `${p.group}-lugs` : p.group);

/** From the first visit to the hole (by the asked bit) to the end: later passes are done whole. */
function resume(passes: readonly Pass[], o: RotaryOptions): { passes: readonly Pass[]; facts: Fact[] } {
  if (o.fromHole === undefined && o.fromTool === undefined) return { passes, facts: [] };
  for (let p = 0; p < passes.length; p++) {
    const pass = passes[p]!;
    if (o.fromTool !== undefined && pass.tool.id !== o.fromTool) continue;
    const first = o.fromHole === undefined ? 0 : pass.operations.findIndex((op) => op.hole.id === o.fromHole);
    if (first < 0) continue;
    return { passes: [{ ...pass, operations: pass.operations.slice(first) }, ...passes.slice(p + 1)], facts: [] };
  }
  const visits = passes.filter((p) => o.fromHole === undefined || p.operations.some((op) => op.hole.id === o.fromHole));
  // The hole is there, so it is the bit that never goes to it.
  const byBit = o.fromTool !== undefined && visits.length > 0;
  const holes = passes.flatMap((p) => p.operations.map((op) => op.hole.id));
  const known = [...new Set(byBit ? visits.map((p) => `T${p.tool.id}`) : holes)].slice(0, 12).join(', ');
  const bit = byBit ? { bit: `T${o.fromTool}` } : {};
  const at = o.fromHole ?? `tool ${o.fromTool}`;
  return { passes: [], facts: [fact('stop', 'no-such-hole', at, null, null, '', { known, ...bit })] };
}

function aboutBacking(jig: Jig, o: RotaryOptions): Fact[] {
  if (jig.rotary.backing > 0 || o.markOnly === true || o.rehearse === true) return [];
  return [fact('care', 'unbacked', 'shell', 0, null, 'mm', { way: o.unbacked ?? 'through' })];
}

/** Screws that stand parallel and off their fitting's line: what radial holes do to them, or what parallel ones ask. */
function aboutParallel(jig: Jig, holes: readonly Hole[], o: RotaryOptions): Fact[] {
  const { radius, wall } = jig.shell;
  let worst: Hole | undefined;
  for (const hole of holes) {
    if (isParallel(hole) && Math.abs(hole.across) > Math.abs(worst?.across ?? 0)) worst = hole;
  }
  if (!worst) return [];
  const across = Math.abs(worst.across);
  const id = o.parallel === 'by-y' && jig.rotary.machine.hasY ? 'drilled-parallel' : 'drilled-radially';
  const about = { across, walk: (across * wall) / radius };
  return [fact('note', id, worst.fitting, acrossAngle(across, radius), null, 'deg', about)];
}

function compose(
  jig: Jig,
  layout: Layout,
  passes: readonly Pass[],
  h: Heights,
  options: RotaryOptions,
  made: boolean,
): RotaryPlan {
  const { machine } = jig.rotary;
  const operations: readonly Operation[] = passes.flatMap((p) => p.operations);
  const tools: readonly Tool[] = [...new Map(passes.map((p) => [p.tool.id, p.tool])).values()];
  const units = options.units ?? 'mm';
  const style = options.style ?? (machine.understands.cycles ? 'cycles' : 'long-hand');
  const write = (steps: readonly Step[]): string => programText(steps, { units, style, machine });
  const steps = made ? programSteps(jig, layout, passes, h, options) : [];
  const programs =
    made && options.onePerTool === true
      ? passes.map((p) => ({ tool: p.tool.id, text: write(programSteps(jig, layout, [p], h, options)) }))
      : [];
  return {
    text: made ? write(steps) : '',
    made,
    programs,
    operations,
    tools,
    order: finishing(operations),
    seconds: made ? programSeconds(steps, machine) : 0,
    setup: setupSheet(jig, layout, passes, h, signFor(jig)),
  };
}

/** Hole ids by the time of their last operation. */
function finishing(operations: readonly Operation[]): string[] {
  const last = new Map<string, number>();
  for (let i = 0; i < operations.length; i++) last.set(operations[i]!.hole.id, i);
  return [...last].sort((p, q) => p[1] - q[1]).map(([id]) => id);
}
