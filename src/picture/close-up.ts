import { arc, unroll } from '../geometry/frames.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn } from '../units/scalar.ts';
import { along } from './outline.ts';
import { type SheetView, sheetBody } from './sheet.ts';
import { el, type Frame, n, picture } from './svg.ts';
import { within } from './window.ts';

/**
 * The ids a finding speaks of: `at` may name a hole, a fitting, a row or several of them in one phrase
 * (`lug-bottom-4 and butt`). Unknown words are passed over.
 */
export function namedPlaces(at: string, layout: Layout): readonly Placed[] {
  const words = new Set([at, ...at.split(/[\s,/+&]+/)]);
  const byId = layout.placed.filter((p) => words.has(p.id) || p.holes.some((h) => words.has(h.id)));
  if (byId.length > 0) return byId;
  return layout.placed.filter((p) => words.has(p.group) || words.has(`${p.group}-lugs`)).slice(0, 1);
}

const MARGIN = 22;
/** Fittings further apart than this do not fit one picture, mm. */
const NEARBY = 150;

/** The skin round the places a finding speaks of (`at`, and `text` for the other party), to scale, with those places lit; '' when it speaks of none. */
export function closeUp(view: SheetView, at: string, text = ''): string {
  const named = namedPlaces(at, view.layout);
  const first = named[0];
  if (!first) return '';
  // The sentence may name the other party; it belongs in the picture when it stands nearby.
  const others = namedPlaces(text.replace(/[.:;()]/g, ' '), view.layout).filter(
    (p) => !named.includes(p) && isNear(p, first, view.layout),
  );
  const places = [...named, ...others];
  const from = first.angle - 180;
  const boxes = places.map((p) => boxOf(p, view.layout, from));
  const x1 = Math.min(...boxes.map((b) => b.x)) - MARGIN;
  const x2 = Math.max(...boxes.map((b) => b.x + b.width)) + MARGIN;
  const y1 = Math.min(...boxes.map((b) => b.y)) - MARGIN;
  const y2 = Math.max(...boxes.map((b) => b.y + b.height)) + MARGIN;
  const frame: Frame = { x: x1, y: y1, width: x2 - x1, height: y2 - y1 };
  const lit = new Set([...places.map((p) => p.id), ...at.split(/[\s,/+&]+/)]);
  const aims = boxes.map((b) =>
    el('path', { class: 'aim', d: corners(b.x - 3, b.y - 3, b.x + b.width + 3, b.y + b.height + 3) }),
  );
  return picture(
    frame,
    `Close look at ${places.map((p) => p.id).join(' and ')} on the unrolled shell`,
    'close',
    sheetBody({ ...view, lit }, from, frame.width * 0.032, frame) + aims.join(''),
  );
}

const isNear = (p: Placed, q: Placed, layout: Layout): boolean =>
  Math.hypot(arc(layout.radius, shorterTurn(p.angle, q.angle)), p.height - q.height) < NEARBY;

/** Box of a fitting with its holes, drawing frame (y down). */
function boxOf(p: Placed, layout: Layout, from: Deg): Frame {
  const R = layout.radius;
  const u = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, R).x;
  const y = layout.depth - p.height;
  const foot = p.foot ?? { left: 4, right: 4, up: 4, down: 4 };
  const xs = [u(p.angle) - along(foot.left, R), u(p.angle) + along(foot.right, R)];
  const ys = [y - foot.up, y + foot.down];
  for (const h of p.holes) {
    xs.push(u(h.angle) - h.drill / 2, u(h.angle) + h.drill / 2);
    ys.push(layout.depth - h.height - h.drill / 2, layout.depth - h.height + h.drill / 2);
  }
  const [x, top] = [Math.min(...xs), Math.min(...ys)];
  return { x, y: top, width: Math.max(...xs) - x, height: Math.max(...ys) - top };
}

/** Four corner brackets. */
function corners(x1: number, y1: number, x2: number, y2: number): string {
  const l = Math.min(8, (x2 - x1) / 3, (y2 - y1) / 3);
  return (
    `M${n(x1)} ${n(y1 + l)}V${n(y1)}h${n(l)}M${n(x2 - l)} ${n(y1)}H${n(x2)}v${n(l)}` +
    `M${n(x2)} ${n(y2 - l)}V${n(y2)}h${n(-l)}M${n(x1 + l)} ${n(y2)}H${n(x1)}v${n(-l)}`
  );
}
