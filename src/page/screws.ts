import { washerOutside } from '../data/screws.ts';
import { lay } from '../fit/bench.ts';
import { limitsOf } from '../fit/limits.ts';
import type { Jig } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { ScrewCard } from '../picture/screw.ts';
import type { Mm } from '../units/scalar.ts';

/** The screw at a hole, fitting or row that a finding speaks of; undefined where no screw is given. */
export function screwAt(jig: Jig, layout: Layout, at: string): ScrewCard | undefined {
  const bench = lay(jig, layout, limitsOf(jig));
  const group = bench.groups.find(
    (g) =>
      (g.row ? `${g.name}-lugs` : g.name) === at ||
      g.placed.some((p) => p.id === at || p.holes.some((h) => h.id === at)),
  );
  const pattern = group?.row?.holes ?? group?.fitting?.holes;
  const holes = group?.placed.flatMap((p) => p.holes) ?? [];
  const hole = holes.find((h) => h.id === at) ?? holes[0];
  if (!group || !pattern?.screw || !hole) return undefined;
  return {
    text: pattern.screw.text,
    units: jig.units,
    length: pattern.screw.length,
    diameter: pattern.screw.thread.diameter,
    drill: pattern.drill,
    washer: pattern.washer ?? 0,
    washerOutside: washerOutside(pattern.screw.thread),
    ring: ringBehind(jig, hole.height),
    wall: layout.wall,
    gasket: (group.row?.foot ?? group.fitting?.foot)?.gasket ?? 0,
    ...(pattern.tapped === undefined ? {} : { tapped: pattern.tapped }),
  };
}

/** Thickness of the reinforcement ring behind a height, 0 where there is none. */
function ringBehind(jig: Jig, height: Mm): Mm {
  const { rings, depth } = jig.shell;
  const top = rings.top && height > depth - rings.top.width ? rings.top.thickness : 0;
  const bottom = rings.bottom && height < rings.bottom.width ? rings.bottom.thickness : 0;
  return Math.max(top, bottom);
}
