import { bounds } from '../drawing/paths.ts';
import { type Box, shapeBox } from '../drawing/spans.ts';
import type { Path, Shape } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Placed } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Mm } from '../units/scalar.ts';
import { across, beside, type Label, type Surface, sizeOf, surface } from './labels.ts';
import type { PlacedMark } from './marks.ts';
import { placeOf, type Skin } from './skin.ts';

/** Smallest capital (mm) that reads at arm's length, and the beam widths a letter of twelve units needs to stay open. */
const SMALL: Mm = 3;
const BEAMS = 12;

/** Sizes tried for the words that tell up from down and outside from inside. */
const BIG: readonly Mm[] = [14, 11, 8, 6, 5, 4];

export interface Lettering {
  readonly paths: readonly Path[];
  /** What found no room, by what it should have said. */
  readonly left: readonly string[];
  readonly surface: Surface;
}

export interface LetteringInput {
  readonly jig: Jig;
  readonly skin: Skin;
  readonly sheet: Box;
  /** The pieces the sheet is cut into: no word crosses from one to the next. */
  readonly windows: readonly Box[];
  readonly marks: readonly PlacedMark[];
  readonly feet: readonly Shape[];
  readonly lines: readonly Shape[];
  /** Boxes taken already, e.g. by closing marks. */
  readonly taken: readonly Box[];
  readonly kerf: Mm;
  readonly digest: string;
}

/** Hole numbers, fitting names, the strainer line's name, and TOP and OUTSIDE on every piece. */
export function lettering(input: LetteringInput): Lettering {
  const { jig, skin, sheet, windows, marks, kerf } = input;
  const small = Math.max(SMALL, BEAMS * kerf);
  const ground = surface(windows, [
    ...marks.flatMap((m) => [m.circle, ...m.extra].map(shapeBox)),
    ...input.lines.map(shapeBox),
    ...input.feet.flatMap(sides),
    ...input.taken,
  ]);
  const paths: Path[] = [];
  const left: string[] = [];
  const put = (
    labels: readonly Label[],
    places: (size: { width: Mm; height: Mm }, label: Label) => Iterable<{ x: Mm; y: Mm }>,
  ): void => {
    for (const label of labels) {
      const drawn = ground.put(label, places(sizeOf(label), label));
      if (drawn === undefined) continue;
      paths.push(...drawn);
      return;
    }
    left.push((labels[0] as Label).lines.join(' '));
  };

  for (const m of marks) {
    const box = bounds([m.circle, ...m.extra]);
    put([{ lines: [`${m.number}`], height: small }], (size) =>
      [1, 3, 6, 9, 13].flatMap((gap) => beside(box, size, gap)),
    );
  }
  const notes = rowNotes(skin);
  for (const [i, window] of windows.entries()) {
    const words = (height: Mm): Label => ({ lines: ['↑ TOP ↑', 'OUTSIDE'], height });
    put([...BIG.filter((h) => h > small), small].map(words), (size) => across(window, size));
    const piece = windows.length > 1 ? `wrap ${i + 1} of ${windows.length}` : 'wrap';
    const plan = `${piece}  plan ${input.digest.slice(0, 12)}`;
    put(
      [[jig.name, plan], [plan], [piece]].map((lines) => ({ lines, height: small })),
      (size) => across(window, size),
    );
    for (const note of notes) {
      const label = { lines: [note], height: small };
      const folded = { lines: note.split(': '), height: small };
      put([label, folded, { ...label, upright: true }], (size) => across(window, size, 3));
    }
    if (window.max.y >= sheet.max.y) edgeName('TOP EDGE', window, 'up');
    if (window.min.y <= sheet.min.y) edgeName('BOTTOM EDGE', window, 'down');
  }
  function edgeName(text: string, window: Box, side: 'up' | 'down'): void {
    put([{ lines: [text], height: small }], (size) => {
      const y = side === 'up' ? window.max.y - size.height - 1.5 : window.min.y + 1.5;
      return across({ min: { x: window.min.x, y }, max: { x: window.max.x, y: y + size.height } }, size);
    });
  }
  const x = placeOf(skin, 0, sheet.min.x);
  put(
    [
      { lines: ['STRAINER LINE 0°'], height: small, upright: true },
      { lines: ['0°'], height: small },
    ],
    (size) =>
      [...across({ min: { x: 0, y: sheet.min.y }, max: { x: size.width, y: sheet.max.y } }, size)].flatMap(({ y }) => [
        { x: x + 1.2, y },
        { x: x - 1.2 - size.width, y },
      ]),
  );
  for (const p of skin.layout.placed) {
    const at = placeOf(skin, p.angle, sheet.min.x);
    const holes = marks.filter((m) => m.hole.fitting === p.id).map((m) => m.circle);
    const box = boxOf(p, at, holes);
    put(names(p, small), (size) => [1.2, 4, 9].flatMap((gap) => beside(box, size, gap)));
  }
  return { paths, left, surface: ground };
}

/** What a fitting's label says, longest first. */
function names(p: Placed, height: Mm): Label[] {
  const angle = `${trimmed(p.angle, 2)}°`;
  return [[p.id, angle], [`${p.id} ${angle}`], [p.id]].map((lines) => ({ lines, height }));
}

/** For every row of lugs, the edge to hold the template to when it is marked: depth is never quite constant. */
function rowNotes(skin: Skin): string[] {
  const { depth, placed } = skin.layout;
  const notes = placed.flatMap((p) => {
    if (p.role !== 'lug' || p.edge === 'middle') return [];
    const from = p.edge === 'top' ? depth - p.height : p.height;
    return [`row ${p.group}: hold to ${p.edge} edge, ${trimmed(from, 1)} mm`];
  });
  return [...new Set(notes)];
}

function boxOf(p: Placed, x: Mm, holes: readonly Shape[]): Box {
  const f = p.foot;
  const foot =
    f === undefined
      ? []
      : [{ min: { x: x - f.left, y: p.height - f.down }, max: { x: x + f.right, y: p.height + f.up } }];
  const all = [...foot, ...holes.map(shapeBox), { min: { x, y: p.height }, max: { x, y: p.height } }];
  return {
    min: { x: Math.min(...all.map((b) => b.min.x)), y: Math.min(...all.map((b) => b.min.y)) },
    max: { x: Math.max(...all.map((b) => b.max.x)), y: Math.max(...all.map((b) => b.max.y)) },
  };
}

/** The four sides of a foot's box: its inside is free for hole numbers, its line is not. */
function sides(shape: Shape): Box[] {
  const { min, max } = shapeBox(shape);
  const [a, b] = [
    { x: min.x, y: max.y },
    { x: max.x, y: min.y },
  ];
  return [
    { min, max: b },
    { min: a, max },
    { min, max: a },
    { min: b, max },
  ];
}
