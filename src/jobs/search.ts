import { check } from '../fit/check.ts';
import { curesFor } from '../fit/cures.ts';
import { slipsFor } from '../fit/slips.ts';
import { bestTurn } from '../fit/turn.ts';
import { type ResolveOptions, resolveJig } from '../jig/resolve.ts';
import { layOut } from '../layout/layout.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import { wrapDeg } from '../units/scalar.ts';
import { type RawJig, withChanges } from './changes.ts';

/** The search behind a suggestion: sets of cures, tried by checking the changed jig object again. */

export interface Proposal {
  readonly set: Readonly<Record<string, unknown>>;
  readonly say: string;
  readonly cost: number;
}

/** The jig with some steps taken, checked. */
export interface Trial {
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
export const DEEPEST = 3;

/** Every combination of steps is checked once. */
export class Tries {
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

export const isBetter = (a: Trial, b: Trial): boolean =>
  a.weight < b.weight || (a.weight === b.weight && a.steps.length < b.steps.length);

export const nameOf = (f: Fact): string => `${f.id} ${f.at}`;

/** What is worth trying next for these findings, each change once. */
export function proposalsFor(t: Trial, stops: readonly Fact[]): Proposal[] {
  const seen = new Set<string>();
  const turn = stops.some((f) => f.id === 'hole-into-old-hole') ? turnProposal(t) : [];
  return [...stops.flatMap((f) => curesFor(f, t.jig, t.layout)), ...turn].filter((p) => {
    const key = JSON.stringify(p.set);
    return !seen.has(key) && seen.add(key);
  });
}

/** Step by step the change that clears most; of equals the cheaper, then the one with less to take care of. */
export function greedily(bench: Tries, start: Trial, first: readonly Proposal[] = []): Trial {
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
export const throughSlip = (bench: Tries, start: Trial): Trial =>
  greedily(bench, start, slipsFor(start.stops, start.raw));

/**
 * Looks for a set with fewer steps, or for one that clears what is left, one step more at a time: whatever clears all
 * must cure the first stop that is left, so only its cures branch.
 */
export function fewerSteps(bench: Tries, start: Trial, known: Trial): { trial: Trial; proven: boolean } {
  bench.renew();
  const stuck = known.stops.length > 0;
  for (let size = 1; size <= (stuck ? DEEPEST : known.steps.length - 1); size++) {
    const found = ofSize(start, size);
    if (found) return { trial: withoutNeedless(bench, found), proven: true };
    if (!bench.hasTriesLeft()) return { trial: known, proven: false };
  }
  // Of what clears only a part, smaller sets were not looked for.
  return { trial: known, proven: !stuck || known.steps.length < 2 };

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

/** Turning the layout to the right by `by` is the same as turning what stays with the shell to the left. */
export function turnProposal(t: Trial): Proposal[] {
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
