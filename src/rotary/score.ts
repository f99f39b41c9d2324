import { recommend } from '../feeds/feeds.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { type Mm, toDeg } from '../units/scalar.ts';
import type { Heights } from './check.ts';
import type { Pass } from './passes.ts';
import { signFor } from './place.ts';
import type { Operation, Step } from './types.ts';

/** Half an arm of a cross on the tape. */
const ARM: Mm = 4;
/** How deep a V bit scores: through tape, hardly into the skin. A pen wants its own spring. */
const SCORE_DEPTH: Mm = 0.2;
/** mm/min on the skin. */
const SCORE_FEED = 600;

/**
 * The honest rehearsal, on tape: a cross at every hole; the strainer line with a foot at its top that points the way
 * angles grow (a mirrored drum shows); and a tick one full turn on, which falls on the line when A turns true.
 */
export function scoreSteps(
  jig: Jig,
  layout: Layout,
  passes: readonly Pass[],
  h: Heights,
  open: readonly Step[],
): Step[] {
  const { machine } = jig.rotary;
  const sign = signFor(jig);
  const vbit = jig.rotary.tools.find((t) => t.kind === 'v-bit');
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
  // At the ends of a wound axis an arm is cut short.
  const { rotary } = machine;
  const kept = (a: number): number => (rotary === 'endless' ? a : Math.min(Math.max(a, rotary[0]), rotary[1]));
  const along = (a: number, from: Mm, to: Mm): Step[] => [
    { kind: 'rapid', to: { a } },
    { kind: 'rapid', to: { x: from } },
    ...stroke(h, depth, { kind: 'feed', to: { x: to }, feed: SCORE_FEED }),
  ];
  const across = (x: Mm, from: number, to: number): Step[] => [
    { kind: 'rapid', to: { a: kept(from) } },
    { kind: 'rapid', to: { x } },
    // Alone on its line A is fed in degrees a minute: v 180 / (pi R) for v on the skin.
    ...stroke(h, depth, { kind: 'feed', to: { a: kept(to) }, feed: SCORE_FEED * perMm }),
  ];
  const near = machine.fixture.chuck + 5;
  const far = layout.depth - machine.fixture.tailstock - 5;
  const top = jig.rotary.datum === 'bottom' ? far : near;
  steps.push({ kind: 'comment', text: 'strainer line, its foot at the top edge points the way angles grow' });
  if (kept(0) === 0) steps.push(...along(0, near, far), ...across(top, 0, sign * 3 * ARM * perMm));
  for (const op of first.values()) {
    steps.push({ kind: 'comment', text: `${op.hole.id}: cross` });
    steps.push(...along(op.a, op.x - ARM, op.x + ARM));
    steps.push(...across(op.x, op.a - ARM * perMm, op.a + ARM * perMm));
  }
  if (rotary === 'endless') {
    const middle = (near + far) / 2;
    steps.push({ kind: 'comment', text: 'one full turn on: this tick falls on the strainer line' });
    steps.push(...across(middle, sign * 360 - ARM * perMm, sign * 360 + ARM * perMm));
  }
  return steps;
}

function stroke(h: Heights, depth: Mm, line: Step): Step[] {
  return [
    { kind: 'rapid', to: { z: h.approach } },
    { kind: 'feed', to: { z: -depth }, feed: SCORE_FEED / 2 },
    line,
    { kind: 'rapid', to: { z: h.clearance } },
  ];
}
