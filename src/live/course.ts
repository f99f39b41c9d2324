import { POINTS } from '../data/tools.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { RotaryPage } from '../page/data.ts';
import { KIND, type ReplayMove } from '../page/replay-move.ts';
import type { SolidHole } from '../picture/solid.ts';
import { openingAngle } from '../picture/window.ts';
import { type Deg, type Mm, shorterTurn, toRad } from '../units/scalar.ts';

/** What a program does, move by move, with what places the bit over the shell. */
export interface Course {
  readonly moves: readonly ReplayMove[];
  readonly radius: Mm;
  readonly inside: Mm;
  readonly wall: Mm;
  readonly depth: Mm;
  readonly datum: 'top' | 'bottom';
  readonly signOfA: 1 | -1;
  /** Where the unrolled drawing is cut open. */
  readonly from: Deg;
  readonly tools: readonly {
    readonly id: number;
    readonly diameter: Mm;
    /** Point angle of a bit that is all point. */
    readonly cone?: Deg;
  }[];
  readonly holes: readonly SolidHole[];
}

export const courseOf = (jig: Jig, layout: Layout, rotary: RotaryPage, moves: readonly ReplayMove[]): Course => ({
  moves,
  radius: layout.radius,
  inside: layout.inside,
  wall: layout.wall,
  depth: layout.depth,
  datum: rotary.datum,
  signOfA: rotary.signOfA,
  from: openingAngle(layout.placed, layout.radius),
  tools: jig.rotary.tools.map((t) => ({
    id: t.id,
    diameter: t.diameter,
    ...(t.kind === 'v-bit' ? { cone: t.point ?? POINTS['v-bit'] } : {}),
  })),
  holes: layout.holes.map((h) => ({
    id: h.id,
    of: h.fitting,
    angle: h.angle,
    height: h.height,
    radius: h.drill / 2,
  })),
});

/** Where everything stands at one moment. */
export interface Pose {
  readonly move: ReplayMove;
  readonly x: Mm;
  readonly y: Mm;
  readonly z: Mm;
  readonly a: Deg;
}

/** Between the ends of two moves, along the straight way. */
export function poseAt(moves: readonly ReplayMove[], time: number): Pose {
  let [low, high] = [0, moves.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (moves[middle]![5] < time) low = middle + 1;
    else high = middle;
  }
  const move = moves[low]!;
  const from = moves[low - 1] ?? move;
  const span = move[5] - from[5];
  const part = span > 0 ? Math.max(0, Math.min(1, (time - from[5]) / span)) : 1;
  const mix = (i: 1 | 2 | 3 | 4): number => from[i] + (move[i] - from[i]) * part;
  return { move, x: mix(1), y: mix(2), z: mix(3), a: mix(4) };
}

/** +1 when + X leads to the top edge: shell angles then count anticlockwise seen from there, and + Y lies clockwise. */
export const facing = (course: Pick<Course, 'datum'>): 1 | -1 => (course.datum === 'bottom' ? 1 : -1);

export const heightOf = (course: Course, x: Mm): Mm => (course.datum === 'bottom' ? x : course.depth - x);

/** Nearer than this to a planned hole the bit is at it, mm over the skin. */
const AT_HOLE: Mm = 3;

/** When a hole is first touched, and when a bit is first right through the wall; infinite when never. */
export interface Visit {
  readonly touched: number;
  readonly through: number;
}

/** Of every planned hole, in the order of `course.holes`. */
export function visits(course: Course): readonly Visit[] {
  const { moves, radius, wall } = course;
  const cuts = moves.filter((m) => m[6] === KIND.feed && m[3] < 0);
  return course.holes.map((hole) => {
    const here = cuts.filter((m) => {
      const across = radius * toRad(shorterTurn(hole.angle, course.signOfA * m[4])) - facing(course) * m[2];
      return Math.hypot(across, heightOf(course, m[1]) - hole.height) < AT_HOLE + hole.radius;
    });
    return {
      touched: here[0]?.[5] ?? Number.POSITIVE_INFINITY,
      through: here.find((m) => m[3] <= -wall)?.[5] ?? Number.POSITIVE_INFINITY,
    };
  });
}
