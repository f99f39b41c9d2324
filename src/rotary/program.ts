import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import { boreSteps, type Way } from './bore.ts';
import type { Heights } from './check.ts';
import { insideAt } from './depth.ts';
import { edgeSteps } from './edge.ts';
import { headerSteps } from './header.ts';
import type { Pass } from './passes.ts';
import { signFor } from './place.ts';
import { scorerOf, scoreSteps } from './score.ts';
import type { Operation, RotaryOptions, Step } from './types.ts';

/** How high a rehearsal keeps the tip above the high spot (judgement, no source). */
const REHEARSE_AT = 5;
const REHEARSE_FEED = 300;
/** Where the spindle waits while a hand changes the bit, if the machine goes so high (judgement, no source). */
const CHANGE_AT = 60;
/** How far the witness move turns, degrees: plain to the eye, less than any lug pitch (judgement, no source). */
const WITNESS = 15;

/** The whole program as steps. The first words set everything it relies on; nothing turns before the bit is clear. */
export function programSteps(jig: Jig, layout: Layout, passes: readonly Pass[], h: Heights, o: RotaryOptions): Step[] {
  const shells = Math.max(1, Math.floor(o.batch ?? 1));
  const steps: Step[] = [...headerSteps(jig, layout, passes, h, o), { kind: 'setup' }, { kind: 'spindle-off' }];
  for (let shell = 1; shell <= shells; shell++) {
    if (shells > 1) steps.push(...betweenShells(shell, shells));
    if (o.markOnly === true) steps.push(...scoring(jig, layout, passes, h));
    else if (o.rehearse === true) steps.push(...rehearsal(jig, passes, h));
    else steps.push(...drilling(jig, layout, passes, h));
    // Home again: the strainer line under the bit proves that nothing slipped.
    steps.push(
      { kind: 'spindle-off' },
      { kind: 'rapid', to: { z: h.clearance } },
      { kind: 'rapid', to: { a: home(jig) } },
    );
  }
  steps.push({ kind: 'end' });
  return steps;
}

/** A0, or the nearest to it a wound axis can turn to. */
function home(jig: Jig): number {
  const { rotary } = jig.rotary.machine;
  return rotary === 'endless' ? 0 : Math.min(Math.max(0, rotary[0]), rotary[1]);
}

function scoring(jig: Jig, layout: Layout, passes: readonly Pass[], h: Heights): Step[] {
  const tool = scorerOf(jig.rotary.tools) ?? passes[0]!.tool;
  return scoreSteps(jig, layout, passes, h, tool, openPass(jig, tool, h));
}

function betweenShells(shell: number, shells: number): Step[] {
  const steps: Step[] = [{ kind: 'comment', text: `SHELL ${shell} OF ${shells}` }];
  if (shell > 1) {
    steps.push(
      { kind: 'comment', text: 'NEXT SHELL ON THE MACHINE, STRAINER LINE UNDER THE BIT, THEN RESUME' },
      { kind: 'pause' },
    );
  }
  return steps;
}

function drilling(jig: Jig, layout: Layout, passes: readonly Pass[], h: Heights): Step[] {
  const { machine } = jig.rotary;
  const steps: Step[] = [];
  let a: number | undefined;
  const alike = new Map<string, Step>();
  for (let p = 0; p < passes.length; p++) {
    const pass = passes[p]!;
    steps.push(...(p === 0 ? openPass(jig, pass.tool, h) : changeTool(jig, pass.tool, h)));
    if (p === 0) {
      steps.push(...witness(jig, pass.operations[0]!.x));
    }
    let speed: number | undefined;
    for (const op of pass.operations) {
      if (speed !== op.speed) {
        steps.push({ kind: 'spindle', speed: op.speed }, { kind: 'dwell', seconds: machine.spindle.seconds });
        speed = op.speed;
      }
      steps.push({ kind: 'comment', text: `${op.hole.id}: ${saidOf(op)}` });
      if (a !== op.a) steps.push({ kind: 'rapid', to: { a: op.a } });
      a = op.a;
      steps.push(visit(jig, layout, op, h, alike));
    }
    if (p < passes.length - 1) steps.push({ kind: 'spindle-off' });
  }
  return steps;
}

const saidOf = (op: Operation): string =>
  op.kind === 'bore'
    ? `bore ${op.hole.drill} mm with ${op.tool.diameter} mm mill`
    : `${op.kind} ${op.kind === 'centre-mark' ? '' : `${op.tool.diameter} mm `}T${op.tool.id}`.replace('  ', ' ');

/** At the hole's angle already: over it, down and out again to the clearance height. */
function visit(jig: Jig, layout: Layout, op: Operation, h: Heights, alike: Map<string, Step>): Step {
  const { machine } = jig.rotary;
  // Only a hole walked out by A is cut at its own angle; every other looks the same from the spindle.
  const walkedByA = !machine.hasY && (op.kind === 'bore' || op.kind === 'edge-break');
  const key = `${op.tool.id} ${op.kind} ${op.x} ${op.y} ${op.bottom} ${op.hole.drill}${walkedByA ? ` ${op.hole.id}` : ''}`;
  const known = alike.get(key);
  if (known) return known;
  const over: Step = { kind: 'rapid', to: machine.hasY ? { x: op.x, y: op.y } : { x: op.x } };
  const made: Step = { kind: 'visit', steps: [over, ...cut(jig, layout, op, h)] };
  alike.set(key, made);
  return made;
}

function cut(jig: Jig, layout: Layout, op: Operation, h: Heights): Step[] {
  const { machine } = jig.rotary;
  const { x, y, a, bottom, pecks, feed, tool } = op;
  if (op.kind !== 'bore' && op.kind !== 'edge-break') return [{ kind: 'drill', x, bottom, pecks, feed, ...h }];
  // By A the hole is to size where its screw is tightest: at the inner skin.
  const way: Way = machine.hasY
    ? { by: 'y', arcs: machine.understands.arcs }
    : {
        by: 'a',
        radius: insideAt(jig.shell, op.hole),
        outside: layout.radius,
        sign: machine.a === 'iso' ? 1 : -1,
      };
  const hole = op.hole.drill / 2;
  if (op.kind === 'edge-break') return edgeSteps({ x, a, hole, radius: layout.radius, tool, feed, ...h }, way);
  const pitch = op.pitch ?? tool.diameter / 2;
  return boreSteps({ x, y, a, hole, mill: tool.diameter / 2, bottom, pitch, feed, ...h }, way);
}

/** The first bit: in, touched off, and up to the clearance height before anything turns. */
function openPass(jig: Jig, tool: Tool, h: Heights): Step[] {
  const steps: Step[] = [...mount(jig, tool), { kind: 'rapid', to: { z: h.clearance } }];
  if (jig.rotary.machine.hasY) steps.push({ kind: 'rapid', to: { y: 0 } });
  return steps;
}

function changeTool(jig: Jig, tool: Tool, h: Heights): Step[] {
  const { machine } = jig.rotary;
  const high = Math.max(h.clearance, Math.min(CHANGE_AT, machine.travel.z[1]));
  return [{ kind: 'rapid', to: { z: high } }, ...mount(jig, tool), { kind: 'rapid', to: { z: h.clearance } }];
}

function mount(jig: Jig, tool: Tool): Step[] {
  const name: Step = { kind: 'comment', text: `T${tool.id}: ${tool.kind} ${tool.diameter} mm` };
  if (jig.rotary.machine.toolChange !== 'hand') {
    return [name, { kind: 'tool', tool }, { kind: 'length', tool: tool.id }];
  }
  return [
    name,
    { kind: 'comment', text: `FIT T${tool.id}, TOUCH OFF Z0 ON THE HIGH SPOT OF THE OUTSIDE SKIN, THEN RESUME` },
    { kind: 'tool', tool },
    { kind: 'pause' },
  ];
}

/**
 * The eye's proof of zero and sign: the bit over the strainer line, then beside it along the taped arrow; against the
 * arrow where a wound axis cannot turn the other way.
 */
function witness(jig: Jig, x: number): Step[] {
  const { rotary } = jig.rotary.machine;
  const within = (a: number): boolean => rotary === 'endless' || (a >= rotary[0] && a <= rotary[1]);
  const along = signFor(jig) * WITNESS;
  const side = within(along)
    ? 'TO ITS RIGHT SEEN FROM OUTSIDE, TOP UP, WHERE THE TAPED ARROW POINTS'
    : 'TO ITS LEFT SEEN FROM OUTSIDE, TOP UP, AGAINST THE TAPED ARROW';
  if (!within(0)) return [];
  return [
    { kind: 'rapid', to: { x } },
    { kind: 'rapid', to: { a: 0 } },
    { kind: 'comment', text: 'WITNESS 1: THE STRAINER LINE IS UNDER THE BIT. IF NOT, STOP AND SET A0' },
    { kind: 'pause' },
    { kind: 'rapid', to: { a: within(along) ? along : -along } },
    {
      kind: 'comment',
      text: `WITNESS 2: THE BIT STANDS BESIDE THE LINE, ${side}. IF NOT, A IS WIRED THE OTHER WAY: STOP`,
    },
    { kind: 'pause' },
    { kind: 'rapid', to: { a: 0 } },
  ];
}

/** Every hole visited once, spindle off, the tip kept above the skin. */
function rehearsal(jig: Jig, passes: readonly Pass[], h: Heights): Step[] {
  const { machine } = jig.rotary;
  const last = new Map<string, Operation>();
  for (const op of passes.flatMap((p) => p.operations)) if (!last.has(op.hole.id)) last.set(op.hole.id, op);
  const steps: Step[] = [...openPass(jig, passes[0]!.tool, h), ...witness(jig, passes[0]!.operations[0]!.x)];
  let a: number | undefined;
  for (const op of last.values()) {
    steps.push({ kind: 'comment', text: `${op.hole.id}: rehearsal` });
    if (a !== op.a) steps.push({ kind: 'rapid', to: { a: op.a } });
    a = op.a;
    steps.push(
      { kind: 'rapid', to: machine.hasY ? { x: op.x, y: op.y } : { x: op.x } },
      // Fed, not rushed: the eye follows it.
      { kind: 'feed', to: { z: REHEARSE_AT }, feed: Math.min(REHEARSE_FEED, machine.feed) },
      { kind: 'dwell', seconds: 0.5 },
      { kind: 'rapid', to: { z: h.clearance } },
    );
  }
  return steps;
}
