import { chord } from '../geometry/frames.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toRad, wrapDeg } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { bare, inUnits, type Units } from './length.ts';
import { clip, el, label, line, n, picture } from './svg.ts';

/**
 * The drum from above, strainer line at the bottom of the drawing; angles grow anticlockwise. Between neighbouring lug
 * lines stands the chord 2 R sin(half the angle), which is what a caliper reads across the outside skin.
 */
export interface Ring {
  /** Rows that share these lines. */
  readonly rows: readonly string[];
  readonly places: readonly Placed[];
}

/** Lug rows gathered by equal lines: one drawing each. */
export function rings(jig: Jig, layout: Layout): readonly Ring[] {
  const out: { rows: string[]; places: readonly Placed[] }[] = [];
  for (const row of jig.rows) {
    const places = layout.placed.filter((p) => p.role === 'lug' && p.group === row.name);
    const same = out.find(
      (ring) =>
        ring.places.length === places.length &&
        ring.places.every((p, i) => Math.abs(p.angle - places[i]!.angle) <= tolerance.noise),
    );
    if (same) same.rows.push(row.name);
    else if (places.length > 0) out.push({ rows: [row.name], places });
  }
  return out.length > 0 ? out : [{ rows: [], places: [] }];
}

/** Nearer than this to a lug a name would stand on its number, degrees. */
const NAME_ANGLE = 12;

const spot = (angle: Deg, r: Mm): readonly [Mm, Mm] => [r * Math.sin(toRad(angle)), r * Math.cos(toRad(angle))];

export function abovePicture(jig: Jig, layout: Layout, ring: Ring, lit?: ReadonlySet<string>): string {
  const R = layout.radius;
  const size = R * 0.062;
  const edge = R * 1.38;
  const others = layout.placed.filter((p) => p.role !== 'lug');
  const body = [
    el('path', { class: 'cut', 'fill-rule': 'evenodd', d: circle(R) + circle(layout.inside) }),
    zeroLine(R, size),
    ...jig.shell.joints.map((a) => radial(a, layout.inside, R, 'joint')),
    ...chords(ring.places, R, size, jig.units),
    ...ring.places.map((p) => body3(p, R, size, lit, p.id.slice(p.id.lastIndexOf('-') + 1))),
    // A name beside a lug's number stands further out; fittings in one place share a label.
    ...others.map((p) => {
      const near = (q: Placed): boolean => Math.abs(shorterTurn(q.angle, p.angle)) < NAME_ANGLE;
      const here = others.filter((q) => near(q));
      const name = here[0] === p ? here.map((q) => clip(q.id, 12)).join(', ') : '';
      return body3(p, R, size, lit, name, ring.places.some(near) ? 1.31 : 1.2);
    }),
    label(
      0,
      -R * 0.06,
      ring.rows.length > 0 ? `${ring.rows.join(' and ')} row${ring.rows.length > 1 ? 's' : ''}` : '',
      'mid soft',
      size,
    ),
    label(0, R * 0.06, `outside ${inUnits(2 * R, jig.units)} across`, 'mid soft', size),
  ].join('');
  return picture(
    { x: -edge, y: -edge * 0.98, width: 2 * edge, height: edge * 2 },
    `Seen from above, ${ring.places.length} lug lines with the chord between neighbours`,
    'above',
    body,
  );
}

const circle = (r: Mm): string => `M${n(-r)} 0A${n(r)} ${n(r)} 0 1 0 ${n(r)} 0A${n(r)} ${n(r)} 0 1 0 ${n(-r)} 0Z`;

function radial(angle: Deg, from: Mm, to: Mm, cls: string): string {
  const [x1, y1] = spot(angle, from);
  const [x2, y2] = spot(angle, to);
  return line(x1, y1, x2, y2, cls);
}

const zeroLine = (R: Mm, size: number): string =>
  radial(0, R * 0.5, R * 1.12, 'zero') + label(-size * 0.4, R * 0.56, 'strainer line 0°', 'end', size * 0.9);

function chords(places: readonly Placed[], R: Mm, size: number, units: Units): string[] {
  if (places.length < 2) return [];
  const sorted = [...places].sort((a, b) => a.angle - b.angle);
  return sorted.map((p, i) => {
    const next = sorted[(i + 1) % sorted.length]!;
    const way = wrapDeg(next.angle - p.angle) || 360;
    const [x1, y1] = spot(p.angle, R);
    const [x2, y2] = spot(next.angle, R);
    const middle = p.angle + way / 2;
    const lying = Math.abs(Math.sin(toRad(middle)));
    const inward = Math.max(0.2 * R, R * Math.cos(toRad(way / 2)) - size * (0.9 + 0.9 * lying));
    const [tx, ty] = spot(middle, inward);
    return line(x1, y1, x2, y2, 'chord') + label(tx, ty + size * 0.35, bare(chord(R, way), units), 'mid', size);
  });
}

/** A fitting from above: its foot's width tangent to the skin, its holes, its name outside. */
function body3(p: Placed, R: Mm, size: number, lit: ReadonlySet<string> | undefined, name: string, out = 1.2): string {
  const [cx, cy] = spot(p.angle, R);
  const [nx, ny] = spot(p.angle, R * out);
  const left = p.foot?.left ?? p.holes[0]?.drill ?? 4;
  const right = p.foot?.right ?? p.holes[0]?.drill ?? 4;
  const deep = p.role === 'lug' ? R * 0.09 : R * 0.06;
  const turn = `translate(${n(cx)} ${n(cy)}) rotate(${n(-p.angle)})`;
  return el(
    'g',
    { class: lit?.has(p.id) ? 'fitting lit' : 'fitting', 'data-fitting': p.id },
    p.foot ? el('rect', { class: 'foot', x: -left, y: 0, width: left + right, height: deep, transform: turn }) : '',
    radial(p.angle, R - R * 0.05, R, 'lugline'),
    label(nx, ny + size * 0.35, name, p.role === 'lug' ? 'mid bold' : 'mid', p.role === 'lug' ? size : size * 0.85),
    el('circle', { class: 'hit', cx, cy, r: R * 0.09 }),
  );
}
