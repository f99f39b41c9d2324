import { seeded } from '../geometry/random.ts';
import { fitRigid, type Reach, type Vector } from '../geometry/rigid.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Spread } from './spread.ts';

/** A hole of a fitting: where the hardware's screw is, and how far the hole's inner end lies off its outer one. */
export interface Bore {
  readonly at: Vector;
  /** From the outer skin's circle to the inner skin's, as the screw sees it; zero when the bore lies along the screw. */
  readonly walk: Vector;
}

/** Sorted half clearances that each drilled fitting of a simulation would have needed. */
export interface Needs {
  /** To go on at all, turned as suits it. */
  readonly free: Float64Array;
  /** To go on held straight. */
  readonly held: Float64Array;
}

/**
 * Drills the same fitting `samples` times with normal errors and asks for each what reach it needs. Two holes without a
 * walk need no fit: half of what their distance is out by, or, held straight, half of what the second is out by. Any
 * other pattern is fitted for the least greatest miss.
 */
export function simulate(bores: readonly Bore[], spread: Spread, samples: number, seed: number): Needs {
  const straightBores = bores.every((b) => b.walk.x === 0 && b.walk.y === 0);
  const needs =
    bores.length === 2 && straightBores
      ? pairs(bores[0]!.at, bores[1]!.at, spread, samples, seed)
      : patterns(bores, spread, samples, seed);
  needs.free.sort();
  needs.held.sort();
  return needs;
}

function pairs(a: Vector, b: Vector, s: Spread, samples: number, seed: number): Needs {
  const { normal } = seeded(seed);
  const free = new Float64Array(samples);
  const held = new Float64Array(samples);
  const x = b.x - a.x;
  const y = b.y - a.y;
  const length = Math.hypot(x, y);
  const around = s.hole.around * Math.SQRT2;
  const along = s.hole.along * Math.SQRT2;
  for (let i = 0; i < samples; i++) {
    // The difference of two holes' errors is one normal with both variances.
    let ex = around * normal();
    let ey = along * normal();
    if (s.stretch.around > 0) ex += s.stretch.around * normal() * x;
    if (s.stretch.along > 0) ey += s.stretch.along * normal() * y;
    if (s.lean > 0) {
      const w = s.lean * normal();
      ex -= w * y;
      ey += w * x;
    }
    const nx = x + ex;
    const ny = y + ey;
    free[i] = Math.abs(Math.sqrt(nx * nx + ny * ny) - length) / 2;
    held[i] = Math.sqrt(ex * ex + ey * ey) / 2;
  }
  return { free, held };
}

function patterns(bores: readonly Bore[], s: Spread, samples: number, seed: number): Needs {
  const { normal } = seeded(seed);
  const free = new Float64Array(samples);
  const held = new Float64Array(samples);
  const reaches: Reach[] = [];
  for (let i = 0; i < samples; i++) {
    reaches.length = 0;
    const sx = s.stretch.around * normal();
    const sy = s.stretch.along * normal();
    const w = s.lean * normal();
    for (const { at, walk } of bores) {
      const hole = {
        x: at.x + s.hole.around * normal() + sx * at.x - w * at.y,
        y: at.y + s.hole.along * normal() + sy * at.y + w * at.x,
      };
      reaches.push({ screw: at, hole, reach: 0 });
      if (walk.x !== 0 || walk.y !== 0) {
        reaches.push({ screw: at, hole: { x: hole.x + walk.x, y: hole.y + walk.y }, reach: 0 });
      }
    }
    // A tenth of what a bench can see is enough where ten thousand fits are counted.
    free[i] = fitRigid(reaches, { within: tolerance.same / 10 })!.miss;
    held[i] = fitRigid(reaches, { within: tolerance.same / 10, turning: 'held' })!.miss;
  }
  return { free, held };
}

/** Share of the sorted needs that `reach` meets. */
export function shareMet(needs: Float64Array, reach: Mm): number {
  let low = 0;
  let high = needs.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (needs[middle]! <= reach) low = middle + 1;
    else high = middle;
  }
  return low / needs.length;
}
