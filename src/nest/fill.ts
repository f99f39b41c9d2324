import { contour } from '../drawing/contour.ts';
import { gapBelow } from '../drawing/meetings.ts';
import { signedArea } from '../drawing/paths.ts';
import { near, pointOn, type Span, shapeBox, spanLength } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { Mm } from '../units/scalar.ts';
import { type Laying, laid, type Quarter } from './laying.ts';
import { type Piece, sizeOf } from './stack.ts';

/** Side of a square (mm) of the map that tells free from taken; a mask is exact to two of them, the last word is exact. */
const CELL: Mm = 2;
/** More pieces than this on the last sheet would not all find a hollow. */
const MOST = 60;

/** Squares of a sheet's room that a part, or the gap round it, takes. */
interface Ground {
  readonly columns: number;
  readonly rows: number;
  readonly taken: Uint8Array;
  /** Squares not taken. */
  free: number;
  readonly shapes: Shape[];
  /** Outlines that found no place here: one like them need not look again. */
  readonly refused: Set<string>;
  /** Where the search for an outline in a quarter turn may go on: what was taken before stays taken. */
  readonly tried: Map<string, number>;
}

/**
 * Moves pieces of the last sheet into the hollows and gaps of those before it, largest first, as long as that empties sheets;
 * at the end as many as find room. Between neighbours `gap` is kept, exactly.
 */
export function filled(layings: readonly Laying[], pieces: readonly Piece[], width: Mm, height: Mm, gap: Mm): Laying[] {
  let current = [...layings];
  const grounds = new Map<number, Ground>();
  for (;;) {
    const last = Math.max(0, ...current.map((l) => l.sheet));
    const movers = current.filter((l) => l.sheet === last);
    if (last === 0 || movers.length > MOST) return current;
    const area = (l: Laying): number => {
      const size = sizeOf((pieces[l.key] as Piece).box);
      return size.width * size.height;
    };
    const stays = current.filter((l) => l.sheet !== last);
    const moved: Laying[] = [];
    for (const mover of [...movers].sort((a, b) => area(b) - area(a) || a.key - b.key)) {
      const piece = pieces[mover.key] as Piece;
      let found: Laying | undefined;
      for (let sheet = 0; sheet < last && found === undefined; sheet++) {
        const ground =
          grounds.get(sheet) ??
          groundOf(
            stays.filter((l) => l.sheet === sheet),
            pieces,
            width,
            height,
            gap,
          );
        grounds.set(sheet, ground);
        found = placeIn(ground, piece, sheet, width, height, gap);
      }
      moved.push(found ?? mover);
    }
    current = [...stays, ...moved];
    if (moved.some((l) => l.sheet === last)) return current;
  }
}

function groundOf(own: readonly Laying[], pieces: readonly Piece[], width: Mm, height: Mm, gap: Mm): Ground {
  const [columns, rows] = [Math.ceil(width / CELL), Math.ceil(height / CELL)];
  const ground: Ground = {
    columns,
    rows,
    taken: new Uint8Array(columns * rows),
    free: columns * rows,
    shapes: [],
    refused: new Set(),
    tried: new Map(),
  };
  for (const l of own) take(ground, laid((pieces[l.key] as Piece).outer, (pieces[l.key] as Piece).box, l), gap);
  return ground;
}

function take(ground: Ground, shape: Shape, gap: Mm): void {
  ground.shapes.push(shape);
  const mark = (i: number, k: number): void => {
    if (i < 0 || k < 0 || i >= ground.columns || k >= ground.rows) return;
    const at = k * ground.columns + i;
    if (ground.taken[at] === 0) ground.free--;
    ground.taken[at] = 1;
  };
  const reach = Math.ceil(gap / CELL) + 1;
  const edge = (gap + CELL) ** 2;
  forSquares(shape, mark, (i, k) => {
    for (let di = -reach; di <= reach; di++) {
      for (let dk = -reach; dk <= reach; dk++) if ((di * di + dk * dk) * CELL * CELL <= edge) mark(i + di, k + dk);
    }
  });
}

/** Calls `inside` for every square whose middle the shape covers, and `edge` for every square its line passes. */
function forSquares(shape: Shape, inside: (i: number, k: number) => void, edge: (i: number, k: number) => void): void {
  const spans = contour(shape);
  const points = spans.flatMap(samples);
  let [lastI, lastK] = [Number.NaN, Number.NaN];
  for (const p of points) {
    const i = Math.floor(p.x / CELL);
    const k = Math.floor(p.y / CELL);
    if (i !== lastI || k !== lastK) edge(i, k);
    lastI = i;
    lastK = k;
  }
  const { min, max } = shapeBox(shape);
  for (let k = Math.floor(min.y / CELL); k <= Math.floor(max.y / CELL); k++) {
    const y = (k + 0.5) * CELL;
    const crossings: number[] = [];
    for (let n = 0; n < points.length; n++) {
      const a = points[n] as { x: Mm; y: Mm };
      const b = points[(n + 1) % points.length] as { x: Mm; y: Mm };
      if (a.y > y !== b.y > y) crossings.push(a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x));
    }
    crossings.sort((a, b) => a - b);
    for (let n = 0; n + 1 < crossings.length; n += 2) {
      const to = Math.floor((crossings[n + 1] as number) / CELL - 0.5);
      for (let i = Math.ceil((crossings[n] as number) / CELL - 0.5); i <= to; i++) inside(i, k);
    }
  }
}

/** Points along a span, no further apart than half a square. */
function samples(s: Span): { x: Mm; y: Mm }[] {
  const n = Math.max(1, Math.ceil((2 * spanLength(s)) / CELL));
  return Array.from({ length: n }, (_, i) => pointOn(s, i / n));
}

/** The first free place for the piece, in any quarter turn it may take; the ground then has it. */
function placeIn(ground: Ground, piece: Piece, sheet: number, width: Mm, height: Mm, gap: Mm): Laying | undefined {
  if (ground.refused.has(piece.alike)) return undefined;
  // More material than there is room for needs no looking.
  if (Math.abs(signedArea(piece.outer)) > ground.free * CELL * CELL) {
    ground.refused.add(piece.alike);
    return undefined;
  }
  for (const quarter of (piece.turns ? [0, 1, 2, 3] : [0]) as Quarter[]) {
    const home = laid(piece.outer, piece.box, { x: 0, y: 0, quarter });
    const size = sizeOf(shapeBox(home));
    const [far, high] = [Math.floor((width - size.width) / CELL), Math.floor((height - size.height) / CELL)];
    if (far < 0 || high < 0) continue;
    const mask = maskOf(home, ground.columns);
    const name = `${quarter} ${piece.alike}`;
    const from = ground.tried.get(name) ?? 0;
    for (let k = Math.floor(from / ground.columns); k <= high; k++) {
      for (let i = k * ground.columns < from ? from - k * ground.columns : 0; i <= far; i++) {
        const at = k * ground.columns + i;
        let free = true;
        for (let n = 0; free && n < mask.length; n++) free = ground.taken[at + (mask[n] as number)] !== 1;
        if (!free) continue;
        const laying: Laying = { key: piece.key, sheet, quarter, x: i * CELL, y: k * CELL };
        const shape = laid(piece.outer, piece.box, laying);
        if (!isClear(shape, ground.shapes, gap)) continue;
        take(ground, shape, gap);
        ground.tried.set(name, at);
        return laying;
      }
    }
    ground.tried.set(name, ground.columns * ground.rows);
  }
  ground.refused.add(piece.alike);
  return undefined;
}

/** Squares of a shape that starts at the origin, as steps in the map; those on its line first, where most places fail. */
function maskOf(shape: Shape, columns: number): Int32Array {
  const edge: number[] = [];
  const inner: number[] = [];
  const onEdge = new Uint8Array(columns * (Math.ceil(shapeBox(shape).max.y / CELL) + 2));
  forSquares(
    shape,
    (i, k) => void inner.push(k * columns + i),
    (i, k) => {
      const at = k * columns + i;
      if (onEdge[at] === 0) edge.push(at);
      onEdge[at] = 1;
    },
  );
  return Int32Array.from([...scattered(edge), ...inner.filter((v) => onEdge[v] !== 1)]);
}

/** The same values in an order that jumps about, so that a place taken anywhere is soon found out. */
function scattered(values: readonly number[]): number[] {
  const n = values.length;
  let step = Math.max(1, Math.round(n * 0.381966));
  const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
  while (common(step, n) > 1) step++;
  return values.map((_, i) => values[(i * step) % n] as number);
}

function isClear(shape: Shape, others: readonly Shape[], gap: Mm): boolean {
  const spans = contour(shape);
  const box = shapeBox(shape);
  return others.every((o) => !near(box, shapeBox(o), gap) || gapBelow(spans, contour(o), gap) >= gap);
}
