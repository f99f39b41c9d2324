import { RIM_LIMIT, SPINDLE_SHARE, THINNEST_CHIP } from '../data/cutting.ts';
import { POINTS } from '../data/tools.ts';
import { fact } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Machine } from '../model/machine.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { CutTool, Draft, FeedInput, LimitName } from './advice.ts';
import { chipThickness, cuttingSpeed, cuttingWork, feedForTorque, torqueOf } from './formulas.ts';
import type { Stock } from './stock.ts';

/** Torque a spindle may be asked for, N m: constant over its speeds (common practice, no source). */
export const spindleTorque = (m: Machine): number => torqueOf(SPINDLE_SHARE * m.spindle.watts, m.spindle.max);

/** What the bit ploughs through, mm2: a drill its whole disc, a mill in its helix a slot one pitch deep. */
export const sectionOf = (diameter: Mm, pitch: Mm | null): number =>
  pitch === null ? (Math.PI * diameter ** 2) / 4 : diameter * pitch;

/** Width of the cut at the skin: a V bit cuts only as wide as it goes deep. */
export const cutWidth = (tool: CutTool, depth: Mm): Mm =>
  tool.kind === 'v-bit'
    ? Math.min(tool.diameter, 2 * depth * Math.tan(toRad(tool.point ?? POINTS['v-bit']) / 2))
    : tool.diameter;

/** The chart's speed against what the spindle can turn and the bit can stand. */
export function limitSpeed(draft: Draft, input: FeedInput, stock: Stock, at: string, facts: Fact[]): void {
  const { tool, machine } = input;
  const wanted = draft.speed;
  const act = (limit: LimitName, speed: number, because: string, source: string): void => {
    draft.speed = speed;
    draft.limits.push(limit);
    draft.reasons.push({ what: 'speed', value: `${Math.round(speed)} rev/min`, because, source });
  };
  if (tool.maxSpeed !== undefined && draft.speed > tool.maxSpeed) {
    act('bit-speed', tool.maxSpeed, 'the bit may not turn faster', 'tool list');
  }
  if (!machine) return;
  const { min, max } = machine.spindle;
  if (draft.speed > max) act('spindle-max', max, 'the spindle turns no faster', `machine ${machine.name}`);
  if (draft.speed >= min) return;
  act('spindle-min', min, 'the spindle turns no slower', `machine ${machine.name}`);
  if (tool.maxSpeed !== undefined && min > tool.maxSpeed) {
    facts.push(fact('stop', 'bit-over-speed', at, min, tool.maxSpeed, 'rev/min', { machine: machine.name }));
  }
  if (tool.kind === 'end-mill' || tool.kind === 'v-bit') return;
  const rim = cuttingSpeed(tool.diameter, min);
  const ceiling = stock.soft ? RIM_LIMIT.soft : RIM_LIMIT.hard;
  if (rim <= ceiling) return;
  // Up to twice the chart's greatest rim speed a quick, short stroke can still be got away with; beyond it the rim chars.
  facts.push(
    fact(rim > 2 * ceiling ? 'stop' : 'care', 'spindle-too-fast', at, min, Math.round(wanted), 'rev/min', {
      machine: machine.name,
      kind: tool.kind,
      diameter: tool.diameter,
      rim,
      ceiling,
      wood: stock.name,
    }),
  );
}

/** Feed against the machine's greatest, the spindle's torque, and the thinnest chip that still cuts. */
export function limitFeed(draft: Draft, input: FeedInput, stock: Stock, at: string, facts: Fact[]): void {
  const { tool, machine } = input;
  if (machine) {
    const torque = spindleTorque(machine);
    const most = feedForTorque(torque, sectionOf(cutWidth(tool, input.depth), draft.pitch), cuttingWork(stock.gravity));
    if (draft.feedPerRev > most) {
      draft.feedPerRev = most;
      draft.limits.push('spindle-torque');
      draft.reasons.push({
        what: 'feed per revolution',
        value: `${most.toFixed(3)} mm`,
        because: `the spindle gives ${torque.toFixed(2)} N m (${SPINDLE_SHARE * 100} % of ${machine.spindle.watts} W at ${machine.spindle.max} rev/min)`,
        source: 'derived: M = u A f / (2 pi), A the section cut',
      });
    }
    const greatest = tool.kind === 'end-mill' ? machine.feed : Math.min(machine.feed, machine.rapid.z);
    if (draft.feedPerRev * draft.speed > greatest) slowForFeed(draft, machine.spindle.min, greatest, machine.name);
  }
  const chip = chipThickness(draft.feedPerRev / draft.lips, draft.point);
  if (chip < THINNEST_CHIP - tolerance.noise && tool.kind !== 'v-bit') {
    draft.limits.push('thinnest-chip');
    facts.push(fact('care', 'chip-too-thin', at, chip, THINNEST_CHIP, 'mm', { limits: draft.limits.join(', ') }));
  }
}

/** Turn slower rather than feed a thinner chip, as far as the spindle can; only then thin the chip. */
function slowForFeed(draft: Draft, slowest: number, greatest: number, machine: string): void {
  const before = draft.speed;
  draft.speed = Math.max(slowest, Math.min(draft.speed, greatest / draft.feedPerRev));
  draft.feedPerRev = Math.min(draft.feedPerRev, greatest / draft.speed);
  draft.limits.push('machine-feed');
  draft.reasons.push({
    what: 'feed',
    value: `${Math.round(greatest)} mm/min at ${Math.round(draft.speed)} rev/min`,
    because: `the machine feeds no faster; ${draft.speed < before ? 'the speed comes down to keep the chip' : 'the chip gets thinner'}`,
    source: `machine ${machine}`,
  });
}
