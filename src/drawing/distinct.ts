import type { Path, Seg, Shape } from '../model/drawing.ts';
import type { FlatPoint } from '../model/frames.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { LETTERING } from './lettering.ts';
import { distance } from './spans.ts';

type Line = { readonly a: FlatPoint; readonly b: FlatPoint };
/** A stretch of an endless line, by distance along it. */
type Stretch = readonly [Mm, Mm];

/** Cells for looking up lines that may lie on one another: direction (rad) and distance from the origin (mm). */
const CELL = { angle: 0.0001, offset: 0.05 };

/**
 * The shapes without any line drawn twice: a beam that follows a line twice cuts it through. Shapes are taken in the order
 * given, so put cuts first; of a later path only what lies on no earlier straight line is kept. Circles and closed paths of
 * the same place are kept once; a hole's circle then tells which other holes it stands for. Lettering is passed through: its strokes never run together, and whoever
 * places it keeps it clear of other marks.
 */
export function distinct(shapes: readonly Shape[]): Shape[] {
  const drawn = new Map<string, Line[]>();
  const whole = new Map<string, number>();
  const out: Shape[] = [];
  for (const shape of shapes) {
    if (shape.from === LETTERING) {
      out.push(shape);
      continue;
    }
    if (shape.kind === 'circle' || shape.closed) {
      const key = nameOf(shape);
      const at = whole.get(key);
      if (at !== undefined) {
        out[at] = standingFor(out[at] as Shape, shape);
        continue;
      }
      whole.set(key, out.length);
    }
    const pieces = shape.kind === 'circle' || isCut(shape) ? [shape] : undrawn(shape, drawn);
    out.push(...pieces);
    for (const piece of pieces) if (piece.kind === 'path') for (const l of linesOf(piece)) remember(drawn, l);
  }
  return out;
}

function standingFor(kept: Shape, other: Shape): Shape {
  if (kept.kind === 'path' || other.kind === 'path' || kept.id === undefined || other.id === undefined) return kept;
  const also = [...(kept.also ?? []), other.id, ...(other.also ?? [])].filter((id) => id !== kept.id);
  return also.length === 0 ? kept : { ...kept, also };
}

const isCut = (shape: Shape): boolean => shape.layer === 'CUT-INNER' || shape.layer === 'CUT-OUTER';

const grain = (v: number): number => Math.round(v / tolerance.same);

function nameOf(shape: Shape): string {
  if (shape.kind === 'circle')
    return ['o', shape.center.x, shape.center.y, shape.radius]
      .map((v) => (typeof v === 'number' ? grain(v) : v))
      .join();
  const corners = shape.segs.map((s) => `${grain(s.to.x)},${grain(s.to.y)}`).sort();
  return `p${corners.join(';')}`;
}

function linesOf(path: Path): Line[] {
  const lines: Line[] = [];
  let a = path.start;
  for (const s of path.segs) {
    if (s.kind === 'line') lines.push({ a, b: s.to });
    a = s.to;
  }
  return lines;
}

/** Direction in [0, pi) and signed distance of the endless line from the origin. */
function carrier({ a, b }: Line): { angle: number; offset: number; ux: number; uy: number } {
  let angle = Math.atan2(b.y - a.y, b.x - a.x);
  if (angle < -CELL.angle / 2) angle += Math.PI;
  if (angle >= Math.PI - CELL.angle / 2) angle -= Math.PI;
  const [ux, uy] = [Math.cos(angle), Math.sin(angle)];
  return { angle, offset: a.y * ux - a.x * uy, ux, uy };
}

const cellOf = (angle: number, offset: number): string =>
  `${Math.round(angle / CELL.angle)},${Math.round(offset / CELL.offset)}`;

function remember(drawn: Map<string, Line[]>, line: Line): void {
  const { angle, offset } = carrier(line);
  const key = cellOf(angle, offset);
  const cell = drawn.get(key);
  if (cell === undefined) drawn.set(key, [line]);
  else cell.push(line);
}

/** The pieces of a path that no earlier line covers; the path itself when none does. */
function undrawn(path: Path, drawn: ReadonlyMap<string, readonly Line[]>): Path[] {
  if (linesOf(path).every((l) => left(l, drawn)[0] === l)) return [path];
  const pieces: Path[] = [];
  let start = path.start;
  let segs: Seg[] = [];
  const end = (next: FlatPoint): void => {
    if (segs.length > 0) pieces.push({ ...path, start, segs, closed: false });
    start = next;
    segs = [];
  };
  let a = path.start;
  for (const s of path.segs) {
    if (s.kind === 'arc') segs.push(s);
    else {
      const free = left({ a, b: s.to }, drawn);
      for (const f of free) {
        if (
          distance(f.a, a) > tolerance.join &&
          (segs.length > 0 || f !== free[0] || distance(f.a, start) > tolerance.join)
        )
          end(f.a);
        segs.push({ kind: 'line', to: f.b });
      }
      if (free.length === 0 || distance((free.at(-1) as Line).b, s.to) > tolerance.join) end(s.to);
    }
    a = s.to;
  }
  end(a);
  return pieces;
}

function left(line: Line, drawn: ReadonlyMap<string, readonly Line[]>): Line[] {
  const { angle, offset, ux, uy } = carrier(line);
  const along = (p: FlatPoint): Mm => p.x * ux + p.y * uy;
  const away = (p: FlatPoint): Mm => Math.abs(p.y * ux - p.x * uy - offset);
  const [s, e] = [along(line.a), along(line.b)];
  const covered: Stretch[] = [];
  for (const da of [-1, 0, 1]) {
    for (const d of [-1, 0, 1]) {
      for (const other of drawn.get(cellOf(angle + da * CELL.angle, offset + d * CELL.offset)) ?? []) {
        if (away(other.a) > tolerance.same || away(other.b) > tolerance.same) continue;
        const [p, q] = [along(other.a), along(other.b)];
        covered.push([Math.min(p, q), Math.max(p, q)]);
      }
    }
  }
  if (covered.length === 0) return [line];
  const free = uncovered([Math.min(s, e), Math.max(s, e)], covered).filter(([p, q]) => q - p > tolerance.same);
  const point = (t: Mm): FlatPoint => {
    const f = (t - s) / (e - s);
    return { x: line.a.x + f * (line.b.x - line.a.x), y: line.a.y + f * (line.b.y - line.a.y) };
  };
  const lines = free.map(([p, q]): Line => (s < e ? { a: point(p), b: point(q) } : { a: point(q), b: point(p) }));
  return s < e ? lines : lines.reverse();
}

function uncovered([low, high]: Stretch, covered: readonly Stretch[]): Stretch[] {
  const free: Stretch[] = [];
  let at = low;
  for (const [a, b] of [...covered].sort((p, q) => p[0] - q[0])) {
    if (b <= at) continue;
    if (a >= high) break;
    if (a > at) free.push([at, a]);
    at = b;
  }
  if (at < high) free.push([at, high]);
  return free;
}
