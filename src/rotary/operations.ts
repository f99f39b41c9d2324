import { recommend } from '../feeds/feeds.ts';
import { fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import type { Tool } from '../model/machine.ts';
import { type Deg, type Mm, toDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import {
  checkHold,
  checkRates,
  checkReach,
  checkRoom,
  checkSteps,
  checkStroke,
  checkTool,
  type Heights,
} from './check.ts';
import { type Choice, type Chosen, chooseFor } from './choose.ts';
import { saddle } from './depth.ts';
import { breaksEdge, edgePath } from './edge.ts';
import { BLOCKS, gatherInto } from './gather.ts';
import { placeOf, reachable } from './place.ts';
import { scorerOf } from './score.ts';
import { depthOf } from './stroke.ts';
import type { Operation, RotaryOptions } from './types.ts';

export interface Planned {
  /** Every operation that can be made, hole by hole. */
  readonly operations: readonly Operation[];
  /** Holes no bit can make, or that lie where the machine cannot go. */
  readonly left: readonly Hole[];
  /** Some hole has no bit: the program cannot be made. */
  readonly missing: boolean;
  readonly facts: readonly Fact[];
}

/** What is done at every hole, with which bit, how deep and how fast; and why some holes cannot be done. */
export function planOperations(
  jig: Jig,
  layout: Layout,
  holes: readonly Hole[],
  h: Heights,
  o: RotaryOptions,
): Planned {
  const { machine, tools } = jig.rotary;
  const facts: Fact[] = [];
  const operations: Operation[] = [];
  const left: Hole[] = [];
  const chosenBy = new Map<string, Chosen>();
  const missing = new Map<string, { holes: Hole[]; nearest: Tool | undefined }>();
  const once = gatherInto(facts);
  for (const hole of holes) {
    const key = `${hole.drill}|${hole.pilot ?? ''}`;
    const known = chosenBy.get(key);
    const chosen = known ?? chooseFor(hole, tools, machine, jig.shell.wood);
    chosenBy.set(key, chosen);
    if (chosen.choices.length === 0) {
      const entry = missing.get(key) ?? { holes: [], nearest: chosen.nearest };
      entry.holes.push(hole);
      missing.set(key, entry);
      left.push(hole);
      continue;
    }
    // Said of the first hole of its size, for all of them.
    if (!known) for (const note of chosen.notes) facts.push(noteFact(note, hole, chosen));
    const { made, found } = planHole(jig, layout, hole, chosen.choices, o);
    for (const f of found) once(f);
    if (made.length === 0) left.push(hole);
    operations.push(...made);
  }
  for (const { holes: without, nearest } of missing.values()) facts.push(missingFact(without, nearest));
  const used = [...new Set(operations.map((p) => p.tool))];
  for (const tool of used) for (const f of checkTool(jig, tool)) once(f);
  for (const f of [...checkRoom(jig, used, h), ...checkSteps(jig), ...checkHold(jig)]) once(f);
  return { operations, left, missing: missing.size > 0, facts };
}

/** All of a hole's operations, or none of them when one cannot be made. */
function planHole(
  jig: Jig,
  layout: Layout,
  hole: Hole,
  choices: readonly Choice[],
  o: RotaryOptions,
): { made: Operation[]; found: Fact[] } {
  const { machine, tools } = jig.rotary;
  const { place, y } = placeOf(jig, layout, hole, o);
  // A V bit may be wider than the hole it marks, and it is its rim that hits a plate.
  const bits = o.markOnly === true ? [scorerOf(tools)] : choices.map((c) => c.tool);
  const half = Math.max(hole.drill, ...bits.map((t) => t?.diameter ?? 0)) / 2;
  const found: Fact[] = checkReach(jig, hole, place.x, half);
  // Walking a hole out by A swings either side of its middle.
  const walked = choices.some((c) => c.kind === 'bore') && !machine.hasY;
  const swing = walked ? toDeg(hole.drill / 2 / layout.inside) : 0;
  const a = reachable(place.a, machine.rotary, swing);
  if (a === undefined) {
    const [low, high] = machine.rotary as readonly [Deg, Deg];
    found.push(fact('stop', 'hole-outside-travel', hole.id, place.a, place.a < low ? low : high, 'deg', { axis: 'A' }));
  }
  if (y !== 0) found.push(...checkBeside(jig, hole, y));
  const made: Operation[] = [];
  for (const c of [...choices, ...(y === 0 ? edgeBreak(jig, hole, place.x) : [])]) {
    const deep = depthOf(jig, layout, hole, c, y, o);
    found.push(...checkStroke(jig, hole, c.tool, deep));
    const advice = recommend({ wood: jig.shell.wood, tool: c.tool, depth: deep, machine });
    found.push(...aboutTool(advice.facts, c.tool));
    found.push(...checkRates(machine, c.tool, advice.value.speed, advice.value.feed));
    if (c.kind === 'bore') found.push(...checkBore(jig, hole, c.tool));
    made.push({
      kind: c.kind,
      hole,
      tool: c.tool,
      because: c.because,
      x: place.x,
      y,
      a: a ?? place.a,
      bottom: -deep,
      speed: advice.value.speed,
      feed: advice.value.feed,
      pecks: c.kind === 'centre-mark' ? 1 : advice.value.pecks,
      ...(advice.value.pitch === null ? {} : { pitch: advice.value.pitch }),
    });
  }
  const blocked = found.some((f) => BLOCKS.has(f.id));
  return { made: blocked ? [] : made, found };
}

function checkBeside(jig: Jig, hole: Hole, y: Mm): Fact[] {
  const [low, high] = jig.rotary.machine.travel.y;
  const inside = y > low - tolerance.same && y < high + tolerance.same;
  return inside ? [] : [fact('stop', 'hole-outside-travel', hole.id, y, y < low ? low : high, 'mm', { axis: 'Y' })];
}

/** A saddle this low cannot be told from a flat edge (judgement, no source). */
const FLAT: Mm = 0.05;

/** Only where the saddle is larger than the runout is it worth following; else a turn of the wrist does it. */
function edgeBreak(jig: Jig, hole: Hole, x: Mm): Choice[] {
  const drop = saddle(jig.shell.radius, hole.drill / 2);
  const tool = jig.rotary.tools.find((t) => breaksEdge(hole.drill / 2, t));
  // A wound axis may stand at its end, with no room to swing round the edge.
  const { hasY, rotary, understands, travel } = jig.rotary.machine;
  if (!tool || drop <= Math.max(jig.rotary.runout, FLAT)) return [];
  const { orbit } = edgePath(hole.drill / 2, tool);
  const [low, high] = travel.y;
  const canWalk = hasY ? orbit <= Math.min(-low, high) : rotary === 'endless' && understands.inverseTime;
  if (!canWalk || checkReach(jig, hole, x, orbit + tool.diameter / 2).length > 0) return [];
  const because = `the edge stands ${drop.toFixed(2)} mm higher fore and aft than at its sides: followed, it breaks evenly`;
  return [{ kind: 'edge-break', tool, because }];
}

function checkBore(jig: Jig, hole: Hole, tool: Tool): Fact[] {
  const { machine } = jig.rotary;
  const orbit = (hole.drill - tool.diameter) / 2;
  if (machine.hasY) {
    const room = Math.min(-machine.travel.y[0], machine.travel.y[1]);
    return orbit > room ? [fact('stop', 'hole-outside-travel', hole.id, orbit, room, 'mm', { axis: 'Y' })] : [];
  }
  return machine.understands.inverseTime
    ? []
    : [fact('stop', 'needs-inverse-time', hole.id, null, null, '', { machine: machine.name })];
}

/** Feeds speak of a kind and a size; here they speak of the bit in the list. Flutes are judged by the stroke. */
const aboutTool = (facts: readonly Fact[], tool: Tool): Fact[] =>
  facts
    .filter((f) => f.id !== 'flute-too-short')
    .map((f) => ({ ...f, at: f.id === 'wood-assumed' ? 'shell' : `tool ${tool.id}` }));

function noteFact(note: Chosen['notes'][number], hole: Hole, chosen: Chosen): Fact {
  const last = chosen.choices[chosen.choices.length - 1]!;
  const about = {
    tool: last.tool.id,
    kind: last.tool.kind,
    diameter: last.tool.diameter,
    drill: hole.drill,
    pilot: hole.pilot ?? 0,
    because: last.because,
  };
  const care = note === 'no-centre-mark' || note === 'pilot-missing';
  return fact(care ? 'care' : 'note', note, hole.fitting, null, null, '', about);
}

function missingFact(holes: readonly Hole[], nearest: Tool | undefined): Fact {
  const first = holes[0]!;
  return fact('stop', 'tool-missing', first.id, nearest?.diameter ?? null, first.drill, 'mm', {
    count: holes.length,
    drill: first.drill,
    nearest: nearest ? `${nearest.diameter} mm ${nearest.kind}, tool ${nearest.id}` : 'none',
  });
}
