import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Machine } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Heights } from './check.ts';
import { fixed } from './number.ts';
import type { Pass } from './passes.ts';
import { signFor } from './place.ts';
import { printedWithin, stepsWithin } from './resolution.ts';
import type { RotaryOptions, Step } from './types.ts';

/** Three decimals, rounded up: an error is never told smaller than it is. */
const um = (v: Mm): string => `${Number(fixed(Math.ceil(1000 * v - tolerance.noise) / 1000, 3))} mm`;
const mm = (v: number): string => `${Number(fixed(v, 3))} mm`;

/** What the operator must know before the first move: whose program, which zero, which bits, what to look out for. */
export function headerSteps(jig: Jig, layout: Layout, passes: readonly Pass[], h: Heights, o: RotaryOptions): Step[] {
  const { machine, datum, backing, runout } = jig.rotary;
  const tools = new Map(passes.map((p) => [p.tool.id, p]));
  const turn = signFor(jig) === 1 ? 'GROWS' : 'FALLS';
  const lines = [
    `LUGWRIGHT ${o.version} ROTARY PROGRAM${purpose(o)}`,
    `JIG ${jig.name}`,
    `PLAN ${o.digest}`,
    `STOCK shell ${mm(2 * layout.radius)} DIAMETER, ${mm(layout.depth)} DEEP, WALL ${mm(layout.wall)}, ${jig.shell.wood ?? 'wood not named'}`,
    `MACHINE ${machine.name}, A ${machine.a === 'iso' ? 'AS ISO 841' : 'WIRED THE OTHER WAY'}`,
    `ZERO X0 ${datum} edge of the shell, X grows into it. ${machine.hasY ? 'Y0' : 'The bit stands'} over the axis`,
    `ZERO Z0 outside skin at its high spot, ${machine.toolChange === 'hand' ? 'touched off with every bit' : 'lengths of the bits from the tool table'}`,
    `ZERO A0 strainer line under the bit. A ${turn} as the shell angle grows, left to right seen from outside, top up`,
    `BACKING ${backing > 0 ? `${mm(backing)} of scrap inside, tight to the wall` : 'NONE: EXPECT TEAR-OUT INSIDE'}. RUNOUT ALLOWED ${mm(runout)}`,
    `CLEARANCE Z ${mm(h.clearance)}`,
    `NUMBERS absolute, ${machine.understands.decimals} decimals: holes are printed within ${um(printedWithin(machine, o.units ?? 'mm', layout.radius))} of their places`,
    ...aboutSteps(machine, passes, layout.radius),
    ...[...tools.values()].map(({ tool, operations }) => {
      const deep = Math.max(...operations.map((op) => -op.bottom));
      const { speed, feed } = operations[0]!;
      const rates = `${Math.round(speed)} rev/min, ${Math.round(feed)} mm/min`;
      return `TOOL T${tool.id} ${tool.kind} ${mm(tool.diameter)}, ${rates}, reach ${mm(Math.ceil(deep) + 2)} or more`;
    }),
    'CAUTION draft until dry run and rehearsed. Spindle off first, one step at a time, hand on the stop',
    'CAUTION hold the shell from inside, never on its bearing edges. Dust extraction, mask, eyes, ears',
  ];
  return lines.map((text) => ({ kind: 'comment', text }));
}

function aboutSteps(machine: Machine, passes: readonly Pass[], radius: Mm): string[] {
  const { stepsPerTurn } = machine;
  if (stepsPerTurn === undefined) return [];
  const angles = passes.flatMap((p) => p.operations.map((op) => op.a));
  const off = um(stepsWithin(angles, stepsPerTurn, radius));
  return [
    `STEPS A ${stepsPerTurn} a turn: the motor stands within ${off} of every hole along the skin; nothing adds up`,
  ];
}

function purpose(o: RotaryOptions): string {
  const parts = [
    (o.batch ?? 1) > 1 ? `${o.batch} SHELLS` : '',
    o.markOnly === true ? 'MARKING ONLY' : o.rehearse === true ? 'REHEARSAL, SPINDLE OFF' : '',
    o.fromHole === undefined ? '' : `FROM ${o.fromHole}`,
    o.only === undefined ? '' : `ONLY ${o.only}`,
  ].filter((p) => p !== '');
  return parts.length === 0 ? '' : `, ${parts.join(', ')}`;
}
