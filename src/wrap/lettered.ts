import { legible } from '../drawing/lettering.ts';
import { bounds } from '../drawing/paths.ts';
import { type Box, shapeBox } from '../drawing/spans.ts';
import type { Path, Shape } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Placed } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Mm } from '../units/scalar.ts';
import { across, beside, type Label, sidesOf, sizeOf, surface } from './labels.ts';
import type { PlacedMark } from './marks.ts';
import { nearEdge, rowNotes, standsOn } from './row-notes.ts';
import { placeOf, type Skin } from './skin.ts';

/** Smallest capital (mm) that reads at arm's length. */
const SMALL: Mm = 3;

/** Outlines that are no fitting's, by what they come from: they are called that. */
const OTHERS = ['snare bed', 'old hole'] as const;

/** Sizes tried for the words that tell up from down and outside from inside. */
const BIG: readonly Mm[] = [14, 11, 8, 6, 5, 4];

export interface Lettering {
  readonly paths: readonly Path[];
  /** Which piece of how many each is: not for the template in one piece. */
  readonly pieces: readonly Path[];
  /** What found no room, by what it should have said. */
  readonly left: readonly string[];
}

export interface LetteringInput {
  readonly jig: Jig;
  readonly skin: Skin;
  readonly sheet: Box;
  /** The pieces the sheet is cut into: no word crosses from one to the next. */
  readonly windows: readonly Box[];
  /** What such a piece is called. */
  readonly piece: 'piece' | 'tile';
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
  const small = legible(kerf, SMALL);
  const ground = surface(windows, [
    ...marks.flatMap((m) => [m.circle, ...m.extra].map(shapeBox)),
    ...input.lines.map(shapeBox),
    ...input.feet.flatMap(sidesOf),
    ...input.taken,
  ]);
  const paths: Path[] = [];
  const pieces: Path[] = [];
  const left: string[] = [];
  const put = (
    labels: readonly Label[],
    places: (size: { width: Mm; height: Mm }, label: Label) => Iterable<{ x: Mm; y: Mm }>,
  ): void => {
    for (const label of labels) {
      const drawn = ground.put(label, places(sizeOf(label), label));
      if (drawn === undefined) continue;
      if (label.numbered) pieces.push(...(drawn.pop() ?? []));
      paths.push(...drawn.flat());
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
  const x = placeOf(skin, 0, sheet.min.x);
  for (const { min, max } of windows.filter((w) => w.min.x <= x && x <= w.max.x)) {
    put(
      [
        { lines: ['STRAINER LINE 0°'], height: small, upright: true },
        { lines: ['0°'], height: small },
      ],
      (size) =>
        [...across({ min: { x: 0, y: min.y }, max: { x: size.width, y: max.y } }, size)].flatMap(({ y }) => [
          { x: x + 1.2, y },
          { x: x - 1.2 - size.width, y },
        ]),
    );
  }
  for (const [i, window] of windows.entries()) {
    const words = (height: Mm): Label => ({ lines: ['↑ TOP ↑', 'OUTSIDE'], height });
    put([...BIG.filter((h) => h > small), small].map(words), (size) => across(window, size));
    if (window.max.y >= sheet.max.y) edgeName('TOP EDGE', window, 'up');
    if (window.min.y <= sheet.min.y) edgeName('BOTTOM EDGE', window, 'down');
    const which = windows.length > 1 ? [`${input.piece} ${i + 1} of ${windows.length}`] : [];
    const plan = `wrap  plan ${input.digest.slice(0, 12)}`;
    const name = (lines: readonly string[]): Label => ({
      lines: [...lines, ...which],
      height: small,
      numbered: which.length > 0,
    });
    put([[jig.name, plan], [plan], ['wrap']].map(name), (size) => across(window, size));
  }
  function edgeName(text: string, window: Box, side: 'up' | 'down'): void {
    put([{ lines: [text], height: small }], (size) => {
      const y = side === 'up' ? window.max.y - size.height - 1.5 : window.min.y + 1.5;
      return across({ min: { x: window.min.x, y }, max: { x: window.max.x, y: y + size.height } }, size);
    });
  }
  for (const p of skin.layout.placed) {
    const at = placeOf(skin, p.angle, sheet.min.x);
    const holes = marks.filter((m) => m.hole.fitting === p.id).map((m) => m.circle);
    const box = boxOf(p, at, holes);
    put(names(p, small), (size) => [1.2, 4, 9].flatMap((gap) => beside(box, size, gap)));
  }
  const notes = rowNotes(skin, sheet.min.x);
  for (const window of windows) {
    for (const { edge, text } of notes.filter((n) => standsOn(n, window))) {
      const label = { lines: [text], height: small };
      const folded = { lines: text.split(': '), height: small };
      put([label, folded, { ...label, upright: true }], (size) => [
        ...across(nearEdge(window, edge), size, 3),
        ...across(window, size, 3),
      ]);
    }
  }
  for (const from of OTHERS) {
    const own = new Map(
      input.feet.filter((f) => f.from === from).map((f) => [JSON.stringify(shapeBox(f)), shapeBox(f)]),
    );
    for (const { min, max } of own.values()) {
      put([{ lines: [from], height: small }], (size) => [
        ...across({ min: { x: min.x, y: max.y + 1.2 }, max: { x: max.x, y: max.y + 1.2 + size.height } }, size),
        ...beside({ min, max }, size, 1.2),
      ]);
    }
  }
  return { paths, pieces, left };
}

/** What a fitting's label says, longest first. */
function names(p: Placed, height: Mm): Label[] {
  const angle = `${trimmed(p.angle, 2)}°`;
  return [[p.id, angle], [`${p.id} ${angle}`], [p.id]].map((lines) => ({ lines, height }));
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
