import type { Vector } from '../geometry/rigid.ts';
import type { Foot, OldHole } from '../model/jig.ts';
import type { Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, shorterTurn, toDeg, toRad } from '../units/scalar.ts';
import { insideFoot, type Opening } from './cover.ts';

/** What lies beside a fitting on the shell, seen square on that fitting: x across, y upright, from its origin. */
export interface Beside {
  readonly holes: readonly { readonly at: Vector; readonly radius: Mm }[];
  /** Feet of the fittings around, each with the way from this fitting's frame into its own. */
  readonly feet: readonly { readonly id: string; readonly foot: Foot; readonly into: (p: Vector) => Vector }[];
}

/** Holes this far (mm) from a fitting's origin can never meet an opening of it. */
const FAR: Mm = 150;

/** Where a hole was found: angle and height. */
type Found = (hole: string) => { readonly angle: Deg; readonly height: Mm } | undefined;

/** The holes as drilled, the old ones, and the feet round a fitting whose line is `line`. */
export function besides(layout: Layout, old: readonly OldHole[], placed: Placed, line: Deg, found: Found): Beside {
  const { radius } = layout;
  const seen = (angle: Deg, height: Mm): Vector => ({
    x: radius * Math.sin(toRad(shorterTurn(line, angle))),
    y: height - placed.height,
  });
  const isNear = (angle: Deg, height: Mm): boolean =>
    Math.abs(shorterTurn(line, angle)) < 90 && Math.hypot(seen(angle, height).x, height - placed.height) < FAR;
  const own = new Set(placed.holes.map((h) => h.id));
  const drilled = layout.holes.filter((h) => !own.has(h.id)).map((h) => ({ ...(found(h.id) ?? h), diameter: h.drill }));
  return {
    holes: [...drilled, ...old]
      .filter((h) => isNear(h.angle, h.height))
      .map((h) => ({ at: seen(h.angle, h.height), radius: h.diameter / 2 })),
    feet: layout.placed.flatMap((p) => {
      const { foot } = p;
      if (p === placed || !foot || Math.abs(shorterTurn(placed.angle, p.angle)) > 90) return [];
      const apart = shorterTurn(placed.angle, p.angle);
      const into = (q: Vector): Vector => ({
        x: radius * Math.sin(toRad(toDeg(Math.asin(Math.max(-1, Math.min(1, q.x / radius)))) - apart)),
        y: q.y + placed.height - p.height,
      });
      return [{ id: p.id, foot, into }];
    }),
  };
}

/** Least wood between an opening and the holes beside it; infinite when there are none. */
export const woodBeside = (o: Opening, beside: Beside): Mm =>
  Math.min(Infinity, ...beside.holes.map((h) => toSegment(h.at, o.from, o.to) - h.radius - o.radius));

/** The fitting whose foot an opening would come under. */
export const underFoot = (o: Opening, { feet }: Beside): string | undefined =>
  feet.find(({ foot, into }) => [o.from, o.to].some((p) => insideFoot(foot, into(p)) > -o.radius))?.id;

function toSegment(p: Vector, a: Vector, b: Vector): Mm {
  const [ux, uy] = [b.x - a.x, b.y - a.y];
  const long = ux * ux + uy * uy;
  const t = long === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * ux + (p.y - a.y) * uy) / long));
  return Math.hypot(p.x - a.x - t * ux, p.y - a.y - t * uy);
}
