import { DIAMETER_RANGE, PECK_BEYOND } from '../data/cutting.ts';
import { fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Machine, ToolKind } from '../model/machine.ts';
import type { Staged } from '../model/stage.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Draft, FeedAdvice, FeedInput, Proven, Reason } from './advice.ts';
import { baseDrill } from './drill.ts';
import { chipThickness, cuttingSpeed, cuttingWork, powerOf, thrustOf, torqueOf } from './formulas.ts';
import { cutWidth, limitFeed, limitSpeed, sectionOf, spindleTorque } from './limits.ts';
import { baseMill } from './mill.ts';
import { type Stock, stockOf } from './stock.ts';

export type { FeedAdvice, FeedInput } from './advice.ts';

/** Least and greatest diameter the tables cover, for messages. */
export const feedRange = (kind: ToolKind): readonly [Mm, Mm] => DIAMETER_RANGE[kind];

/**
 * Speed, feed and pecks for one bit in one wood, each with its reason and its source, after every limit of the spindle,
 * the machine and the bit; the limits that acted are named. A starting point: try it in waste first.
 * @param input bit, wood, machine and depth
 * @returns rev/min, mm/min and mm, with reasons; facts where a limit cannot be kept
 * @throws never
 * @source cutting formulas from textbooks, a drill-press chart and common practice, named with each reason
 */
export function recommend(input: FeedInput): Staged<FeedAdvice> {
  const { tool, depth } = input;
  const stock = stockOf(input.wood);
  const facts: Fact[] = [];
  const at = `${tool.kind} ${tool.diameter}`;
  if (input.wood === undefined) facts.push(fact('note', 'wood-assumed', at, null, null, '', { wood: stock.name }));
  const draft = tool.kind === 'end-mill' ? baseMill(tool, stock) : baseDrill(tool, stock);
  limitSpeed(draft, input, stock, at, facts);
  limitFeed(draft, input, stock, at, facts);
  const proven = applyProven(draft, { ...input, proven: input.proven ?? provenOn(input) }, at, facts);
  const pecking = pecksFor(input, draft, proven);
  if (tool.flute !== undefined && depth > tool.flute + tolerance.same && tool.kind !== 'v-bit') {
    facts.push(
      fact('stop', 'flute-too-short', at, depth, tool.flute, 'mm', { kind: tool.kind, diameter: tool.diameter }),
    );
  }
  const feed = proven?.feed ?? draft.feedPerRev * draft.speed;
  const perRev = feed / draft.speed;
  const perLip = perRev / draft.lips;
  const width = cutWidth(tool, depth);
  const removal = (sectionOf(width, draft.pitch) * feed) / 60;
  const power = powerOf(removal, cuttingWork(stock.gravity));
  const chip = chipThickness(perLip, draft.point);
  if (input.machine) draft.reasons.push(loadReason(power, draft.speed, input.machine, stock));
  const value: FeedAdvice = {
    speed: draft.speed,
    feed,
    feedPerRev: perRev,
    feedPerLip: perLip,
    chipThickness: chip,
    ...pecking,
    pitch: draft.pitch,
    cuttingSpeed: cuttingSpeed(width, draft.speed),
    power,
    torque: torqueOf(power, draft.speed),
    thrust: thrustOf(width, perLip, stock.gravity),
    reasons: draft.reasons,
    limits: draft.limits,
  };
  return { value, facts };
}

const CHART = 'common practice, no source';

function loadReason(power: number, speed: number, machine: Machine, stock: Stock): Reason {
  return {
    what: 'load',
    value: `${power.toFixed(1)} W, ${torqueOf(power, speed).toFixed(3)} N m`,
    because: `${cuttingWork(stock.gravity).toFixed(0)} J/cm3 for ${stock.name}; the spindle may be asked for ${spindleTorque(machine).toFixed(2)} N m`,
    source:
      'derived from Forest Products Journal 22(11):55-59 (1972); constant torque of the spindle is common practice, no source',
  };
}

/** What the machine's profile says has worked for this bit in this wood. */
const provenOn = ({ machine, tool, wood }: FeedInput): Proven | undefined =>
  machine?.proven?.find(
    (p) =>
      p.kind === tool.kind &&
      Math.abs(p.diameter - tool.diameter) < tolerance.same &&
      (p.wood === undefined || p.wood === wood),
  );

/** The builder's own numbers win, but never over what the machine can do. */
function applyProven(draft: Draft, input: FeedInput, at: string, facts: Fact[]): Proven | undefined {
  const { proven, machine, tool } = input;
  if (!proven) return undefined;
  draft.limits.push('proven');
  if (proven.speed !== undefined) {
    draft.feedPerRev = (draft.feedPerRev * draft.speed) / proven.speed;
    draft.speed = proven.speed;
  }
  const words = [
    proven.speed === undefined ? '' : `${proven.speed} rev/min`,
    proven.feed === undefined ? '' : `${proven.feed} mm/min`,
    proven.peck === undefined ? '' : `${proven.peck} mm pecks`,
  ].filter((w) => w !== '');
  draft.reasons.push({
    what: 'proven',
    value: words.join(', '),
    because: 'you found that it works',
    source: 'builder',
  });
  if (proven.peck !== undefined && proven.peck <= 0) {
    facts.push(fact('stop', 'zero-pecks', at, proven.peck, 0, 'mm'));
  }
  const low = machine?.spindle.min ?? 0;
  const high = Math.min(machine?.spindle.max ?? Infinity, tool.maxSpeed ?? Infinity);
  if (draft.speed < low || draft.speed > high) {
    facts.push(fact('stop', 'speed-outside-machine', at, draft.speed, draft.speed < low ? low : high, 'rev/min'));
  }
  if (machine && proven.feed !== undefined && proven.feed > machine.feed) {
    facts.push(fact('stop', 'feed-outside-machine', at, proven.feed, machine.feed, 'mm/min'));
  }
  return proven;
}

/** One stroke down to three diameters; deeper, strokes of one diameter, evened out so that none is a sliver. */
function pecksFor(input: FeedInput, draft: Draft, proven: Proven | undefined): { peck: Mm | null; pecks: number } {
  const { tool, depth } = input;
  if (draft.pitch !== null || tool.kind === 'v-bit') return { peck: null, pecks: 1 };
  if (proven?.peck !== undefined && proven.peck > 0) {
    const pecks = Math.max(1, Math.ceil(depth / proven.peck - tolerance.noise));
    return { peck: pecks > 1 ? proven.peck : null, pecks };
  }
  if (depth <= PECK_BEYOND * tool.diameter + tolerance.noise) {
    draft.reasons.push({
      what: 'pecks',
      value: 'none',
      because: `not deeper than ${PECK_BEYOND} diameters: each re-entry chews the rim`,
      source: CHART,
    });
    return { peck: null, pecks: 1 };
  }
  const pecks = Math.ceil(depth / tool.diameter - tolerance.noise);
  const peck = depth / pecks;
  draft.reasons.push({
    what: 'pecks',
    value: `${pecks} of ${peck.toFixed(2)} mm`,
    because: `deeper than ${PECK_BEYOND} diameters: chips must come out`,
    source: CHART,
  });
  return { peck, pecks };
}
