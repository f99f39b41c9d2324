import { readFileSync } from 'node:fs';
import { parseLine } from 'gcode-parser';
import { beforeAll, describe, expect, test } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { type Made, make } from '../../src/jobs/make.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Jig } from '../../src/model/jig.ts';
import { readDxf } from '../helpers/read-dxf.ts';

/**
 * The whole line, from a jig file's text to the files of the set: every hole's place is the same to 0.001 mm in
 * plan.json, holes.csv, the DXF (read by a reader that is not ours), the SVG, the program (words split by a general
 * library) and the dry run.
 */
const SOUND = ['snare', 'floor-tom', 'bass', 'rack-tom'];
const TEMPLATE = {
  style: '',
  styleHash: 'sha256-x',
  script: '',
  scriptHash: 'sha256-y',
  again: { packed: '', hash: 'sha256-z' },
};

interface Line {
  readonly jig: Jig;
  readonly made: Made;
  readonly text: (name: string) => string;
  readonly plan: { readonly holes: readonly PlanRow[]; readonly shell: { diameter_mm: number; depth_mm: number } };
}
interface PlanRow {
  readonly id: string;
  readonly angle_deg: number;
  readonly arc_mm: number;
  readonly height_mm: number;
  readonly from_top_mm: number;
  readonly drill_mm: number;
}

async function lineOf(name: string): Promise<Line> {
  const text = readFileSync(`jigs/kettle-row-${name}.yaml`, 'utf8');
  const parsed = parseText(text);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const resolved = resolveJig(parsed.raw, { lines: parsed.lines });
  if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
  const { jig } = resolved;
  const made = await make({
    jig,
    layout: layOut(jig),
    source: { text, object: parsed.raw, spans: parsed.spans(), lines: parsed.lines },
    digest: '0123456789ab',
    version: 'test',
    template: TEMPLATE,
    rotary: {},
    solid: false,
    anyway: false,
    onStage: () => undefined,
  });
  const file = (n: string): string => {
    const f = made.files.find((x) => x.name === n);
    if (!f) throw new Error(`no ${n}; there are ${made.files.map((x) => x.name).join(', ')}`);
    return typeof f.data === 'string' ? f.data : new TextDecoder('latin1').decode(f.data);
  };
  return { jig, made, text: file, plan: JSON.parse(file('plan.json')) };
}

/** Distance on the skin between two places, the shorter way round. */
function apart(diameter: number, a: { angle: number; height: number }, b: { angle: number; height: number }): number {
  const turn = ((((a.angle - b.angle) % 360) + 540) % 360) - 180;
  return Math.hypot((turn * Math.PI * diameter) / 360, a.height - b.height);
}

/** Every planned hole has one of its own among the found. */
function eachOnce(line: Line, found: readonly { angle: number; height: number }[]): void {
  const rest = [...found];
  for (const h of line.plan.holes) {
    const i = rest.findIndex(
      (f) => apart(line.plan.shell.diameter_mm, f, { angle: h.angle_deg, height: h.height_mm }) < 0.001,
    );
    expect(i, `${h.id} at ${h.angle_deg} deg, ${h.height_mm} mm`).toBeGreaterThanOrEqual(0);
    rest.splice(i, 1);
  }
  expect(rest).toEqual([]);
}

describe.each(SOUND)('%s', (name) => {
  let line: Line;
  let flat: (x: number) => number;
  beforeAll(async () => {
    line = await lineOf(name);
    // Neutral line of the sheet, a fraction k of its thickness from its inner face (bend allowance, sheet work).
    const r = line.jig.shell.radius + line.jig.wrap.material.neutral * line.jig.wrap.thickness;
    flat = (x) => (x / r) * (180 / Math.PI);
  });

  test('says no stop, and every file of the contract is there', () => {
    expect(line.made.findings.filter((f) => f.level === 'stop')).toEqual([]);
    const names = line.made.files.map((f) => f.name);
    for (const n of [
      'plan.json',
      'holes.csv',
      'wrap.dxf',
      'wrap.svg',
      'wrap.pdf',
      'wrap-sheet-1.dxf',
      'wrap-sheet-1.svg',
      'collar-sheet-1.dxf',
      'collar-sheet-1.svg',
      'rotary.nc',
      'dry-run.json',
      'readings.csv',
      'bench.html',
    ]) {
      expect(names).toContain(n);
    }
  });

  test('plan.json agrees with itself: arc = R theta, heights add up to the depth', () => {
    const { diameter_mm, depth_mm } = line.plan.shell;
    expect(line.plan.holes.length).toBeGreaterThan(10);
    for (const h of line.plan.holes) {
      expect(h.arc_mm).toBeCloseTo(((diameter_mm / 2) * (h.angle_deg * Math.PI)) / 180, 3);
      expect(h.height_mm + h.from_top_mm).toBeCloseTo(depth_mm, 3);
      expect(h.angle_deg).toBeGreaterThanOrEqual(0);
      expect(h.angle_deg).toBeLessThan(360);
    }
  });

  test('holes.csv', () => {
    const [head, ...rows] = line.text('holes.csv').trimEnd().split('\n');
    expect(head).toBe('id,fitting,role,angle_deg,arc_mm,height_mm,from_top_mm,drill_mm,pilot_mm');
    expect(rows).toHaveLength(line.plan.holes.length);
    for (const [i, row] of rows.entries()) {
      const [id, , , angle, arc, height, fromTop, drill] = row.split(',');
      const h = line.plan.holes[i] as PlanRow;
      expect(id).toBe(h.id);
      expect(angle).toMatch(/^\d+\.\d{5}$/);
      expect(height).toMatch(/^-?\d+\.\d{4}$/);
      expect([angle, arc, height, fromTop, drill].map(Number)).toEqual([
        h.angle_deg,
        h.arc_mm,
        h.height_mm,
        h.from_top_mm,
        h.drill_mm,
      ]);
    }
  });

  const drills = (l: Line): Set<string> => new Set(l.plan.holes.map((h) => h.drill_mm.toFixed(2)));

  test('wrap.dxf, read by dxf-parser', () => {
    const dxf = readDxf(line.text('wrap.dxf'));
    expect(dxf?.header?.['$INSUNITS']).toBe(4);
    const kerf = line.jig.wrap.sheet.kerf ?? line.jig.wrap.material.kerf;
    const circles = (dxf?.entities ?? []).filter((e) => e.type === 'CIRCLE' && e.layer === 'CUT-INNER') as unknown as {
      center: { x: number; y: number };
      radius: number;
    }[];
    eachOnce(
      line,
      circles.map((c) => ({ angle: flat(c.center.x), height: c.center.y })),
    );
    if (line.jig.wrap.marks === 'guide')
      for (const c of circles) expect(drills(line)).toContain((2 * c.radius + kerf).toFixed(2));
  });

  test('wrap.svg: circles named after their holes, y down from the top edge', () => {
    const circles = [...line.text('wrap.svg').matchAll(/<circle\b[^>]*>/g)].map((m) => {
      const attribute = (n: string) => new RegExp(`\\b${n}="([^"]*)"`).exec(m[0])?.[1] ?? '';
      return { id: attribute('id'), x: Number(attribute('cx')), y: Number(attribute('cy')) };
    });
    for (const h of line.plan.holes) {
      const c = circles.filter((x) => x.id === h.id);
      expect(c, h.id).toHaveLength(1);
      const at = { angle: flat(c[0]?.x ?? 0), height: line.plan.shell.depth_mm - (c[0]?.y ?? 0) };
      expect(apart(line.plan.shell.diameter_mm, at, { angle: h.angle_deg, height: h.height_mm })).toBeLessThan(0.001);
    }
  });

  test('rotary.nc, its words split by gcode-parser: X and A of every deepest place', () => {
    const { datum, machine } = line.jig.rotary;
    const sign = (datum === 'bottom') === (machine.a === 'iso') ? 1 : -1;
    const at: Record<string, number> = { X: Number.NaN, Z: Number.NaN, A: Number.NaN };
    const deep = new Map<string, { angle: number; height: number; z: number }>();
    for (const text of line.text('rotary.nc').split('\n')) {
      for (const [letter, value] of parseLine(text).words as [string, number][]) {
        if (letter in at) at[letter] = value;
      }
      // A cycle leaves Z where it was: only a line with a Z word goes anywhere deep.
      if (!/Z-/.test(text)) continue;
      const { X = 0, Z = 0, A = 0 } = at;
      if (!(Z < -line.jig.shell.wall)) continue;
      const height = datum === 'bottom' ? X : line.jig.shell.depth - X;
      deep.set(`${X} ${A}`, { angle: sign * A, height, z: Z });
    }
    eachOnce(line, [...deep.values()]);
  });

  test('dry-run.json finds exactly the planned holes, in place and size', () => {
    const dry = JSON.parse(line.text('dry-run.json')) as {
      seconds: number;
      findings: { level: string }[];
      holes: { id: string; angle_deg: number; height_mm: number; diameter_mm: number }[];
    };
    expect(dry.seconds).toBeGreaterThan(60);
    expect(dry.findings.filter((f) => f.level === 'stop')).toEqual([]);
    eachOnce(
      line,
      dry.holes.map((h) => ({ angle: h.angle_deg, height: h.height_mm })),
    );
    const planned = new Map(line.plan.holes.map((h) => [h.id, h]));
    for (const h of dry.holes) expect(h.diameter_mm).toBeCloseTo(planned.get(h.id)?.drill_mm ?? Number.NaN, 2);
  });

  test('the same jig gives the same bytes', async () => {
    const again = await lineOf(name);
    expect(again.made.files.map((f) => f.name)).toEqual(line.made.files.map((f) => f.name));
    for (const [i, f] of again.made.files.entries()) expect(f.data, f.name).toEqual(line.made.files[i]?.data);
  });
});

test('the jig that is wrong on purpose: the set says STOP and the program is withheld', async () => {
  const line = await lineOf('wrong');
  expect(line.made.stop).toBe(true);
  expect(line.made.files.map((f) => f.name)).not.toContain('rotary.nc');
  expect(line.text('bench.html')).toMatch(/STOP/);
});
