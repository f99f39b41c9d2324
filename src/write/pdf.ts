import { deflateSync } from 'node:zlib';
import { STRIP, type Stretch, type Tiling, tiling } from '../drawing/room.ts';
import type { Box } from '../drawing/spans.ts';
import type { Drawing, Shape } from '../model/drawing.ts';
import type { PaperProfile } from '../model/sheet.ts';
import type { Mm } from '../units/scalar.ts';
import { addPage, type Document, documentBytes, emptyDocument } from './pdf-document.ts';
import { cutNotes, type FrameInput, joinLine, pageFrame } from './pdf-frame.ts';
import { boxed, POINTS_PER_MM, strokes } from './pdf-page.ts';

export interface PdfOptions {
  readonly title: string;
  /** What a printer that scales is to be fed: 100 / (what the first page's 100 mm rulers measured), across and up. */
  readonly stretch?: Stretch | undefined;
  /** Further drawings, on pages after the first's. */
  readonly more?: readonly Drawing[];
}

/**
 * Drawings on paper, 1:1, each over as many tiles as it takes: lines only, no fonts, no scaling asked of the printer.
 * Neighbouring tiles share `paper.overlap` mm and a joint line. Every page carries 100 mm check rulers both ways. Throws
 * RangeError for a page that has no room for a tile.
 */
export async function toPdf(drawing: Drawing, paper: PaperProfile, options: PdfOptions): Promise<Uint8Array> {
  const { title, stretch = { x: 1, y: 1 }, more = [] } = options;
  const turned = { x: stretch.y, y: stretch.x };
  const sized = (d: Drawing, by: Stretch): Tiling => {
    const tiles = tiling(paper, d.max.x - d.min.x, d.max.y - d.min.y, by);
    if (tiles === undefined) throw new RangeError(`${paper.name}: no room for a tile`);
    return tiles;
  };
  const isWide = ({ page }: Tiling): boolean => page.width > page.height;
  const asFirst = isWide(sized(drawing, stretch));
  // A page that lies the other way goes through the printer turned: its across is the first one's up.
  const tiled = [drawing, ...more].map((d) => {
    const by = isWide(sized(d, stretch)) === asFirst ? stretch : turned;
    return { drawing: d, tiles: sized(d, by), by };
  });
  const pages = tiled.reduce((sum, { tiles }) => sum + tiles.columns * tiles.rows, 0);
  const doc = emptyDocument(title);
  let first = 1;
  for (const { drawing: d, tiles, by } of tiled) {
    const name = d === drawing ? title : d.title;
    addTiles(doc, d, { title: name, tiling: tiles, paper, page: first, pages, scaleX: by.x, scaleY: by.y });
    first += tiles.columns * tiles.rows;
  }
  return documentBytes(doc);
}

/** The pages of one drawing; `page` is the number of its first. */
function addTiles(doc: Document, drawing: Drawing, frame: Omit<FrameInput, 'column' | 'row'>): void {
  const { tiling: tiles, paper, scaleX, scaleY } = frame;
  const { page, tile, columns, rows } = tiles;
  // From here on in drawing millimetres: a printer that shrinks shows more of the drawing on a page.
  const [w, h] = [tile.width / scaleX, tile.height / scaleY];
  const [overX, overY] = [paper.overlap / scaleX, paper.overlap / scaleY];
  const startX = (i: number): Mm => drawing.min.x + i * (w - overX);
  const startY = (j: number): Mm => drawing.min.y + j * (h - overY);

  const joints: Shape[] = [];
  for (let i = 1; i < columns; i++) joints.push(...joinLine(startX(i) + overX / 2, drawing.min.y, drawing.max.y, true));
  for (let j = 1; j < rows; j++) joints.push(...joinLine(startY(j) + overY / 2, drawing.min.x, drawing.max.x, false));
  const shapes = boxed([...drawing.shapes, ...joints]);
  const sheet: Box = { min: { x: 0, y: 0 }, max: { x: page.width, y: page.height } };
  const [left, low] = [paper.margin + STRIP.left, paper.margin + STRIP.below];

  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [x, y] = [startX(column), startY(row)];
      const window: Box = { min: { x, y }, max: { x: x + w, y: y + h } };
      const place = { dx: left - scaleX * x, dy: low - scaleY * y, scaleX, scaleY };
      const shown: Box = {
        min: { x, y },
        max: { x: Math.min(window.max.x, drawing.max.x), y: Math.min(window.max.y, drawing.max.y) },
      };
      const notes = cutNotes(shown, column > 0 ? overX / 2 : 0, row > 0 ? overY / 2 : 0);
      const around = pageFrame({ ...frame, column, row, page: frame.page + row * columns + column });
      const body = [
        strokes([...shapes, ...boxed(notes)], window, place),
        strokes(boxed(around), sheet, { dx: 0, dy: 0, scaleX: 1, scaleY: 1 }),
      ].join('\n');
      // Node's own deflate: the library's, in script, takes longer than all the rest. The usual level 6 takes two to three
      // times as long and saves a fiftieth more.
      const packed = deflateSync(body, { level: 4 });
      addPage(doc, page.width * POINTS_PER_MM, page.height * POINTS_PER_MM, packed);
    }
  }
}
