import { bounds } from '../drawing/paths.ts';
import type { Part } from '../model/drawing.ts';
import type { Jig } from '../model/jig.ts';
import { type Mm, toRad } from '../units/scalar.ts';
import { clampOf } from './clamp.ts';
import type { BuildFigures, GuideBore, Post, Serves, Vec3 } from './plan.ts';
import { guideLength, largestRadius, smallestRadius } from './posts.ts';
import { shiftOfPlay } from './repeat.ts';
import { rules } from './rules.ts';
import { wedgeSize } from './wedges.ts';

/** Standard deviations of the ways a bore or a bit is off, mm; common practice, no source: half of a cut's +-0.1 and so on. */
const CUT = 0.06;
const CENTRE = 0.1;
const PLAY = 0.1;
const PIN = 0.05;

/** Where every bore's axis meets the outside skin, and which way it goes. */
export function boresOf(jig: Jig, posts: readonly Post[]): GuideBore[] {
  const r = jig.shell.radius;
  return posts.flatMap((post) => {
    const [c, s] = [Math.cos(toRad(post.angle)), Math.sin(toRad(post.angle))];
    const axis: Vec3 = [-c, -s, 0];
    return post.bores.map((b): GuideBore => {
      const out = Math.sqrt(r * r - b.x * b.x);
      return {
        holeId: b.hole.id,
        point: [out * c - b.x * s, out * s + b.x * c, b.hole.height],
        axis,
        diameter: b.diameter,
        bit: b.bit,
        guide: guideLength(post, jig.collar.thickness, jig.collar.bushing),
        gap: post.inner - out,
        ...(b.opensTo === undefined ? {} : { opensTo: b.opensTo }),
      };
    });
  });
}

/** Sum of the boxes round the parts, mm2. */
export const sheetAreaOf = (parts: readonly Part[]): number =>
  parts.reduce((sum, p) => sum + p.quantity * boxArea(p.outer), 0);

/** Most parts have straight sides, whose corners alone make the box. */
function boxArea(outer: Part['outer']): number {
  if (outer.kind === 'circle' || outer.segs.some((s) => s.kind === 'arc')) {
    const { min, max } = bounds([outer]);
    return (max.x - min.x) * (max.y - min.y);
  }
  let [left, right, low, high] = [outer.start.x, outer.start.x, outer.start.y, outer.start.y];
  for (const { to } of outer.segs) {
    left = Math.min(left, to.x);
    right = Math.max(right, to.x);
    low = Math.min(low, to.y);
    high = Math.max(high, to.y);
  }
  return (right - left) * (high - low);
}

/** What a way of building costs and gives. `steps` is how often a sector is stepped on one way; 0 for rings. */
export function figuresOf(jig: Jig, parts: readonly Part[], posts: readonly Post[], steps: number): BuildFigures {
  const lengths = posts.map((p) => guideLength(p, jig.collar.thickness, jig.collar.bushing));
  const guide = Math.min(...lengths);
  const gap = Math.max(0, ...posts.map((p) => p.inner - jig.shell.radius));
  const lean = (PLAY / guide) * (gap + jig.shell.wall / 2 + guide / 2);
  const fit = jig.collar.material.fit / 2;
  const pitch = Math.hypot(CUT, PIN);
  const around = Math.hypot(CUT, fit, steps > 0 ? pitch * Math.sqrt(steps) : CENTRE, lean / 2);
  return {
    sheetArea: sheetAreaOf(parts),
    parts: parts.reduce((sum, p) => sum + p.quantity, 0),
    guideLength: posts.length === 0 ? 0 : guide,
    accuracy: { around: 2 * around, along: 2 * Math.hypot(CUT, lean / 2) },
    closing: { systematic: steps * CUT, random: Math.sqrt(steps) * pitch },
  };
}

/**
 * The shells this collar still fits, and the wear at which its bushings are due. Upwards the rings end it; downwards the
 * wedges, or a chip gap grown past one bit's diameter.
 */
export function servesOf(jig: Jig, posts: readonly Post[], band: Mm): Serves {
  const oval = (jig.shell.round ?? 0) / 4;
  const inside = largestRadius(jig) + jig.collar.clearance;
  const clamp = clampOf(jig);
  const t = jig.collar.thickness;
  // A shoe half out of its notch is led no more.
  const widest = clamp === undefined ? wedgeSize(jig, band).widest : clamp.plates * t - t / 2;
  const held = inside - widest + oval;
  const least = Math.max(held, ...posts.map((p) => p.inner - p.bit + oval));
  return {
    girth: [2 * Math.PI * Math.min(least, smallestRadius(jig)), 2 * Math.PI * (inside - rules.slide - oval)],
    held: 2 * Math.PI * Math.min(held, smallestRadius(jig)),
    round: 4 * Math.max(0, jig.collar.clearance - rules.slide),
    wear: 0.1 / Math.max(...posts.map((p) => shiftOfPlay(jig, p)), 0.1),
  };
}
