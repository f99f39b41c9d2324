import { tolerance } from '../units/tolerance.ts';
import type { Bench } from './context.ts';
import { type Gatherer, tellEach } from './gather.ts';
import { lackOf } from './lacks.ts';
import { watchRates } from './rates.ts';
import { A, type Step, stays, X, Y, Z } from './step.ts';
import { watchTravel } from './travel.ts';

/** A dwell of more seconds may be meant in milliseconds (judgement, no source). */
const LONG_DWELL = 60;

/** Watches what the machine and the bit allow, and what the program must set and switch before it moves on. */
export interface LimitWatch {
  readonly step: (step: Step) => void;
  readonly finish: (line: number, ended: boolean) => void;
}

export function watchLimits(bench: Bench, g: Gatherer): LimitWatch {
  const { machine } = bench.context;
  const once = tellEach();
  const travel = watchTravel(machine, g);
  const rates = watchRates(bench, g);
  let spindle: Step['direction'] = 'off';
  let spindleLine = 0;
  let pausedTurning = 0;
  let moved = false;
  let paused = false;
  /** A change of bit that nothing has waited for yet. */
  let change: { readonly line: number; readonly tool: number } | undefined;

  function step(s: Step): void {
    switch (s.kind) {
      case 'rapid':
      case 'feed':
      case 'arc':
        motion(s);
        return;
      case 'spindle':
        spindle = s.direction;
        spindleLine = s.line;
        if (s.direction !== 'off') rates.speed(s);
        return;
      case 'tool':
        if (pausedTurning > 0 && machine.toolChange === 'hand')
          g.raise('stop', 'hand-change-while-turning', {
            at: `line ${pausedTurning}`,
            line: pausedTurning,
            facts: { tool: s.tool },
          });
        pausedTurning = 0;
        spindle = 'off';
        // The first bit is in before the program starts; for the others a hand needs time.
        if (moved && !paused && machine.toolChange === 'hand') change = { line: s.line, tool: s.tool };
        return;
      case 'pause':
        paused = true;
        change = undefined;
        if (spindle === 'off') return;
        pausedTurning = s.line;
        once('pause-while-turning', '', () =>
          g.raise('care', 'pause-while-turning', { at: `line ${s.line}`, line: s.line }),
        );
        return;
      case 'dwell':
        if (s.seconds > LONG_DWELL)
          once('dwell-long', '', () =>
            g.raise('care', 'dwell-long', {
              at: `line ${s.line}`,
              line: s.line,
              measured: s.seconds,
              limit: LONG_DWELL,
              unit: 's',
            }),
          );
        return;
      case 'end':
        if (spindle !== 'off')
          g.raise('care', 'spindle-left-on', { at: `line ${s.line}`, line: s.line, facts: { started: spindleLine } });
        spindle = 'off';
        return;
      default:
        return;
    }
  }

  function motion(s: Step): void {
    pausedTurning = 0;
    if (change !== undefined) changed(change);
    moved = true;
    paused = false;
    change = undefined;
    if (Number.isNaN(s.from[Z]!) && movesAside(s))
      once('z-unknown', '', () => g.raise('stop', 'z-unknown', { at: `line ${s.line}`, line: s.line }));
    travel(s);
    const lack = lackOf(s, machine.understands);
    if (lack !== undefined) lacks(s, lack);
    if (s.kind !== 'rapid') rates.feed(s);
  }

  const changed = ({ line, tool }: { readonly line: number; readonly tool: number }): void =>
    once('change-not-awaited', '', () =>
      g.raise('note', 'change-not-awaited', { at: `line ${line}`, line, facts: { tool } }),
    );

  const lacks = (s: Step, what: string): void =>
    once('machine-lacks', what, () =>
      g.raise('care', 'machine-lacks', { at: `line ${s.line}`, line: s.line, facts: { what, machine: machine.name } }),
    );

  /** Every motion but straight up or down, or one whose start aside is not known. */
  const movesAside = (s: Step): boolean => [X, Y, A].some((axis) => !stays(s, axis));

  return {
    step,
    finish(line, ended) {
      if (!ended && spindle !== 'off')
        g.raise('stop', 'spindle-left-on', { at: 'end', line, facts: { started: spindleLine } });
      const diameter = 2 * bench.radius;
      if (moved && diameter > machine.swing + tolerance.same)
        g.raise('stop', 'shell-over-swing', {
          at: 'shell',
          measured: diameter,
          limit: machine.swing,
          unit: 'mm',
          facts: { machine: machine.name },
        });
    },
  };
}
