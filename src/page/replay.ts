import { clock } from '../dryrun/clock.ts';
import { readProgram } from '../dryrun/program.ts';
import { A, type Step, X, Y, Z } from '../dryrun/step.ts';
import type { Machine } from '../model/machine.ts';
import type { Mm } from '../units/scalar.ts';
import { KIND, type ReplayMove } from './replay-move.ts';

/** More moves than this are thinned out: the page stays small, and no eye follows them. */
const MOST = 4000;

/** The program as the dry run's interpreter and clock see it, move by move; `skin`: the shell's radius. Unset axes count as 0. */
export function replayOf(program: string, machine: Machine, skin: Mm): readonly ReplayMove[] {
  const time = clock(machine, skin);
  const moves: ReplayMove[] = [];
  const at = (v: number | undefined): number => (v === undefined || Number.isNaN(v) ? 0 : Math.round(v * 100) / 100);
  const reader = readProgram({
    step(s: Step) {
      time.step(s);
      const kind = s.kind === 'rapid' ? KIND.rapid : s.kind === 'feed' || s.kind === 'arc' ? KIND.feed : KIND.wait;
      moves.push([s.line, at(s.to[X]), at(s.to[Y]), at(s.to[Z]), at(s.to[A]), at(time.total()), kind, s.tool]);
    },
    problem() {},
  });
  reader.push(program);
  reader.finish();
  time.finish();
  return thinned(moves);
}

/** Every kept move ends where it did; of a run of cuts on one place every n-th is kept and its last. */
function thinned(moves: readonly ReplayMove[]): readonly ReplayMove[] {
  if (moves.length <= MOST) return moves;
  const every = Math.ceil(moves.length / (MOST / 2));
  return moves.filter((m, i) => m[6] !== KIND.feed || moves[i + 1]?.[6] !== KIND.feed || i % every === 0);
}
