import { acrossAngle } from '../geometry/frames.ts';
import type { Foot, Jig, Pattern } from '../model/jig.ts';
import type { Hole, Layout, Placed } from '../model/layout.ts';
import { type Mm, wrapDeg } from '../units/scalar.ts';

/**
 * Every hole and foot at its angle and height on the shell. A hole `across` from its fitting's line lies asin(across /
 * R) from it; lug k of a row stands at first + (k - 1) 360 / count. Ids: `lug-<row>-<k>`, fittings by name (with a
 * number when they stand in several places), holes lettered a, b, c from the pattern when there are several.
 * @param jig as `resolveJig` gives it
 * @returns degrees in [0, 360) and mm above the bottom edge; rows first, then fittings, in the order of the jig file
 * @throws never
 * @source textbook, equal division of a circle; the rest is geometry (derived)
 */
export function layOut(jig: Jig): Layout {
  const { radius, inside, wall, depth } = jig.shell;
  const lugs = jig.rows.flatMap((row, i) =>
    Array.from({ length: row.count }, (_, k) =>
      put(radius, {
        id: `lug-${row.name}-${k + 1}`,
        group: row.name,
        role: 'lug',
        angle: row.first + (k * 360) / row.count,
        height: row.height,
        edge: row.edge,
        turned: row.turned,
        foot: row.foot,
        key: `lugs.rows.${i}`,
        pattern: row.holes,
      }),
    ),
  );
  const fittings = jig.fittings.flatMap((f, i) =>
    f.at.map((angle, k) =>
      put(radius, {
        id: f.at.length === 1 ? f.name : `${f.name}-${k + 1}`,
        group: f.name,
        role: f.role,
        angle,
        height: f.height,
        edge: f.edge,
        turned: false,
        foot: f.foot,
        key: `fittings.${i}`,
        pattern: f.holes,
      }),
    ),
  );
  const placed = distinct([...lugs, ...fittings]);
  return { radius, inside, wall, depth, placed, holes: placed.flatMap((p) => p.holes) };
}

/** A fitting before its holes are placed. */
interface Spot extends Omit<Placed, 'foot' | 'holes'> {
  readonly foot: Foot | undefined;
  readonly pattern: Pattern;
}

function put(radius: Mm, spot: Spot): Placed {
  const { pattern, foot, ...rest } = spot;
  const angle = wrapDeg(spot.angle);
  const holes = pattern.points.map(
    (p, i): Hole => ({
      id: pattern.points.length === 1 ? spot.id : `${spot.id}-${holeLetter(i)}`,
      fitting: spot.id,
      role: spot.role,
      angle: wrapDeg(angle + acrossAngle(p.across, radius)),
      height: spot.height + p.upright,
      drill: pattern.drill,
      ...(pattern.pilot === undefined ? {} : { pilot: pattern.pilot }),
      edge: spot.edge,
      across: p.across,
      axes: pattern.axes,
    }),
  );
  return { ...rest, angle, ...(foot === undefined ? {} : { foot }), holes };
}

/** a … z, then aa, ab …: a letter is easier to find on a shell than a second number. */
export function holeLetter(i: number): string {
  const last = String.fromCharCode(97 + (i % 26));
  return i < 26 ? last : holeLetter(Math.floor(i / 26) - 1) + last;
}

/** A fitting named `leg` in two places is `leg-1`; one called `leg-1` elsewhere must give way. */
function distinct(placed: readonly Placed[]): Placed[] {
  const taken = new Set<string>();
  return placed.map((p) => {
    if (!taken.has(p.id) && p.holes.every((h) => !taken.has(h.id))) {
      taken.add(p.id);
      for (const h of p.holes) taken.add(h.id);
      return p;
    }
    let n = 2;
    while (taken.has(`${p.id}-no${n}`)) n++;
    const id = `${p.id}-no${n}`;
    taken.add(id);
    return { ...p, id, holes: p.holes.map((h) => ({ ...h, id: h.id.replace(p.id, id), fitting: id })) };
  });
}
