import { polygon } from '../drawing/paths.ts';
import type { Part } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import type { Mm } from '../units/scalar.ts';
import { gapRange } from './clamp.ts';
import type { CollarFrame } from './collar-frame.ts';
import { radial } from './frame3.ts';
import type { Placement } from './plan.ts';

/** Depth of a wedge's pocket in the ring: the wedge stays thick enough to drive (judgement, no source). */
export const POCKET: Mm = 7;
/**
 * Rise of a wedge over its length: holds by friction, and a millimetre of play is 12 mm of travel (judgement, no
 * source).
 */
const SLOPE = 1 / 12;
/** Left to knock it out by (judgement, no source). */
const HEAD: Mm = 15;

/** Length and thin end of the wedges, and the widest gap they still fill with their heads clear of the ring. */
export function wedgeSize(jig: Jig, band: Mm): { readonly thin: Mm; readonly length: Mm; readonly widest: Mm } {
  const [least, most] = gapRange(jig);
  const rise = Math.max(most - least, 0.5) * 1.5;
  // Thin end: slips in with a quarter of the rise to spare.
  const thin = POCKET + Math.max(0, least - rise / 6);
  const length = Math.max(rise / SLOPE + HEAD + band, 45);
  return { thin, length, widest: thin + SLOPE * (length - HEAD) - POCKET };
}

/** Wedges that centre the shell in the last guide ring, three of one part, driven from the open end towards the lip. */
export function wedgeParts(c: CollarFrame, jig: Jig): { parts: Part[]; placements: Placement[] } {
  const ring = c.rings.at(-1);
  if (ring === undefined || c.holds.length === 0 || c.clamp !== undefined) return { parts: [], placements: [] };
  const gap = c.inside - jig.shell.radius;
  const { thin, length } = wedgeSize(jig, c.band);
  // In place the wedge fills pocket and gap at the ring's far face.
  const tip = ring + c.band - (POCKET + gap - thin) / SLOPE;
  const id = `collar-${c.tag}-wedge`;
  const outer = polygon('CUT-OUTER', id, [
    { x: 0, y: 0 },
    { x: thin, y: 0 },
    { x: thin + SLOPE * length, y: length },
    { x: 0, y: length },
  ]);
  const name = `${c.tag} collar, centring wedge`;
  const part: Part = { id, job: 'collar', name, outer, inner: [], marks: [], quantity: c.holds.length, turns: true };
  const placements = c.holds.map((rel, i): Placement => {
    const z = c.rim + c.sign * tip;
    const frame = radial(c.ref + rel, jig.shell.radius, z, c.stock.t, c.sign < 0);
    return { part: id, instance: i + 1, collar: c.tag, frame, thickness: c.stock.t };
  });
  return { parts: [part], placements };
}
