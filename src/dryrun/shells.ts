import type { Gatherer } from './gather.ts';
import type { Seen } from './seen.ts';
import type { Cut } from './stations.ts';

/**
 * Which shell is in the machine. A program for several shells stops between them for a new one: the first visit that
 * only does again what was done comes right after that stop. A stop that belongs to a change of bit is none of these: as
 * many stops as came with the bit when it was first fitted are taken for its own.
 */
export interface ShellCounter {
  readonly pause: () => void;
  readonly tool: (id: number) => void;
  /** A bit went into wood; `before`: the cut it only repeats. The shell it went into. */
  readonly cut: (before?: Cut) => number;
}

export function countShells(): ShellCounter {
  let shell = 0;
  /** Stops and the last bit fitted since the last cut. */
  let stops = 0;
  let fitted: number | undefined;
  const own = new Map<number, number>();
  return {
    pause: () => void stops++,
    tool(id) {
      fitted = id;
    },
    cut(before) {
      const expected = fitted === undefined ? 0 : (own.get(fitted) ?? stops);
      if (fitted !== undefined && !own.has(fitted)) own.set(fitted, stops);
      const last = before === undefined ? shell : (before.again.at(-1)?.shell ?? before.shell);
      if (before !== undefined && stops > expected && last === shell) shell++;
      stops = 0;
      fitted = undefined;
      return shell;
    },
  };
}

/**
 * Share of the visits that must agree for the rest to be slips: of a batch, or of a program that is there twice
 * (judgement, no source).
 */
const BATCH = 0.8;

const visitsOf = (s: Seen): readonly Cut[] => s.station.cuts.filter((c) => c.wood && c.kind !== 'line');
const shellsOf = (c: Cut): number => new Set([c.shell, ...c.again.map((a) => a.shell)]).size;

/**
 * A program for several shells does nearly everything in each of them. Anything less even is a hole drilled twice.
 * @param partial one hole is enough for a batch
 */
export function shellsDrilled(cut: readonly Seen[], partial: boolean): number {
  const visits = cut.flatMap(visitsOf);
  const shells = 1 + visits.reduce((most, c) => Math.max(most, c.shell, ...c.again.map((a) => a.shell)), 0);
  const full = visits.filter((c) => shellsOf(c) === shells).length;
  return visits.length > (partial ? 0 : 1) && full >= BATCH * visits.length ? shells : 1;
}

/** A hole that one of the shells does not get; where it is drilled twice in another instead, that is said. */
export function tellLeftOut(at: string, s: Seen, shells: number, g: Gatherer): void {
  const c = visitsOf(s).find((k) => k.again.length + 1 < shells);
  if (c)
    g.raise('stop', 'shell-misses-hole', {
      at,
      line: c.line,
      measured: shellsOf(c),
      limit: shells,
      facts: { tool: c.tool?.id ?? -1 },
    });
}

/**
 * The same bit to the same depth again in the same shell; `planned`: so many holes are planned in this one place, and
 * each may have its visit.
 */
export function tellDoubled(at: string, s: Seen, planned: number, shells: number, g: Gatherer): void {
  for (const c of s.station.cuts) {
    const line = tooMany(c, planned, shells);
    if (line !== undefined)
      g.raise('stop', 'hole-doubled', {
        at,
        line,
        measured: c.depth,
        unit: 'mm',
        facts: { tool: c.tool?.id ?? -1, before: c.line },
      });
  }
}

/** Line of the first visit that is one too many for the shell it goes into. */
function tooMany(c: Cut, planned: number, shells: number): number | undefined {
  const visits = new Map([[shells === 1 ? 0 : c.shell, 1]]);
  for (const { line, shell } of c.again) {
    const into = shells === 1 ? 0 : shell;
    const count = (visits.get(into) ?? 0) + 1;
    if (count > planned) return line;
    visits.set(into, count);
  }
  return undefined;
}

/** Nearly everything is there twice with no stop for a new shell: one cause, said once. */
export function tellJobDoubled(cut: readonly Seen[], shells: number, g: Gatherer): boolean {
  const visits = cut.flatMap(visitsOf);
  const lines = visits.map((c) => tooMany(c, 1, shells)).filter((line) => line !== undefined);
  if (visits.length < 3 || lines.length < BATCH * visits.length) return false;
  const facts = { of: visits.length };
  g.raise('stop', 'job-doubled', { at: 'program', line: Math.min(...lines), measured: lines.length, limit: 0, facts });
  return true;
}
