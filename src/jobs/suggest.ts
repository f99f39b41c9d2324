import { bestTurn } from '../fit/turn.ts';
import type { ResolveOptions } from '../jig/resolve.ts';
import type { Finding } from '../model/finding.ts';
import { sayAll } from '../say/say.ts';
import { trimmed } from '../say/saying.ts';
import type { RawJig } from './changes.ts';
import { makeable } from './makeable.ts';
import { SAYINGS } from './sayings.ts';
import {
  DEEPEST,
  fewerSteps,
  greedily,
  isBetter,
  nameOf,
  type Proposal,
  proposalsFor,
  type Trial,
  Tries,
  throughSlip,
  turnProposal,
} from './search.ts';
import { type Change, changesOf, type Step, sentence } from './steps.ts';

/** A turn of the whole layout about the shell. */
export interface TurnStep {
  readonly say: string;
  readonly changes: readonly Change[];
  readonly clears: readonly string[];
  /** To the right seen from outside, deg. */
  readonly by: number;
  /** Least wood it leaves between a hole and a joint or an old hole, mm. */
  readonly clearance: number;
}

/** Changes of the jig file that clear what can be cleared. */
export interface Suggestion {
  /** The smallest set found that clears every stop that can be cleared; proven by checking the changed jig again. */
  readonly steps: readonly Step[];
  /** No smaller set of the known cures clears as much. False when the search ran out of tries before it could tell. */
  readonly smallest: boolean;
  /** Stops before and after the steps, and what is left to the builder. */
  readonly before: number;
  readonly after: number;
  readonly left: readonly Finding[];
  /** A turn of the whole layout that clears joints and old holes, where holes are on them. */
  readonly turn?: TurnStep;
}

/**
 * What to change so that it goes together: tries the cures of the findings, alone and together, by checking the changed
 * jig object again (object -> jig -> layout -> checks).
 * @param raw the jig file as a plain object
 * @param options as for `resolveJig`
 * @returns the smallest set of changes found, in the order to make them, and what they clear; lengths in mm
 * @throws Error when the object does not resolve
 * @source proven by checking again, not by a table
 */
export function suggest(raw: RawJig, options: ResolveOptions = {}): Suggestion {
  const bench = new Tries(raw, options);
  const start = bench.start();
  const moved = fewerSteps(bench, start, greedily(bench, start));
  const stuck = moved.trial.stops.length > 0;
  // What was measured is measured: a slip is taken for the cause only when it explains all that nothing else does.
  const slipped = stuck || moved.trial.steps.length >= DEEPEST ? throughSlip(bench, start) : undefined;
  const { trial, proven } =
    slipped && slipped.stops.length === 0 && isBetter(slipped, moved.trial)
      ? { trial: slipped, proven: slipped.steps.length === 1 }
      : moved;
  const turn = turnStep(bench, trial);
  const making = makeable(bench, trial);
  return {
    steps: [...trial.steps.map((_, i) => stepOf(bench, trial, i)), ...making.steps],
    smallest: proven && making.proven,
    before: start.stops.length + making.before,
    after: trial.stops.length + making.left.length,
    left: sayAll([...trial.stops, ...making.left], SAYINGS),
    ...(turn ? { turn } : {}),
  };
}

/** How many other ways are told beside the one taken. */
const OTHER_WAYS = 3;

function stepOf(bench: Tries, t: Trial, i: number): Step {
  const taken = t.steps[i] as Proposal;
  const before = bench.of(t.steps.slice(0, i)) ?? bench.start();
  const after = bench.of(t.steps.slice(0, i + 1)) ?? t;
  const still = new Set(after.stops.map(nameOf));
  const cleared = before.stops.filter((f) => !still.has(nameOf(f)));
  bench.renew();
  const others = proposalsFor(before, cleared).filter((p) => {
    if (p.say === taken.say || !bench.hasTriesLeft()) return false;
    const other = bench.of([...before.steps, p]);
    return other !== undefined && other.weight <= after.weight;
  });
  return {
    say: sentence(taken.say),
    changes: changesOf(before.raw, taken),
    clears: cleared.map(nameOf),
    or: [...new Set(others.map((p) => sentence(p.say)))].slice(0, OTHER_WAYS),
  };
}

/** What a turn of the whole layout should clear. */
const TURN_CLEARS = new Set(['hole-on-joint', 'hole-on-ring-joint', 'hole-into-old-hole', 'old-hole-shows']);

function turnStep(bench: Tries, t: Trial): TurnStep | undefined {
  const [proposal] = turnProposal(t);
  const turn = bestTurn(t.jig, t.layout);
  const hits = t.facts.filter((f) => TURN_CLEARS.has(f.id));
  if (!proposal || !turn || hits.length === 0) return undefined;
  const after = bench.of([...t.steps, proposal]);
  if (!after || after.weight > t.weight) return undefined;
  const still = new Set(after.facts.map((f) => f.id));
  return {
    say: sentence(`${proposal.say}; every hole then stays ${trimmed(turn.clearance, 1)} mm or more clear`),
    changes: changesOf(t.raw, proposal),
    clears: hits.filter((f) => !still.has(f.id)).map(nameOf),
    by: turn.by,
    clearance: turn.clearance,
  };
}
