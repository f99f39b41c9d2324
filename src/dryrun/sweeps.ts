import type { Tool } from '../model/machine.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { toRad } from '../units/scalar.ts';
import type { Bench, HungShell } from './context.ts';
import { alongArc } from './sample.ts';
import { A, axisOr0, type Step, X, Y, Z } from './step.ts';
import { deepestOnWay, touches } from './wood.ts';

/** A bit standing in the wood, as deep as it ever came there. What is above it is gone as well: all bits widen upwards. */
export interface Sweep {
  readonly tool: Tool;
  readonly x: Mm;
  readonly y: Mm;
  /** Angle of the work under the spindle, anticlockwise seen from + X (ISO 841), not wrapped. */
  readonly turn: Deg;
  z: Mm;
}

/** Stands nearer than this are one stand. */
const SAME_STAND: Mm = 0.005;
/** Stands along a sideways cut: scallops of s^2 / 8r between them stay below a thousandth for any mill. */
const SPACING: Mm = 0.1;
/** Chords of an arc: their rise r (1 - cos 1 deg) is below a thousandth up to r = 6. */
const FINE: Deg = 2;
/** A way is walked in at most so many parts: a wrong number may send the bit a kilometre. */
const MOST_PARTS = 5000;
const MOST_SWEEPS = 100_000;

/** Collects where the bits have been in the wood, step by step. */
export interface SweepCollector {
  readonly step: (step: Step) => void;
  readonly sweeps: () => readonly Sweep[];
  readonly overflowed: () => boolean;
}

export function collectSweeps(bench: Bench<HungShell>): SweepCollector {
  const stands = new Map<string, Sweep>();
  const skin = { radius: bench.radius, depth: bench.depth };
  const sense = bench.frame.a === 'iso' ? 1 : -1;
  let tool: Tool | undefined;
  let overflow = false;

  function stand(x: Mm, y: Mm, a: Deg, z: Mm): void {
    if (tool === undefined || !(z < 0)) return;
    const q = SAME_STAND;
    const key = `${tool.id} ${Math.round(x / q)} ${Math.round(y / q)} ${Math.round((toRad(a) * bench.radius) / q)}`;
    const known = stands.get(key);
    if (known) {
      if (z < known.z) known.z = z;
    } else if (stands.size < MOST_SWEEPS) stands.set(key, { tool, x, y, turn: sense * a, z });
    else overflow = true;
  }

  function straight(from: Float64Array, to: Float64Array): void {
    if (tool === undefined || !touches(deepestOnWay(from, to, tool.diameter / 2, skin))) return;
    const [x0, y0, a0] = [start(from, to, X), start(from, to, Y), start(from, to, A)];
    const z0 = start(from, to, Z);
    const [x1, y1, a1, z1] = [axisOr0(to[X]!), axisOr0(to[Y]!), axisOr0(to[A]!), to[Z]!];
    const r = tool.diameter / 2;
    // Only the part of the way that lies over the shell is walked.
    const [xa, xb] = overlap(x0, x1, -r, bench.depth + r);
    const [ya, yb] = overlap(y0, y1, -bench.radius - r, bench.radius + r);
    const ta = Math.max(xa, ya);
    const tb = Math.min(xb, yb);
    const way = Math.hypot(x1 - x0, y1 - y0, toRad(a1 - a0) * bench.radius) * (tb - ta);
    const parts = Math.max(1, Math.min(MOST_PARTS, Math.ceil(way / SPACING)));
    if (way === 0) stand(x1, y1, a1, Math.min(z0, z1));
    else if (way > 0)
      for (let i = 0; i <= parts; i++) {
        const t = ta + ((tb - ta) * i) / parts;
        stand(x0 + (x1 - x0) * t, y0 + (y1 - y0) * t, a0 + (a1 - a0) * t, z0 + (z1 - z0) * t);
      }
  }

  return {
    step(s) {
      if (s.kind === 'tool') tool = bench.tools.get(s.tool);
      else if (s.kind === 'arc') {
        const p = Float64Array.from(s.from);
        const q = Float64Array.from(s.from);
        alongArc(
          s,
          (x, y, z, a) => {
            q.set([x, y, z, a]);
            straight(p, q);
            p.set(q);
          },
          FINE,
        );
      } else if (s.kind === 'feed' || s.kind === 'rapid') straight(s.from, s.to);
    },
    sweeps: () => [...stands.values()],
    overflowed: () => overflow,
  };
}

/** Where along the way from `a` to `b` (0 to 1) it lies between `low` and `high`. */
function overlap(a: number, b: number, low: number, high: number): [number, number] {
  if (a === b) return a >= low && a <= high ? [0, 1] : [1, 0];
  const p = (low - a) / (b - a);
  const q = (high - a) / (b - a);
  return [Math.max(0, Math.min(p, q)), Math.min(1, Math.max(p, q))];
}

const start = (from: Float64Array, to: Float64Array, axis: number): number =>
  axisOr0(Number.isNaN(from[axis]!) ? to[axis]! : from[axis]!);

const OLD = -1;
export const isOld = (s: Sweep): boolean => s.tool.id === OLD;

/** Holes that were there before, as if a straight bit had gone through. */
export const oldHoles = (bench: Bench<HungShell>): Sweep[] =>
  (bench.context.shell.holes ?? []).map((h) => ({
    tool: { id: OLD, kind: 'end-mill', diameter: h.diameter, lips: 0, flute: 0, stickout: 0, shank: 0 },
    x: bench.context.datum === 'bottom' ? h.height : bench.depth - h.height,
    y: 0,
    turn: bench.context.datum === 'bottom' ? h.angle : -h.angle,
    z: -bench.radius,
  }));
