import { acrossAngle, signOfA, toMachine } from '../geometry/frames.ts';
import type { MachinePoint } from '../model/frames.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout } from '../model/layout.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { RotaryOptions } from './types.ts';

/** Direction of growing shell angle on A. */
export const signFor = (jig: Jig): 1 | -1 =>
  signOfA({ datum: jig.rotary.datum, depth: jig.shell.depth, a: jig.rotary.machine.a });

/** Over the hole; or over its fitting's line and beside the axis, when it is drilled parallel. */
export function placeOf(jig: Jig, layout: Layout, hole: Hole, o: RotaryOptions): { place: MachinePoint; y: Mm } {
  const { machine, datum } = jig.rotary;
  const frame = { datum, depth: layout.depth, a: machine.a };
  // A mark is made on the skin, square to it, whichever way the hole will go.
  const beside = o.markOnly !== true && o.parallel === 'by-y' && machine.hasY && isParallel(hole);
  if (!beside) return { place: toMachine(hole, 0, frame), y: 0 };
  const line = hole.angle - acrossAngle(hole.across, layout.radius);
  // Right hand about +X: work at +Y lies at a smaller angle, however A is wired.
  const y = -signOfA({ ...frame, a: 'iso' }) * hole.across;
  return { place: toMachine({ angle: wrapDeg(line), height: hole.height }, 0, frame), y };
}

/** A hole whose screw stands parallel to its neighbour's and off the fitting's line. */
export const isParallel = (hole: Hole): boolean => hole.axes === 'parallel' && Math.abs(hole.across) > tolerance.same;

/** The angle within a wound axis's limits, by whole turns; as it is on an endless one; undefined when out of reach. */
export function reachable(a: Deg, rotary: 'endless' | readonly [Deg, Deg], swing: Deg): Deg | undefined {
  if (rotary === 'endless') return a;
  const [low, high] = [rotary[0] + swing, rotary[1] - swing];
  const near = [0, -360, 360, -720, 720].map((turn) => a + turn);
  return near.find((t) => t >= low - tolerance.noise && t <= high + tolerance.noise);
}
