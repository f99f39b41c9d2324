import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { leadAt, radiusThrough } from './bit.ts';
import type { Bench } from './context.ts';
import { boreThroughDepth } from './episode.ts';
import { skinDepth, throughDepth } from './place.ts';
import type { Cut, Station } from './stations.ts';

/** What one place looks like when all is done. */
export interface Seen {
  readonly station: Station;
  /** Diameter that is clear through the whole wall; 0 = not through. */
  readonly clear: Mm;
  /** Greatest width where the hole is to size: along the shell, and around it at the inner skin. */
  readonly widest: Mm;
  /** Width at the outer skin. */
  readonly entrance: Mm;
  /** Depth of the deepest tip. */
  readonly depth: Mm;
  /** Further down the tip must go for the full width to be through; 0 or less = through. */
  readonly short: Mm;
  readonly main: Cut;
}

/** The hole a station has become, or undefined when the bit only went down in the air or along a line. */
export function seen(station: Station, bench: Bench): Seen | undefined {
  const cuts = station.cuts.filter((c) => c.wood && c.kind !== 'line');
  if (cuts.length === 0) return undefined;
  let clear = 0;
  let widest = 0;
  let entrance = 0;
  let depth = 0;
  let main = cuts[0]!;
  // What makes the hole is the bit that is through with the greatest width; a mark beside it may be wider at the skin.
  for (const cut of cuts) {
    const open = 2 * clearRadius(cut, station, bench);
    if (open > 0) widest = Math.max(widest, cut.bore?.widest ?? 2 * cut.radius);
    const atSkin = 2 * skinRadius(cut, station, bench);
    if (open > clear + tolerance.same || (clear === 0 && atSkin > entrance + tolerance.same)) main = cut;
    clear = Math.max(clear, open);
    entrance = Math.max(entrance, atSkin);
    depth = Math.max(depth, cut.depth);
  }
  return {
    station,
    clear,
    widest: Math.max(clear, widest),
    entrance,
    depth,
    short: wantedDepth(main, station, bench) - main.depth,
    main,
  };
}

function clearRadius(cut: Cut, station: Station, bench: Bench): Mm {
  if (cut.kind === 'bore') return (cut.bore?.clear ?? 0) / 2;
  if (cut.tool === undefined) return 0;
  return radiusThrough(cut.tool, cut.depth + tolerance.same, (r) =>
    throughDepth(r, bench.radius, bench.insideAt(station.x, r), station.y),
  );
}

/** Width at the skin of the widest mark made before the hole itself; 0 when there is none. */
export function markBefore(s: Seen, bench: Bench): Mm {
  const cuts = s.station.cuts.filter((c) => c.wood && c.kind !== 'line');
  const marks = cuts.slice(0, cuts.indexOf(s.main)).filter((c) => c.tool?.kind === 'v-bit');
  return Math.max(0, ...marks.map((c) => 2 * skinRadius(c, s.station, bench)));
}

/** Half the width at the outer skin: the bit's own, or what of its point is in. */
function skinRadius(cut: Cut, station: Station, bench: Bench): Mm {
  if (cut.kind === 'bore') return Math.min(cut.widths.along, cut.widths.around);
  return cut.tool === undefined ? 0 : radiusThrough(cut.tool, cut.depth, () => skinDepth(station.y, bench.radius));
}

function wantedDepth(cut: Cut, station: Station, bench: Bench): Mm {
  if (cut.kind === 'bore') return boreThroughDepth(cut, station, bench);
  if (cut.tool === undefined) return 0;
  const r = cut.tool.diameter / 2;
  return throughDepth(r, bench.radius, bench.insideAt(station.x, cut.radius), station.y) + leadAt(cut.tool, r);
}

/** Not a mark: the bit went at least half-way through the wall. */
export const isDeep = (s: Seen, bench: Bench): boolean =>
  s.depth > bench.context.shell.wall / 2 && s.main.tool?.kind !== 'v-bit';
