import { isUnderKerf, kerfSummed } from '../drawing/kerf-summed.ts';
import { roll } from '../geometry/frames.ts';
import { asNote } from '../model/fact.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Staged } from '../model/stage.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';
import { cardPages, cardParts } from './cards.ts';
import { markWidth } from './marks.ts';
import { panel, paperDrawing, pieceOf, wholeDrawing } from './pieces.ts';
import { tabOf, type WrapOptions, type WrapPlan } from './plan.ts';
import { blocksAround, blocksUp, placeOf, skinOf } from './skin.ts';
import { drawTemplate } from './template.ts';
import { type Cutting, cutting, piecesOf, tilesOf } from './windows.ts';
import {
  letterFacts,
  materialFacts,
  nameFacts,
  noClosingMark,
  noRoom,
  noRoomForWords,
  paperGrows,
  piecesFacts,
  seamFacts,
} from './wrap-facts.ts';

/** Ordinary printing paper (common practice, no source); its neutral line is its middle. */
const PAPER = { thickness: 0.1, neutral: 0.5 } as const;
/** A sheet (mm) no template is too large for. */
const ENDLESS: Mm = 10_000;

/**
 * The wrap template: the shell's skin laid flat at the sheet's neutral line, with every hole, outline and line, whole
 * and in panels, and once more for paper.
 * @param jig as `resolveJig` gives it
 * @param layout where everything goes, as `layOut` gives it for the same jig
 * @param options digest to engrave, e.g. a hash of the jig file
 * @returns drawings in mm, x along the sheet from the strainer line, y up; facts for what cannot be wrapped
 * @throws never
 * @source bend allowance of sheet work, angle (radius + k thickness), machinery handbooks (from memory)
 */
export function planWrap(jig: Jig, layout: Layout, options: WrapOptions): Staged<WrapPlan> {
  const { wrap } = jig;
  const kerf = wrap.sheet.kerf ?? wrap.material.kerf;
  const facts: Fact[] = [...materialFacts(jig), ...nameFacts(jig), ...letterFacts(kerf)];
  const skin = skinOf(layout, wrap.thickness, wrap.material.neutral);
  const tab = tabOf(jig);
  const across = markWidth(wrap.marks);
  const around = blocksAround(skin, across);
  const input = {
    around,
    up: blocksUp(layout, across),
    turn: skin.turn,
    depth: layout.depth,
    sheet: wrap.sheet,
    kerf,
    tab,
  };
  const seamAt = wrap.seamAt === undefined ? undefined : placeOf(skin, wrap.seamAt, 0);
  const found = cutting(seamAt === undefined ? input : { ...input, seamAt });
  if (found === undefined) facts.push(noRoom(jig, layout));
  // Without a fitting sheet the whole template is still right for a service with a larger one.
  const plan =
    found ??
    cutting({
      ...input,
      sheet: { ...wrap.sheet, width: ENDLESS, height: ENDLESS },
      ...(seamAt === undefined ? {} : { seamAt }),
    });
  const cut: Cutting = plan ?? {
    start: seamAt === undefined || seamAt === 0 ? 0 : seamAt - skin.turn,
    cuts: [],
    bands: [],
    crossed: true,
  };
  facts.push(...seamFacts(jig, skin, cut));

  const drawn = drawTemplate(jig, skin, cut, wrap.marks, kerf, options.digest);
  if (!drawn.closes) facts.push(noClosingMark);
  if (drawn.left.length > 0) facts.push(noRoomForWords(drawn.left));
  const pieces = piecesOf(cut, skin.turn, layout.depth);
  if (found !== undefined) facts.push(...piecesFacts(jig, pieces.length));
  const parts = found === undefined ? [] : pieces.map((p) => panel(p, pieces, drawn, cut, tab));
  const { value: whole, facts: swallowed } = wholeDrawing(jig, drawn, skin, cut, kerf, tab);
  // Whoever lays the panels on sheets says it of them.
  if (found === undefined) facts.push(...kerfSummed(swallowed));

  const paperSkin = skinOf(layout, PAPER.thickness, PAPER.neutral);
  const scale = paperSkin.flat / skin.flat;
  const paperCut = { start: cut.start * scale, cuts: [], bands: [], crossed: cut.crossed };
  const tiles = tilesOf(wrap.paper, paperCut.start, paperSkin.turn, layout.depth, options.stretch);
  const paper = drawTemplate(jig, paperSkin, paperCut, 'cross', 0, options.digest, tiles);
  facts.push(paperGrows(paperSkin));

  const cards = cardParts(jig, options.rods);
  const angle = (x: Mm): Deg => roll({ x, y: 0 }, skin.flat).angle;
  return {
    value: {
      whole,
      spoilt: swallowed.some(isUnderKerf),
      panels: parts,
      paper: paperDrawing(jig, paper, paperSkin, paperCut),
      seam: wrapDeg(angle(cut.start)),
      flatRadius: skin.flat,
      length: skin.turn,
      paperLength: paperSkin.turn,
      pieces: pieces.map((p) => pieceOf(p, pieces, layout.depth, angle)),
      cards,
      cardPages: cardPages(cards, wrap.paper, jig.name),
    },
    facts: wrap.asked ? facts : facts.map(asNote),
  };
}
