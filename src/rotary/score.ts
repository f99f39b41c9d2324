import { recommend } from '../feeds/feeds.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import { type Mm, toDeg } from '../units/scalar.ts';
import type { Heights } from './check.ts';
import type { Pass } from './passes.ts';
import { signFor } from './place.ts';
import { freeSpans, type Span, withinSpan } from './room.ts';
import type { Operation, Step } from './types.ts';

/** Half an arm of a cross on the tape. */
const ARM: Mm = 4;
/** How deep a V bit scores: through tape, hardly into the skin. A pen wants its own spring (judgement, no source). */
const SCORE_DEPTH: Mm = 0.2;
/** mm/min on the skin (judgement, no source). */
const SCORE_FEED = 600;
/** The strainer line ends so far short of what no bit may go over. */
const END_GAP: Mm = 5;

/** A V bit if there is one; else the number of some bit stands for a pen. */
export const scorerOf = (tools: readonly Tool[]): Tool | undefined => tools.find((t) => t.kind === 'v-bit') ?? tools[0];

/**
 * The honest rehearsal, on tape: a cross at every hole; the strainer line with a foot at its top that points the way
 * angles grow (a mirrored drum shows); and a tick one full turn on, which falls on the line when A turns true.
 */
export function scoreSteps(
  jig: Jig,
  layout: Layout,
  passes: readonly Pass[],
  h: Heights,
  tool: Tool,
  open: readonly Step[],
): Step[] {
  const { machine } = jig.rotary;
  const sign = signFor(jig);
  const vbit = tool.kind === 'v-bit' ? tool : undefined;
  // A pen is touched off with its spring pressed in by the runout: it writes at Z0 and never has to cut.
  const depth = vbit ? SCORE_DEPTH : 0;
  const steps: Step[] = [
    {
      kind: 'comment',
      text: `MARKING ONLY: TAPE ROUND THE SHELL, ${vbit ? 'V BIT' : 'SPRUNG PEN, PRESSED IN BY THE RUNOUT AT Z0,'} IN THE COLLET`,
    },
    ...open,
  ];
  if (vbit) {
    const { speed } = recommend({ wood: jig.shell.wood, tool: vbit, depth: SCORE_DEPTH, machine }).value;
    steps.push({ kind: 'spindle', speed }, { kind: 'dwell', seconds: machine.spindle.seconds });
  }
  const first = new Map<string, Operation>();
  for (const op of passes.flatMap((p) => p.operations)) if (!first.has(op.hole.id)) first.set(op.hole.id, op);
  const perMm = toDeg(1 / layout.radius);
  const feed = Math.min(SCORE_FEED, machine.feed, machine.rapid.a / perMm);
  const stroke = (line: Step): Step[] => [
    { kind: 'rapid', to: { z: h.approach } },
    { kind: 'feed', to: { z: -depth }, feed: Math.min(feed / 2, machine.rapid.z) },
    line,
    { kind: 'rapid', to: { z: h.clearance } },
  ];
  // At the ends of a wound axis an arm is cut short.
  const { rotary } = machine;
  const kept = (a: number): number => (rotary === 'endless' ? a : Math.min(Math.max(a, rotary[0]), rotary[1]));
  const along = (a: number, from: Mm, to: Mm): Step[] => [
    { kind: 'rapid', to: { a } },
    { kind: 'rapid', to: { x: from } },
    ...stroke({ kind: 'feed', to: { x: to }, feed }),
  ];
  const across = (x: Mm, from: number, to: number): Step[] => [
    { kind: 'rapid', to: { a: kept(from) } },
    { kind: 'rapid', to: { x } },
    // Alone on its line A is fed in degrees a minute: v 180 / (pi R) for v on the skin.
    ...stroke({ kind: 'feed', to: { a: kept(to) }, feed: feed * perMm }),
  ];
  const spans = freeSpans(jig, tool.diameter / 2);
  const inner = (s: Span): Span => ({ from: s.from + END_GAP, to: s.to - END_GAP });
  const long = spans.map(inner).filter((s) => s.to - s.from >= ARM);
  if (kept(0) === 0 && long.length > 0) {
    const top = jig.rotary.datum === 'bottom' ? long[long.length - 1]!.to : long[0]!.from;
    steps.push({ kind: 'comment', text: 'strainer line, its foot at the top edge points the way angles grow' });
    for (const s of long) steps.push(...along(0, s.from, s.to));
    steps.push(...across(top, 0, sign * 3 * ARM * perMm));
  }
  for (const op of first.values()) {
    steps.push({ kind: 'comment', text: `${op.hole.id}: cross` });
    const arms = withinSpan(spans, op.x, op.x - ARM, op.x + ARM);
    if (arms) steps.push(...along(op.a, arms.from, arms.to));
    steps.push(...across(op.x, op.a - ARM * perMm, op.a + ARM * perMm));
  }
  if (rotary === 'endless' && long.length > 0) {
    const middle = (long[0]!.from + long[0]!.to) / 2;
    steps.push({ kind: 'comment', text: 'one full turn on: this tick falls on the strainer line' });
    steps.push(...across(middle, sign * 360 - ARM * perMm, sign * 360 + ARM * perMm));
  }
  return steps;
}
