import type { Move } from '../model/move.ts';
import { clusters } from './clusters.ts';
import { type Bench, benchOf, type HungShell } from './context.ts';
import { stepOf } from './replay.ts';
import { type RemovalOptions, siteOf } from './site.ts';
import type { Step } from './step.ts';
import type { Site } from './stretches.ts';
import { collectSweeps, isOld, oldHoles, type Sweep } from './sweeps.ts';

export type { RemovalOptions } from './site.ts';

/** Wood that a program took away. */
export interface Removal {
  readonly sites: readonly Site[];
  /** All wood gone, mm^3. */
  readonly volume: number;
  readonly bench: Bench<HungShell>;
  /** More places than could be kept: what is shown is not all. */
  readonly incomplete: boolean;
}

/** A shell of so many places is no shell any more; memory stays bounded. */
const MOST_SITES = 5000;

/** Takes wood away step by step, beside a dry run. */
export interface RemovalRun {
  readonly step: (step: Step) => void;
  readonly finish: () => Removal;
}

export function startRemoval(context: HungShell, options: RemovalOptions = {}): RemovalRun {
  const bench = benchOf(context);
  const collector = collectSweeps(bench);
  return {
    step: collector.step,
    finish: () => removalOf(collector.sweeps(), bench, options, collector.overflowed()),
  };
}

/**
 * What is left of the wall: every bit swept along every move. Moves of bits it does not know are passed over.
 * @param moves as `interpret` gives them, problems left out
 * @param context shell, machine and the bits by number
 * @param options how fine
 * @returns the places where wood is gone; volume within 0.1 % of the integral at the default grid
 * @throws never
 * @source derived: exact stretches along X on a grid of angles and layers
 */
export function removal(moves: Iterable<Move>, context: HungShell, options: RemovalOptions = {}): Removal {
  const run = startRemoval(context, options);
  for (const move of moves) {
    const step = stepOf(move);
    if (step) run.step(step);
  }
  return run.finish();
}

function removalOf(
  sweeps: readonly Sweep[],
  bench: Bench<HungShell>,
  options: RemovalOptions = {},
  incomplete = false,
): Removal {
  const old = oldHoles(bench);
  const groups = clusters([...sweeps, ...old], bench.radius).filter((group) => !group.every(isOld));
  const sites = groups.slice(0, MOST_SITES).map((group) => siteOf(group, bench, options));
  const volume = sites.reduce((sum, s) => sum + s.volume, 0);
  return { sites, volume, bench, incomplete: incomplete || groups.length > MOST_SITES };
}
