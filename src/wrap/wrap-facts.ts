import { isSlotted, laserFacts } from '../drawing/laser.ts';
import { unknownCharacters, WIDEST_LINE } from '../drawing/lettering.ts';
import { roomOn, tiling } from '../drawing/room.ts';
import { roll } from '../geometry/frames.ts';
import type { Fact } from '../model/finding.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import { type Mm, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { LAND } from './joints.ts';
import { markWidth } from './marks.ts';
import { tabOf } from './plan.ts';
import { blocksAround, type Skin } from './skin.ts';
import type { Cutting } from './windows.ts';

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

export function materialFacts(jig: Jig): Fact[] {
  const { material } = jig.wrap;

  const facts = laserFacts(material.name, 'wrap');
  if (isSlotted(material.name))
    facts.push(fact('stop', 'wrap-sheet-slotted', null, null, '', { material: material.name }));
  if (tiling(jig.wrap.paper, jig.shell.girth, jig.shell.depth) === undefined) {
    facts.push(fact('stop', 'paper-too-small', null, null, 'mm', { paper: jig.wrap.paper.name }));
  }
  if (material.bends === undefined)
    return [...facts, fact('stop', 'wrap-too-stiff', jig.shell.radius, null, 'mm', { material: material.name })];
  if (material.bends <= jig.shell.radius) return facts;
  return [
    ...facts,
    fact('stop', 'wrap-too-stiff', jig.shell.radius, material.bends, 'mm', { material: material.name }),
  ];
}

export function nameFacts(jig: Jig): Fact[] {
  const unknown = unknownCharacters(jig.name);
  const letters = unknown.map(shown).join(' ');
  return unknown.length === 0
    ? []
    : [fact('note', 'letters-unknown', unknown.length, 0, '', { letters, name: jig.name })];
}

/** A character as a reader can see it: by its number when it has no shape of its own. */
const shown = (c: string): string =>
  /^[\p{L}\p{N}\p{P}\p{S}]/u.test(c) ? c : `U+${(c.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;

/** A cutter wider than any line of writing cannot write the names itself. */
export const letterFacts = (kerf: Mm): Fact[] =>
  kerf <= WIDEST_LINE ? [] : [fact('note', 'letters-need-a-point', kerf, WIDEST_LINE, 'mm')];

export function noRoom(jig: Jig, layout: Layout): Fact {
  const { sheet, material } = jig.wrap;
  const { min, max } = roomOn(sheet, sheet.kerf ?? material.kerf);
  const [width, height] = [Math.max(0, max.x - min.x), Math.max(0, max.y - min.y)];
  return fact('stop', 'wrap-sheet-too-small', layout.depth, Math.max(width, height), 'mm', {
    sheet: sheet.name,
    width,
    height,
    sheetWidth: sheet.width,
    sheetHeight: sheet.height,
  });
}

/** What joint lies too near to: every hole within its land, and outlines where there was no other way. */
export function seamFacts(jig: Jig, skin: Skin, cut: Cutting): Fact[] {
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

/** A wrap in more pieces than this is seldom meant: 26 x 20 in on the smaller built-in one takes six. Judgement. */
const MOST_PIECES = 12;

export function piecesFacts({ wrap: { sheet } }: Jig, pieces: number): Fact[] {
  if (pieces <= MOST_PIECES) return [];
  const size = { sheet: sheet.name, width: sheet.width, height: sheet.height };
  return [fact('care', 'wrap-in-many-pieces', pieces, MOST_PIECES, '', size)];
}

export const noClosingMark: Fact = fact('note', 'closing-mark-left-out', null, null, '');

export const noRoomForWords = (left: readonly string[]): Fact =>
  fact('note', 'wrap-words-left-out', left.length, 0, '', { first: left[0] as string, count: left.length });

/** Paper grows about 0.2 % when damp (common practice, no source). */
const DAMP = 0.002;

export const paperGrows = (skin: Skin): Fact =>
  fact('note', 'paper-grows', skin.turn * DAMP, null, 'mm', { percent: 100 * DAMP, turn: skin.turn });
