import { findMethod } from '../data/methods.ts';
import { fitRigid, type Reach, type RigidFit } from '../geometry/rigid.ts';
import type { Jig, Pattern } from '../model/jig.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toDeg, toRad } from '../units/scalar.ts';
import type { Adjusted, Direction } from './adjust.ts';
import { besides } from './beside.ts';
import type { Cure } from './proven.ts';
import { cures } from './rescue.ts';

/** Whether one fitting goes on the holes as they are. */
export interface FittingVerdict {
  readonly id: string;
  readonly holes: readonly string[];
  /** Null when it was not checked. */
  readonly goesOn: boolean | null;
  /** What is missing when it was not checked. */
  readonly needs?: string;
  /** Half of hole less screw: how far a screw may stand from its hole's middle. */
  readonly reach_mm: Mm | null;
  /** How far the worst screw stands from its hole's middle with the fitting placed as well as can be. */
  readonly off_mm: Mm | null;
  /** `off` less `reach`: above zero it does not go on. */
  readonly miss_mm: Mm | null;
  /** The same held upright, as a lug must stand for its rods to run straight. */
  readonly uprightMiss_mm: Mm | null;
  readonly clearance_mm: Mm | null;
  /** What a parallel screw loses through the wall in a radial hole, at the outermost hole. */
  readonly walk_mm: Mm | null;
  /** Standard deviation of the miss, from the readings. */
  readonly sigma_mm: Mm | null;
  /** Where the fitting stands beside the plan: right, up, and turned (anticlockwise seen from outside). */
  readonly stands: { readonly across_mm: Mm; readonly upright_mm: Mm; readonly turn_deg: Deg } | null;
  /** Whether other readings would show a slip in those of this fitting. */
  readonly crossChecked: boolean;
  /** The least damaging cure; null when none is needed or known. */
  readonly cure: Cure | null;
  /** All of them, least damaging first; empty when it goes on. */
  readonly cures: readonly Cure[];
}

/** Shape less sure than this (mm) is no measurement of it (judgement, no source). */
const SURE_ENOUGH: Mm = 0.5;

/** Float dust on a miss, far below any caliper. */
const DUST: Mm = 0.01;

/**
 * One fitting against the fitted holes. `turned`: arc by which the readings leave its whole ring turned beside the
 * plan.
 */
export function verdict(
  jig: Jig,
  layout: Layout,
  placed: Placed,
  a: Adjusted,
  crossChecked: (hole: string) => boolean,
  turned: Mm,
): FittingVerdict {
  const pattern = patternOf(jig, placed);
  const ids = placed.holes.map((h) => h.id);
  const base = { id: placed.id, holes: ids, crossChecked: ids.every(crossChecked), cure: null, cures: [] };
  const none = {
    goesOn: null,
    reach_mm: null,
    off_mm: null,
    miss_mm: null,
    uprightMiss_mm: null,
    clearance_mm: null,
    walk_mm: null,
    sigma_mm: null,
    stands: null,
  };
  const sigma = shapeSigma(placed, a);
  if (sigma > SURE_ENOUGH) return { ...base, ...none, needs: 'readings' };
  if (pattern?.screw === undefined) return { ...base, ...none, needs: 'holes.screw' };
  const clearance = pattern.drill - pattern.screw.thread.diameter;
  const reach = clearance / 2;
  const reaches = reachesOf(layout, placed, reach, a, turned);
  const fit = fitRigid(reaches)!;
  const off = fit.miss + reach;
  const missSigma = Math.max(pullSigma(placed, fit, a), fit.miss > -reach / 2 ? 0 : sigma);
  const goesOn = fit.miss <= DUST;
  const ways = goesOn
    ? []
    : cures({
        ids,
        reaches,
        drill: pattern.drill,
        thread: pattern.screw.thread,
        ...(placed.foot === undefined ? {} : { foot: placed.foot }),
        beside: besides(layout, jig.shell.holes, placed, placed.angle + toDeg(turned / layout.radius), (id) => {
          const spot = a.spots.get(id);
          return spot && { angle: toDeg(spot.angle), height: spot.height };
        }),
        turns: worksTurned(jig, placed),
      });
  return {
    ...base,
    goesOn,
    reach_mm: reach,
    off_mm: off,
    miss_mm: fit.miss,
    uprightMiss_mm: fitRigid(reaches, { turning: 'held' })!.miss,
    clearance_mm: clearance,
    walk_mm: walkOf(jig, layout, placed, pattern),
    sigma_mm: missSigma,
    stands: { across_mm: fit.shift.x, upright_mm: fit.shift.y, turn_deg: fit.turn },
    cure: ways[0] ?? null,
    cures: ways,
  };
}

/** Lugs that serve one hoop, strainers and butts work one way up; legs and spurs too. */
const worksTurned = (jig: Jig, p: Placed): boolean =>
  p.role === 'lug' ? jig.ends === 'both' : p.role === 'badge' || p.role === 'bracket' || p.role === 'other';

export const patternOf = (jig: Jig, p: Placed): Pattern | undefined =>
  p.role === 'lug'
    ? jig.rows.find((r) => r.name === p.group)?.holes
    : jig.fittings.find((f) => f.name === p.group)?.holes;

/**
 * Screws on the hardware against holes where they are, seen square on the fitting: an angle t from its line lies R
 * sin t across.
 */
function reachesOf(layout: Layout, placed: Placed, reach: Mm, a: Adjusted, turned: Mm): Reach[] {
  const line = toRad(placed.angle) + turned / layout.radius;
  return placed.holes.map((h): Reach => {
    const spot = a.spots.get(h.id)!;
    return {
      screw: { x: h.across, y: h.height - placed.height },
      hole: { x: layout.radius * Math.sin(spot.angle - line), y: spot.height - placed.height },
      reach,
    };
  });
}

/**
 * A parallel screw in a hole that points to the shell's axis walks by across * wall / R through the wall and wants a hole
 * that much larger. The readings see the outside skin only, so this warns and does not condemn.
 */
function walkOf(jig: Jig, layout: Layout, placed: Placed, pattern: Pattern): Mm {
  const bores = jig.method === undefined ? 'radial' : findMethod(jig.method).bores;
  if (bores === pattern.axes) return 0;
  return Math.max(...placed.holes.map((h) => (Math.abs(h.across) * layout.wall) / layout.radius));
}

/** Standard deviation of the miss: it follows each hole by the fit's pull. */
function pullSigma(placed: Placed, fit: RigidFit, a: Adjusted): Mm {
  const d: Direction = placed.holes.map((h, i) => ({ id: h.id, arc: fit.pull[i]!.x, height: fit.pull[i]!.y }));
  return Math.sqrt(a.variance(d));
}

/**
 * How loosely the readings hold the pattern's shape, whatever its place: the largest standard deviation of a hole once
 * shift and turn are taken out (what is left of two holes is half their spacing).
 */
function shapeSigma(placed: Placed, a: Adjusted): Mm {
  const holes = placed.holes;
  const n = holes.length;
  if (n < 2) return 0;
  const mx = holes.reduce((s, h) => s + h.across, 0) / n;
  const my = holes.reduce((s, h) => s + h.height, 0) / n;
  const at = holes.map((h) => ({ x: h.across - mx, y: h.height - my }));
  const arm2 = at.reduce((s, p) => s + p.x * p.x + p.y * p.y, 0);
  // Shape part of a move of hole k along x or y, as a direction over all holes.
  const shape = (k: number, axis: 'x' | 'y'): Direction =>
    holes.map((h, i) => {
      const lean = arm2 === 0 ? 0 : (axis === 'x' ? -at[k]!.y : at[k]!.x) / arm2;
      const own = i === k ? 1 : 0;
      const x = (axis === 'x' ? own - 1 / n : 0) + lean * at[i]!.y;
      const y = (axis === 'y' ? own - 1 / n : 0) - lean * at[i]!.x;
      return { id: h.id, arc: x, height: y };
    });
  let most = 0;
  for (let k = 0; k < n; k++) {
    most = Math.max(most, a.variance(shape(k, 'x')) + a.variance(shape(k, 'y')));
  }
  return Math.sqrt(most);
}

/** Turn of a fitted hole from its plan, by the shorter way. */
export const offTurn = (planned: Deg, fitted: number): Deg => shorterTurn(planned, toDeg(fitted));
