import { check } from '../fit/check.ts';
import { curesFor } from '../fit/cures.ts';
import { slipsFor } from '../fit/slips.ts';
import { bestTurn } from '../fit/turn.ts';
import { type ResolveOptions, resolveJig } from '../jig/resolve.ts';
import { layOut } from '../layout/layout.ts';
import type { Fact, Finding } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { fitSayings } from '../say/fit.ts';
import { sayAll } from '../say/say.ts';
import { trimmed } from '../say/saying.ts';
import { wrapDeg } from '../units/scalar.ts';
import { type RawJig, valueAt, withChanges } from './changes.ts';

/** One key of the jig file to change. */
export interface Change {
  readonly path: string;
  /** As the file says now; null when the key is not there. */
  readonly from: unknown;
  readonly to: unknown;
}

/** One thing to do: one key, or a few that change together. */
export interface Step {
  readonly say: string;
  readonly changes: readonly Change[];
  /** Stops it clears, by id and place. */
  readonly clears: readonly string[];
  /** Other things to do instead that clear as much. */
  readonly or: readonly string[];
}

export interface TurnStep {
  readonly say: string;
  readonly changes: readonly Change[];
  readonly clears: readonly string[];
  /** To the right seen from outside, deg. */
  readonly by: number;
  /** Least wood it leaves between a hole and a joint or an old hole, mm. */
  readonly clearance: number;
}

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

interface Proposal {
  readonly set: Readonly<Record<string, unknown>>;
  readonly say: string;
  readonly cost: number;
}

/** The jig with some steps taken, checked. */
interface Trial {
  readonly raw: RawJig;
  readonly steps: readonly Proposal[];
  readonly jig: Jig;
  readonly layout: Layout;
  readonly facts: readonly Fact[];
  readonly stops: readonly Fact[];
  readonly weight: number;
}

/** Checks a search may spend; each takes a millisecond or two. */
const TRIES = 250;
/** Steps beyond which a search for a complete cure gives up. */
const DEEPEST = 3;

/**
 * What to change so that it goes together: tries the cures of the findings, alone and together, by checking the changed
 * jig object again (object -> jig -> layout -> checks). Throws when the object does not resolve.
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
  return {
    steps: trial.steps.map((_, i) => stepOf(bench, trial, i)),
    smallest: proven,
    before: start.stops.length,
    after: trial.stops.length,
    left: sayAll(trial.stops, fitSayings),
    ...(turn ? { turn } : {}),
  };
}

/** Every combination of steps is checked once. */
class Tries {
  readonly #known = new Map<string, Trial | undefined>();
  readonly #raw: RawJig;
  readonly #options: ResolveOptions;
  #left = TRIES;

  constructor(raw: RawJig, options: ResolveOptions) {
    this.#raw = raw;
    this.#options = options;
  }

  start(): Trial {
    const trial = this.of([]);
    if (!trial) throw new Error('the jig object does not resolve');
    return trial;
  }

  /** Undefined when the changed object is refused. */
  of(steps: readonly Proposal[]): Trial | undefined {
    const key = steps
      .map((s) => JSON.stringify(s.set))
      .sort()
      .join();
    if (!this.#known.has(key)) {
      this.#left--;
      this.#known.set(key, this.#check(steps));
    }
    return this.#known.get(key);
  }

  hasTriesLeft(): boolean {
    return this.#left > 0;
  }

  /** A fresh allowance for the next search. */
  renew(): void {
    this.#left = TRIES;
  }

  #check(steps: readonly Proposal[]): Trial | undefined {
    const raw = steps.reduce((r, s) => withChanges(r, s.set), this.#raw);
    const resolved = resolveJig(raw, this.#options);
    if (!resolved.ok) return undefined;
    const layout = layOut(resolved.jig);
    const facts = check(resolved.jig, layout);
    const stops = facts.filter((f) => f.level === 'stop');
    return { raw, steps, jig: resolved.jig, layout, facts, stops, weight: weigh(stops) };
  }
}

/** Eight lugs that overlap are more to cure than one, but one finding is more than many lugs of another. */
const weigh = (stops: readonly Fact[]): number =>
  stops.reduce((sum, f) => sum + 1 + Math.min(99, Number(f.facts?.['count'] ?? 1)) / 100, 0);

const isBetter = (a: Trial, b: Trial): boolean =>
  a.weight < b.weight || (a.weight === b.weight && a.steps.length < b.steps.length);

const nameOf = (f: Fact): string => `${f.id} ${f.at}`;

/** What is worth trying next for these findings, each change once. */
function proposalsFor(t: Trial, stops: readonly Fact[]): Proposal[] {
  const seen = new Set<string>();
  const turn = stops.some((f) => f.id === 'hole-into-old-hole') ? turnProposal(t) : [];
  return [...stops.flatMap((f) => curesFor(f, t.jig, t.layout)), ...turn].filter((p) => {
    const key = JSON.stringify(p.set);
    return !seen.has(key) && seen.add(key);
  });
}

/** Step by step the change that clears most; of equals the cheaper, then the one with less to take care of. */
function greedily(bench: Tries, start: Trial, first: readonly Proposal[] = []): Trial {
  let now = start;
  let next: readonly Proposal[] = first.length > 0 ? first : proposalsFor(now, now.stops);
  bench.renew();
  while (now.stops.length > 0) {
    let best: Trial | undefined;
    let bestRank = Number.POSITIVE_INFINITY;
    for (const p of next) {
      if (!bench.hasTriesLeft()) break;
      const t = bench.of([...now.steps, p]);
      if (!t || t.weight >= now.weight) continue;
      const rank = t.weight + p.cost / 1000 + t.facts.filter((f) => f.level === 'care').length / 100_000;
      if (rank < bestRank) [best, bestRank] = [t, rank];
    }
    if (!best) break;
    now = best;
    next = proposalsFor(now, now.stops);
  }
  return withoutNeedless(bench, now);
}

/** Every step that turns out not to be needed is taken away again. */
function withoutNeedless(bench: Tries, t: Trial): Trial {
  let now = t;
  for (let i = now.steps.length - 1; i >= 0; i--) {
    const without = bench.of(now.steps.filter((_, k) => k !== i));
    if (without && without.weight <= now.weight) now = without;
  }
  return now;
}

/** As if one value were a slip of unit or tape, and then on. */
const throughSlip = (bench: Tries, start: Trial): Trial => greedily(bench, start, slipsFor(start.stops, start.raw));

/**
 * Looks for a set with fewer steps, or for one that clears what is left, one step more at a time: whatever clears all
 * must cure the first stop that is left, so only its cures branch.
 */
function fewerSteps(bench: Tries, start: Trial, known: Trial): { trial: Trial; proven: boolean } {
  bench.renew();
  const stuck = known.stops.length > 0;
  for (let size = 1; size <= (stuck ? DEEPEST : known.steps.length - 1); size++) {
    const found = ofSize(start, size);
    if (found) return { trial: withoutNeedless(bench, found), proven: true };
    if (!bench.hasTriesLeft()) return { trial: known, proven: false };
  }
  return { trial: known, proven: true };

  function ofSize(from: Trial, left: number): Trial | undefined {
    const [first] = from.stops;
    if (!first) return from;
    if (left === 0) return undefined;
    for (const p of proposalsFor(from, [first])) {
      if (!bench.hasTriesLeft()) return undefined;
      const t = bench.of([...from.steps, p]);
      const found = t && ofSize(t, left - 1);
      if (found) return found;
    }
    return undefined;
  }
}

const sentence = (say: string): string => `${say.charAt(0).toUpperCase()}${say.slice(1)}.`;

const changesOf = (raw: RawJig, p: Proposal): Change[] =>
  Object.entries(p.set).map(([path, to]) => ({ path, from: valueAt(raw, path) ?? null, to }));

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

/** Turning the layout to the right by `by` is the same as turning what stays with the shell to the left. */
function turnProposal(t: Trial): Proposal[] {
  const turn = bestTurn(t.jig, t.layout);
  if (!turn) return [];
  const { shell } = t.jig;
  const back = (angle: number) => `${trimmed(wrapDeg(angle - turn.by), 4)} deg`;
  const set: Record<string, unknown> = {};
  if (shell.joints.length > 0) set['shell.joints'] = shell.joints.map(back);
  shell.holes.forEach((h, i) => {
    set[`shell.holes.${i}.at`] = back(h.angle);
  });
  for (const side of ['top', 'bottom'] as const) {
    const joint = shell.rings[side]?.joint;
    if (joint !== undefined) set[`shell.rings.${side}.joint`] = back(joint);
  }
  const way = turn.by >= 0 ? 'right' : 'left';
  const by = trimmed(Math.abs(turn.by), 2);
  const say = `turn the whole layout: mark the strainer line ${by} deg to the ${way} of where it is now, seen from outside`;
  return [{ set, say, cost: 1 }];
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

/** The suggestion for people: what to do, what instead, and what is left. */
export function suggestionText(s: Suggestion): string {
  const steps = s.steps.map((step, i) => {
    const or = step.or.map((o) => `      or: ${o}\n`).join('');
    return `  ${i + 1}. ${step.say}\n${or}      clears: ${step.clears.join(', ')}\n`;
  });
  const left = s.left.map((f) => `  left: ${f.at}: ${f.text}\n`);
  const head =
    s.before === 0
      ? 'Nothing to change: there is no stop.\n'
      : s.steps.length === 0
        ? 'No change of the jig file clears a stop: measure again.\n'
        : `${s.smallest ? 'The smallest set of changes found' : 'A set of changes'} that ${s.after === 0 ? 'clears every stop' : `leaves ${s.after} of ${s.before} stops`}, checked again:\n`;
  return head + steps.join('') + left.join('') + (s.turn ? `  also: ${s.turn.say}\n` : '');
}
