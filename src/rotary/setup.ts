import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Heights } from './check.ts';
import type { Pass } from './passes.ts';
import type { SetupSheet } from './types.ts';

/** Everything the setup sheet says and draws, as data. */
export function setupSheet(jig: Jig, layout: Layout, passes: readonly Pass[], h: Heights, sign: 1 | -1): SetupSheet {
  const { machine, datum, backing, runout } = jig.rotary;
  const { radius, inside, depth, wall } = layout;
  return {
    machine,
    datum,
    sign,
    shell: { radius, inside, depth, wall },
    backing,
    runout,
    clearance: h.clearance,
    approach: h.approach,
    tools: passes.map(({ tool, operations }) => ({
      tool,
      use: [...new Set(operations.map((op) => op.kind))].join(', '),
      speed: operations[0]?.speed ?? 0,
      feed: operations[0]?.feed ?? 0,
      deepest: Math.max(0, ...operations.map((op) => -op.bottom)),
      holes: operations.length,
    })),
    steps: [
      machine.fixture.hold === 'plates'
        ? `Hold the shell from inside on plates, ${datum} edge at X0; nothing clamps on a bearing edge.`
        : `Hold the shell between cones with the tailstock, ${datum} edge at X0; pad them where they touch the edges.`,
      ...(machine.fixture.keepOut ?? []).map(
        (z) => `Nothing goes down from X ${trimmed(z.from, 1)} to X ${trimmed(z.to, 1)} mm: no hole is drilled there.`,
      ),
      backing > 0
        ? 'Backing blocks inside, tight to the wall under every hole.'
        : 'No backing: the inside will tear out; tape it, or stop when the point shows and finish from inside.',
      'Find the high spot of the skin with an indicator; note the runout.',
      'X0 at the datum edge, Y0 over the axis, A0 with the strainer line under the bit.',
      'Tape an arrow beside the strainer line pointing the way angles grow: left to right seen from outside, top up.',
      'Touch off Z0 on the high spot with every bit.',
      'Rehearse with the spindle off, then mark on tape, then drill.',
    ],
  };
}
