import { acrossAngle, arc } from '../geometry/frames.ts';
import type { Foot } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { n } from './svg.ts';

/** Straight across the hardware to the way along the skin: R asin(x / R); a foot wider than the shell is drawn cut off. */
export const along = (across: Mm, radius: Mm): Mm =>
  arc(radius, acrossAngle(Math.max(-radius, Math.min(radius, across)), radius));

/** A foot on the unrolled shell as SVG path data; (u, y) is the pattern's origin with y downwards. */
export function footPath(foot: Foot, u: Mm, y: Mm, radius: Mm): string {
  const x = (across: Mm): string => n(u + along(across, radius));
  if (foot.outline && foot.outline.length > 2) {
    return `M${foot.outline.map((p) => `${x(p.across)} ${n(y - p.upright)}`).join('L')}Z`;
  }
  const left = x(-foot.left);
  const right = x(foot.right);
  const rx = n((along(foot.right, radius) + along(foot.left, radius)) / 2);
  if (foot.shape === 'ellipse') {
    const middle = n(y + (foot.down - foot.up) / 2);
    const ry = n((foot.up + foot.down) / 2);
    return `M${left} ${middle}A${rx} ${ry} 0 0 1 ${right} ${middle}A${rx} ${ry} 0 0 1 ${left} ${middle}Z`;
  }
  const c = Math.max(0, Math.min(foot.corner, (foot.left + foot.right) / 2, (foot.up + foot.down) / 2));
  const inL = x(-foot.left + c);
  const inR = x(foot.right - c);
  const [top, bottom, inT, inB] = [n(y - foot.up), n(y + foot.down), n(y - foot.up + c), n(y + foot.down - c)];
  if (c === 0) return `M${left} ${top}L${right} ${top}L${right} ${bottom}L${left} ${bottom}Z`;
  const a = `A${n(c)} ${n(c)} 0 0 1 `;
  return `M${inL} ${top}L${inR} ${top}${a}${right} ${inT}L${right} ${inB}${a}${inR} ${bottom}L${inL} ${bottom}${a}${left} ${inB}L${left} ${inT}${a}${inL} ${top}Z`;
}
