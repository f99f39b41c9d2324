import { fromEdge, lay, type Side, sidesServed } from '../fit/bench.ts';
import { limitsOf } from '../fit/limits.ts';
import { type RodWay, rodWays } from '../fit/rod-ways.ts';
import { soundDepths } from '../fit/rods.ts';
import type { Jig, LugRow } from '../model/jig.ts';
import type { Layout } from '../model/layout.ts';
import type { RodCard } from '../picture/rod-card.ts';
import type { SideView } from '../picture/side.ts';
import { MM_PER_INCH } from '../units/scalar.ts';
import { tolerance } from '../units/tolerance.ts';

/** The drawing's rod when its thread is not named: a common size; only its length is judged (judgement, no source). */
const USUAL_ROD = 0.216 * MM_PER_INCH;

/** A picture and the places (`at` of a finding) it speaks for. */
export interface Card<T> {
  readonly at: readonly string[];
  readonly row: string;
  readonly view: T;
}

/** One rod picture for all rows whose rods stand alike. */
export function rodCards(jig: Jig, layout: Layout): readonly Card<RodCard>[] {
  const { ways } = rodWays(lay(jig, layout, limitsOf(jig)));
  return together(
    ways.flatMap((way) => {
      const view = cardOf(jig, way);
      return view
        ? [
            {
              at: [way.at, way.row.name],
              row: `${way.row.name}${jig.ends === 'both' ? ` (${way.side} end)` : ''}`,
              view,
            },
          ]
        : [];
    }),
  );
}

function cardOf(jig: Jig, way: RodWay): RodCard | undefined {
  if (way.length === undefined) return undefined;
  const depths = soundDepths(way, limitsOf(jig));
  const [least, most] = [way.way + depths.from, way.way + depths.to];
  const fits = (s: number): boolean => s >= least - tolerance.noise && s <= most + tolerance.noise;
  return {
    name: 'its lug',
    way: way.way,
    length: way.length,
    washer: way.washer,
    ear: way.ear,
    catch: way.rod.catch,
    bottom: way.rod.bottom,
    travel: way.travel,
    ...(way.threaded === undefined ? {} : { threaded: way.threaded }),
    units: jig.units,
    diameter: way.thread?.diameter ?? USUAL_ROD,
    // Without a thread nobody can say how much it must bite, so no window is claimed.
    ...(way.thread && least <= most ? { window: { least, most } } : {}),
    fitting: way.thread ? (jig.rods?.stock ?? []).filter(fits) : [],
  };
}

/** One cut through the wall for all rows that look alike from their rim. */
export function sideCards(jig: Jig): readonly Card<SideView>[] {
  return together(
    jig.rows.flatMap((row) =>
      sidesServed(jig, row).flatMap((side) => {
        const view = sideOf(jig, row, side);
        return view
          ? [{ at: [`${row.name}-lugs`, `${row.name}-lugs-${side}`, `hoop-${side}`, row.name], row: row.name, view }]
          : [];
      }),
    ),
  );
}

function sideOf(jig: Jig, row: LugRow, side: Side): SideView | undefined {
  const hoop = jig.hoops[side];
  if (!row.foot || !row.rod || hoop?.ear === undefined || row.rod.standoff === undefined) return undefined;
  const distance = fromEdge(side, row.height, jig.shell.depth);
  const toRim = side === 'top' ? 1 : -1;
  const { up, down, gasket } = row.foot;
  return {
    name: 'the lug',
    wall: jig.shell.wall,
    distance,
    foot: { up: side === 'top' ? up : down, down: side === 'top' ? down : up, gasket },
    face: row.rod.face,
    standoff: row.rod.standoff,
    ...(hoop.earCircle === undefined ? {} : { earOut: hoop.earCircle / 2 - jig.shell.radius }),
    ear: hoop.ear,
    ...(hoop.skirt === undefined ? {} : { skirt: hoop.skirt }),
    travel: jig.rods?.travel ?? 0,
    units: jig.units,
    holes: row.holes.points.map((p) => ({ down: distance - toRim * p.upright, drill: row.holes.drill })),
  };
}

function together<T>(cards: readonly Card<T>[]): readonly Card<T>[] {
  const alike = new Map<string, Card<T>>();
  for (const card of cards) {
    const key = JSON.stringify(card.view);
    const other = alike.get(key);
    const row = other && other.row !== card.row ? `${other.row} and ${card.row}` : card.row;
    alike.set(key, other ? { ...other, at: [...other.at, ...card.at], row } : card);
  }
  return [...alike.values()];
}
