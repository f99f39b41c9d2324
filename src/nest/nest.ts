import { isUnderKerf, kerfSummed } from '../drawing/kerf-summed.ts';
import { letters, lettersWidth } from '../drawing/lettering.ts';
import { bounds, pathLength, segment, signedArea } from '../drawing/paths.ts';
import { footerOn, roomOn } from '../drawing/room.ts';
import type { Box } from '../drawing/spans.ts';
import { type Drawing, LAYERS, type Layer, type Part, type Shape } from '../model/drawing.ts';
import type { Fact } from '../model/finding.ts';
import type { LaserSpeeds, SheetProfile } from '../model/sheet.ts';
import type { Staged } from '../model/stage.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { cutter, outlines } from './alike.ts';
import { arranged } from './arrange.ts';
import { laid } from './laying.ts';
import { namePart } from './name-part.ts';
import { type Stop, shortOrder, travelOf } from './travel.ts';

/** What is engraved on every sheet, and what the beam removes. */
export interface NestOptions {
  readonly kerf: Mm;
  /** Name of the job, engraved on every sheet. */
  readonly title: string;
  readonly digest: string;
}

/** One sheet, ready to cut. */
export interface NestedSheet {
  /** Ready to cut, kerf applied, origin at the lower left corner of the sheet. */
  readonly drawing: Drawing;
  /** Area of the parts as a fraction of the sheet's. */
  readonly use: number;
  readonly parts: readonly { readonly id: string; readonly name: string }[];
  /** Length the beam cuts right through (mm), and how often it starts to. */
  readonly cutLength: Mm;
  readonly pierces: number;
  /** With the beam off. */
  readonly travel: Mm;
  readonly seconds: number;
  /** Speeds the profile does not tell and the time had to assume. */
  readonly assumed: readonly string[];
}

/** A middling laser (common practice, no source), for a sheet profile that does not say its own: a rough guide to the time. */
const SPEED: LaserSpeeds = { cut: 12, score: 60, engrave: 80, travel: 200, pierce: 0.5 };

/** One piece to place: a part, cut lines and marks in its own frame. */
interface Cut {
  readonly part: Part;
  readonly alike: number;
  readonly shapes: readonly Shape[];
  /** Box of the finished outline. */
  readonly box: Box;
}

/**
 * All parts on as few sheets as are found, kerf applied, names and a 100 mm check line on every sheet, shapes in the
 * order of the cut: engrave, score, inner, outer.
 * @param parts at finished size, mm, each with how often it is wanted
 * @param sheet size, margin and gap, mm
 * @param options kerf in mm, title and digest
 * @returns sheets in mm; a part that fits no sheet is left out with a stop fact `part-larger-than-sheet`, parts with a
 *   feature the kerf would swallow with one stop fact `feature-under-kerf` for all of them
 * @throws never
 * @source derived: parts are laid by trial; no least number of sheets is claimed
 */
export function nest(parts: readonly Part[], sheet: SheetProfile, options: NestOptions): Staged<NestedSheet[]> {
  const { kerf } = options;
  const facts: Fact[] = [];
  const cuts: Cut[] = [];
  const alike = outlines();
  const cut = cutter(kerf, sheet.bridge);
  const room = roomOn(sheet, kerf);
  const [w, h] = [room.max.x - room.min.x, room.max.y - room.min.y];
  for (const part of parts) {
    const lines = cut(part);
    facts.push(...lines.facts);
    // Never a part without its holes.
    if (lines.facts.some(isUnderKerf)) continue;
    const box = bounds([part.outer]);
    const [pw, ph] = [box.max.x - box.min.x, box.max.y - box.min.y];
    const fits = (a: Mm, b: Mm): boolean => a <= w + tolerance.noise && b <= h + tolerance.noise;
    if (!fits(pw, ph) && !(part.turns && fits(ph, pw))) {
      facts.push(tooLarge(part, sheet, pw, ph, w, h));
      continue;
    }
    const marks = [...part.marks, ...namePart(part, kerf)];
    const own = { part, alike: alike(part), shapes: [...marks, ...lines.value], box };
    for (let i = 0; i < part.quantity; i++) cuts.push(own);
  }
  const spots = arranged(cuts, w, h, kerf + sheet.spacing);
  const count = Math.max(0, ...spots.map((s) => s.sheet + 1));
  const sheets = Array.from({ length: count }, (_, n) => {
    const own = spots.filter((s) => s.sheet === n).sort((a, b) => a.key - b.key);
    const parts = own.map((l): Laid => {
      const cut = cuts[l.key] as Cut;
      const place = { x: room.min.x + l.x, y: room.min.y + l.y, quarter: l.quarter };
      return { cut, shapes: cut.shapes.map((shape) => laid(shape, cut.box, place)) };
    });
    return finished(parts, sheet, options, n + 1, count);
  });
  return { value: sheets, facts: kerfSummed(facts) };
}

interface Laid {
  readonly cut: Cut;
  readonly shapes: readonly Shape[];
}

function finished(
  parts: readonly Laid[],
  sheet: SheetProfile,
  options: NestOptions,
  number: number,
  of: number,
): NestedSheet {
  const { shapes, travel } = inOrder([footer(sheet, options, number, of), ...parts.map((l) => l.shapes)]);
  const length: Record<Layer, Mm> = { ENGRAVE: 0, REFERENCE: 0, SCORE: 0, 'CUT-INNER': 0, 'CUT-OUTER': 0 };
  let pierces = 0;
  for (const shape of shapes) {
    length[shape.layer] += pathLength(shape);
    if (shape.layer === 'CUT-INNER' || shape.layer === 'CUT-OUTER') pierces++;
  }
  const speed = { ...SPEED, ...sheet.speeds };
  const cutLength = length['CUT-INNER'] + length['CUT-OUTER'];
  const seconds =
    cutLength / speed.cut +
    (length.SCORE + length.REFERENCE) / speed.score +
    length.ENGRAVE / speed.engrave +
    travel / speed.travel +
    pierces * speed.pierce;
  return {
    drawing: {
      title: `${options.title}, sheet ${number} of ${of}`,
      min: { x: 0, y: 0 },
      max: { x: sheet.width, y: sheet.height },
      shapes,
    },
    use: parts.reduce((sum, l) => sum + materialArea(l.cut.part), 0) / (sheet.width * sheet.height),
    parts: parts.map(({ cut }) => ({ id: cut.part.id, name: cut.part.name })),
    cutLength,
    pierces,
    travel,
    seconds,
    assumed: Object.keys(SPEED).filter((k) => sheet.speeds?.[k as keyof LaserSpeeds] === undefined),
  };
}

const materialArea = (part: Part): number =>
  Math.abs(signedArea(part.outer)) - part.inner.reduce((sum, s) => sum + Math.abs(signedArea(s)), 0);

const CHECK: Mm = 100;

/** The check line of 100 mm, inside the margin, and the sheet's names. */
function footer(sheet: SheetProfile, { title, digest, kerf }: NestOptions, number: number, of: number): Shape[] {
  const { left, right, check: y, names, letter } = footerOn(sheet, kerf);
  const fits = left + CHECK <= right;
  const check = fits ? [segment('REFERENCE', 'check line of 100 mm', { x: left, y }, { x: left + CHECK, y })] : [];
  const x = fits ? left + CHECK + 4 : left;
  const plan = digest === '' ? '' : `   plan ${digest.slice(0, 12)}`;
  const [which, measure] = [`sheet ${number} of ${of}`, fits ? '100 mm   ' : ''];
  const words = [`${title}   ${which}${plan}`, `${which}${plan}`, which].map((text) => `${measure}${text}`);
  const text = [...words, which].find((t) => x + lettersWidth(t, letter) <= right);
  return text === undefined ? check : [...check, ...letters(text, { x, y: names }, letter)];
}

/**
 * Layer by layer in the order of the cut, within a layer by least travel. What is engraved on one part is done in the order
 * it was drawn, a word as it is written, before the head goes on to the next part.
 */
function inOrder(groups: readonly (readonly Shape[])[]): { shapes: Shape[]; travel: Mm } {
  const shapes: Shape[] = [];
  let travel = 0;
  let at = { x: 0, y: 0 };
  for (const layer of LAYERS) {
    const own = groups.map((g) => g.filter((s) => s.layer === layer)).filter((g) => g.length > 0);
    const units = layer === 'ENGRAVE' ? own : own.flat().map((s) => [s]);
    const stops = units.map((u) => u.map(stopOf));
    const ends = stops.map((s) => ({ enter: (s[0] as Stop).enter, leave: (s.at(-1) as Stop).leave }));
    const order = shortOrder(at, ends, layer !== 'SCORE');
    const run = order.flatMap((i) => stops[i] as Stop[]);
    travel += travelOf(at, run);
    at = run.at(-1)?.leave ?? at;
    shapes.push(...order.flatMap((i) => units[i] as readonly Shape[]));
  }
  return { shapes, travel };
}

function stopOf(shape: Shape): Stop {
  if (shape.kind === 'circle') {
    const east = { x: shape.center.x + shape.radius, y: shape.center.y };
    return { enter: east, leave: east };
  }
  const end = shape.segs.at(-1);
  return { enter: shape.start, leave: shape.closed || end === undefined ? shape.start : end.to };
}

function tooLarge(part: Part, sheet: SheetProfile, pw: Mm, ph: Mm, w: Mm, h: Mm): Fact {
  return {
    level: 'stop',
    id: 'part-larger-than-sheet',
    at: part.id,
    measured: Math.max(pw, ph),
    limit: Math.max(0, w, h),
    unit: 'mm',
    facts: {
      part: part.name,
      width: pw,
      height: ph,
      sheet: sheet.name,
      roomWidth: Math.max(0, w),
      roomHeight: Math.max(0, h),
    },
  };
}
