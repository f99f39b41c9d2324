import { clipped } from '../drawing/clip.ts';
import { distinct } from '../drawing/distinct.ts';
import { cutLines } from '../drawing/kerf.ts';
import { isSlotted, laserFacts } from '../drawing/laser.ts';
import { unknownCharacters } from '../drawing/lettering.ts';
import { moveShape, polygon, rectangle, segment } from '../drawing/paths.ts';
import { tiling } from '../drawing/room.ts';
import type { Box } from '../drawing/spans.ts';
import { roll } from '../geometry/frames.ts';
import type { Drawing, Part, Path, Shape } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig, MarkStyle } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { Staged } from '../model/stage.ts';
import { type Deg, type Mm, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { cardPages, cardParts, type RodFit } from './cards.ts';
import { boxesOf, closingMark, ticksAlong, ticksAt } from './closing.ts';
import { LAND } from './joints.ts';
import { lettering } from './lettered.ts';
import { holeMarks, lines, markWidth, type PlacedMark } from './marks.ts';
import { blocksAround, blocksUp, placeOf, type Skin, skinOf } from './skin.ts';
import { type Cutting, cutting, type Piece, piecesOf } from './windows.ts';

/** Tab (mm) that an overlapping seam puts under the next piece, and how far its corners are cut back. */
const TAB = { width: 12, corner: 3 } as const;
/** Ordinary printing paper (common practice, no source); its neutral line is its middle. */
const PAPER = { thickness: 0.1, neutral: 0.5 } as const;
/** Waste left round the whole template's drawing, and where its check line lies below the bottom edge. */
const AROUND = { side: 2, check: 9, below: 14 } as const;

const tabOf = (jig: Jig): Mm => (jig.wrap.seam === 'overlap' ? TAB.width : 0);

export interface WrapPiece {
  readonly part: string;
  /** Shell angles and heights it covers. */
  readonly from: Deg;
  readonly to: Deg;
  readonly low: Mm;
  readonly high: Mm;
  /** The shell's edge it is held flush with. */
  readonly edge: 'bottom' | 'top' | 'both' | 'joint';
}

export interface WrapPlan {
  /** The template in one piece, kerf applied; origin on the strainer line at the bottom edge. */
  readonly whole: Drawing;
  /** The same cut to fit the sheet, at finished size, to be nested. */
  readonly panels: readonly Part[];
  /** The template for paper, drawn for the paper's own thickness. */
  readonly paper: Drawing;
  readonly seam: Deg;
  /** R + k t of the sheet, and the flat length of its full turn. */
  readonly flatRadius: Mm;
  readonly length: Mm;
  /** The same for paper. */
  readonly paperLength: Mm;
  readonly pieces: readonly WrapPiece[];
  /** Cards to hold against the real thing, at finished size, and the same laid out on pages for `wrap.pdf`. */
  readonly cards: readonly Part[];
  readonly cardPages: readonly Drawing[];
}

export interface WrapOptions {
  readonly digest: string;
  /** Rod lengths that fit, for the rod cards. */
  readonly rods?: readonly RodFit[];
}

/**
 * The wrap template: the shell's skin laid flat at the sheet's neutral line, with every hole, outline and line, whole and in
 * panels, and once more for paper.
 */
export function planWrap(jig: Jig, layout: Layout, options: WrapOptions): Staged<WrapPlan> {
  const { wrap } = jig;
  const facts: Fact[] = [...materialFacts(jig), ...nameFacts(jig)];
  const kerf = wrap.sheet.kerf ?? wrap.material.kerf;
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
      sheet: { ...wrap.sheet, width: 1e4, height: 1e4 },
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
  if (drawn.left.length > 0) facts.push(noRoomForWords(drawn.left));
  const pieces = piecesOf(cut, skin.turn, layout.depth);
  const parts = found === undefined ? [] : pieces.map((p) => panel(p, pieces, drawn, cut, tab));
  const whole = wholeDrawing(jig, drawn, skin, cut, kerf, tab);

  const paperSkin = skinOf(layout, PAPER.thickness, PAPER.neutral);
  const scale = paperSkin.flat / skin.flat;
  const paperCut = { start: cut.start * scale, cuts: [], bands: [], crossed: cut.crossed };
  const paper = drawTemplate(jig, paperSkin, paperCut, 'cross', 0, options.digest);
  facts.push(paperGrows(paperSkin));

  const cards = cardParts(jig, options.rods);
  const angle = (x: Mm): Deg => roll({ x, y: 0 }, skin.flat).angle;
  return {
    value: {
      whole,
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
    facts,
  };
}

/** Everything on the template, in the frame of the whole sheet, finished size. */
interface Drawn {
  readonly marks: readonly PlacedMark[];
  /** Scored and engraved lines of the whole, and what only pieces carry, each with the piece's box. */
  readonly lines: readonly Shape[];
  readonly boxes: readonly Box[];
  readonly jointMarks: readonly { readonly column: number; readonly band: number; readonly shape: Shape }[];
  readonly left: readonly string[];
}

function drawTemplate(jig: Jig, skin: Skin, cut: Cutting, style: MarkStyle, kerf: Mm, digest: string): Drawn {
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
    windows: pieces.map((p) => p.window),
    marks,
    feet,
    lines: upright,
    taken: boxesOf([...joints.map((j) => j.shape), ...closing]),
    kerf,
    digest,
  });
  const all = [...feet, ...marks.flatMap((m) => m.extra), ...upright, ...closing, ...words.paths];
  return { marks, lines: all, boxes: boxesOf(all), jointMarks: joints, left: words.left };
}

/** Ticks across every joint, the seam's own among them, tagged with the piece that carries them. */
function jointMarks(cut: Cutting, pieces: readonly Piece[], taken: readonly Box[]): Drawn['jointMarks'][number][] {
  const out: Drawn['jointMarks'][number][] = [];
  const columns = cut.cuts.length + 1;
  for (const piece of pieces) {
    const { column, band, window } = piece;
    const last = column === columns - 1;
    const name = last ? 'S' : String.fromCharCode(65 + column);
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

function wholeDrawing(jig: Jig, drawn: Drawn, skin: Skin, cut: Cutting, kerf: Mm, tab: Mm): Drawing {
  const { depth } = skin.layout;
  const [x0, x1] = [cut.start, cut.start + skin.turn];
  const columns = cut.cuts.length + 1;
  const seamMarks = drawn.jointMarks.filter(
    (j) => (j.column === 0 && nearTo(j.shape, x0)) || (j.column === columns - 1 && nearTo(j.shape, x1)),
  );
  const part: Part = {
    id: 'wrap',
    job: 'wrap',
    name: 'wrap template',
    outer: outline({ min: { x: x0, y: 0 }, max: { x: x1, y: depth } }, tab),
    inner: drawn.marks.map((m) => m.circle).filter((c) => c.layer === 'CUT-INNER'),
    marks: [],
    quantity: 1,
    turns: true,
  };
  const rings = drawn.marks.map((m) => m.circle).filter((c) => c.layer !== 'CUT-INNER');
  const check = segment(
    'REFERENCE',
    'check line of 100 mm',
    { x: Math.max(x0, 0), y: -AROUND.check },
    { x: Math.max(x0, 0) + 100, y: -AROUND.check },
  );
  return {
    title: `${jig.name}: wrap template, outside, top edge up`,
    min: { x: x0 - AROUND.side, y: -AROUND.below },
    max: { x: x1 + tab + AROUND.side, y: depth + AROUND.side },
    top: depth,
    shapes: distinct([
      ...cutLines(part, kerf).value,
      ...rings,
      ...tabLine(tab, x1, depth),
      ...drawn.lines,
      ...seamMarks.map((j) => j.shape),
      check,
    ]),
  };
}

/** Joint marks at the seam lie within a few millimetres of it. */
const nearTo = (shape: Shape, x: Mm): boolean => shape.kind === 'path' && Math.abs(shape.start.x - x) < 10;

function paperDrawing(jig: Jig, drawn: Drawn, skin: Skin, cut: Cutting): Drawing {
  const { depth } = skin.layout;
  const [x0, x1] = [cut.start, cut.start + skin.turn];
  const edge = rectangle('CUT-OUTER', 'edge', { x: x0, y: 0 }, { x: x1, y: depth });
  const circles = drawn.marks.map((m) => m.circle);
  return {
    title: `${jig.name}: paper wrap, outside, top edge up`,
    min: { x: x0, y: 0 },
    max: { x: x1, y: depth },
    top: depth,
    shapes: distinct([edge, ...circles, ...drawn.lines, ...drawn.jointMarks.map((j) => j.shape)]),
  };
}

/** Piece outline, with a tab on the right that slides under the next piece. */
function outline({ min, max }: Box, tab: Mm): Path {
  if (tab === 0) return rectangle('CUT-OUTER', 'edge', min, max);
  const c = TAB.corner;
  return polygon('CUT-OUTER', 'edge', [
    min,
    { x: max.x + tab - c, y: min.y },
    { x: max.x + tab, y: min.y + c },
    { x: max.x + tab, y: max.y - c },
    { x: max.x + tab - c, y: max.y },
    { x: min.x, y: max.y },
  ]);
}

/** Where the next piece's edge comes to lie on the tab. */
const tabLine = (tab: Mm, x: Mm, high: Mm, low: Mm = 0): Shape[] =>
  tab === 0 ? [] : [segment('SCORE', 'tab', { x, y: low }, { x, y: high })];

function panel(piece: Piece, all: readonly Piece[], drawn: Drawn, cut: Cutting, tab: Mm): Part {
  const { window, column, band } = piece;
  const home = <S extends Shape>(s: S): S => moveShape(s, -window.min.x, -window.min.y);
  const own = drawn.marks.filter((m) => owns(piece, m, cut));
  const circles = own.map((m) => m.circle);
  const marks = [
    ...circles.filter((c) => c.layer !== 'CUT-INNER'),
    ...tabLine(tab, window.max.x, window.max.y, window.min.y),
    ...drawn.lines.flatMap((s, i) => clipped(s, window, drawn.boxes[i])),
    ...drawn.jointMarks.filter((j) => j.column === column && j.band === band).map((j) => j.shape),
  ];
  const inner = circles.filter((c) => c.layer === 'CUT-INNER');
  const outer = outline(window, tab);
  const clean = distinct([outer, ...inner, ...marks]).filter((s) => s.layer !== 'CUT-OUTER' && s.layer !== 'CUT-INNER');
  return {
    id: partId(piece, all),
    job: 'wrap',
    name: `wrap ${all.indexOf(piece) + 1} of ${all.length}`,
    outer: home(outer),
    inner: inner.map(home),
    marks: clean.map(home),
    quantity: 1,
    turns: true,
  };
}

const partId = (piece: Piece, all: readonly Piece[]): string => `wrap-panel-${all.indexOf(piece) + 1}`;

/** A hole belongs to the piece its centre lies in; on a joint, to the piece after it. */
function owns({ column, band }: Piece, mark: PlacedMark, cut: Cutting): boolean {
  const before = (cuts: readonly Mm[], v: Mm): number => cuts.filter((c) => c <= v).length;
  return before(cut.cuts, mark.at.x) === column && before(cut.bands, mark.at.y) === band;
}

function pieceOf(p: Piece, all: readonly Piece[], depth: Mm, angle: (x: Mm) => Deg): WrapPiece {
  const { min, max } = p.window;
  const [bottom, top] = [min.y <= 0, max.y >= depth];
  const edge = bottom && top ? 'both' : bottom ? 'bottom' : top ? 'top' : 'joint';
  return {
    part: partId(p, all),
    from: wrapDeg(angle(min.x)),
    to: wrapDeg(angle(max.x)),
    low: min.y,
    high: max.y,
    edge,
  };
}

const fact = (
  level: Fact['level'],
  id: string,
  measured: number | null,
  limit: number | null,
  unit: string,
  facts: Fact['facts'] = {},
): Fact => ({
  level,
  id,
  at: 'wrap',
  measured,
  limit,
  unit,
  facts,
});

function materialFacts(jig: Jig): Fact[] {
  const { material } = jig.wrap;
  const level = jig.wrap.asked ? 'stop' : 'note';
  const facts = laserFacts(material.name, 'wrap');
  if (isSlotted(material.name))
    facts.push(fact('stop', 'wrap-sheet-slotted', null, null, '', { material: material.name }));
  if (tiling(jig.wrap.paper, jig.shell.girth, jig.shell.depth) === undefined) {
    facts.push(fact('stop', 'paper-too-small', null, null, 'mm', { paper: jig.wrap.paper.name }));
  }
  if (material.bends === undefined)
    return [...facts, fact(level, 'wrap-too-stiff', jig.shell.radius, null, 'mm', { material: material.name })];
  if (material.bends <= jig.shell.radius) return facts;
  return [...facts, fact(level, 'wrap-too-stiff', jig.shell.radius, material.bends, 'mm', { material: material.name })];
}

function nameFacts(jig: Jig): Fact[] {
  const unknown = unknownCharacters(jig.name);
  return unknown.length === 0
    ? []
    : [fact('note', 'letters-unknown', unknown.length, 0, '', { letters: unknown.join(' '), name: jig.name })];
}

function noRoom(jig: Jig, layout: Layout): Fact {
  const { sheet } = jig.wrap;
  return fact(
    'stop',
    'wrap-sheet-too-small',
    layout.depth,
    Math.max(sheet.width, sheet.height) - 2 * sheet.margin,
    'mm',
    { sheet: sheet.name },
  );
}

/** What joint lies too near to: every hole within its land, and outlines where there was no other way. */
function seamFacts(jig: Jig, skin: Skin, cut: Cutting): Fact[] {
  const tab = tabOf(jig);
  const blocks = blocksAround(skin, markWidth(jig.wrap.marks)).flatMap((b) =>
    [-skin.turn, 0, skin.turn].map((d) => ({ ...b, from: b.from + d, to: b.to + d })),
  );
  return [cut.start, ...cut.cuts].flatMap((x): Fact[] => {
    const angle = wrapDeg(roll({ x, y: 0 }, skin.flat).angle);
    const hole = blocks.find(
      (b) => b.hard && x > b.from - LAND - tab + tolerance.join && x < b.to + LAND - tolerance.join,
    );
    if (hole !== undefined) {
      const gap = Math.max(0, hole.from - tab - x, x - hole.to);
      return [fact('stop', 'wrap-seam-on-hole', gap, LAND, 'mm', { what: hole.what, angle })];
    }
    const outline = blocks.find((b) => !b.hard && x > b.from && x < b.to);
    return outline === undefined
      ? []
      : [fact('note', 'wrap-seam-on-outline', null, null, 'mm', { what: outline.what, angle })];
  });
}

const noRoomForWords = (left: readonly string[]): Fact =>
  fact('note', 'wrap-words-left-out', left.length, 0, '', { first: left[0] as string, count: left.length });

/** Paper grows about 0.2 % when damp (common practice, no source). */
const DAMP = 0.002;

const paperGrows = (skin: Skin): Fact =>
  fact('note', 'paper-grows', skin.turn * DAMP, null, 'mm', { percent: 100 * DAMP, turn: skin.turn });
