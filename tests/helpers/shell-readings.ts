import { seeded } from '../../src/geometry/random.ts';
import type { Hole, Layout } from '../../src/model/layout.ts';

/**
 * A drilled shell to be measured: where holes truly are, and a caliper that reads between points in space. It knows
 * nothing of the program's own formulas: every point is placed in x, y, z and every reading is a distance.
 */
export interface Truth {
  readonly radius: number;
  readonly depth: number;
  readonly holes: ReadonlyMap<string, { readonly angle: number; readonly height: number; readonly drill: number }>;
}

export interface Moves {
  /** Millimetres to the right (outside skin, round the shell) and up, by hole id. */
  readonly [hole: string]: readonly [right: number, up: number];
}

export function drilled(layout: Layout, moves: Moves = {}, turn = 0): Truth {
  const holes = new Map(
    layout.holes.map((h: Hole) => {
      const [right, up] = moves[h.id] ?? [0, 0];
      const angle = h.angle + turn + (right / layout.radius) * (180 / Math.PI);
      return [h.id, { angle, height: h.height + up, drill: h.drill }];
    }),
  );
  return { radius: layout.radius, depth: layout.depth, holes };
}

type Point = readonly [number, number, number];

const point = (t: Truth, angle: number, height: number): Point => [
  t.radius * Math.cos((angle * Math.PI) / 180),
  t.radius * Math.sin((angle * Math.PI) / 180),
  height,
];

const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** A point of a hole's rim on the outside skin: a circle of the drill's radius seen along the hole. */
function rim(t: Truth, id: string, turn: number): Point {
  const h = t.holes.get(id)!;
  const across = (h.drill / 2) * Math.cos(turn);
  return point(t, h.angle + (Math.asin(across / t.radius) * 180) / Math.PI, h.height + (h.drill / 2) * Math.sin(turn));
}

/** Farthest or nearest two points of two rims: a grid over both circles, closing in on its best. */
function overRims(t: Truth, from: string, to: string, sign: 1 | -1): number {
  let best = Number.NEGATIVE_INFINITY;
  let at: readonly [number, number] = [0, 0];
  for (let width = Math.PI; width > 1e-3; width *= 0.5) {
    const [a0, b0] = at;
    for (let i = -12; i <= 12; i++) {
      for (let j = -12; j <= 12; j++) {
        const [a, b] = [a0 + (i / 12) * width, b0 + (j / 12) * width];
        const d = sign * distance(rim(t, from, a), rim(t, to, b));
        if (d > best) [best, at] = [d, [a, b]];
      }
    }
  }
  return sign * best;
}

/** What a caliper reads: middle to middle, or over rims by searching both rims for the farthest or nearest points. */
export function caliper(t: Truth, kind: string, from: string, to: string, over = 'centres'): number {
  const h = t.holes.get(from)!;
  if (kind === 'edge') {
    const middle = to === 'bottom' ? h.height : t.depth - h.height;
    return middle + (over === 'outside' ? h.drill / 2 : over === 'inside' ? -h.drill / 2 : 0);
  }
  const other = t.holes.get(to)!;
  if (over === 'centres') return distance(point(t, h.angle, h.height), point(t, other.angle, other.height));
  return overRims(t, from, to, over === 'outside' ? 1 : -1);
}

export interface Filling {
  /** Standard deviation of the caliper, mm. */
  readonly sigma?: number;
  readonly seed?: number;
  /** Decimals written. */
  readonly digits?: number;
  /** Readings changed after measuring, by `from to`. */
  readonly wrong?: Readonly<Record<string, (value: number) => number>>;
  /** Lines left blank. */
  readonly skip?: (from: string, to: string) => boolean;
}

/** Fills in a blank form. */
export function filled(form: string, t: Truth, how: Filling = {}): string {
  const r = seeded(how.seed ?? 1);
  return form
    .split('\n')
    .map((line, i) => {
      if (i === 0 || line === '') return line;
      const [kind, from, to] = line.split(',') as [string, string, string];
      if (how.skip?.(from, to)) return line;
      const value = caliper(t, kind, from, to) + (how.sigma ?? 0) * r.normal();
      const change = how.wrong?.[`${from} ${to}`];
      return `${line}${(change ? change(value) : value).toFixed(how.digits ?? 4)}`;
    })
    .join('\n');
}
