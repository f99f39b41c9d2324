import type { Hole } from '../model/layout.ts';
import type { Mm } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';
import { leadAt, radiusThrough } from './bit.ts';
import { boreThroughDepth } from './bore-reach.ts';
import type { Bench } from './context.ts';
import { skinDepth, throughDepth } from './place.ts';
import type { Cut, Station } from './stations.ts';

/** What one place looks like when all is done. */
export interface Seen {
  readonly station: Station;
  /** Diameter that is clear through the whole wall; 0 = not through. */
  readonly clear: Mm;
  /** Diameter of the circle as large as what is clear: a bore is a polygon, whose corners reach further. */
  readonly size: Mm;
  /** Greatest width where the hole is to size: along the shell, and around it at the inner skin. */
  readonly widest: Mm;
  /** Width at the outer skin. */
  readonly entrance: Mm;
  /** Depth of the deepest tip. */
  readonly depth: Mm;
  /** Further down the tip must go for the full width to be through; 0 or less = through. */
  readonly short: Mm;
  /** How far the bit that went furthest beyond its own need did so; drills and mills, pilots too. */
  readonly past: Mm;
  readonly main: Cut;
  /** Width of the main cut alone at the outer skin. */
  readonly mouth: Mm;
  /** Width at the outer skin without the marks, if anything but marks was made. */
  readonly drilled: Mm;
}

/** A planned hole and what was made of it. */
export interface Made {
  readonly hole: Hole;
  readonly s: Seen;
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
    if (open > clear + tolerance.same || (clear === 0 && open === 0 && makesMore(cut, main, station, bench)))
      main = cut;
    clear = Math.max(clear, open);
    entrance = Math.max(entrance, atSkin);
    depth = Math.max(depth, cut.depth);
  }
  return {
    station,
    clear,
    size: clear > 0 && main.bore !== undefined ? Math.max(clear, main.bore.size) : clear,
    widest: Math.max(clear, widest),
    entrance,
    depth,
    short: wantedDepth(main, station, bench) - main.depth,
    past: Math.max(...cuts.filter((c) => !isMark(c)).map((c) => c.depth - wantedDepth(c, station, bench))),
    main,
    mouth: 2 * skinRadius(main, station, bench),
    drilled: 2 * Math.max(...cuts.filter((c) => isMark(c) === isMark(main)).map((c) => skinRadius(c, station, bench))),
  };
}

const isMark = (cut: Cut): boolean => cut.tool?.kind === 'v-bit';

/** Of two cuts that are not through, a drill's makes the hole before a mark, and a wider one before a narrower. */
function makesMore(cut: Cut, than: Cut, station: Station, bench: Bench): boolean {
  if (isMark(cut) !== isMark(than)) return isMark(than);
  return skinRadius(cut, station, bench) > skinRadius(than, station, bench) + tolerance.same / 2;
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
  const marks = cuts.slice(0, cuts.indexOf(s.main)).filter(isMark);
  return Math.max(0, ...marks.map((c) => 2 * skinRadius(c, s.station, bench)));
}

/** A V bit pushed in beyond its cone and half the wall: no mark any more. */
export const drivenMark = (s: Seen, bench: Bench): Cut | undefined =>
  s.station.cuts.find(
    (c) =>
      c.wood &&
      c.kind === 'plunge' &&
      c.tool?.kind === 'v-bit' &&
      c.depth > Math.max(leadAt(c.tool, c.radius), bench.context.shell.wall / 2) + tolerance.same,
  );

/** A mark that comes when the hole is there, and no wider than the hole: it meets air. */
export const markAfter = (s: Seen, bench: Bench): Cut | undefined =>
  s.station.cuts
    .slice(s.station.cuts.indexOf(s.main) + 1)
    .find((c) => c.wood && c.kind === 'plunge' && isMark(c) && 2 * skinRadius(c, s.station, bench) <= s.mouth);

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
export const isDeep = (s: Seen, bench: Bench): boolean => s.depth > bench.context.shell.wall / 2 && !isMark(s.main);

/** Where a finding about it is: on the shell, and on the machine. */
export const where = (s: Seen): Record<string, number> => ({
  angle: s.station.angle,
  height: s.station.height,
  x: s.station.x,
  a: s.station.a,
});
