/**
 * The least greatest miss again, for one reach everywhere, as fast as a simulation wants it: for a given small turn the
 * best shift is the middle of the smallest circle round the holes' errors, whose radius is a convex function of the turn;
 * a line search by its tangents finds the least, and their crossing says how far off it can be.
 */

/** Smallest circle round some points, and which of them hold it. */
interface Circle {
  x: number;
  y: number;
  radius: number;
  /** Indices of the two or three points on it that hold it, `c` -1 when two do; of no meaning while it is one point. */
  a: number;
  b: number;
  c: number;
}

/** Points this much (of the radius) outside a circle count as on it. */
const ON = 2 ** -40;

/**
 * Smallest circle round the first `n` points, by adding them one at a time: a point outside must lie on the new circle
 * (Welzl, Smallest enclosing disks, 1991, in the loop form for few points).
 */
export function smallestCircle(x: ArrayLike<number>, y: ArrayLike<number>, n: number, out: Circle): void {
  onOne(out, x, y, 0);
  for (let i = 1; i < n; i++) {
    if (isIn(out, x[i]!, y[i]!)) continue;
    onOne(out, x, y, i);
    for (let j = 0; j < i; j++) {
      if (isIn(out, x[j]!, y[j]!)) continue;
      onTwo(out, x, y, i, j);
      for (let k = 0; k < j; k++) if (!isIn(out, x[k]!, y[k]!)) onThree(out, x, y, i, j, k);
    }
  }
}

export const emptyCircle = (): Circle => ({ x: 0, y: 0, radius: 0, a: 0, b: 0, c: 0 });

function isIn(c: Circle, x: number, y: number): boolean {
  const dx = x - c.x;
  const dy = y - c.y;
  return dx * dx + dy * dy <= c.radius * c.radius * (1 + ON);
}

function onOne(out: Circle, x: ArrayLike<number>, y: ArrayLike<number>, i: number): void {
  out.x = x[i]!;
  out.y = y[i]!;
  out.radius = 0;
}

function onTwo(out: Circle, x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): void {
  out.x = (x[i]! + x[j]!) / 2;
  out.y = (y[i]! + y[j]!) / 2;
  out.radius = Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!) / 2;
  out.a = i;
  out.b = j;
  out.c = -1;
}

function onThree(out: Circle, x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number, k: number): void {
  const bx = x[j]! - x[i]!;
  const by = y[j]! - y[i]!;
  const cx = x[k]! - x[i]!;
  const cy = y[k]! - y[i]!;
  const d = 2 * (bx * cy - by * cx);
  // Three points in line: two of them already hold the circle.
  if (d === 0) return;
  const b2 = bx * bx + by * by;
  const c2 = cx * cx + cy * cy;
  const ux = (cy * b2 - by * c2) / d;
  const uy = (bx * c2 - cx * b2) / d;
  out.x = x[i]! + ux;
  out.y = y[i]! + uy;
  out.radius = Math.sqrt(ux * ux + uy * uy);
  out.a = i;
  out.b = j;
  out.c = k;
}

/** Room for one pattern, used again for every sample. */
export class QuickFit {
  private readonly n: number;
  /**
   * Screws from the first, over the pattern's size: how an error changes with the turn. About which screw it turns is all
   * one, as the shift is free.
   */
  private readonly turnX: Float64Array;
  private readonly turnY: Float64Array;
  private readonly px: Float64Array;
  private readonly py: Float64Array;
  private readonly circle = emptyCircle();

  constructor(screws: readonly { readonly x: number; readonly y: number }[]) {
    const first = screws[0]!;
    // Screws all in one place feel no turn.
    const arm = Math.max(...screws.map((p) => Math.hypot(p.x - first.x, p.y - first.y))) || 1;
    this.n = screws.length;
    this.turnX = Float64Array.from(screws, (p) => (first.y - p.y) / arm);
    this.turnY = Float64Array.from(screws, (p) => (p.x - first.x) / arm);
    this.px = new Float64Array(this.n);
    this.py = new Float64Array(this.n);
  }

  /** Reach needed when the hardware is held straight; `ex`, `ey` are hole less screw. */
  held(ex: Float64Array, ey: Float64Array): number {
    smallestCircle(ex, ey, this.n, this.circle);
    return this.circle.radius;
  }

  /** Reach needed when it may turn, to within `within`. First order in the turn. */
  free(ex: Float64Array, ey: Float64Array, within: number): number {
    let value = this.at(0, ex, ey);
    if (value <= within) return value;
    let slope = this.slope();
    if (slope === 0) return value;
    // The miss cannot fall faster than the turn moves the outermost screw, so its least lies beyond `value` of turn or so.
    const way = slope < 0 ? 1 : -1;
    let near = { at: 0, value, slope };
    let far = near;
    for (let reach = value; ; reach *= 2) {
      const at = way * reach;
      value = this.at(at, ex, ey);
      slope = this.slope();
      far = { at, value, slope };
      // What is no number goes nowhere either.
      if (!(slope * way < 0)) break;
      near = far;
    }
    let least = Math.min(near.value, far.value);
    for (let k = 0; k < MOST_CUTS; k++) {
      // Where the two tangents cross: no convex function through both can lie lower.
      const cross = (far.value - near.value + near.slope * near.at - far.slope * far.at) / (near.slope - far.slope);
      const bound = near.value + near.slope * (cross - near.at);
      if (least - bound <= within) return least;
      // Every third cut in the middle, where tangents converge slowly.
      const at = k % 3 === 2 ? (near.at + far.at) / 2 : cross;
      value = this.at(at, ex, ey);
      slope = this.slope();
      least = Math.min(least, value);
      if (slope * way < 0) near = { at, value, slope };
      else far = { at, value, slope };
    }
    return least;
  }

  private at(turn: number, ex: Float64Array, ey: Float64Array): number {
    for (let i = 0; i < this.n; i++) {
      this.px[i] = ex[i]! - turn * this.turnX[i]!;
      this.py[i] = ey[i]! - turn * this.turnY[i]!;
    }
    smallestCircle(this.px, this.py, this.n, this.circle);
    return this.circle.radius;
  }

  /** d(radius) / d(turn): the holding points' share of the push, weighed so that their pulls on the middle cancel. */
  private slope(): number {
    const { x, y, radius, a, b, c } = this.circle;
    if (radius === 0) return 0;
    const along = (i: number): number =>
      (-(this.px[i]! - x) * this.turnX[i]! - (this.py[i]! - y) * this.turnY[i]!) / radius;
    if (c < 0) return (along(a) + along(b)) / 2;
    // Barycentric weights of the middle in the triangle of the three.
    const wa = (this.px[b]! - x) * (this.py[c]! - y) - (this.py[b]! - y) * (this.px[c]! - x);
    const wb = (this.px[c]! - x) * (this.py[a]! - y) - (this.py[c]! - y) * (this.px[a]! - x);
    const wc = (this.px[a]! - x) * (this.py[b]! - y) - (this.py[a]! - y) * (this.px[b]! - x);
    return (wa * along(a) + wb * along(b) + wc * along(c)) / (wa + wb + wc);
  }
}

/** Tangent cuts before giving up; a dozen is usual. */
const MOST_CUTS = 60;
