import { unroll } from '../geometry/frames.ts';
import type { Jig } from '../model/jig.ts';
import type { Hole, Layout, Placed } from '../model/layout.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { footPath } from './outline.ts';
import { clip, el, type Frame, label, line, n } from './svg.ts';
import { within } from './window.ts';

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

interface Sheet {
  readonly view: SheetView;
  /** Drawing x of an angle. */
  readonly at: (angle: Deg) => Mm;
  readonly left: Mm;
  readonly right: Mm;
  /** Height of lettering. */
  readonly size: Mm;
}

/** Everything on the skin, in [from, from + 360) degrees. `near` limits it to what lies about a frame. */
export function sheetBody(view: SheetView, from: Deg, size: Mm, near?: Frame): string {
  const { jig, layout } = view;
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const right = left + 2 * Math.PI * layout.radius;
  const at = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, layout.radius).x;
  const sheet: Sheet = { view, at, left, right, size };
  const isNear = (u: Mm, y: Mm, r: Mm): boolean =>
    !near || (u + r >= near.x && u - r <= near.x + near.width && y + r >= near.y && y - r <= near.y + near.height);
  const out: string[] = [
    el('rect', { class: 'skin', x: left, y: 0, width: right - left, height: layout.depth }),
    rings(sheet),
    beds(sheet),
    line(left, 0, right, 0, 'edge'),
    line(left, layout.depth, right, layout.depth, 'edge'),
    line(left, 0, left, layout.depth, 'tear'),
    line(right, 0, right, layout.depth, 'tear'),
  ];
  for (const joint of jig.shell.joints) out.push(line(at(joint), 0, at(joint), layout.depth, 'joint'));
  for (const angle of new Set(layout.placed.filter((p) => p.role === 'lug').map((p) => p.angle))) {
    out.push(line(at(angle), -4, at(angle), layout.depth + 4, 'lugline'));
  }
  out.push(line(at(0), -4, at(0), layout.depth + 4, 'zero'));
  for (const old of jig.shell.holes) {
    const y = layout.depth - old.height;
    if (isNear(at(old.angle), y, 20)) out.push(oldHole(sheet, at(old.angle), y, old.diameter));
  }
  for (const p of layout.placed) {
    const y = layout.depth - p.height;
    const reach = Math.max(20, p.foot?.left ?? 0, p.foot?.right ?? 0, p.foot?.up ?? 0, p.foot?.down ?? 0);
    if (isNear(at(p.angle), y, reach)) out.push(fitting(sheet, p, at(p.angle), y));
  }
  return out.join('');
}

function fitting(sheet: Sheet, p: Placed, u: Mm, y: Mm): string {
  const { view, size } = sheet;
  const { layout, numbers, lit } = view;
  const lever = view.jig.fittings.find((f) => f.name === p.group)?.lever;
  const below = p.foot?.down ?? (p.holes[0]?.drill ?? 0) / 2 + 2;
  const name = p.role === 'lug' ? '' : label(u, y + below + size, clip(p.id, 24), 'soft mid', size * 0.9);
  const holes = p.holes
    .map((h) => {
      const x = u + unroll({ angle: shortWay(h.angle, p.angle), height: 0 }, layout.radius).x;
      return drilled(sheet, h, x, layout.depth - h.height, numbers.get(h.id) ?? 0, lit?.has(h.id) ?? false);
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

function drilled(sheet: Sheet, hole: Hole, x: Mm, y: Mm, number: number, isLit: boolean): string {
  const { size } = sheet;
  const r = hole.drill / 2;
  const arm = r + 1.5;
  const toLeft = hole.across < 0;
  const side = (toLeft ? -1 : 1) * (r + size * 0.25);
  return el(
    'g',
    { class: isLit ? 'hole lit' : 'hole', 'data-hole': hole.id },
    el('circle', { class: 'drill', cx: x, cy: y, r }),
    el('path', { class: 'cross', d: `M${n(x - arm)} ${n(y)}h${n(2 * arm)}M${n(x)} ${n(y - arm)}v${n(2 * arm)}` }),
    label(x + side, y - size * 0.15, String(number), toLeft ? 'no end' : 'no', size),
    el('circle', { class: 'hit', cx: x, cy: y, r: Math.max(r, size * 0.8) }),
  );
}

function oldHole(sheet: Sheet, u: Mm, y: Mm, diameter: Mm): string {
  const r = diameter / 2;
  const d = r * Math.SQRT1_2;
  const cross = `M${n(u - d)} ${n(y - d)}l${n(2 * d)} ${n(2 * d)}M${n(u - d)} ${n(y + d)}l${n(2 * d)} ${n(-2 * d)}`;
  return (
    el('circle', { class: 'old', cx: u, cy: y, r }) +
    el('path', { class: 'old', d: cross }) +
    label(u + r + 2, y + sheet.size, 'old hole', 'soft', sheet.size * 0.9)
  );
}

function rings({ view, left, right }: Sheet): string {
  const { top, bottom } = view.jig.shell.rings;
  const band = (y: Mm, height: Mm): string => el('rect', { class: 'ring', x: left, y, width: right - left, height });
  return (top ? band(0, top.width) : '') + (bottom ? band(view.layout.depth - bottom.width, bottom.width) : '');
}

/** Snare beds as shallow hollows in the bottom edge, to scale; one that crosses the cut is drawn on both sides of it. */
function beds({ view, at, left, right, size }: Sheet): string {
  if (!view.jig.beds) return '';
  const { width, depth } = view.jig.beds;
  const base = view.layout.depth;
  const half = width / 2;
  const hollow = (u: Mm): string => {
    const steps = Array.from({ length: 25 }, (_, i) => u - half + (i * width) / 24).filter(
      (x) => x >= left && x <= right,
    );
    if (steps.length < 2) return '';
    const y = (x: Mm): Mm => base - depth * (1 - ((x - u) / half) ** 2);
    return el('path', { class: 'bed', d: `M${steps.map((x) => `${n(x)} ${n(y(x))}`).join('L')}` });
  };
  return [0, 180]
    .map(
      (angle) =>
        [-1, 0, 1].map((turn) => hollow(at(angle) + turn * (right - left))).join('') +
        label(at(angle) + size * 0.6, base + size * 1.1, 'snare bed', 'soft', size * 0.9),
    )
    .join('');
}
