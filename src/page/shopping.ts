import { sidesServed } from '../fit/bench.ts';
import type { Jig, LugRow } from '../model/jig.ts';
import { clip } from '../picture/svg.ts';
import type { PageData, Supply } from './data.ts';
import { both } from './number.ts';
import type { View } from './view.ts';
import { bits } from './work/step.ts';

/** What to have on the bench before starting. `what` and `why` are plain text. */
export function supplies(view: View, made: PageData['sheets'], collar: PageData['collar']): readonly Supply[] {
  return [
    ...rods(view.jig),
    ...screws(view),
    ...gaskets(view),
    ...drillBits(view),
    ...sheets(view.jig, made),
    ...(view.jig.method === 'collar' && collar ? collar.supplies : []),
  ];
}

function rods(jig: Jig): Supply[] {
  const out: Supply[] = [];
  for (const side of ['top', 'bottom'] as const) {
    const count = jig.rows.reduce((sum, row) => sum + rodsOf(jig, row, side), 0);
    if (count === 0) continue;
    const length = jig.rods?.length[side];
    const thread = jig.rods?.thread?.name ?? jig.rows.find((r) => r.rod?.takes)?.rod?.takes?.name;
    out.push({
      what: `Tension rods, ${side} hoop: ${length === undefined ? 'length not in the jig file' : `${both(length)} under the head`}${thread ? `, ${clip(thread, 30)}` : ''}`,
      count,
      why: 'one a lug',
    });
    out.push({
      what: `Rod washers, ${side} hoop${jig.rods ? `, ${both(jig.rods.washer)} thick` : ''}`,
      count,
      why: 'one a rod',
    });
  }
  return out;
}

/** A double-ended lug takes a rod from both hoops; a single one from its own edge. */
const rodsOf = (jig: Jig, row: LugRow, side: 'top' | 'bottom'): number =>
  sidesServed(jig, row).includes(side) ? row.count : 0;

function screws(view: View): Supply[] {
  const found = new Map<string, { count: number; for: Set<string> }>();
  const add = (key: string, count: number, what: string): void => {
    const entry = found.get(key) ?? { count: 0, for: new Set() };
    entry.count += count;
    entry.for.add(what);
    found.set(key, entry);
  };
  for (const row of view.jig.rows) {
    if (row.holes.screw) add(row.holes.screw.text, row.count * row.holes.points.length, 'lugs');
  }
  for (const f of view.jig.fittings) {
    if (f.holes.screw) add(f.holes.screw.text, f.at.length * f.holes.points.length, f.name);
  }
  return [...found].map(([text, { count, for: uses }]) => ({
    what: `Screws ${clip(text, 40)}`,
    count,
    why: `for ${[...uses].map((u) => clip(u, 24)).join(', ')}; a few to spare`,
  }));
}

function gaskets(view: View): Supply[] {
  const count = view.layout.placed.filter((p) => (p.foot?.gasket ?? 0) > 0).length;
  return count > 0 ? [{ what: 'Gaskets under the feet', count, why: 'one a casting that has one' }] : [];
}

function drillBits(view: View): Supply[] {
  const full = bits(view.holes, (h) => h.drill_mm);
  const pilot = bits(view.holes, (h) => h.pilot_mm);
  return [
    ...pilot.map((b) => ({ what: `Bit ${both(b.diameter)}`, count: 1, why: `pilots, ${b.holes.length} holes` })),
    ...full.map((b) => ({
      what: `Bit ${both(b.diameter)}`,
      count: 1,
      why: `${b.holes.length} ${b.holes.length === 1 ? 'hole' : 'holes'} to size`,
    })),
  ];
}

function sheets(jig: Jig, made: PageData['sheets']): Supply[] {
  const out: Supply[] = [];
  if (jig.method === 'cut-wrap' && made.wrap > 0) {
    out.push({
      what: `Sheets of ${jig.wrap.material.name}, ${sizeOf(jig.wrap.sheet)}`,
      count: made.wrap,
      why: 'wrap template',
    });
  }
  if (jig.method === 'collar') {
    if (made.collar > 0) {
      out.push({
        what: `Sheets of ${jig.collar.material.name}, ${sizeOf(jig.collar.sheet)}`,
        count: made.collar,
        why: 'drilling collar',
      });
    }
  }
  if (jig.method === 'paper-wrap' || jig.method === undefined) {
    out.push({
      what: `Paper, ${jig.wrap.paper.name.replace(/^paper-/, '').toUpperCase()}`,
      count: 'as printed',
      why: 'wrap.pdf',
    });
  }
  return out;
}

const sizeOf = (sheet: { readonly width: number; readonly height: number }): string =>
  `${sheet.width} × ${sheet.height} mm`;
