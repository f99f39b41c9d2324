import { distinct } from '../drawing/distinct.ts';
import { letters, lettersWidth } from '../drawing/lettering.ts';
import { chain, polygon, rectangle, segment } from '../drawing/paths.ts';
import type { Part, Shape } from '../model/drawing.ts';
import type { Jig, LugRod, LugRow } from '../model/jig.ts';
import { trimmed } from '../say/saying.ts';
import { type Mm, toDeg } from '../units/scalar.ts';
import { folded } from './fold.ts';

/** Rod lengths that fit one end of a row, as the fit check found them. */
export interface RodFit {
  readonly row: string;
  readonly side: 'top' | 'bottom';
  readonly shortest: Mm;
  readonly longest: Mm;
  /** Stock lengths in between. */
  readonly stock: readonly Mm[];
}

/** Hook that hangs on the bearing edge, and blank card round the drawing. */
const HOOK: Mm = 10;
const BORDER: Mm = 7;
const LETTER: Mm = 2.6;
/** Names longer than this (mm) are folded. */
const NAME: Mm = 80;
/** Labels stand at least this far apart. */
const STEP: Mm = 4.4;
/** From the rod to the labels. */
const LEADER: Mm = 14;

interface Side {
  readonly row: LugRow;
  readonly rod: LugRod;
  readonly side: 'top' | 'bottom';
  readonly ear: Mm;
}

/** Rows whose rods can be drawn: the lug's rod, the hoop's ear and the rods are known. */
function sides(jig: Jig): Side[] {
  return jig.rows.flatMap((row) => {
    const ends: ('top' | 'bottom')[] =
      jig.ends === 'both' ? ['top', 'bottom'] : row.edge === 'middle' ? [] : [row.edge];
    return ends.flatMap((side) => {
      const ear = jig.hoops[side]?.ear;
      return row.rod === undefined || ear === undefined || jig.rods === undefined
        ? []
        : [{ row, rod: row.rod, side, ear }];
    });
  });
}

/**
 * A card for every row of lugs: hooked over the bearing edge and held against the shell beside a lug, it shows to scale where
 * the hoop's ear, the lug's face, its first thread and its bottom must be, and where the rod's tip comes to stand.
 */
export const rodCards = (jig: Jig, fits: readonly RodFit[]): Part[] =>
  sides(jig).map((s, i) =>
    card(
      jig,
      s,
      i + 1,
      fits.find((f) => f.row === s.row.name && f.side === s.side),
    ),
  );

interface Mark {
  readonly y: Mm;
  readonly text: string;
}

function card(jig: Jig, own: Side, number: number, fit: RodFit | undefined): Part {
  const { row, rod, side, ear } = own;
  const rods = jig.rods as NonNullable<Jig['rods']>;
  // Up from the bearing edge, out from the shell's skin.
  const head = ear + rods.washer;
  const face = rod.face - (side === 'top' ? jig.shell.depth - row.height : row.height);
  const length = rods.length[side];
  const loose = length === undefined ? undefined : head - length;
  const out = (row.foot?.gasket ?? 0) + (rod.standoff ?? 12);
  const thick = (rods.thread ?? rod.takes)?.diameter ?? 5;
  const marks: Mark[] = [
    { y: head, text: `under the rod's head ${signed(head)}` },
    { y: ear, text: `hoop's ear, finger tight ${signed(ear)}` },
    { y: 0, text: 'bearing edge 0' },
    { y: face, text: `lug's face ${signed(face)}` },
    { y: face - rod.catch, text: `first thread bites ${signed(face - rod.catch)}` },
    { y: face - rod.bottom, text: `bottom of the lug ${signed(face - rod.bottom)}` },
    ...(loose === undefined
      ? []
      : [
          { y: loose, text: `tip finger tight ${signed(loose)}` },
          { y: loose - rods.travel, text: `tip at full tension ${signed(loose - rods.travel)}` },
        ]),
  ];
  const leaning = lean(jig, own, out, face);
  const title = [
    ...folded(`rod card: row ${row.name}${jig.ends === 'both' ? `, ${side} rods` : ''}`, LETTER, NAME),
    ...lengths(length, fit),
    ...leaning.words,
    ...folded(jig.name, LETTER, NAME),
  ];
  const ys = marks.map((m) => m.y);
  const [low, high] = [Math.min(...ys) - BORDER, Math.max(...ys, 4) + BORDER];
  const textX = out + thick / 2 + LEADER;
  const wide = Math.max(...[...marks.map((m) => m.text), ...title].map((t) => lettersWidth(t, LETTER)));
  const right = textX + wide + BORDER;
  const placed = spread(marks);
  const under = Math.min(low, ...placed.map((p) => p.at - BORDER / 2)) - title.length * STEP;
  const over = Math.max(high, ...placed.map((p) => p.at + LETTER + BORDER / 2));
  const tip = loose ?? face - rod.catch;
  const shapes: Shape[] = [
    rectangle('SCORE', 'rod', { x: out - thick / 2, y: tip }, { x: out + thick / 2, y: head }),
    rectangle('SCORE', 'head', { x: out - thick, y: head }, { x: out + thick, y: head + 3 }),
    chain('SCORE', 'lug', [
      { x: out - thick, y: face - rod.bottom },
      { x: out - thick, y: face },
      { x: out + thick, y: face },
      { x: out + thick, y: face - rod.bottom },
      { x: out - thick, y: face - rod.bottom },
    ]),
    ...leaning.shapes,
    ...placed.flatMap(({ mark, at }) => [
      chain('SCORE', 'leader', [
        { x: 1, y: mark.y },
        { x: out + thick + 3, y: mark.y },
        { x: textX - 1, y: at + LETTER / 2 },
      ]),
      ...letters(mark.text, { x: textX, y: at }, LETTER),
    ]),
    ...title.flatMap((t, i) => letters(t, { x: 3, y: under + 2.5 + (title.length - 1 - i) * STEP }, LETTER)),
  ];
  return {
    id: `card-rod-${number}`,
    job: 'card',
    name: `rod card ${row.name}`,
    outer: polygon('CUT-OUTER', 'card', [
      { x: 0, y: under },
      { x: right, y: under },
      { x: right, y: over },
      { x: -HOOK, y: over },
      { x: -HOOK, y: 0 },
      { x: 0, y: 0 },
    ]),
    inner: [],
    marks: distinct(shapes),
    quantity: 1,
    turns: true,
  };
}

/** Heights with their sign and a tenth, as the card's edge is read. */
const signed = (v: Mm): string => `${v > 0.05 ? '+' : ''}${trimmed(v, 1)}`;

function lengths(length: Mm | undefined, fit: RodFit | undefined): string[] {
  const own = length === undefined ? [] : [`drawn: rod of ${trimmed(length, 1)} mm`];
  if (fit === undefined) return own;
  if (fit.shortest > fit.longest) return [...own, 'no length fits'];
  const stock = fit.stock.length === 0 ? '' : `, in stock ${fit.stock.map((s) => trimmed(s, 1)).join(', ')}`;
  return [...own, `fits ${trimmed(fit.shortest, 1)} to ${trimmed(fit.longest, 1)} mm${stock}`];
}

/** The way the rod really takes, when the ear's circle and the lug's standoff are known: from the ear to the lug's face. */
function lean(jig: Jig, { row, rod, side, ear }: Side, out: Mm, face: Mm): { shapes: Shape[]; words: string[] } {
  const circle = jig.hoops[side]?.earCircle;
  if (circle === undefined || rod.standoff === undefined || row.foot === undefined) return { shapes: [], words: [] };
  const earOut = circle / 2 - jig.shell.radius;
  const degrees = toDeg(Math.atan2(Math.abs(earOut - out), ear - face));
  return {
    shapes: [segment('SCORE', 'lean', { x: earOut, y: ear }, { x: out, y: face })],
    words: [`the rod leans ${trimmed(degrees, 1)}°`],
  };
}

/** Label heights near their marks, pushed apart where they would touch; from the top down, then centred on the bunch. */
function spread(marks: readonly Mark[]): { mark: Mark; at: Mm }[] {
  const sorted = [...marks].sort((a, b) => b.y - a.y);
  const out: { mark: Mark; at: Mm }[] = [];
  for (const mark of sorted) {
    const last = out.at(-1);
    const wanted = mark.y - LETTER / 2;
    out.push({ mark, at: last === undefined ? wanted : Math.min(wanted, last.at - STEP) });
  }
  const shift = out.reduce((sum, o) => sum + (o.mark.y - LETTER / 2 - o.at), 0) / out.length;
  return out.map((o) => ({ ...o, at: o.at + shift }));
}
