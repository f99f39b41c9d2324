import { type Equation, type Normal, normalEquations } from '../geometry/least-squares.ts';
import { median } from '../geometry/statistics.ts';
import type { Shell } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { type Body, type Predicted, plannedSpots, predict, type Spot } from './predict.ts';
import type { ReadingErrors } from './reading-errors.ts';
import type { Reading } from './readings.ts';

/** A reading after the fit. */
export interface Fitted {
  readonly reading: Reading;
  /** Its own standard deviation, mm. */
  readonly sigma: Mm;
  /** What the fitted holes say it should be. */
  readonly value: Mm;
  /** Read less fitted. */
  readonly residual: Mm;
  /** How much of the reading's error the other readings can see: 0 none (nothing checks it), 1 all. */
  readonly seen: number;
  /** Residual over its own standard deviation; normal when the reading is sound. */
  readonly score: number;
}

export interface Adjusted {
  readonly spots: ReadonlyMap<string, Spot>;
  readonly body: Body;
  readonly fitted: readonly Fitted[];
  /** Readings scatter this many times as wide as supposed (at least 1); sigmas below are widened by it. */
  readonly scatter: number;
  /** Variance (mm^2) of a linear function of the unknowns, the loose hold of the plan included. */
  readonly variance: (d: Direction) => number;
  /** Covariance (mm^2) of one such function with any other. */
  readonly against: (d: Direction) => (other: Direction) => number;
  /** Correlation of one reading's score with those of all, by their place in `fitted`. */
  readonly alike: (i: number) => readonly number[];
}

/** A linear function of hole positions: coefficients of arc and height by hole id. */
export type Direction = readonly { readonly id: string; readonly arc: number; readonly height: number }[];

/**
 * Positions of the holes from readings by least squares: Gauss and Newton over arc and height of every hole and the
 * shell's radius and depth, each held loosely to the plan so that what no reading fixes (the turn of the whole ring, a
 * hole nobody measured) stays where the plan has it and is known to be loose.
 *
 * Unknowns are ordered by how far a hole lies from the strainer line folded twice, so that neighbours and opposites stand
 * together and the skyline stays low.
 */
export function adjust(
  readings: readonly Reading[],
  sigmas: readonly Mm[],
  layout: Layout,
  shell: Pick<Shell, 'square'>,
  errors: ReadingErrors,
): Adjusted {
  const holes = new Map(layout.holes.map((h) => [h.id, h]));
  const order = [...layout.holes].sort((a, b) => folded(a.angle) - folded(b.angle));
  const index = new Map(order.map((h, i) => [h.id, 2 * i]));
  const unknowns = 2 * order.length + 2;
  const radiusAt = unknowns - 2;
  const depthAt = unknowns - 1;
  const plan = plannedSpots(order);
  let spots = new Map([...plan].map(([id, s]) => [id, { ...s }]));
  let body: Body = { radius: layout.radius, depth: layout.depth };
  const radiusSigma = errors.girth / (2 * Math.PI);
  const depthSigma = Math.max(errors.depth, shell.square ?? 0);

  const reckon = (r: Reading): Predicted => predict(r, holes, spots, body);

  const equationOf = (r: Reading, sigma: Mm, p: Predicted): Equation => {
    const i = index.get(r.from)!;
    const at = [i, i + 1, radiusAt, depthAt];
    const by = [p.from.arc, p.from.height, p.radius, p.depth];
    if (p.to !== undefined) {
      const j = index.get(r.to)!;
      at.push(j, j + 1);
      by.push(p.to.arc, p.to.height);
    }
    const used = at.map((_, k) => k).filter((k) => by[k] !== 0);
    return {
      at: used.map((k) => at[k]!),
      by: used.map((k) => by[k]!),
      residual: r.value - p.value,
      weight: 1 / (sigma * sigma),
    };
  };

  const priors = (): Equation[] => {
    const loose = 1 / (errors.plan * errors.plan);
    const out: Equation[] = [];
    for (const h of order) {
      const i = index.get(h.id)!;
      const s = spots.get(h.id)!;
      const p = plan.get(h.id)!;
      out.push({ at: [i], by: [1], residual: layout.radius * (p.angle - s.angle), weight: loose });
      out.push({ at: [i + 1], by: [1], residual: p.height - s.height, weight: loose });
    }
    out.push({ at: [radiusAt], by: [1], residual: layout.radius - body.radius, weight: 1 / radiusSigma ** 2 });
    out.push({ at: [depthAt], by: [1], residual: layout.depth - body.depth, weight: 1 / depthSigma ** 2 });
    return out;
  };

  const cost = (): number => {
    let sum = 0;
    for (const [k, r] of readings.entries()) sum += ((r.value - reckon(r).value) / sigmas[k]!) ** 2;
    for (const e of priors()) sum += e.weight * e.residual ** 2;
    return sum;
  };

  const build = (): { equations: Equation[]; normal: Normal } => {
    const equations = readings.map((r, k) => equationOf(r, sigmas[k]!, reckon(r)));
    // The loose hold on every unknown keeps the system positive definite.
    return { equations, normal: normalEquations(unknowns, [...equations, ...priors()])! };
  };

  const moved = (correction: Float64Array, by: number): void => {
    spots = new Map(
      [...spots].map(([id, s]) => {
        const i = index.get(id)!;
        return [
          id,
          { angle: s.angle + (by * correction[i]!) / layout.radius, height: s.height + by * correction[i + 1]! },
        ];
      }),
    );
    body = { radius: body.radius + by * correction[radiusAt]!, depth: body.depth + by * correction[depthAt]! };
  };

  let now = cost();
  for (let round = 0; round < 30; round++) {
    const { correction } = build().normal;
    const kept = { spots, body };
    let by = 1;
    let next = now;
    for (; by > 1 / 1024; by /= 2) {
      moved(correction, by);
      next = cost();
      if (next <= now) break;
      ({ spots, body } = kept);
    }
    const farthest = by * correction.reduce((most, c) => Math.max(most, Math.abs(c)), 0);
    now = Math.min(now, next);
    if (by <= 1 / 1024 || farthest < tolerance.fit) break;
  }

  const { equations, normal } = build();
  const dot = (e: Pick<Equation, 'at' | 'by'>, v: Float64Array): number =>
    e.at.reduce((s, i, k) => s + e.by[k]! * v[i]!, 0);
  const raw = readings.map((reading, k): Fitted => {
    const sigma = sigmas[k]!;
    const seen = Math.max(0, 1 - normal.variance(equations[k]!) / (sigma * sigma));
    const residual = equations[k]!.residual;
    return {
      reading,
      sigma,
      value: reading.value - residual,
      residual,
      seen,
      score: seen > SEEN_AT_ALL ? residual / (sigma * Math.sqrt(seen)) : 0,
    };
  });
  const scatter = scatterOf(raw);
  const fitted = raw.map((f) => ({ ...f, score: f.score / scatter }));
  const sparse = (d: Direction): Pick<Equation, 'at' | 'by'> => ({
    at: d.flatMap(({ id }) => [index.get(id)!, index.get(id)! + 1]),
    by: d.flatMap(({ arc, height }) => [arc, height]),
  });
  const square = scatter * scatter;
  return {
    spots,
    body,
    fitted,
    scatter,
    variance: (d) => normal.variance(sparse(d)) * square,
    against: (d) => {
      const v = new Float64Array(unknowns);
      const { at, by } = sparse(d);
      for (const [k, i] of at.entries()) v[i]! += by[k]!;
      const solved = normal.solve(v);
      return (other) => {
        return dot(sparse(other), solved) * square;
      };
    },
    alike: (i) => {
      const e = equations[i]!;
      const v = new Float64Array(unknowns);
      for (const [k, at] of e.at.entries()) v[at]! += e.by[k]!;
      const solved = normal.solve(v);
      return fitted.map((b, j) => {
        const both = Math.sqrt(fitted[i]!.seen * b.seen) * fitted[i]!.sigma * b.sigma;
        return j === i ? 1 : both === 0 ? 0 : -dot(equations[j]!, solved) / both;
      });
    },
  };
}

/** Less of a reading's error than this, as seen by the others, is float dust. */
const SEEN_AT_ALL = 0.01;

/** Turn from the strainer line, folded at 90 and 180 deg: opposites and neighbours come to lie together. */
const folded = (deg: number): number => {
  const half = deg % 180;
  return half > 90 ? 180 - half : half;
};

/** Median of the scores against that of a normal: a caliper shakier than supposed, not fooled by a few bad readings. */
function scatterOf(fitted: readonly Fitted[]): number {
  const scores = fitted.filter((f) => f.seen > 0.1).map((f) => Math.abs(f.score));
  if (scores.length < 8) return 1;
  return Math.max(1, median(scores) / 0.6745);
}
