import type { Machine } from '../model/machine.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Gatherer } from './gather.ts';
import { A, B, C, type Step, X, Y, Z } from './step.ts';

/** Watches the ends of the axes: reported when an axis leaves its range, not while it stays outside. */
export function watchTravel(machine: Machine, g: Gatherer): (s: Step) => void {
  const ranges = axisRanges(machine);
  const outside = new Set<number>();
  return (s) => {
    for (let axis = 0; axis < 6; axis++) {
      const range = ranges[axis]!;
      const v = s.to[axis]!;
      const out = v < range.low - tolerance.same || v > range.high + tolerance.same;
      if (out === outside.has(axis)) continue;
      if (!out) outside.delete(axis);
      else {
        outside.add(axis);
        const limit = v < range.low ? range.low : range.high;
        g.raise('stop', range.id, {
          at: `line ${s.line}`,
          line: s.line,
          measured: v,
          limit,
          unit: axis < 3 ? 'mm' : 'deg',
          facts: { axis: 'XYZABC'[axis]!, side: v < range.low ? 'below' : 'above' },
        });
      }
    }
  };
}

interface Range {
  readonly low: number;
  readonly high: number;
  readonly id: string;
}

function axisRanges(m: Machine): Range[] {
  const ranges: Range[] = [];
  ranges[X] = { low: m.travel.x[0], high: m.travel.x[1], id: 'outside-travel' };
  ranges[Y] = m.hasY
    ? { low: m.travel.y[0], high: m.travel.y[1], id: 'outside-travel' }
    : { low: 0, high: 0, id: 'axis-not-there' };
  ranges[Z] = { low: m.travel.z[0], high: m.travel.z[1], id: 'outside-travel' };
  ranges[A] =
    m.rotary === 'endless'
      ? { low: -Infinity, high: Infinity, id: 'axis-wound' }
      : { low: m.rotary[0], high: m.rotary[1], id: 'axis-wound' };
  ranges[B] = { low: 0, high: 0, id: 'axis-not-there' };
  ranges[C] = ranges[B];
  return ranges;
}
