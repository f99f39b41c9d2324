import { washerOutside } from '../data/screws.ts';
import type { Vector } from '../geometry/rigid.ts';
import type { Foot } from '../model/jig.ts';
import type { Thread } from '../model/thread.ts';
import { type Mm, toRad } from '../units/scalar.ts';

/** A round or oblong opening: every circle of `radius` with its middle from `from` to `to`. */
export interface Opening {
  readonly from: Vector;
  readonly to: Vector;
  readonly radius: Mm;
}

/** What is left over all round when a foot or a washer lies on an opening; negative where it shows. */
export interface Cover {
  /** Null when the jig does not say how large the foot is. */
  readonly foot_mm: Mm | null;
  readonly washer_mm: Mm | null;
  /** Outside diameter of the washer reckoned with. */
  readonly washer: Mm | null;
  /** Least wood to a hole of another fitting, or an old one; null when there is none near. */
  readonly beside_mm: Mm | null;
  /** Another fitting whose foot an opening would come under. */
  readonly under: string | null;
}

/** Least that must lie on the wood all round an opening, mm (common practice, no source). */
export const LAND: Mm = 0.5;

/** A large washer is three times the screw (ISO 7093-1:2000; M4 12, M5 15, M6 18). */
const largeWasher = (thread: Thread): Mm => 3 * thread.diameter;

/** The plain washer when it covers an opening whose far rim lies `far` from the screw, else the large one. */
export function washerFor(thread: Thread, far: Mm): Mm {
  const plain = washerOutside(thread);
  return plain / 2 - far >= LAND ? plain : Math.max(plain, largeWasher(thread));
}

/** From the screw's axis to the farthest rim of the opening. */
export const farRim = (screw: Vector, o: Opening): Mm =>
  Math.max(Math.hypot(o.from.x - screw.x, o.from.y - screw.y), Math.hypot(o.to.x - screw.x, o.to.y - screw.y)) +
  o.radius;

/** Points round an ellipse: chords 0.05 mm inside a 60 mm foot, which only makes the cover look smaller. */
const ROUND = 96;

/**
 * How far inside the foot's outline (positive) or outside it (negative) a point lies, in the pattern's frame. Rounded
 * rectangles exactly; ellipses and outlines by their chords.
 */
export function insideFoot(foot: Foot, p: Vector): Mm {
  if (foot.outline !== undefined && foot.outline.length > 2) {
    return insideOutline(
      foot.outline.map((q) => ({ x: q.across, y: q.upright })),
      p,
    );
  }
  const a = (foot.left + foot.right) / 2;
  const b = (foot.up + foot.down) / 2;
  const cx = (foot.right - foot.left) / 2;
  const cy = (foot.up - foot.down) / 2;
  if (foot.shape === 'ellipse') {
    const round = Array.from({ length: ROUND }, (_, i) => ({
      x: cx + a * Math.cos(toRad((360 * i) / ROUND)),
      y: cy + b * Math.sin(toRad((360 * i) / ROUND)),
    }));
    return insideOutline(round, p);
  }
  const corner = Math.min(foot.corner, a, b);
  const dx = Math.abs(p.x - cx) - (a - corner);
  const dy = Math.abs(p.y - cy) - (b - corner);
  return corner - (Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0));
}

function insideOutline(points: readonly Vector[], p: Vector): Mm {
  let least = Number.POSITIVE_INFINITY;
  let isInside = false;
  for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
    const a = points[j]!;
    const b = points[i]!;
    const ux = b.x - a.x;
    const uy = b.y - a.y;
    const long = ux * ux + uy * uy;
    const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * ux + (p.y - a.y) * uy) / long));
    least = Math.min(least, Math.hypot(p.x - a.x - t * ux, p.y - a.y - t * uy));
    if (a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * ux) isInside = !isInside;
  }
  return isInside ? least : -least;
}
