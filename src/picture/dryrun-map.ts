import { unroll } from '../geometry/frames.ts';
import type { Layout } from '../model/layout.ts';
import { trimmed } from '../say/saying.ts';
import type { Deg, Mm } from '../units/scalar.ts';
import { clip, el, label, line, n, picture } from './svg.ts';
import { LETTERING } from './unrolled.ts';
import { openingAngle, within } from './window.ts';

/** A hole a program leaves, as the pictures need it. */
export interface DrilledMark {
  readonly id: string;
  readonly angle_deg: Deg;
  readonly height_mm: Mm;
  /** Widths of its mouth along and around the shell. */
  readonly along_mm: Mm;
  readonly around_mm: Mm;
  /** False: the bit did not come through. */
  readonly through: boolean;
}

const MARGIN_LINES = 3;

interface Unrolled {
  readonly left: Mm;
  readonly width: Mm;
  readonly size: Mm;
  readonly at: (angle: Deg) => Mm;
  readonly down: (height: Mm) => Mm;
  readonly ground: string;
}

/** The bare unrolled skin, seen from outside, opened where no fitting is cut. */
function unrolled(layout: Layout): Unrolled {
  const from = openingAngle(layout.placed, layout.radius);
  const left = unroll({ angle: from, height: 0 }, layout.radius).x;
  const width = 2 * Math.PI * layout.radius;
  const size = width * LETTERING;
  const at = (angle: Deg): Mm => unroll({ angle: within(angle, from), height: 0 }, layout.radius).x;
  const zero = at(0);
  const ground = [
    el('rect', { class: 'skin', x: left, y: 0, width, height: layout.depth }),
    line(left, 0, left + width, 0, 'edge'),
    line(left, layout.depth, left + width, layout.depth, 'edge'),
    line(left, 0, left, layout.depth, 'tear'),
    line(left + width, 0, left + width, layout.depth, 'tear'),
    line(zero, -size, zero, layout.depth + size, 'zero'),
    label(zero, layout.depth + 2.4 * size, 'strainer line 0°', 'bold mid', size),
  ].join('');
  return { left, width, size, at, down: (height) => layout.depth - height, ground };
}

const frame = (u: Unrolled, depth: Mm) => ({
  x: u.left - 5 * u.size,
  y: -MARGIN_LINES * u.size,
  width: u.width + 10 * u.size,
  height: depth + 2 * MARGIN_LINES * u.size,
});

/**
 * What a program takes out of the shell, unrolled and seen from outside: wood gone (filled; crossed when not through) under
 * the planned holes (thin rings). What has no partner is named.
 */
export function removalMap(layout: Layout, holes: readonly DrilledMark[]): string {
  const u = unrolled(layout);
  const drilled = new Set(holes.map((h) => h.id));
  const planned = new Set(layout.holes.map((h) => h.id));
  const missing = layout.holes.filter((h) => !drilled.has(h.id));
  const extra = holes.filter((h) => !planned.has(h.id));
  const gone = holes.map((h) => mouth(h, u));
  const rings = layout.holes.map((h) =>
    el('circle', {
      class: drilled.has(h.id) ? 'cross' : 'limit',
      cx: u.at(h.angle),
      cy: u.down(h.height),
      r: h.drill / 2,
    }),
  );
  const names = [
    ...missing.map((h) =>
      label(u.at(h.angle), u.down(h.height) + h.drill / 2 + u.size, `${clip(h.id, 24)}: missing`, 'mid bold', u.size),
    ),
    ...extra.map((h) =>
      label(u.at(h.angle_deg), u.down(h.height_mm) + h.along_mm / 2 + u.size, clip(h.id, 24), 'mid bold', u.size),
    ),
  ];
  const legend = label(
    u.left,
    -1.6 * u.size,
    'filled: wood gone; crossed: not through; ring: planned; dashed ring: missing',
    'soft',
    u.size * 0.9,
  );
  return picture(
    frame(u, layout.depth),
    `Shell after the program, unrolled, seen from outside: ${holes.length} holes, ${missing.length} missing, ${extra.length} not planned`,
    'removal',
    [u.ground, ...gone, ...rings, ...names, legend].join(''),
  );
}

function mouth(h: DrilledMark, u: Unrolled): string {
  const x = u.at(h.angle_deg);
  const y = u.down(h.height_mm);
  const rx = h.around_mm / 2;
  const ry = h.along_mm / 2;
  const words = `${h.id}: ${trimmed(Math.min(h.along_mm, h.around_mm), 2)} mm${h.through ? '' : ', not through'}`;
  return el(
    'g',
    { class: 'hole', 'data-hole': h.id },
    el('title', {}, words.replace(/[&<>]/g, ' ')),
    el('ellipse', { class: 'bore', cx: x, cy: y, rx, ry }),
    h.through
      ? ''
      : el('path', {
          class: 'limit',
          d: `M${n(x - rx)} ${n(y - ry)}L${n(x + rx)} ${n(y + ry)}M${n(x - rx)} ${n(y + ry)}L${n(x + rx)} ${n(y - ry)}`,
        }),
  );
}

/** One stop of the tool's way from hole to hole. */
export interface WayPoint {
  readonly angle_deg: Deg;
  readonly height_mm: Mm;
  readonly tool: number;
}

/** Stops in one place get one label with all their numbers. */
function places(stops: readonly WayPoint[]): { at: WayPoint; numbers: number[] }[] {
  const found = new Map<string, { at: WayPoint; numbers: number[] }>();
  stops.forEach((s, i) => {
    const key = `${s.angle_deg.toFixed(1)} ${s.height_mm.toFixed(1)}`;
    const known = found.get(key);
    if (known) known.numbers.push(i + 1);
    else found.set(key, { at: s, numbers: [i + 1] });
  });
  return [...found.values()];
}

/** The order of the work: the way from place to place over the unrolled skin, numbered, one line style a tool. */
export function pathPicture(layout: Layout, stops: readonly WayPoint[]): string {
  const u = unrolled(layout);
  const tools = [...new Set(stops.map((s) => s.tool))];
  const legs = stops.slice(1).map((to, i) => {
    const from = stops[i]!;
    const changed = from.tool !== to.tool;
    return line(
      u.at(from.angle_deg),
      u.down(from.height_mm),
      u.at(to.angle_deg),
      u.down(to.height_mm),
      changed ? 'tear' : tools.indexOf(to.tool) % 2 === 0 ? 'chord' : 'chord2',
    );
  });
  const marks = places(stops).map((p) =>
    el(
      'g',
      { class: 'stop' },
      el('circle', { class: 'drill', cx: u.at(p.at.angle_deg), cy: u.down(p.at.height_mm), r: u.size * 0.3 }),
      label(
        u.at(p.at.angle_deg) + u.size * 0.5,
        u.down(p.at.height_mm) - u.size * 0.5,
        p.numbers.join(', '),
        'no',
        u.size * 0.8,
      ),
    ),
  );
  const words = `order of the work, ${tools.map((t) => `tool ${t}`).join(', ')}; dotted: a tool change between`;
  return picture(
    frame(u, layout.depth),
    `Order of the work on the unrolled shell, ${stops.length} stops with ${tools.length} tools`,
    'path',
    [u.ground, ...legs, ...marks, label(u.left, -1.6 * u.size, words, 'soft', u.size * 0.9)].join(''),
  );
}
