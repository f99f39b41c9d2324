import type { Machine } from '../model/machine.ts';
import type { Step } from './step.ts';

/** What a step asks of the controller that it does not understand; undefined when there is nothing. */
export function lackOf(s: Step, understands: Machine['understands']): string | undefined {
  if (s.kind === 'arc' && !understands.arcs) return 'arcs';
  if (s.cycle && !understands.cycles) return 'drilling cycles';
  if (s.inverse && (s.kind === 'feed' || s.kind === 'arc') && !understands.inverseTime) return 'inverse-time feed';
  return undefined;
}
