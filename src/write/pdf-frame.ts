import { letters, lettersWidth } from '../drawing/lettering.ts';
import { chain, segment } from '../drawing/paths.ts';
import { STRIP, type Tiling } from '../drawing/room.ts';
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
  const height = (lines: readonly string[]): Mm | undefined =>
    SIZES.find((h) => lines.every((l) => lettersWidth(l, h) <= room));
  const fitting = words.find((lines) => height(lines) !== undefined) ?? [];
  for (const [i, line] of fitting.entries()) {
    shapes.push(...letters(line, { x, y: margin + 8 - i * 3.8 }, height(fitting) ?? LETTER));
  }
  return [...shapes, ...tileMap(f)];
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

/** A little plan of all tiles, this one crossed. */
function tileMap(f: FrameInput): Shape[] {
  const { columns, rows } = f.tiling;
  const cell = Math.min(4, 20 / columns, 10 / rows);
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
