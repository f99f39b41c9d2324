import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { abovePicture, rings } from './above.ts';
import { plainCss } from './style.ts';
import { el, type Frame } from './svg.ts';
import { holeNumbers, unrolledPicture } from './unrolled.ts';

/**
 * One picture of a whole build for a document: the drum from above over the unrolled shell, on plain paper.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @returns SVG text, mm drawn to scale
 * @throws never
 * @source derived from the layout
 */
export function coverPicture(jig: Jig, layout: Layout): string {
  const sheet = unrolledPicture({ jig, layout, numbers: holeNumbers(layout) });
  const above = abovePicture(jig, layout, rings(jig, layout)[0]!);
  const flat = boxOf(sheet);
  const round = boxOf(above);
  const side = Math.max(flat.height, flat.width * 0.42);
  const height = side + flat.height + 20;
  const placed = (svg: string, x: number, y: number, width: number, tall: number): string =>
    svg.replace('<svg ', `<svg x="${x}" y="${y}" width="${width}" height="${tall}" `);
  const square = (side * round.width) / round.height;
  return el(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${flat.width} ${height}`,
      width: 1000,
      height: (1000 * height) / flat.width,
    },
    `<style>${plainCss}</style>`,
    el('rect', { width: flat.width, height, fill: '#fffdf8' }),
    placed(above, (flat.width - square) / 2, 5, square, side),
    placed(sheet, 0, side + 15, flat.width, flat.height),
  );
}

/** The drawing frame of a picture made here. */
function boxOf(svg: string): Frame {
  const [x = 0, y = 0, width = 1, height = 1] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '').split(' ').map(Number);
  return { x, y, width, height };
}
