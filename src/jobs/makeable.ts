import type { Fact } from '../model/finding.ts';
import { type MakingStop, makingStops, type Stage } from './making.ts';
import { makingCures } from './making-cures.ts';
import { nameOf, type Proposal, type Trial, type Tries } from './search.ts';
import { changesOf, type Step, sentence } from './steps.ts';

/** Changes after which the set can be made, once the fit check is content: wrap, collar, program and dry run. */
export interface Makeable {
  readonly steps: readonly Step[];
  /** Stops of the making before any change, and what is left of them. */
  readonly before: number;
  readonly left: readonly Fact[];
  /** No smaller set of the known cures does as much: at most one step was needed. */
  readonly proven: boolean;
}

interface Made {
  readonly trial: Trial;
  readonly stops: readonly MakingStop[];
}

/** Sets made on trial; each lays out the collar and runs the program dry, some tens of milliseconds. */
const TRIES = 24;
/** Other ways told beside the one taken. */
const OTHER_WAYS = 3;

/**
 * Step by step the change that clears most stops of the making and brings no new one to the fit; of equals the cheapest.
 * Doing without a part is tried last. While searching only the stages that stand still are made; what is taken is proven
 * by making everything again.
 */
export function makeable(bench: Tries, fitted: Trial): Makeable {
  const make = (trial: Trial, stages?: ReadonlySet<Stage>): Made => ({
    trial,
    stops: makingStops(trial.jig, trial.layout, trial.facts, stages),
  });
  const before = make(bench.start());
  let now = fitted.steps.length === 0 ? before : make(fitted);
  let tries = TRIES;
  const taken: { p: Proposal; from: Made; to: Made; others: readonly Proposal[] }[] = [];
  while (now.stops.length > 0) {
    const stuck = new Set(now.stops.map((s) => s.stage));
    const better: { p: Proposal; made: Made }[] = [];
    for (const p of proposalsFor(now)) {
      if (p.cost >= WITHOUT && better.length > 0) break;
      // The cheapest come first: nothing beats one that clears all.
      if (better.some((b) => b.made.stops.length === 0) || tries-- <= 0) break;
      const trial = bench.of([...now.trial.steps, p]);
      if (!trial || trial.weight > now.trial.weight) continue;
      const made = make(trial, stuck);
      if (made.stops.length < now.stops.length) better.push({ p, made });
    }
    const [best, ...others] = better.sort((a, b) => a.made.stops.length - b.made.stops.length || a.p.cost - b.p.cost);
    const to = best && make(best.made.trial);
    if (!best || !to || to.stops.length >= now.stops.length) break;
    const equal = others.filter((o) => o.made.stops.length === best.made.stops.length).map((o) => o.p);
    taken.push({ p: best.p, from: now, to, others: equal });
    now = to;
  }
  // What was tried on a part that is left out in the end is not needed.
  const leftOut = taken.flatMap(({ p }) => (p.cost >= WITHOUT ? Object.keys(p.set) : []));
  const needed = taken.filter(({ p }) => p.cost >= WITHOUT || !leftOut.some((part) => within(p, part)));
  const final = needed.length === taken.length ? now : makeFrom(bench, fitted, needed, make);
  return {
    steps: needed.map((t) => stepOf(t)),
    before: before.stops.length,
    left: final.stops.map((s) => s.fact),
    proven: needed.length <= 1 && final.stops.length === 0,
  };
}

const within = (p: Proposal, part: string): boolean => Object.keys(p.set).every((key) => key.startsWith(`${part}.`));

function makeFrom(
  bench: Tries,
  fitted: Trial,
  taken: readonly { readonly p: Proposal }[],
  make: (trial: Trial) => Made,
): Made {
  const trial = bench.of([...fitted.steps, ...taken.map((t) => t.p)]);
  if (!trial) throw new Error('steps that were sound together with others are refused alone');
  return make(trial);
}

/** Proposals of this cost do without the part. */
const WITHOUT = 5;

/** Each change once, the cheapest first. */
function proposalsFor({ stops, trial }: Made): Proposal[] {
  const byChange = new Map<string, Proposal>();
  for (const p of stops.flatMap((s) => makingCures(s, trial.jig))) {
    const key = JSON.stringify(p.set);
    if (!byChange.has(key)) byChange.set(key, p);
  }
  return [...byChange.values()].sort((a, b) => a.cost - b.cost);
}

function stepOf({ p, from, to, others }: { p: Proposal; from: Made; to: Made; others: readonly Proposal[] }): Step {
  const still = new Set(to.stops.map((s) => nameOf(s.fact)));
  return {
    say: sentence(p.say),
    changes: changesOf(from.trial.raw, p),
    clears: [...new Set(from.stops.map((s) => nameOf(s.fact)))].filter((name) => !still.has(name)),
    or: others.map((o) => sentence(o.say)).slice(0, OTHER_WAYS),
  };
}
