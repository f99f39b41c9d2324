import { acrossAngle } from '../geometry/frames.ts';
import type { Fact, Level } from '../model/finding.ts';
import type { Fitting, Foot, Hoop, Jig, LugRow } from '../model/jig.ts';
import type { Hole, Layout, Placed } from '../model/layout.ts';
import { type Deg, type Mm, toRad, wrapDeg } from '../units/scalar.ts';
import type { FitLimits } from './limits.ts';
import { footOutline, moved, type Outline } from './outline.ts';

export type Side = 'top' | 'bottom';
export const SIDES: readonly Side[] = ['top', 'bottom'];

/** A footprint or a hole on the unrolled shell: u in [0, girth) at its left side, v = height. */
export interface Print {
  readonly kind: 'foot' | 'hole' | 'old';
  readonly id: string;
  readonly placed?: Placed;
  readonly hole?: Hole;
  /** A foot's outline about its pattern's origin; feet alike share one. */
  readonly shape?: Outline;
  /** Where the origin or the hole's centre lies. */
  readonly x: Mm;
  readonly y: Mm;
  readonly radius: Mm;
  readonly left: Mm;
  readonly right: Mm;
  readonly down: Mm;
  readonly up: Mm;
}

/** Everything laid on the bench once, for all checks. */
export interface Bench {
  readonly jig: Jig;
  readonly layout: Layout;
  readonly limits: FitLimits;
  readonly girth: Mm;
  readonly prints: readonly Print[];
  readonly footOf: ReadonlyMap<Placed, Print>;
  readonly groups: readonly Group[];
}

/** A row of lugs or a fitting: what the jig file says of it, and its places on the shell. */
export interface Group {
  readonly name: string;
  /** Words for a builder: `top lugs`, `strainer`. */
  readonly title: string;
  readonly key: string;
  readonly row?: LugRow;
  readonly fitting?: Fitting;
  readonly placed: readonly Placed[];
}

export function lay(jig: Jig, layout: Layout, limits: FitLimits): Bench {
  const girth = 2 * Math.PI * layout.radius;
  const prints = printsOf(jig, layout, girth);
  const footOf = new Map(prints.flatMap((p) => (p.kind === 'foot' && p.placed ? [[p.placed, p] as const] : [])));
  return { jig, layout, limits, girth, prints, footOf, groups: groupsOf(jig, layout) };
}

function groupsOf(jig: Jig, layout: Layout): Group[] {
  const byKey = new Map<string, Placed[]>();
  for (const p of layout.placed) {
    const list = byKey.get(p.key);
    if (list) list.push(p);
    else byKey.set(p.key, [p]);
  }
  const rows = jig.rows.map((row, i) => ({
    name: row.name,
    title: `${row.name} lugs`,
    key: `lugs.rows.${i}`,
    row,
    placed: byKey.get(`lugs.rows.${i}`) ?? [],
  }));
  const fittings = jig.fittings.map((fitting, i) => ({
    name: fitting.name,
    title: fitting.name,
    key: `fittings.${i}`,
    fitting,
    placed: byKey.get(`fittings.${i}`) ?? [],
  }));
  return [...rows, ...fittings];
}

function printsOf(jig: Jig, layout: Layout, girth: Mm): Print[] {
  const r = layout.radius;
  const shapes = new Map<Foot, Outline>();
  const shapeOf = (foot: Foot): Outline => {
    const known = shapes.get(foot);
    if (known) return known;
    const made = footOutline(foot, r);
    shapes.set(foot, made);
    return made;
  };
  const feet = layout.placed.flatMap((placed): Print[] => {
    if (!placed.foot) return [];
    const shape = shapeOf(placed.foot);
    const along = r * toRad(placed.angle);
    const x = along + turnHome(along + shape.left, girth);
    const y = placed.height;
    return [{ kind: 'foot', id: placed.id, placed, shape, x, y, radius: 0, ...boxAt(shape, x, y) }];
  });
  const holes = layout.placed.flatMap((placed) =>
    placed.holes.map(
      (hole): Print => ({
        kind: 'hole',
        id: hole.id,
        placed,
        hole,
        ...disc(r * toRad(hole.angle), hole.height, hole.drill / 2, girth),
      }),
    ),
  );
  const old = jig.shell.holes.map(
    (h, i): Print => ({
      kind: 'old',
      id: `old-hole-${i + 1}`,
      ...disc(r * toRad(h.angle), h.height, h.diameter / 2, girth),
    }),
  );
  return [...feet, ...holes, ...old];
}

const turnHome = (left: Mm, girth: Mm): Mm => -Math.floor(left / girth) * girth;

const boxAt = (o: Outline, x: Mm, y: Mm) => ({ left: o.left + x, right: o.right + x, down: o.down + y, up: o.up + y });

/** The outline of a foot's print where it lies, moved round the shell by `shift`. */
export const outlineOf = (print: Print, shift: Mm = 0): Outline | undefined =>
  print.shape && moved(print.shape, print.x + shift, print.y);

function disc(x: Mm, y: Mm, radius: Mm, girth: Mm) {
  const home = x + turnHome(x - radius, girth);
  return { x: home, y, radius, left: home - radius, right: home + radius, down: y - radius, up: y + radius };
}

/** Hoops a row serves: both ends of a double-ended lug, else the hoop of its own edge (from the middle: the nearer one). */
export function sidesServed(jig: Jig, row: LugRow): readonly Side[] {
  if (jig.ends === 'both') return SIDES;
  if (row.edge !== 'middle') return [row.edge];
  if (row.distance === 0 && jig.hoops.bottom && !jig.hoops.top) return ['bottom'];
  return [row.distance < 0 ? 'bottom' : 'top'];
}

export const hoopOf = (jig: Jig, side: Side): Hoop | undefined => jig.hoops[side];

/** Angle of a line that lies `across` from a fitting's own: its strap, its rod. More than the radius counts as the radius. */
export const lineAcross = ({ layout: { radius } }: Bench, angle: Deg, across: Mm): Deg =>
  wrapDeg(angle + acrossAngle(Math.max(-radius, Math.min(radius, across)), radius));

/** From the edge of that side to a height above the bottom edge. */
export const fromEdge = (side: Side, height: Mm, depth: Mm): Mm => (side === 'top' ? depth - height : height);

/** The line of the first of these key paths that has one, else of the nearest group one of them lies in. */
function lineOf(jig: Jig, ...keys: readonly string[]): number | undefined {
  for (const key of keys) if (jig.lines[key] !== undefined) return jig.lines[key];
  for (const key of keys) {
    for (let path = key; path.includes('.'); ) {
      path = path.slice(0, path.lastIndexOf('.'));
      if (jig.lines[path] !== undefined) return jig.lines[path];
    }
  }
  return undefined;
}

/** Rows and fittings among key paths, each once: `lugs.rows.0`, `fittings.2`. */
function groupsAmong(keys: readonly string[]): string[] {
  const found = keys.map((k) => /^(lugs\.rows|fittings)\.\d+/.exec(k)?.[0]).filter((k) => k !== undefined);
  return [...new Set(found)];
}

interface Raise {
  readonly level: Level;
  readonly id: string;
  readonly at: string;
  readonly measured?: number;
  readonly limit?: number;
  readonly unit?: string;
  readonly facts?: Fact['facts'];
  /** Key paths the finding speaks of, the most telling first. */
  readonly keys?: readonly string[];
}

export function raise(bench: Bench, r: Raise): Fact {
  const line = lineOf(bench.jig, ...(r.keys ?? []));
  const [group, group2] = groupsAmong(r.keys ?? []);
  return {
    level: r.level,
    id: r.id,
    at: r.at,
    measured: r.measured ?? null,
    limit: r.limit ?? null,
    unit: r.unit ?? 'mm',
    facts: { ...r.facts, ...(group === undefined ? {} : { group }), ...(group2 === undefined ? {} : { group2 }) },
    ...(line === undefined ? {} : { line }),
  };
}

/** A check that lacks its input says so; it never passes. */
export const notChecked = (
  bench: Bench,
  at: string,
  check: string,
  needs: readonly string[],
  ...keys: string[]
): Fact =>
  raise(bench, { level: 'note', id: 'not-checked', at, unit: '', facts: { check, needs: needs.join(', ') }, keys });
