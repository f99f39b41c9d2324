import { letters, lettersWidth } from '../drawing/lettering.ts';
import { chain, segment } from '../drawing/paths.ts';
import { STRIP, type Tiling } from '../drawing/room.ts';
import type { Box } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { PaperProfile } from '../model/sheet.ts';
import type { Mm } from '../units/scalar.ts';

export interface FrameInput {
  readonly title: string;
  readonly tiling: Tiling;
  readonly paper: PaperProfile;
  /** From 0, to the right and upwards. */
  readonly column: number;
  readonly row: number;
  readonly page: number;
  readonly pages: number;
  readonly scaleX: number;
  readonly scaleY: number;
}

/** A ruler shorter than this is no check; a page too small for it goes without. */
const RULER: Mm = 100;
const LETTER: Mm = 2.6;

/** What is printed round the tile: two check rulers, names, and the map of the tiles. In mm from the page's lower left. */
export function pageFrame(f: FrameInput): Shape[] {
  const { margin } = f.paper;
  const { page } = f.tiling;
  const left = margin + STRIP.left;
  const shapes: Shape[] = [];
  const [along, up] = [RULER * f.scaleX, RULER * f.scaleY];
  if (left + along <= page.width - margin) {
    shapes.push(...ruler({ x: left, y: margin + 3 }, along, false));
    shapes.push(...letters('100 mm', { x: left + along / 2, y: margin + 5 }, LETTER, { align: 'center' }));
  }
  if (margin + STRIP.below + up <= page.height - margin) {
    shapes.push(...ruler({ x: margin + 3, y: margin + STRIP.below }, up, true));
    shapes.push(
      ...letters('100 mm', { x: margin + 2.2, y: margin + STRIP.below + up / 2 }, LETTER, {
        align: 'center',
        turn: 90,
      }),
    );
  }
  const x = left + along + 6;
  const place = f.tiling.rows === 1 ? `${f.column + 1}` : `row ${f.row + 1} column ${f.column + 1}`;
  const room = page.width - margin - 24 - x;
  const words = [
    [
      f.title,
      `page ${f.page} of ${f.pages}: tile ${place}. Print at actual size (100 %), both rulers must measure 100 mm.`,
      'Damp paper grows: mark in a dry hour and check the closing mark on the shell.',
    ],
    [f.title, `page ${f.page} of ${f.pages}: tile ${place}`, 'print at 100 %, check rulers'],
    [`page ${f.page} of ${f.pages}`, `tile ${place}`, 'print at 100 %'],
  ];
  const height = (lines: readonly string[], width: Mm): Mm | undefined =>
    SIZES.find((h) => lines.every((l) => lettersWidth(l, h) <= width));
  const fitting = words.find((lines) => height(lines, room) !== undefined);
  for (const [i, line] of (fitting ?? []).entries()) {
    shapes.push(...letters(line, { x, y: margin + 8 - i * 3.8 }, height(fitting ?? [], room) ?? LETTER));
  }
  if (fitting === undefined) {
    // No room beside the ruler: one line over it.
    const wide = page.width - margin - left;
    const number = `page ${f.page} of ${f.pages}, tile ${place}`;
    const line = [
      `${number}: print at 100 %, check both rulers; damp paper grows`,
      `${number}: print at 100 %`,
      number,
    ].find((l) => height([l], wide) !== undefined);
    if (line !== undefined) shapes.push(...letters(line, { x: left, y: margin + 9.5 }, height([line], wide) ?? LETTER));
  }
  return [...shapes, ...tileMap(f, page.width - margin - left - along - 3)];
}

/** Capitals (mm) that people still read, largest first. */
const SIZES: readonly Mm[] = [2.2, 1.8, 1.5];

/** A scale from `at`, level or upright: a tick every 10 % of its length, taller at both ends. */
function ruler(at: { x: Mm; y: Mm }, length: Mm, upright: boolean): Shape[] {
  const point = (along: Mm, over: Mm) =>
    upright ? { x: at.x + over, y: at.y + along } : { x: at.x + along, y: at.y + over };
  const ticks = Array.from({ length: 11 }, (_, i) => {
    const tall = i % 10 === 0 ? 2.5 : i === 5 ? 1.8 : 1.2;
    return segment('REFERENCE', 'check ruler', point((length * i) / 10, -tall / 2), point((length * i) / 10, tall / 2));
  });
  return [segment('REFERENCE', 'check ruler', point(0, 0), point(length, 0)), ...ticks];
}

/** The least (mm) a plan of the tiles can be read at. */
const MAP: Mm = 8;

/** A little plan of all tiles, this one crossed, clear of the ruler where there is `room`. */
function tileMap(f: FrameInput, room: Mm): Shape[] {
  const { columns, rows } = f.tiling;
  const cell = Math.min(4, (room < MAP ? 20 : Math.min(20, room)) / columns, 10 / rows);
  const x0 = f.tiling.page.width - f.paper.margin - columns * cell;
  const y0 = f.paper.margin + 1;
  const grid: Shape[] = [];
  for (let i = 0; i <= columns; i++) {
    grid.push(segment('SCORE', 'map', { x: x0 + i * cell, y: y0 }, { x: x0 + i * cell, y: y0 + rows * cell }));
  }
  for (let j = 0; j <= rows; j++) {
    grid.push(segment('SCORE', 'map', { x: x0, y: y0 + j * cell }, { x: x0 + columns * cell, y: y0 + j * cell }));
  }
  const [cx, cy] = [x0 + f.column * cell, y0 + f.row * cell];
  return [
    ...grid,
    chain('SCORE', 'map', [
      { x: cx, y: cy },
      { x: cx + cell, y: cy + cell },
    ]),
    chain('SCORE', 'map', [
      { x: cx, y: cy + cell },
      { x: cx + cell, y: cy },
    ]),
  ];
}

/**
 * What to do at the joint lines, written on the strips that are cut away: `left` and `below` mm wide, 0 where there is
 * none. In drawing mm; `shown` is what the tile shows of the drawing.
 */
export function cutNotes(shown: Box, left: Mm, below: Mm): Shape[] {
  const middle = { x: (shown.min.x + shown.max.x) / 2, y: (shown.min.y + shown.max.y) / 2 };
  const write = (text: string, strip: Mm, along: Mm, upright: boolean): Shape[] => {
    const height = SIZES.find((h) => h * 1.6 <= strip && lettersWidth(text, h) <= along);
    if (height === undefined) return [];
    const base = (strip - height) / 2;
    return upright
      ? letters(text, { x: shown.min.x + base + height, y: middle.y }, height, { align: 'center', turn: 90 })
      : letters(text, { x: middle.x, y: shown.min.y + base }, height, { align: 'center' });
  };
  return [
    ...write('cut off along the line, glue on the tile to the left', left, shown.max.y - shown.min.y, true),
    ...write('cut off along the line, glue on the tile below', below, shown.max.x - shown.min.x, false),
  ];
}

/**
 * Where this tile joins the one before it: a line both tiles show at the same place of the drawing, half way into what they
 * share, with a cross at each end. The later tile is cut along it and glued over the earlier one. In drawing mm.
 */
export function joinLine(x: Mm, low: Mm, high: Mm, upright: boolean): Shape[] {
  const point = (along: Mm, over: Mm) => (upright ? { x: x + over, y: along } : { x: along, y: x + over });
  const dashes: Shape[] = [];
  for (let at = low; at < high; at += 6) {
    dashes.push(segment('SCORE', 'tile joint', point(at, 0), point(Math.min(at + 3, high), 0)));
  }
  const cross = (at: Mm): Shape => segment('SCORE', 'tile joint', point(at, -2), point(at, 2));
  return [...dashes, cross(low + 1.5), cross(high - 1.5)];
}
