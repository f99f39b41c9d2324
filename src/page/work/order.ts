import type { View } from '../view.ts';
import { backing, firstLug, full, pilots, vent } from './drill.ts';
import { deburr, fitUp } from './finish.ts';
import { firstLugByProgram, program, witness } from './machine.ts';
import { checkSide, makeCollar, mark, measure, tape } from './prepare.ts';
import type { Extra, WorkStep } from './step.ts';

/** The whole job in working order, for this build and this way of marking and drilling. */
export function workSteps(view: View, extra: Extra): readonly WorkStep[] {
  const lug = view.layout.placed.find((p) => p.role === 'lug');
  const before = [measure(view), tape(view), ...makeCollar(view, extra), mark(view), checkSide(view)];
  const after = [deburr(view), ...(byProgram(view, extra) ? [] : vent(view)), fitUp(view)];
  if (byProgram(view, extra)) {
    return [...before, witness(view, extra), ...(lug ? [firstLugByProgram(lug)] : []), program(view, extra), ...after];
  }
  return [
    ...before,
    ...(lug ? [firstLug(view, lug)] : []),
    pilots(view, lug),
    backing(view),
    ...full(view, lug),
    ...after,
  ];
}

const byProgram = (view: View, extra: Extra): boolean => view.jig.method === 'rotary' && extra.rotary !== null;
