import { recommend } from '../feeds/feeds.ts';
import type { Hole } from '../model/layout.ts';
import type { Machine, Tool, ToolKind } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import type { OperationKind } from './types.ts';

/** A bit whose diameter is nearer than this to the hole's drills it: below what wood keeps (judgement, no source). */
const DRILL_MATCH: Mm = 0.05;
/** A mill must leave itself room to walk round: no larger than this part of the hole (judgement, no source). */
const MILL_PART = 0.9;

/** A mill of a smaller part of the hole would go round in it for hours (judgement, no source). */
const LEAST_MILL_PART = 1 / 80;

export interface Choice {
  readonly kind: OperationKind;
  readonly tool: Tool;
  readonly because: string;
}

export interface Chosen {
  /** Empty when no bit can make the hole. */
  readonly choices: readonly Choice[];
  /** What was left out or is not as asked: ids for findings. */
  readonly notes: readonly ('no-centre-mark' | 'pilot-missing' | 'pilot-skipped' | 'bored-instead')[];
  /** When there is no choice: the bit nearest in size, if there is any. */
  readonly nearest?: Tool;
}

const DRILLS: readonly ToolKind[] = ['brad-point', 'spur', 'twist', 'stepped'];
const DOES_WITHOUT_PILOT: readonly ToolKind[] = ['brad-point', 'spur'];

/**
 * How a hole is made with the bits at hand. A pilot guides a twist drill; a brad point needs wood under its spur, so
 * it starts on a centre mark and never in a pilot; a stepped drill is its own pilot; and where the spindle cannot turn
 * a drill slowly enough, or there is none of the size, a mill walks the hole out.
 */
export function chooseFor(hole: Hole, tools: readonly Tool[], machine: Machine, wood: string | undefined): Chosen {
  const fits = (t: Tool, d: Mm): boolean => Math.abs(t.diameter - d) <= DRILL_MATCH;
  const sized = (kinds: readonly ToolKind[], d: Mm): Tool | undefined =>
    kinds.map((k) => tools.find((t) => t.kind === k && fits(t, d))).find((t) => t !== undefined);
  const slowEnough = (t: Tool): boolean =>
    !recommend({ wood, tool: t, depth: 1, machine }).facts.some((f) => f.id === 'spindle-too-fast');
  const mill = tools
    .filter(
      (t) =>
        t.kind === 'end-mill' && t.diameter <= MILL_PART * hole.drill && t.diameter >= LEAST_MILL_PART * hole.drill,
    )
    .sort((a, b) => b.diameter - a.diameter)[0];
  const wanted: readonly ToolKind[] = hole.pilot === undefined ? DRILLS : ['stepped', 'twist', 'brad-point', 'spur'];
  const drill = sized(wanted, hole.drill);
  if (drill && (slowEnough(drill) || !mill)) return drilled(hole, drill, tools, sized);
  if (mill) {
    const because = drill
      ? `the spindle cannot turn a ${drill.diameter} mm ${drill.kind} slowly enough: walked out with a mill`
      : `no ${hole.drill} mm drill at hand: walked out with a mill`;
    const notes: Chosen['notes'] = hole.pilot === undefined ? ['bored-instead'] : ['bored-instead', 'pilot-skipped'];
    return { choices: [{ kind: 'bore', tool: mill, because }], notes };
  }
  const nearest = [...tools]
    .filter((t) => DRILLS.includes(t.kind))
    .sort((a, b) => Math.abs(a.diameter - hole.drill) - Math.abs(b.diameter - hole.drill))[0];
  return { choices: [], notes: [], ...(nearest ? { nearest } : {}) };
}

function drilled(
  hole: Hole,
  drill: Tool,
  tools: readonly Tool[],
  sized: (kinds: readonly ToolKind[], d: Mm) => Tool | undefined,
): Chosen {
  const choices: Choice[] = [];
  const notes: Chosen['notes'][number][] = [];
  const spurred = DOES_WITHOUT_PILOT.includes(drill.kind);
  const point = tools.find((t) => t.kind === 'v-bit');
  if (point)
    choices.push({ kind: 'centre-mark', tool: point, because: 'a mark on the round skin stops the bit from walking' });
  const pilot = hole.pilot === undefined ? undefined : sized(['twist', 'brad-point'], hole.pilot);
  if (hole.pilot !== undefined) {
    if (spurred) notes.push('pilot-skipped');
    else if (drill.kind === 'twist' && pilot) {
      choices.push({
        kind: 'pilot',
        tool: pilot,
        because: 'guides the twist drill and takes the wood from under its dead centre',
      });
    } else if (drill.kind === 'twist') notes.push('pilot-missing');
  }
  const started = point !== undefined || spurred || pilot?.kind === 'brad-point';
  if (!started) notes.push('no-centre-mark');
  choices.push({ kind: 'drill', tool: drill, because: reasonFor(drill, choices) });
  return { choices, notes };
}

function reasonFor(drill: Tool, before: readonly Choice[]): string {
  if (drill.kind === 'stepped') return 'its own pilot leads it: one bit, one visit';
  if (DOES_WITHOUT_PILOT.includes(drill.kind)) {
    return before.length > 0
      ? 'spur on the centre mark, no pilot: the spur needs wood to bite, the rim cuts the fibres first'
      : 'its own spur starts it, no pilot: the rim cuts the fibres first';
  }
  return before.some((c) => c.kind === 'pilot') ? 'follows the pilot' : 'straight on the mark';
}
