import type { Hole } from '../model/layout.ts';
import { type Deg, type Mm, toDeg, toRad, wrapDeg } from '../units/scalar.ts';
import type { Removal } from './removal.ts';
import { skinGap } from './stations.ts';
import { goneOn, type Site, STRETCHES } from './stretches.ts';

/** A hole's mouth at one skin. */
export interface Opening {
  /** Middle of what is open. */
  readonly angle_deg: Deg;
  readonly height_mm: Mm;
  /** Of the circle of the same area, seen along the axis of the hole. */
  readonly diameter_mm: Mm;
  readonly along_mm: Mm;
  readonly around_mm: Mm;
  readonly area_mm2: number;
}

/** What inspection finds at one place where wood is gone. */
export interface Inspected {
  /** The planned hole nearest to it, or `extra-1` …. */
  readonly id: string;
  readonly entrance: Opening | null;
  /** null: not through. */
  readonly exit: Opening | null;
  /** Angle between the hole's axis and the radius through its mouth. */
  readonly lean_deg: Deg;
  /** Way of the mouth's middle from the planned place. */
  readonly off_mm: Mm | null;
  /** Mouth and exit against the planned size. */
  readonly entrance_error_mm: Mm | null;
  readonly exit_error_mm: Mm | null;
  readonly removed_mm3: number;
  /** Wood left between this mouth and the nearest other one; null when it is alone. */
  readonly wall_left_mm: Mm | null;
}

/** Where holes should be: a layout, or a list of one's own. */
export interface Wanted {
  readonly holes: readonly Pick<Hole, 'id' | 'angle' | 'height' | 'drill'>[];
}

/**
 * Measures every place where wood is gone, on both skins, and sets it against the plan.
 * @param removal what `removal` gave
 * @param plan where the holes should be
 * @returns one entry a place, mm, degrees and mm^3
 * @throws never
 * @source derived: areas and middles of what is gone
 */
export function inspect(removal: Removal, plan: Wanted): Inspected[] {
  const { bench } = removal;
  const seen = removal.sites.map((site) => {
    const layers = site.radii.length - 2;
    const entrance = opening(site, layers, removal);
    const exit = opening(site, layers + 1, removal);
    return { site, entrance, exit };
  });
  const taken = new Set<string>();
  let extra = 0;
  const named = seen.map((s) => {
    const at = s.entrance ?? s.exit;
    let best: { id: string; drill: Mm; gap: Mm } | undefined;
    if (at !== null)
      for (const hole of plan.holes) {
        const gap = skinGap({ angle: at.angle_deg, height: at.height_mm }, hole, bench.radius);
        if (gap < hole.drill / 2 + 1 && (best === undefined || gap < best.gap) && !taken.has(hole.id))
          best = { id: hole.id, drill: hole.drill, gap };
      }
    if (best) taken.add(best.id);
    return { ...s, best, id: best?.id ?? `extra-${++extra}` };
  });
  return named.map(({ site, entrance, exit, best, id }, i) => ({
    id,
    entrance,
    exit,
    lean_deg: entrance && exit ? lean(entrance, exit, removal, site) : 0,
    off_mm: best?.gap ?? null,
    entrance_error_mm: best && entrance ? entrance.diameter_mm - best.drill : null,
    exit_error_mm: best && exit ? exit.diameter_mm - best.drill : null,
    removed_mm3: site.volume,
    wall_left_mm: wallLeft(
      i,
      named.map((n) => n.entrance),
      bench.radius,
    ),
  }));
}

function opening(site: Site, layer: number, removal: Removal): Opening | null {
  const { bench } = removal;
  const rho = site.radii[layer]!;
  let sum = 0;
  let momentX = 0;
  let momentTurn = 0;
  let along = 0;
  for (let j = 0; j < site.lines; j++) {
    const cell = layer * site.lines + j;
    const gone = goneOn(site, cell);
    if (gone === 0) continue;
    const weight = site.weights[cell]!;
    sum += gone * weight;
    momentTurn += gone * weight * site.turns[cell]!;
    along = Math.max(along, gone);
    for (let i = 0; i < site.counts[cell]!; i++) {
      const a = site.stretches[(cell * STRETCHES + i) * 2]!;
      const b = site.stretches[(cell * STRETCHES + i) * 2 + 1]!;
      momentX += ((b * b - a * a) / 2) * weight;
    }
  }
  if (sum === 0) return null;
  const x = momentX / sum;
  const turn = momentTurn / sum;
  // A mouth is looked at along the hole's axis, where the skin beside it is foreshortened by the cosine.
  let flat = 0;
  for (let j = 0; j < site.lines; j++) {
    const cell = layer * site.lines + j;
    const gone = goneOn(site, cell);
    if (gone > 0) flat += gone * site.weights[cell]! * Math.cos(toRad(site.turns[cell]! - turn));
  }
  const area = flat * rho;
  return {
    angle_deg: wrapDeg(bench.context.datum === 'bottom' ? turn : -turn),
    height_mm: bench.context.datum === 'bottom' ? x : bench.depth - x,
    diameter_mm: Math.sqrt((4 * area) / Math.PI),
    along_mm: along,
    around_mm: (4 * area) / (Math.PI * along),
    area_mm2: area,
  };
}

/** The way from mouth to exit against the radius through the mouth. */
function lean(entrance: Opening, exit: Opening, removal: Removal, site: Site): Deg {
  const inside = site.radii[site.radii.length - 1]!;
  let turn = wrapDeg(exit.angle_deg - entrance.angle_deg);
  if (turn > 180) turn -= 360;
  const aside = Math.hypot(inside * Math.sin(toRad(turn)), exit.height_mm - entrance.height_mm);
  return toDeg(Math.atan2(aside, removal.bench.radius - inside * Math.cos(toRad(turn))));
}

function wallLeft(i: number, mouths: readonly (Opening | null)[], radius: Mm): Mm | null {
  const own = mouths[i];
  if (!own) return null;
  let least = Infinity;
  mouths.forEach((other, k) => {
    if (
      k === i ||
      !other ||
      Math.abs(other.height_mm - own.height_mm) - (own.diameter_mm + other.diameter_mm) / 2 > least
    )
      return;
    const gap = skinGap(
      { angle: own.angle_deg, height: own.height_mm },
      { angle: other.angle_deg, height: other.height_mm },
      radius,
    );
    least = Math.min(least, gap - (own.diameter_mm + other.diameter_mm) / 2);
  });
  return least === Infinity ? null : least;
}
