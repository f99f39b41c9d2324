import { unroll } from '../geometry/frames.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { footPath } from './outline.ts';
import { clip, el, label, line, n, picture } from './svg.ts';
import { LETTERING } from './unrolled.ts';
import { openingAngle, within } from './window.ts';

/** What the picture needs to know of a measured hole and fitting. */
export interface MeasuredMark {
  readonly id: string;
  /** Beside the plan, right and up; null where the readings do not say. */
  readonly off_around_mm: Mm | null;
  readonly off_along_mm: Mm | null;
}

export interface FittingMark {
  readonly id: string;
  /** Null when it was not checked. */
  readonly goesOn: boolean | null;
}

/** The longest arrow drawn, mm of skin. */
const LONGEST: Mm = 14;
const SCALES = [1, 2, 5, 10, 20, 50];

/** How much larger than true the ways off are drawn: the largest usual factor that keeps the longest arrow in sight. */
function exaggeration(holes: readonly MeasuredMark[]): number {
  const most = Math.max(0, ...holes.map((h) => Math.hypot(h.off_around_mm ?? 0, h.off_along_mm ?? 0)));
  return SCALES.filter((s) => s * most <= LONGEST).at(-1) ?? 1;
}

/**
 * The shell unrolled, seen from outside: holes as planned (thin rings), and as measured (arrow and full ring, the way off
 * drawn larger than true). Fittings that do not go on are crossed out and named; what was not measured is dashed.
 */
export function measuredPicture(
  layout: Layout,
  holes: readonly MeasuredMark[],
  fittings: readonly FittingMark[],
): string {
  const from = openingAngle(layout.placed, layout.radius);
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const width = 2 * Math.PI * layout.radius;
  const size = width * LETTERING;
  const at = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, layout.radius).x;
  const factor = exaggeration(holes);
  const marks = new Map(holes.map((h) => [h.id, h]));
  const state = new Map(fittings.map((f) => [f.id, f.goesOn]));
  const wrong = fittings.filter((f) => f.goesOn === false).length;
  const body = [
    el('rect', { class: 'skin', x: left, y: 0, width, height: layout.depth }),
    line(left, 0, left + width, 0, 'edge'),
    line(left, layout.depth, left + width, layout.depth, 'edge'),
    line(left, 0, left, layout.depth, 'tear'),
    line(left + width, 0, left + width, layout.depth, 'tear'),
    line(at(0), -4, at(0), layout.depth + 4, 'zero'),
    ...layout.placed
      .filter((p) => p.holes.length > 0)
      .map((p) => fitting(p, layout, at(p.angle), size, factor, marks, state.get(p.id))),
    label(at(0), layout.depth + 2.4 * size, 'strainer line 0°', 'bold mid', size),
    label(
      left,
      -1.6 * size,
      `thin: plan; thick: measured, the way off drawn ${factor} times as long`,
      'soft',
      size * 0.9,
    ),
    label(left + width, -1.6 * size, 'dashed: not measured', 'soft end', size * 0.9),
  ].join('');
  return picture(
    { x: left - size, y: -3 * size, width: width + 2 * size, height: layout.depth + 6 * size },
    `Drilled shell unrolled, seen from outside: ${fittings.length - wrong} fittings without fault, ${wrong} that do not go on`,
    'measured',
    body,
  );
}

function fitting(
  p: Placed,
  layout: Layout,
  u: Mm,
  size: Mm,
  factor: number,
  marks: ReadonlyMap<string, MeasuredMark>,
  goesOn: boolean | null | undefined,
): string {
  const y = layout.depth - p.height;
  const below = p.foot?.down ?? 6;
  const foot = p.foot ? el('path', { class: 'foot', d: footPath(p.foot, u, y, layout.radius) }) : '';
  const isWrong = goesOn === false;
  return el(
    'g',
    { class: isWrong ? 'fitting lit' : 'fitting', 'data-fitting': p.id },
    foot,
    ...p.holes.map((h) => {
      const x = u + unroll({ angle: within(h.angle, p.angle - 180) - p.angle, height: 0 }, layout.radius).x;
      return hole(h.id, x, layout.depth - h.height, h.drill / 2, factor, marks.get(h.id));
    }),
    isWrong ? label(u, y + below + size * 1.1, `${clip(p.id, 24)}: no`, 'mid bold', size) : '',
  );
}

function hole(id: string, x: Mm, y: Mm, r: Mm, factor: number, mark: MeasuredMark | undefined): string {
  const isKnown = mark !== undefined && mark.off_around_mm !== null && mark.off_along_mm !== null;
  const plan = el('circle', { class: isKnown ? 'lead' : 'tear', cx: x, cy: y, r });
  if (!isKnown) return el('g', { 'data-hole': id }, plan);
  const dx = mark.off_around_mm! * factor;
  const dy = -mark.off_along_mm! * factor;
  const off = Math.hypot(mark.off_around_mm!, mark.off_along_mm!);
  return el(
    'g',
    { 'data-hole': id },
    el('title', {}, `${id}: ${trimmed(off, 2)} mm beside the plan`),
    plan,
    el('path', { class: 'head', d: `M${n(x)} ${n(y)}l${n(dx)} ${n(dy)}` }),
    el('circle', { class: 'drill', cx: x + dx, cy: y + dy, r }),
  );
}
