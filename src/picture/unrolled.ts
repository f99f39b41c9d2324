import { unroll } from '../geometry/frames.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout, Placed } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { footPath } from './outline.ts';
import { clip, el, type Frame, label, line, n, picture } from './svg.ts';
import { openingAngle, within } from './window.ts';

/**
 * The shell cut open and laid flat, seen from outside, top edge up: u = R theta to the right, drawing y = depth - height.
 * One drawing unit is one millimetre of skin.
 */
export interface SheetView {
  readonly jig: Jig;
  readonly layout: Layout;
  /** Number shown beside each hole, by id; the same in every picture and table. */
  readonly numbers: ReadonlyMap<string, number>;
  /** Ids of fittings and holes to light up. */
  readonly lit?: ReadonlySet<string>;
}

const FONT = 9;

/** Numbers from 1 in the layout's order. */
export const holeNumbers = (layout: Layout): ReadonlyMap<string, number> =>
  new Map(layout.holes.map((h, i) => [h.id, i + 1]));

export function unrolledPicture(view: SheetView): string {
  const { layout } = view;
  const from = openingAngle(layout.placed, layout.radius);
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const width = 2 * Math.PI * layout.radius;
  const box: Frame = { x: left - 12, y: -34, width: width + 24, height: layout.depth + 62 };
  const body =
    sheetBody(view, from) +
    scale(from, layout) +
    label(left, -25, 'top edge up, seen from outside', 'soft', FONT) +
    label(left + width, -25, 'angles grow to the right', 'soft end', FONT);
  return picture(
    box,
    `Shell unrolled, seen from outside: ${layout.holes.length} holes, ${layout.placed.length} fittings`,
    'unrolled',
    body,
  );
}

/** Everything on the skin, in [from, from + 360) degrees. `near` limits it to what lies about a frame. */
export function sheetBody(view: SheetView, from: Deg, near?: Frame): string {
  const { jig, layout } = view;
  const at = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, layout.radius).x;
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const right = left + 2 * Math.PI * layout.radius;
  const isNear = (u: Mm, y: Mm, r: Mm): boolean =>
    !near || (u + r >= near.x && u - r <= near.x + near.width && y + r >= near.y && y - r <= near.y + near.height);
  const out: string[] = [
    el('rect', { class: 'skin', x: left, y: 0, width: right - left, height: layout.depth }),
    rings(jig, left, right),
    beds(jig, layout, at),
    line(left, 0, right, 0, 'edge'),
    line(left, layout.depth, right, layout.depth, 'edge'),
    line(left, 0, left, layout.depth, 'tear'),
    line(right, 0, right, layout.depth, 'tear'),
  ];
  for (const joint of jig.shell.joints) out.push(line(at(joint), 0, at(joint), layout.depth, 'joint'));
  for (const angle of new Set(layout.placed.filter((p) => p.role === 'lug').map((p) => p.angle))) {
    out.push(line(at(angle), -4, at(angle), layout.depth + 4, 'lugline'));
  }
  out.push(line(at(0), -10, at(0), layout.depth + 10, 'zero'));
  for (const old of jig.shell.holes) {
    const y = layout.depth - old.height;
    if (isNear(at(old.angle), y, 20)) out.push(oldHole(at(old.angle), y, old.diameter));
  }
  for (const p of layout.placed) {
    const y = layout.depth - p.height;
    const size = Math.max(20, p.foot?.left ?? 0, p.foot?.right ?? 0, p.foot?.up ?? 0, p.foot?.down ?? 0);
    if (isNear(at(p.angle), y, size)) out.push(fitting(view, p, at(p.angle), y));
  }
  return out.join('');
}

function fitting(view: SheetView, p: Placed, u: Mm, y: Mm): string {
  const { layout, numbers, lit } = view;
  const lever = view.jig.fittings.find((f) => f.name === p.group)?.lever;
  const name =
    p.role === 'lug' ? '' : label(u, y + (p.foot?.down ?? 10) + FONT + 1, clip(p.id, 24), 'soft mid', FONT - 1);
  const holes = p.holes
    .map((h) => {
      const x = u + unroll({ angle: shortWay(h.angle, p.angle), height: 0 }, layout.radius).x;
      return drilled(h, x, layout.depth - h.height, numbers.get(h.id) ?? 0, lit?.has(h.id) ?? false);
    })
    .join('');
  return el(
    'g',
    { class: lit?.has(p.id) ? 'fitting lit' : 'fitting', 'data-fitting': p.id },
    p.foot ? el('path', { class: 'foot', d: footPath(p.foot, u, y, layout.radius) }) : '',
    lever ? el('path', { class: 'lever', d: footPath(lever, u, y, layout.radius) }) : '',
    name,
    holes,
  );
}

const shortWay = (angle: Deg, from: Deg): Deg => within(angle, from - 180) - from;

function drilled(hole: Hole, x: Mm, y: Mm, number: number, isLit: boolean): string {
  const r = hole.drill / 2;
  const arm = Math.max(r + 2, 4);
  const toLeft = hole.across < 0;
  return el(
    'g',
    { class: isLit ? 'hole lit' : 'hole', 'data-hole': hole.id },
    el('circle', { class: 'drill', cx: x, cy: y, r }),
    el('path', { class: 'cross', d: `M${n(x - arm)} ${n(y)}h${n(2 * arm)}M${n(x)} ${n(y - arm)}v${n(2 * arm)}` }),
    label(toLeft ? x - arm - 1 : x + arm + 1, y - 2, String(number), toLeft ? 'num end' : 'num', FONT),
    el('circle', { class: 'hit', cx: x, cy: y, r: Math.max(r, 8) }),
  );
}

function oldHole(u: Mm, y: Mm, diameter: Mm): string {
  const r = diameter / 2;
  const d = r * Math.SQRT1_2;
  return (
    el('circle', { class: 'old', cx: u, cy: y, r }) +
    el('path', {
      class: 'old',
      d: `M${n(u - d)} ${n(y - d)}l${n(2 * d)} ${n(2 * d)}M${n(u - d)} ${n(y + d)}l${n(2 * d)} ${n(-2 * d)}`,
    }) +
    label(u + r + 2, y + FONT, 'old hole', 'soft', FONT - 1)
  );
}

function rings(jig: Jig, left: Mm, right: Mm): string {
  const { top, bottom } = jig.shell.rings;
  const band = (y: Mm, height: Mm): string => el('rect', { class: 'ring', x: left, y, width: right - left, height });
  return (top ? band(0, top.width) : '') + (bottom ? band(jig.shell.depth - bottom.width, bottom.width) : '');
}

/** Snare beds as shallow hollows in the bottom edge, to scale. */
function beds(jig: Jig, layout: Layout, at: (angle: Deg) => Mm): string {
  if (!jig.beds) return '';
  const { width, depth } = jig.beds;
  return [0, 180]
    .map((angle) => {
      const u = at(angle);
      const base = layout.depth;
      const d = `M${n(u - width / 2)} ${n(base)}Q${n(u)} ${n(base - 2 * depth)} ${n(u + width / 2)} ${n(base)}Z`;
      return el('path', { class: 'bed', d }) + label(u + width / 2, base + FONT + 1, 'snare bed', 'soft end', FONT - 1);
    })
    .join('');
}

/** Names of lug lines above, degrees below. */
function scale(from: Deg, layout: Layout): string {
  const at = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, layout.radius).x;
  const lugs = new Map<Deg, string>();
  for (const p of layout.placed) {
    if (p.role === 'lug' && !lugs.has(p.angle)) lugs.set(p.angle, p.id.slice(p.id.lastIndexOf('-') + 1));
  }
  const out: string[] = [label(at(0), -13, 'strainer line 0°', 'bold mid', FONT)];
  for (const [angle, number] of lugs) {
    if (Math.abs(at(angle) - at(0)) > 45) out.push(label(at(angle), -7, `lug ${number}`, 'mid', FONT));
    out.push(label(at(angle), layout.depth + 24, `${trimmed(angle, 2)}°`, 'soft mid', FONT - 1));
  }
  return out.join('');
}
