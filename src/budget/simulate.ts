import { seeded } from '../geometry/random.ts';
import type { Vector } from '../geometry/rigid.ts';
import { QuickFit } from '../geometry/rigid-quick.ts';
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
  // A bore with a walk has two circles to pass, one at either skin.
  const circles = bores.flatMap((b, hole) => {
    const outer = { hole, at: b.at, walk: { x: 0, y: 0 } };
    return b.walk.x === 0 && b.walk.y === 0 ? [outer] : [outer, { hole, at: b.at, walk: b.walk }];
  });
  const quick = new QuickFit(circles.map((c) => c.at));
  const ex = new Float64Array(circles.length);
  const ey = new Float64Array(circles.length);
  const hx = new Float64Array(bores.length);
  const hy = new Float64Array(bores.length);
  for (let i = 0; i < samples; i++) {
    const sx = s.stretch.around * normal();
    const sy = s.stretch.along * normal();
    const w = s.lean * normal();
    for (let k = 0; k < bores.length; k++) {
      const { at } = bores[k]!;
      hx[k] = s.hole.around * normal() + sx * at.x - w * at.y;
      hy[k] = s.hole.along * normal() + sy * at.y + w * at.x;
    }
    for (let k = 0; k < circles.length; k++) {
      const c = circles[k]!;
      ex[k] = hx[c.hole]! + c.walk.x;
      ey[k] = hy[c.hole]! + c.walk.y;
    }
    // A tenth of what a bench can see is enough where thousands of fits are counted.
    free[i] = quick.free(ex, ey, tolerance.same / 10);
    held[i] = quick.held(ex, ey);
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
