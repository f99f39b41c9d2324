import { sidesServed } from '../fit/bench.ts';
import type { Jig, LugRow, Pattern } from '../model/jig.ts';
import { clip } from '../picture/svg.ts';
import type { Mm } from '../units/scalar.ts';
import type { PageData, Supply } from './data.ts';
import { plural } from './html.ts';
import { both } from './number.ts';
import type { View } from './view.ts';
import { bits } from './work/step.ts';

/** What to have on the bench before starting. `what` and `why` are plain text. */
export function supplies(view: View, made: PageData['sheets'], collar: PageData['collar']): readonly Supply[] {
  const { jig } = view;
  return [
    ...rods(jig),
    ...screws(view),
    ...gaskets(view),
    ...drillBits(view),
    ...sheets(jig, made),
    ...(jig.method === 'collar' && collar ? collar.supplies : []),
  ];
}

/** Those of these keys that the jig file leaves out. */
const assumed = (jig: Jig, ...keys: readonly string[]): Pick<Supply, 'assumed'> => {
  const found = keys.filter((k) => jig.assumptions.some((a) => a.key === k));
  return found.length > 0 ? { assumed: found } : {};
};

function rods(jig: Jig): Supply[] {
  const out: Supply[] = [];
  for (const side of ['top', 'bottom'] as const) {
    const count = jig.rows.reduce((sum, row) => sum + rodsOf(jig, row, side), 0);
    if (count === 0) continue;
    const length = jig.rods?.length[side];
    const thread = jig.rods?.thread?.name ?? jig.rows.find((r) => r.rod?.takes)?.rod?.takes?.name;
    out.push({
      what: `Tension rods, ${side} hoop: ${length === undefined ? 'length not in the jig file' : `${both(length)} under the head`}, ${thread ? clip(thread, 30) : 'thread not in the jig file'}`,
      count,
      why: 'one a lug',
    });
    const washer = jig.rods?.washer ?? 0;
    out.push({
      what: `Rod washers, ${side} hoop${washer > 0 ? `, ${both(washer)} thick` : ': the rods were worked out without'}`,
      count,
      why: 'one a rod',
      ...assumed(jig, 'rods.washer'),
    });
  }
  return out;
}

/** A double-ended lug takes a rod from both hoops; a single one from its own edge. */
const rodsOf = (jig: Jig, row: LugRow, side: 'top' | 'bottom'): number =>
  sidesServed(jig, row).includes(side) ? row.count : 0;

/** What holes of a fitting may stay without a screw: they take a grommet or nothing. */
const UNSCREWED: readonly string[] = ['vent', 'badge'];

function screws({ jig }: View): Supply[] {
  const found = new Map<string, { count: number; for: Set<string> }>();
  const add = (pattern: Pattern, times: number, what: string): void => {
    const count = times * pattern.points.length;
    if (count === 0) return;
    const key = pattern.screw
      ? clip(pattern.screw.text, 40)
      : `for holes of ${both(pattern.drill)}: size not in the jig file`;
    const entry = found.get(key) ?? { count: 0, for: new Set() };
    entry.count += count;
    entry.for.add(what);
    found.set(key, entry);
  };
  for (const row of jig.rows) add(row.holes, row.count, 'lugs');
  for (const f of jig.fittings) if (f.holes.screw || !UNSCREWED.includes(f.role)) add(f.holes, f.at.length, f.name);
  return [...found].map(([what, { count, for: uses }]) => ({
    what: `Screws ${what}`,
    count,
    why: `for ${[...uses].map((u) => clip(u, 24)).join(', ')}; a few to spare`,
  }));
}

function gaskets(view: View): Supply[] {
  const count = view.layout.placed.filter((p) => (p.foot?.gasket ?? 0) > 0).length;
  return count > 0 ? [{ what: 'Gaskets under the feet', count, why: 'one a casting that has one' }] : [];
}

function drillBits({ jig, holes }: View): Supply[] {
  const drills = jig.assumptions.filter((a) => a.key.endsWith('.drill'));
  const bit = (diameter: Mm, why: string): Supply => ({
    what: `Bit ${both(diameter)}`,
    count: 1,
    why,
    ...assumed(jig, ...drills.filter((a) => Number.parseFloat(a.value) === diameter).map((a) => a.key)),
  });
  return [
    ...bits(holes, (h) => h.pilot_mm).map((b) => bit(b.diameter, `pilots, ${plural(b.holes.length, 'hole')}`)),
    ...bits(holes, (h) => h.drill_mm).map((b) => bit(b.diameter, `${plural(b.holes.length, 'hole')} to size`)),
  ];
}

/** Sheets for the way of marking that was chosen; paper when none was. */
function sheets(jig: Jig, made: PageData['sheets']): Supply[] {
  const { method, wrap, collar } = jig;
  if (method === 'cut-wrap' && made.wrap > 0)
    return [
      {
        what: `Sheets of ${wrap.material.name}, ${sizeOf(wrap.sheet)}`,
        count: made.wrap,
        why: 'wrap template',
        ...assumed(jig, 'wrap.material', 'wrap.sheet'),
      },
    ];
  if (method === 'collar' && made.collar > 0)
    return [
      {
        what: `Sheets of ${collar.material.name}, ${sizeOf(collar.sheet)}`,
        count: made.collar,
        why: 'drilling collar',
        ...assumed(jig, 'collar.material', 'collar.thickness', 'collar.sheet'),
      },
    ];
  if (method === 'paper-wrap' || method === undefined)
    return [
      {
        what: `Paper, ${wrap.paper.name.replace(/^paper-/, '').toUpperCase()}`,
        count: 'as printed',
        why: 'wrap.pdf',
        ...assumed(jig, 'wrap.paper'),
      },
    ];
  return [];
}

const sizeOf = (sheet: { readonly width: number; readonly height: number }): string =>
  `${sheet.width} × ${sheet.height} mm`;
