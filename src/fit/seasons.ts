import { findWood } from '../data/wood.ts';
import { emc, type ShellMovement, shellMovement } from '../geometry/moisture.ts';
import type { Fact } from '../model/finding.ts';
import { type Bench, notChecked, raise } from './bench.ts';
import { headFit } from './head.ts';

/**
 * Wood that moves: from the workshop's climate to the home's, what girth, depth and roundness do, and what that means
 * for the head and for a collar kept for the next shell. Closeness is a care, never a stop: boards differ, and so do
 * winters.
 */
export function checkSeasons(bench: Bench): Fact[] {
  const { climate, shell } = bench.jig;
  const wood = shell.wood === undefined ? undefined : findWood(shell.wood)?.movement;
  if (!climate || !shell.build || !wood) {
    const needs = [
      ...(climate ? [] : ['climate']),
      ...(shell.build ? [] : ['shell.build']),
      ...(wood ? [] : [shell.wood === undefined ? 'shell.wood' : `a wood whose movement is known (not ${shell.wood})`]),
    ];
    return [notChecked(bench, 'shell', 'what the seasons do to the shell', needs, 'climate', 'shell')];
  }
  const from = emc(climate.workshop.temperature, climate.workshop.humidity);
  const to = emc(climate.home.temperature, climate.home.humidity);
  const moves = shellMovement({
    build: shell.build,
    wood: { tangential: wood.CT, radial: wood.CR },
    girth: shell.girth,
    depth: shell.depth,
    wall: shell.wall,
    from,
    to,
  });
  const facts = {
    from,
    to,
    girth: moves.girth.likely,
    girthMost: moves.girth.most,
    diameter: moves.diameter.likely,
    diameterMost: moves.diameter.most,
    depth: moves.depth.likely,
    round: moves.outOfRound,
  };
  const keys = ['climate', 'shell'];
  return [
    raise(bench, { level: 'note', id: 'season-movement', at: 'shell', measured: moves.girth.likely, facts, keys }),
    ...headLater(bench, moves, facts, keys),
    ...collarLater(bench, moves, facts, keys),
    ...roundLater(bench, moves, facts, keys),
  ];
}

type Facts = Record<string, string | number>;

/** From floating to binding. */
const FITS = ['small', 'loose', 'good', 'tight', 'large'];
const offGood = (fit: string): number => FITS.indexOf(fit) - FITS.indexOf('good');

/** Raised only where the season makes it worse: a shell that is too tight today has its own finding. */
function headLater(bench: Bench, moves: ShellMovement, facts: Facts, keys: readonly string[]): Fact[] {
  const { nominal, radius } = bench.jig.shell;
  if (nominal === undefined) return [];
  const now = headFit(2 * radius, nominal);
  const size = 2 * radius + moves.diameter.most;
  const later = headFit(size, nominal);
  const [was, is] = [offGood(now.fit), offGood(later.fit)];
  if (is === 0 || (was * is > 0 && Math.abs(is) <= Math.abs(was))) return [];
  const binds = is > 0;
  return [
    raise(bench, {
      level: 'care',
      id: binds ? 'season-head-binds' : 'season-head-floats',
      at: 'shell',
      measured: size,
      limit: later.limit,
      facts: { ...facts, nominal },
      keys,
    }),
  ];
}

/** A collar is cut to the shell as it is in the workshop; the next time it may have to go over a shell that has swollen. */
function collarLater(bench: Bench, moves: ShellMovement, facts: Facts, keys: readonly string[]): Fact[] {
  const { collar } = bench.jig;
  const change = Math.abs(moves.diameter.most) / 2;
  if (!collar.asked || change <= collar.clearance) return [];
  return [
    raise(bench, {
      level: 'care',
      id: 'season-collar',
      at: 'collar',
      measured: change,
      limit: collar.clearance,
      facts,
      keys: ['collar', ...keys],
    }),
  ];
}

function roundLater(bench: Bench, moves: ShellMovement, facts: Facts, keys: readonly string[]): Fact[] {
  const round = (bench.jig.shell.round ?? 0) + moves.outOfRound;
  if (moves.outOfRound === 0 || round <= 2 * bench.limits.round) return [];
  return [
    raise(bench, {
      level: 'care',
      id: 'season-out-of-round',
      at: 'shell',
      measured: round,
      limit: 2 * bench.limits.round,
      facts,
      keys,
    }),
  ];
}
