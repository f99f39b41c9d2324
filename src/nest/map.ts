import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/**
 * Side of a square (mm) of the map that tells free from taken: near enough to find a place, the last word is exact. Judgement:
 * on 25 beds for the demo drums, squares of 1, 2 and 3 mm took as many sheets, and as much of the last.
 */
export const CELL: Mm = 2;

/** Squares a shape covers, row by row: runs as [row, first, last], in an order that jumps about, so that a clash is soon found. */
export interface Mask {
  readonly runs: Int16Array;
  /** Squares of the box. */
  readonly columns: number;
  readonly rows: number;
}

/** Squares of a sheet's room, and for each how far the search may leap. */
export interface Room {
  readonly columns: number;
  readonly rows: number;
  readonly full: Uint8Array;
  /** The next taken square of the row at or after this one, and the next free one; `columns` when there is none. */
  readonly nextTaken: Int16Array;
  readonly nextFree: Int16Array;
  /** Rows whose leaps are out of date. */
  stale: { low: number; high: number };
}

export function emptyRoom(width: Mm, height: Mm): Room {
  const [columns, rows] = [Math.ceil(width / CELL), Math.ceil(height / CELL)];
  const squares = (columns + 1) * rows;
  return {
    columns,
    rows,
    full: new Uint8Array(columns * rows),
    nextTaken: new Int16Array(squares),
    nextFree: new Int16Array(squares),
    stale: { low: 0, high: rows - 1 },
  };
}

/** Takes the squares of a mask whose box begins at a place, to the nearest square. */
export function take(room: Room, { runs }: Mask, x: Mm, y: Mm): void {
  const { columns, rows, full, stale } = room;
  const [i, k] = [Math.round(x / CELL), Math.round(y / CELL)];
  for (let r = 0; r < runs.length; r += 3) {
    const row = k + (runs[r] as number);
    if (row < 0 || row >= rows) continue;
    const from = Math.max(0, i + (runs[r + 1] as number));
    const to = Math.min(columns - 1, i + (runs[r + 2] as number));
    if (from > to) continue;
    full.fill(1, row * columns + from, row * columns + to + 1);
    stale.low = Math.min(stale.low, row);
    stale.high = Math.max(stale.high, row);
  }
}

/** Calls `put` for every run of squares on the outline's line or within it. */
function squares(points: Float64Array, put: (row: number, from: number, to: number) => void): void {
  const crossings = new Map<number, number[]>();
  const n = points.length;
  let [ax, ay] = [(points[n - 2] as number) / CELL, (points[n - 1] as number) / CELL];
  let [lastI, lastK] = [Number.NaN, Number.NaN];
  for (let at = 0; at < n; at += 2) {
    const bx = (points[at] as number) / CELL;
    const by = (points[at + 1] as number) / CELL;
    const i = Math.floor(bx);
    const k = Math.floor(by);
    if (i !== lastI || k !== lastK) put(k, i, i);
    lastI = i;
    lastK = k;
    // Points lie close: between two of them there is at most one row's middle.
    const row = Math.floor(Math.max(ay, by) - 0.5);
    if (ay > row + 0.5 !== by > row + 0.5) {
      const x = ax + ((row + 0.5 - ay) / (by - ay)) * (bx - ax);
      const own = crossings.get(row);
      if (own === undefined) crossings.set(row, [x]);
      else own.push(x);
    }
    ax = bx;
    ay = by;
  }
  for (const [row, xs] of crossings) {
    xs.sort((a, b) => a - b);
    for (let i = 0; i + 1 < xs.length; i += 2) {
      const [from, to] = [Math.ceil((xs[i] as number) - 0.5), Math.floor((xs[i + 1] as number) - 0.5)];
      if (from <= to) put(row, from, to);
    }
  }
}

/** The squares of an outline (x, y, x, y ... at most half a square apart) whose box begins at the origin. */
export function maskOf(points: Float64Array, width: Mm, height: Mm): Mask {
  const [columns, rows] = [width, height].map((v) => Math.max(1, Math.ceil((v - tolerance.noise) / CELL))) as [
    number,
    number,
  ];
  const full = new Uint8Array(columns * rows);
  // A line along the upper or right side of the box belongs to the last row or column.
  const within = (v: number, last: number): number => Math.max(0, Math.min(last, v));
  squares(points, (k, from, to) => {
    const row = within(k, rows - 1) * columns;
    const [a, b] = [row + within(from, columns - 1), row + within(to, columns - 1)];
    if (a === b) full[a] = 1;
    else full.fill(1, a, b + 1);
  });
  return { runs: runsOf(full, columns, 0), columns, rows };
}

/** The squares of a mask and all within `gap` of them. */
export function grown({ runs, columns, rows }: Mask, gap: Mm): Mask {
  const reach = Math.ceil(gap / CELL);
  const wide = columns + 2 * reach;
  const full = new Uint8Array(wide * (rows + 2 * reach));
  for (let d = -reach; d <= reach; d++) {
    const more = Math.floor(Math.sqrt(Math.max(0, (gap / CELL) ** 2 - d * d)));
    if (Math.abs(d) > gap / CELL) continue;
    for (let r = 0; r < runs.length; r += 3) {
      const row = ((runs[r] as number) + d + reach) * wide + reach;
      full.fill(1, row + (runs[r + 1] as number) - more, row + (runs[r + 2] as number) + more + 1);
    }
  }
  return { runs: runsOf(full, wide, reach), columns, rows };
}

/** Runs of taken squares, counted from `from` in both directions, in an order that jumps about. */
function runsOf(full: Uint8Array, columns: number, from: number): Int16Array {
  const runs: number[] = [];
  for (let at = full.indexOf(1); at >= 0; ) {
    const row = Math.floor(at / columns);
    const end = (row + 1) * columns;
    let to = full.indexOf(0, at);
    if (to < 0 || to > end) to = end;
    runs.push(row - from, at - row * columns - from, to - 1 - row * columns - from);
    at = full.indexOf(1, to);
  }
  return scattered(runs);
}

function scattered(runs: readonly number[]): Int16Array {
  const n = runs.length / 3;
  let step = Math.max(1, Math.round(n * 0.381966));
  const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
  while (common(step, n) > 1) step++;
  const out = new Int16Array(runs.length);
  for (let i = 0; i < n; i++) {
    const at = 3 * ((i * step) % n);
    out[3 * i] = runs[at] as number;
    out[3 * i + 1] = runs[at + 1] as number;
    out[3 * i + 2] = runs[at + 2] as number;
  }
  return out;
}

function refresh(room: Room): void {
  const { columns, full, nextTaken, nextFree, stale } = room;
  for (let k = stale.low; k <= stale.high; k++) {
    const row = full.subarray(k * columns, (k + 1) * columns);
    const at = k * (columns + 1);
    for (let i = 0; i <= columns; ) {
      // A free run, then a taken one, and so on to the end of the row.
      const taken = i === columns ? -1 : row.indexOf(1, i);
      const to = taken < 0 ? columns : taken;
      nextTaken.fill(to, at + i, at + to + 1);
      const free = to === columns ? -1 : row.indexOf(0, to);
      const end = free < 0 ? columns : free;
      for (let n = i; n < to; n++) nextFree[at + n] = n;
      nextFree.fill(end, at + to, at + end + 1);
      for (let n = to; n < end; n++) nextTaken[at + n] = n;
      if (end === columns) {
        nextTaken[at + columns] = columns;
        nextFree[at + columns] = columns;
        break;
      }
      i = end;
    }
  }
  room.stale = { low: room.rows, high: -1 };
}

/** Squares nobody has taken. */
export function freeIn(room: Room): number {
  let free = room.full.length;
  for (let i = 0; i < room.full.length; i++) free -= room.full[i] as number;
  return free;
}

/**
 * The first square, from `from` on (row by row from below, each from the left), where a mask that reaches no further than
 * `far` and `high` lies on free squares alone; -1 when there is none. Where a run of it meets taken squares, the search
 * leaps over all of them.
 */
export function firstFree(room: Room, mask: Mask, from: number, far: number, high: number): number {
  if (room.stale.low <= room.stale.high) refresh(room);
  const { columns, nextTaken, nextFree } = room;
  const { runs } = mask;
  const stride = columns + 1;
  let first = 0;
  for (let k = Math.floor(from / columns); k <= high; k++) {
    let i = Math.max(0, from - k * columns);
    while (i <= far) {
      let blocked = false;
      for (let n = 0, r = first; n < runs.length; n += 3, r = r + 3 === runs.length ? 0 : r + 3) {
        const row = (k + (runs[r] as number)) * stride;
        const left = runs[r + 1] as number;
        const met = nextTaken[row + i + left] as number;
        if (met > i + (runs[r + 2] as number)) continue;
        i = (nextFree[row + met] as number) - left;
        // What was in the way here is likely to be in the way again.
        first = r;
        blocked = true;
        break;
      }
      if (!blocked) return k * columns + i;
    }
  }
  return -1;
}
