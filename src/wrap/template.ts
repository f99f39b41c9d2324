import type { Box } from '../drawing/spans.ts';
import type { Shape } from '../model/drawing.ts';
import type { Jig, MarkStyle } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { boxesOf, closingMark, ticksAlong, ticksAt } from './closing.ts';
import { lettering } from './lettered.ts';
import { holeMarks, lines, type PlacedMark } from './marks.ts';
import type { Skin } from './skin.ts';
import { type Cutting, type Piece, piecesOf } from './windows.ts';

/** Everything on the template, in the frame of the whole sheet, finished size. */
export interface Drawn {
  readonly marks: readonly PlacedMark[];
  /** Scored and engraved lines of the whole, and what only pieces carry, each with the piece's box. */
  readonly lines: readonly Shape[];
  readonly boxes: readonly Box[];
  /** Which piece of how many: carried by pieces alone. */
  readonly numbers: readonly Shape[];
  readonly jointMarks: readonly { readonly column: number; readonly band: number; readonly shape: Shape }[];
  /** Whether the ends had room for the closing mark. */
  readonly closes: boolean;
  readonly left: readonly string[];
}

/** Everything a template shows, in one frame, with its words put where they are clear of it. */
export function drawTemplate(
  jig: Jig,
  skin: Skin,
  cut: Cutting,
  style: MarkStyle,
  kerf: Mm,
  digest: string,
  /** Boxes no word crosses the edge of; the pieces themselves when not given. */
  windows?: readonly Box[],
): Drawn {
  const { depth } = skin.layout;
  const sheet: Box = { min: { x: cut.start, y: 0 }, max: { x: cut.start + skin.turn, y: depth } };
  const pieces = piecesOf(cut, skin.turn, depth);
  const marks = holeMarks(skin, cut.start, style);
  const { feet, lines: upright } = lines(jig, skin, sheet);
  const taken = boxesOf([...marks.flatMap((m) => [m.circle, ...m.extra]), ...feet, ...upright]);
  const joints = jointMarks(cut, pieces, taken);
  const closing = closingMark(sheet.min.x, sheet.max.x, 0, cut.bands[0] ?? depth, [
    ...taken,
    ...boxesOf(joints.map((j) => j.shape)),
  ]);
  const words = lettering({
    jig,
    skin,
    sheet,
    windows: windows ?? pieces.map((p) => p.window),
    piece: windows === undefined ? 'piece' : 'tile',
    marks,
    feet,
    lines: upright,
    taken: boxesOf([...joints.map((j) => j.shape), ...closing]),
    kerf,
    digest,
  });
  const all = [...feet, ...marks.flatMap((m) => m.extra), ...upright, ...closing, ...words.paths];
  return {
    marks,
    lines: all,
    boxes: boxesOf(all),
    numbers: words.pieces,
    jointMarks: joints,
    closes: closing.length > 0,
    left: words.left,
  };
}

/** Ticks across every joint, the seam's own among them, tagged with the piece that carries them. */
function jointMarks(cut: Cutting, pieces: readonly Piece[], taken: readonly Box[]): Drawn['jointMarks'][number][] {
  const out: Drawn['jointMarks'][number][] = [];
  const columns = cut.cuts.length + 1;
  for (const piece of pieces) {
    const { column, band, window } = piece;
    const last = column === columns - 1;
    const name = last ? 'S' : `${column + 1}`;
    const { before, after } = ticksAt(
      window.max.x,
      name,
      window.min.y,
      window.max.y,
      taken,
      last ? cut.start : window.max.x,
    );
    for (const shape of before) out.push({ column, band, shape });
    for (const shape of after) out.push({ column: last ? 0 : column + 1, band, shape });
    if (band < cut.bands.length) {
      const { below, above } = ticksAlong(window.max.y, window.min.x, window.max.x, taken);
      for (const shape of below) out.push({ column, band, shape });
      for (const shape of above) out.push({ column, band: band + 1, shape });
    }
  }
  return out;
}
