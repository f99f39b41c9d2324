import { isApart } from '../drawing/meetings.ts';
import { signedArea } from '../drawing/paths.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import type { Bodies, Body } from './body.ts';
import type { Laying, Quarter } from './laying.ts';
import { CELL, emptyRoom, firstFree, freeIn, type Mask, type Room, take } from './map.ts';
import { type Piece, sizeOf } from './piece.ts';

/** What lies on one sheet: a map to find a place by, and the outlines to make sure of it. */
interface Ground {
  readonly room: Room;
  readonly laid: { readonly body: Body; readonly x: Mm; readonly y: Mm }[];
  /** Material (mm2) there is room for yet. */
  free: number;
  /** Where the search for an outline in a quarter turn may go on: what was taken before stays taken. */
  readonly tried: Map<number, number>;
}

export interface Bed {
  readonly width: Mm;
  readonly height: Mm;
  /** Kept between neighbours, exactly. */
  readonly gap: Mm;
}

/**
 * Sheet by sheet, moves pieces of later sheets into the hollows and gaps of the earlier ones: those of the last sheet first,
 * the largest first, so that sheets empty from the end.
 */
export function filled(layings: readonly Laying[], pieces: readonly Piece[], bed: Bed, body: Bodies): Laying[] {
  let current = [...layings];
  const area = areas(pieces);
  for (let sheet = 0; sheet < lastOf(current); sheet++) {
    const ground = groundOf(
      current.filter((l) => l.sheet === sheet),
      pieces,
      bed,
      body,
    );
    const later = current
      .filter((l) => l.sheet > sheet)
      .sort((a, b) => b.sheet - a.sheet || area(b.key) - area(a.key) || a.key - b.key);
    const refused = new Set<number>();
    const moved = new Map<number, Laying>();
    for (const l of later) {
      const piece = pieces[l.key] as Piece;
      if (refused.has(piece.alike)) continue;
      const found = area(l.key) > ground.free ? undefined : placeIn(ground, piece, area(l.key), sheet, bed, body);
      if (found === undefined) refused.add(piece.alike);
      else moved.set(l.key, found);
    }
    current = current.map((l) => moved.get(l.key) ?? l);
  }
  return current;
}

const lastOf = (layings: readonly Laying[]): number => Math.max(0, ...layings.map((l) => l.sheet));

/** Area of a piece's outline by its key, like ones reckoned once. */
function areas(pieces: readonly Piece[]): (key: number) => number {
  const known = new Map<number, number>();
  return (key) => {
    const { alike, outer } = pieces[key] as Piece;
    const ready = known.get(alike) ?? Math.abs(signedArea(outer));
    known.set(alike, ready);
    return ready;
  };
}

function groundOf(own: readonly Laying[], pieces: readonly Piece[], { width, height }: Bed, body: Bodies): Ground {
  const ground: Ground = { room: emptyRoom(width, height), laid: [], free: 0, tried: new Map() };
  for (const l of own) put(ground, body(pieces[l.key] as Piece, l.quarter), l.x, l.y);
  ground.free = freeIn(ground.room) * CELL * CELL;
  return ground;
}

function put(ground: Ground, body: Body, x: Mm, y: Mm): void {
  ground.laid.push({ body, x, y });
  take(ground.room, body.grown(), x, y);
}

/** The first free place for the piece, in any quarter turn it may take; the ground then has it. */
function placeIn(
  ground: Ground,
  piece: Piece,
  area: number,
  sheet: number,
  { width, height, gap }: Bed,
  bodyOf: Bodies,
): Laying | undefined {
  const size = sizeOf(piece.box);
  const tried: Mask[] = [];
  for (const quarter of (piece.turns ? [0, 1, 2, 3] : [0]) as Quarter[]) {
    const [w, h] = quarter % 2 === 1 ? [size.height, size.width] : [size.width, size.height];
    const far = Math.floor((width - w + tolerance.noise) / CELL);
    const high = Math.floor((height - h + tolerance.noise) / CELL);
    if (far < 0 || high < 0) continue;
    const body = bodyOf(piece, quarter);
    const mask = body.mask();
    // Turned, a rectangle or a round plate is what it was.
    if (tried.some((m) => isSame(m, mask))) continue;
    tried.push(mask);
    const name = 4 * piece.alike + quarter;
    let at = ground.tried.get(name) ?? 0;
    for (;;) {
      at = firstFree(ground.room, mask, at, far, high);
      if (at < 0) break;
      const [x, y] = [(at % ground.room.columns) * CELL, Math.floor(at / ground.room.columns) * CELL];
      if (ground.laid.every((l) => isApart(l.body.chain, body.chain, x - l.x, y - l.y, gap))) {
        ground.tried.set(name, at);
        put(ground, body, x, y);
        ground.free -= area;
        return { key: piece.key, sheet, quarter, x, y };
      }
      at++;
    }
  }
  return undefined;
}

const isSame = (a: Mask, b: Mask): boolean =>
  a.runs.length === b.runs.length && a.runs.every((v, i) => v === (b.runs[i] as number));
