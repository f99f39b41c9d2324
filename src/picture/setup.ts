import type { Machine, Tool } from '../model/machine.ts';
import { trimmed } from '../say/saying.ts';
import { type Deg, type Mm, toRad } from '../units/scalar.ts';
import { el, label, line, n, picture } from './svg.ts';

/** What the drawing of the fixture needs of a setup sheet. */
export interface SetupView {
  readonly machine: Machine;
  readonly datum: 'top' | 'bottom';
  /** +1 when A grows with the shell angle. */
  readonly sign: 1 | -1;
  readonly shell: { readonly radius: Mm; readonly inside: Mm; readonly depth: Mm };
  readonly backing: Mm;
  readonly clearance: Mm;
  readonly tools: readonly { readonly tool: Tool; readonly deepest: Mm }[];
}

/**
 * The shell on the machine, to scale: from the + X end on the left (gantry, bit, backing, shaft, the strainer line under
 * the bit and the arrow taped beside it), from the side on the right (X0, what holds the shell, where no bit may go down).
 */
export function setupPicture(v: SetupView): string {
  const R = v.shell.radius;
  const size = R * 0.075;
  const gantry = v.machine.swing / 2;
  const top = Math.max(gantry, R + v.clearance) + size * 2;
  const left = -R * 1.15;
  const gap = R * 0.5;
  const sideX = R + gap + v.machine.fixture.chuck;
  const right = sideX + v.shell.depth + v.machine.fixture.tailstock + R * 0.35;
  const body = [endView(v, size, gantry), sideView(v, size, sideX)].join('');
  return picture(
    { x: left, y: -top, width: right - left, height: top + R + size * 6.5 },
    `Shell on the machine, ${v.datum} edge at X0, strainer line under the bit`,
    'setup',
    body,
  );
}

/** Drawn with y down: a point at `angle` anticlockwise from straight up, seen from + X. */
const spot = (r: Mm, angle: Deg): readonly [Mm, Mm] => [-r * Math.sin(toRad(angle)), -r * Math.cos(toRad(angle))];

function endView(v: SetupView, size: number, gantry: Mm): string {
  const { radius: R, inside } = v.shell;
  const longest = [...v.tools].sort((p, q) => q.tool.stickout - p.tool.stickout)[0];
  const half = (longest?.tool.diameter ?? 6) / 2;
  const stick = longest?.tool.stickout ?? 40;
  const tip = -(R + v.clearance);
  // Seen from + X, angles grow anticlockwise with the bottom edge at X0, clockwise with the top edge there.
  const way = v.datum === 'bottom' ? 1 : -1;
  const [ax, ay] = spot(R + size * 0.5, 0);
  const [bx, by] = spot(R + size * 0.5, way * 15);
  const bend = way > 0 ? 0 : 1;
  const { mandrel } = v.machine.fixture;
  return [
    el('path', { class: 'cut', 'fill-rule': 'evenodd', d: ring(R) + ring(inside) }),
    v.backing > 0 ? el('path', { class: 'ring', d: block(inside, v.backing) }) : '',
    mandrel > 0 ? el('circle', { class: 'metal', cx: 0, cy: 0, r: mandrel / 2 }) : '',
    line(-R * 1.1, -gantry, R * 1.1, -gantry, 'limit'),
    label(-R * 1.1, -gantry - size * 0.4, `gantry: swings ${trimmed(2 * gantry, 0)} mm`, '', size),
    el('rect', { class: 'metal', x: -half, y: tip - stick, width: 2 * half, height: stick }),
    line(0, tip, 0, -inside * 0.82, 'zero'),
    el('path', { class: 'edge', d: `M${n(ax)} ${n(ay)}A${n(R)} ${n(R)} 0 0 ${bend} ${n(bx)} ${n(by)}` }),
    arrowHead(bx, by, way * 15, way, size),
    label(way > 0 ? bx - size * 0.4 : bx + size * 0.4, by - size * 0.7, 'arrow', way > 0 ? 'end' : '', size),
    label(0, R * 0.35, 'A0: strainer line under the bit', 'mid', size),
    label(0, R * 0.35 + size * 1.4, `A ${v.sign > 0 ? 'grows' : 'falls'} along the arrow`, 'mid', size),
    label(0, R * 0.35 + size * 2.8, `Z0: skin at its high spot`, 'mid', size),
    label(0, R * 1.2, 'from the + X end', 'mid soft', size),
  ].join('');
}

const ring = (r: Mm): string => `M${n(-r)} 0A${n(r)} ${n(r)} 0 1 0 ${n(r)} 0A${n(r)} ${n(r)} 0 1 0 ${n(-r)} 0Z`;

/** A block under the bit, cut to the inside of the wall. */
function block(inside: Mm, thick: Mm): string {
  const [ax, ay] = spot(inside, 12);
  const [bx, by] = spot(inside, -12);
  const low = ay + thick;
  return `M${n(ax)} ${n(ay)}A${n(inside)} ${n(inside)} 0 0 1 ${n(bx)} ${n(by)}L${n(bx)} ${n(low)}L${n(ax)} ${n(low)}Z`;
}

function arrowHead(x: Mm, y: Mm, angle: Deg, way: number, size: number): string {
  const along = [-way * Math.cos(toRad(angle)), way * Math.sin(toRad(angle))] as const;
  const back = [x - along[0] * size * 0.7, y - along[1] * size * 0.7] as const;
  const wide = size * 0.3;
  return el('path', {
    class: 'edge',
    d: `M${n(back[0] + along[1] * wide)} ${n(back[1] - along[0] * wide)}L${n(x)} ${n(y)}L${n(back[0] - along[1] * wide)} ${n(back[1] + along[0] * wide)}`,
  });
}

function sideView(v: SetupView, size: number, x0: Mm): string {
  const { radius: R, depth } = v.shell;
  const { chuck, tailstock, mandrel } = v.machine.fixture;
  const end = x0 + depth;
  const zone = (from: Mm, width: Mm): string =>
    el('rect', { class: 'limit', x: from, y: -R - size, width, height: 2 * R + 2 * size });
  const plate = (x: Mm, width: Mm): string =>
    el('rect', { class: 'metal', x, y: -v.shell.inside * 0.97, width, height: v.shell.inside * 1.94 });
  const other = v.datum === 'bottom' ? 'top' : 'bottom';
  return [
    el('rect', { class: 'skin', x: x0, y: -R, width: depth, height: 2 * R }),
    mandrel > 0
      ? el('rect', {
          class: 'metal',
          x: x0 - chuck - size,
          y: -mandrel / 2,
          width: depth + chuck + tailstock + 2 * size,
          height: mandrel,
        })
      : '',
    plate(x0, chuck),
    plate(end - tailstock, tailstock),
    zone(x0, chuck),
    zone(end - tailstock, tailstock),
    ...(v.machine.fixture.keepOut ?? []).map((z) => zone(x0 + z.from, z.to - z.from)),
    line(x0, -R - size * 2, x0, R + size, 'zero'),
    line(x0, -R, end, -R, 'zero'),
    label(x0, R + size * 2.2, `X0: ${v.datum} edge`, 'mid', size),
    label(end, R + size * 2.2, `${other} edge`, 'mid', size),
    label((x0 + end) / 2, R + size * 3.8, `X grows this way → ${trimmed(depth, 1)} mm`, 'mid', size),
    label((x0 + end) / 2, -R - size * 0.6, 'strainer line', 'mid', size),
    label((x0 + end) / 2, R + size * 5.2, 'no bit goes down where it is dashed', 'mid soft', size),
  ].join('');
}
