import type { MachinePoint } from '../model/frames.ts';
import type { Move } from '../model/move.ts';
import { PLANES } from './arcs.ts';
import { newStep, type Step } from './step.ts';

const PLANE_NORMAL = { yz: 0, xz: 1, xy: 2 } as const;

/** A plain move as the step that made it, for those who watch steps; undefined for what moves no bit. */
export function stepOf(move: Move): Step | undefined {
  const step = newStep();
  step.line = move.kind === 'tool' || 'line' in move ? move.line : 0;
  switch (move.kind) {
    case 'tool':
      step.kind = 'tool';
      step.tool = move.tool;
      return step;
    case 'rapid':
    case 'feed':
    case 'arc': {
      step.kind = move.kind;
      put(step.from, move.from);
      put(step.to, move.to);
      step.speed = move.spindle;
      step.tool = move.tool;
      if (move.kind !== 'arc') return step;
      const [one, two, normal] = PLANES[PLANE_NORMAL[move.plane]]!;
      step.axis0 = one;
      step.axis1 = two;
      step.axis2 = normal;
      step.center0 = move.center[0];
      step.center1 = move.center[1];
      step.sweep = move.sweep;
      step.radius = Math.hypot(step.from[one]! - step.center0, step.from[two]! - step.center1);
      return step;
    }
    default:
      return undefined;
  }
}

function put(into: Float64Array, p: MachinePoint): void {
  into[0] = p.x;
  into[1] = p.y;
  into[2] = p.z;
  into[3] = p.a;
}
