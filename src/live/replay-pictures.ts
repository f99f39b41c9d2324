import { KIND } from '../page/replay-move.ts';
import { type Mm, shorterTurn, toRad, wrapDeg } from '../units/scalar.ts';
import { type Course, facing, heightOf, type Pose } from './course.ts';

/** Cuts nearer together than this belong to one hole, mm over the skin. */
const SAME_PLACE: Mm = 9;

/** Each hole's marks on the skin and in the ring, in the order of `course.holes`. */
export const marksOf = (course: Course): readonly (readonly Element[])[] =>
  course.holes.map((hole) => {
    const id = CSS.escape(hole.id);
    return [...document.querySelectorAll(`.replay-sheet [data-hole="${id}"], [data-bore="${id}"]`)];
  });

/** A cross on the unrolled skin that follows the bit. */
export function addCursor(course: Course): (pose: Pose) => void {
  const sheet = document.querySelector('.replay-sheet');
  if (!sheet) return () => {};
  sheet.querySelector('.aim')?.remove();
  const cross = document.createElementNS('http://www.w3.org/2000/svg', 'path');
  cross.setAttribute('class', 'aim');
  cross.setAttribute('d', 'M-14 0H14M0 -14V14M-9 0a9 9 0 1 0 18 0a9 9 0 1 0 -18 0');
  sheet.append(cross);
  const girth = 2 * Math.PI * course.radius;
  return (pose) => {
    const angle = course.signOfA * pose.a;
    const turned = wrapDeg(angle - course.from) + course.from;
    const u = (turned / 360) * girth - facing(course) * pose.y;
    cross.setAttribute(
      'transform',
      `translate(${u.toFixed(2)} ${(course.depth - heightOf(course, pose.x)).toFixed(2)})`,
    );
  };
}

/**
 * The wall under the bit: for each tool how deep and how wide it has gone at this place so far. Sideways the bit may move
 * in X and Y (a bore); what it sweeps along X is what the cut shows.
 */
export function cutOpen(course: Course): (pose: Pose, time: number) => void {
  const gone = document.getElementById('replay-gone');
  const tip = document.querySelector('#replay-tip path');
  if (!gone || !tip) return () => {};
  const bitOf = (tool: number) => course.tools.find((t) => t.id === tool);
  const radiusAt = (tool: number, depth: Mm): Mm => {
    const bit = bitOf(tool);
    const full = (bit?.diameter ?? 6) / 2;
    return bit?.cone === undefined ? full : Math.min(full, depth * Math.tan(toRad(bit.cone / 2)));
  };
  const perDegree = (Math.PI * course.radius) / 180;
  return (pose, time) => {
    const swept = new Map<number, { from: Mm; to: Mm; depth: Mm }>();
    const take = (tool: number, x: Mm, z: Mm): void => {
      if (z >= 0) return;
      const r = radiusAt(tool, -z);
      const s = swept.get(tool) ?? { from: x - r, to: x + r, depth: 0 };
      swept.set(tool, { from: Math.min(s.from, x - r), to: Math.max(s.to, x + r), depth: Math.max(s.depth, -z) });
    };
    for (const m of course.moves) {
      if (m[5] > time) break;
      const turned = shorterTurn(pose.a, m[4]) * perDegree;
      if (m[6] === KIND.feed && Math.hypot(m[1] - pose.x, turned - m[2] + pose.y) < SAME_PLACE)
        take(m[7], m[1] - pose.x, m[3]);
    }
    take(pose.move[7], 0, pose.z);
    const shapes = [...swept].map(([tool, s]) => {
      const path = document.createElementNS('http://www.w3.org/2000/svg', 'path');
      const [a, b, depth, middle] = [s.from, s.to, s.depth, (s.from + s.to) / 2].map((v) => v.toFixed(2));
      path.setAttribute(
        'd',
        `M${a} 0H${b}${bitOf(tool)?.cone === undefined ? `V${depth}H${a}` : `L${middle} ${depth}`}Z`,
      );
      path.setAttribute('class', 'bore');
      return path;
    });
    gone.replaceChildren(...shapes);
    const r = (bitOf(pose.move[7])?.diameter ?? 6) / 2;
    const z = -pose.z;
    tip.setAttribute(
      'd',
      `M${-r} -60V${(z - r * 0.4).toFixed(2)}L0 ${z.toFixed(2)}L${r} ${(z - r * 0.4).toFixed(2)}V-60Z`,
    );
  };
}
