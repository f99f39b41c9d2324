import { fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole } from '../model/layout.ts';
import type { Machine, Tool } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { insideAt } from './depth.ts';
import { printedWithin } from './resolution.ts';

/** Heights of the tip above the high spot: where it goes sideways, and where feeding begins. */
export interface Heights {
  readonly clearance: Mm;
  readonly approach: Mm;
}

/** Between holes 10 mm, or 5 above the worst runout; feeding begins 1 mm above the high spot (common practice, no source). */
export const heightsFor = (runout: Mm): Heights => ({ clearance: Math.max(10, 2 * runout + 5), approach: 1 });

/** Least room between the collet and the skin at the bottom of the stroke (judgement, no source). */
const COLLET_ROOM: Mm = 2;
/** Least gap between the tip and the shaft the shell hangs on (judgement, no source). */
const MANDREL_ROOM: Mm = 2;

/**
 * Does the shell turn under the gantry? First of all checks: most small routers lack the height. The swing is the largest
 * diameter that does; how a bit clears it between holes is for `checkRoom` to tell.
 */
export function checkSwing(jig: Jig, h: Heights): Fact[] {
  const { machine } = jig.rotary;
  const diameter = 2 * jig.shell.radius;
  const facts: Fact[] = [];
  if (diameter > machine.swing + tolerance.same) {
    facts.push(fact('stop', 'shell-over-swing', 'shell', diameter, machine.swing, 'mm', { machine: machine.name }));
  }
  if (h.clearance > machine.travel.z[1]) {
    facts.push(
      fact('stop', 'no-room-above', 'shell', h.clearance, machine.travel.z[1], 'mm', { machine: machine.name }),
    );
  }
  return facts;
}

/** Can this bit stand in this spindle above this shell? */
export function checkTool(jig: Jig, tool: Tool): Fact[] {
  const { machine } = jig.rotary;
  const facts: Fact[] = [];
  const about = { tool: tool.id, kind: tool.kind, diameter: tool.diameter };
  const at = `tool ${tool.id}`;
  if (tool.shank > machine.spindle.collet + tolerance.same) {
    facts.push(fact('stop', 'shank-too-thick', at, tool.shank, machine.spindle.collet, 'mm', about));
  }
  return facts;
}

/** Does the longest bit clear the shell with its nose drawn up as high as the gantry? */
export function checkRoom(jig: Jig, tools: readonly Tool[], h: Heights): Fact[] {
  const longest = [...tools].sort((p, q) => q.stickout - p.stickout)[0];
  const room = jig.rotary.machine.swing / 2 - jig.shell.radius;
  if (!longest || longest.stickout + h.clearance <= room) return [];
  const about = { tool: longest.id, kind: longest.kind, diameter: longest.diameter, stickout: longest.stickout };
  return [fact('care', 'little-room-above', `tool ${longest.id}`, room, longest.stickout + h.clearance, 'mm', about)];
}

/** Half a motor step on the skin coarser than this (mm) shows in lugs of two holes (judgement, no source). */
const COARSE: Mm = 0.1;

/** Can A stand fine enough? An index is off by up to half a motor step. */
export function checkSteps(jig: Jig): Fact[] {
  const { machine } = jig.rotary;
  if (machine.stepsPerTurn === undefined) return [];
  const off = (Math.PI * jig.shell.radius) / machine.stepsPerTurn;
  return off > COARSE
    ? [fact('care', 'coarse-steps', 'shell', off, COARSE, 'mm', { steps: machine.stepsPerTurn })]
    : [];
}

/** Printed further from its place than this (mm) a hole is out of place (judgement, no source; the dry run's own limit). */
const OUT_OF_PLACE: Mm = 0.05;

/** Does the controller read enough decimals to be told where the holes are? */
export function checkNumbers(jig: Jig, units: 'mm' | 'in'): Fact[] {
  const { machine } = jig.rotary;
  const off = printedWithin(machine, units, jig.shell.radius);
  const about = { decimals: machine.understands.decimals, machine: machine.name };
  return off > OUT_OF_PLACE ? [fact('stop', 'numbers-too-coarse', 'shell', off, OUT_OF_PLACE, 'mm', about)] : [];
}

/** Is the hole where the machine can go? Facts mean it is left out. */
export function checkReach(jig: Jig, hole: Hole, x: Mm, half: Mm): Fact[] {
  const { machine } = jig.rotary;
  const [low, high] = machine.travel.x;
  const facts: Fact[] = [];
  if (x < low - tolerance.same || x > high + tolerance.same) {
    facts.push(fact('stop', 'hole-outside-travel', hole.id, x, x < low ? low : high, 'mm', { axis: 'X' }));
  }
  const fromEnd = jig.shell.depth - x;
  const { chuck, tailstock } = machine.fixture;
  if (x - half < chuck - tolerance.same) {
    facts.push(fact('stop', 'hole-in-fixture', hole.id, x - half, chuck, 'mm', { end: endName(jig, true) }));
  }
  for (const zone of machine.fixture.keepOut ?? []) {
    if (x + half <= zone.from + tolerance.same || x - half >= zone.to - tolerance.same) continue;
    const limit = Math.abs(x - zone.from) < Math.abs(x - zone.to) ? zone.from : zone.to;
    facts.push(fact('stop', 'hole-in-keep-out', hole.id, x, limit, 'mm', { from: zone.from, to: zone.to, half }));
  }
  if (fromEnd - half < tailstock - tolerance.same) {
    facts.push(fact('stop', 'hole-in-fixture', hole.id, fromEnd - half, tailstock, 'mm', { end: endName(jig, false) }));
  }
  return facts;
}

/** Cones bear on the edges the head will sit on; unless those are still uncut, they dent them. */
export function checkHold(jig: Jig): Fact[] {
  if (jig.rotary.machine.fixture.hold !== 'cones' || jig.shell.edges === 'uncut') return [];
  return [fact('care', 'held-on-bearing-edges', 'shell', null, null, '')];
}

const endName = (jig: Jig, near: boolean): string =>
  (jig.rotary.datum === 'bottom') === near ? 'bottom edge' : 'top edge';

/** Is the stroke within the bit, the machine's Z, the backing and the hollow of the shell? */
export function checkStroke(jig: Jig, hole: Hole, tool: Tool, deep: Mm): Fact[] {
  const { machine, backing } = jig.rotary;
  const facts: Fact[] = [];
  const about = { tool: tool.id, kind: tool.kind, diameter: tool.diameter };
  if (deep > tool.flute + tolerance.same && tool.kind !== 'v-bit') {
    facts.push(fact('stop', 'flute-too-short', hole.id, deep, tool.flute, 'mm', about));
  }
  if (deep + COLLET_ROOM > tool.stickout + tolerance.same) {
    facts.push(fact('stop', 'tool-too-short', hole.id, tool.stickout, deep + COLLET_ROOM, 'mm', about));
  }
  if (-deep < machine.travel.z[0] - tolerance.same) {
    facts.push(
      fact('stop', 'depth-outside-travel', hole.id, -deep, machine.travel.z[0], 'mm', { axis: 'Z', ...about }),
    );
  }
  const beyond = deep - (jig.shell.radius - insideAt(jig.shell, hole));
  if (backing > 0 && beyond > backing + tolerance.same) {
    facts.push(fact('stop', 'backing-too-thin', hole.id, backing, beyond, 'mm', about));
  }
  // Without a shaft the far wall is what the tip must never reach.
  const { mandrel } = machine.fixture;
  const free = jig.shell.radius + (mandrel > 0 ? -mandrel / 2 : jig.shell.inside) - MANDREL_ROOM;
  if (deep > free) facts.push(fact('stop', 'depth-hits-mandrel', hole.id, deep, free, 'mm', about));
  return facts;
}

/** Speed and feed inside what the machine has. */
export function checkRates(machine: Machine, tool: Tool, speed: number, feed: number): Fact[] {
  const facts: Fact[] = [];
  const about = { tool: tool.id, kind: tool.kind, diameter: tool.diameter, machine: machine.name };
  const { min, max } = machine.spindle;
  const most = Math.min(max, tool.maxSpeed ?? max);
  if (speed < min - tolerance.same || speed > most + tolerance.same) {
    facts.push(
      fact('stop', 'speed-outside-machine', `tool ${tool.id}`, speed, speed < min ? min : most, 'rev/min', about),
    );
  }
  if (feed > machine.feed + tolerance.same) {
    facts.push(fact('stop', 'feed-outside-machine', `tool ${tool.id}`, feed, machine.feed, 'mm/min', about));
  }
  return facts;
}
