import { Helper } from 'dxf';
import type { IArcEntity, ICircleEntity, ILwpolylineEntity } from 'dxf-parser';
import DxfDrawing from 'dxf-writer';
import { describe, expect, test } from 'vitest';
import { chain, circle, polygon, roundedRectangle, segment } from '../../src/drawing/paths.ts';
import { type Drawing, LAYERS, type Shape } from '../../src/model/drawing.ts';
import { toDxf } from '../../src/write/dxf.ts';
import { arcPath } from '../helpers/flat.ts';
import { readDxf } from '../helpers/read-dxf.ts';

const sheet = (shapes: readonly Shape[]): Drawing => ({
  title: 'test',
  min: { x: 0, y: 0 },
  max: { x: 600, y: 400 },
  shapes,
});

/** Group codes and values as the format's reference lays them out, read without any library. */
function tags(text: string): [number, string][] {
  const lines = text.trimEnd().split('\n');
  expect(lines.length % 2).toBe(0);
  return Array.from({ length: lines.length / 2 }, (_, i) => [Number(lines[2 * i]), lines[2 * i + 1]!]);
}

const everything: Drawing = sheet([
  roundedRectangle('CUT-OUTER', 'edge', { x: 0, y: 0 }, { x: 100, y: 60 }, 10),
  circle('CUT-INNER', 'hole', { x: 20, y: 30 }, 2.9, 'lug-top-1-a'),
  arcPath('SCORE', 'arc', { x: 50, y: 30 }, 7, 200, 80),
  segment('REFERENCE', 'check', { x: 0, y: 70 }, { x: 100, y: 70 }),
  chain('ENGRAVE', 'letters', [
    { x: 1, y: 1 },
    { x: 2, y: 3 },
    { x: 4, y: 1 / 3 },
  ]),
]);

describe('DXF', () => {
  const text = toDxf(everything);

  test('says millimetres and its extents, and ends as the format asks', () => {
    const parsed = readDxf(text);
    expect(parsed.header['$INSUNITS']).toBe(4);
    expect(parsed.header['$MEASUREMENT']).toBe(1);
    expect(parsed.header['$EXTMAX']).toMatchObject({ x: 600, y: 400 });
    expect(new Helper(text).parsed.header.insUnits).toBe(4);
    expect(text.endsWith('EOF\n')).toBe(true);
  });

  test('holds only lines, arcs, circles and polylines, on layers named by purpose', () => {
    const parsed = readDxf(text);
    expect(parsed.entities.map((e) => [e.type, e.layer])).toEqual([
      ['LWPOLYLINE', 'ENGRAVE'],
      ['LINE', 'REFERENCE'],
      ['ARC', 'SCORE'],
      ['CIRCLE', 'CUT-INNER'],
      ['LWPOLYLINE', 'CUT-OUTER'],
    ]);
  });

  test('a rounded rectangle of 100 x 60, corners 10, reads back with bulge tan(22.5 deg)', () => {
    const parsed = readDxf(text);
    const p = parsed.entities.find((e) => e.layer === 'CUT-OUTER') as ILwpolylineEntity;
    expect(p.shape).toBe(true);
    expect(p.vertices).toHaveLength(8);
    expect(p.vertices.map((v) => v.bulge ?? 0)).toEqual(
      [0, 1, 0, 1, 0, 1, 0, 1].map((b) => expect.closeTo(b * Math.tan(Math.PI / 8), 11)),
    );
    const own = new Helper(toDxf(sheet([everything.shapes[0]!]))).toPolylines();
    expect(own.bbox).toMatchObject({ min: { x: 0, y: 0 }, max: { x: 100, y: 60 } });
    expect(own.polylines[0]!.vertices.length).toBeGreaterThan(8);
  });

  test('circles and arcs are where they were drawn, clockwise ones too', () => {
    const parsed = readDxf(text);
    const hole = parsed.entities.find((e) => e.type === 'CIRCLE') as ICircleEntity;
    expect(hole.center).toMatchObject({ x: 20, y: 30 });
    expect(hole.radius).toBe(2.9);
    const a = parsed.entities.find((e) => e.type === 'ARC') as IArcEntity;
    // Drawn clockwise from 200 to 80 deg: the format runs the same arc from 80 to 200, in radians as this reader gives it.
    expect(a.startAngle).toBeCloseTo((80 * Math.PI) / 180, 9);
    expect(a.endAngle).toBeCloseTo((200 * Math.PI) / 180, 9);
  });

  test('handles are unique, every layer used is declared, the vertex count is true, numbers are plain decimals', () => {
    const all = tags(text);
    const handles = all.filter(([code]) => code === 5 || code === 105).map(([, v]) => v);
    const seed = all[all.findIndex(([, v]) => v === '$HANDSEED') + 1]![1];
    const own = handles.filter((_, i) => i > 0);
    expect(new Set(own).size).toBe(own.length);
    expect(Math.max(...own.map((h) => Number.parseInt(h, 16)))).toBeLessThan(Number.parseInt(seed, 16));
    for (const [code, value] of all) {
      if (code >= 10 && code <= 59) expect(value, `code ${code}`).toMatch(/^-?\d+(\.\d+)?$/);
    }
    const starts = all.flatMap(([code, v], i) => (code === 0 && v === 'LWPOLYLINE' ? [i] : []));
    expect(starts).toHaveLength(2);
    for (const i of starts) {
      const end = all.findIndex(([code], k) => k > i && code === 0);
      const body = all.slice(i, end);
      expect(body.filter(([code]) => code === 10)).toHaveLength(Number(body.find(([code]) => code === 90)![1]));
    }
  });

  test('the same drawing gives the same bytes, whatever was written before', () => {
    toDxf(
      sheet([
        polygon('SCORE', 'p', [
          { x: 0, y: 0 },
          { x: 1, y: 0 },
          { x: 0, y: 1 },
        ]),
      ]),
    );
    expect(toDxf(everything)).toBe(text);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY, 1e9])('a coordinate of %d is refused', (x) => {
    expect(() => toDxf(sheet([circle('SCORE', 'c', { x, y: 0 }, 1)]))).toThrow(/unwritable/);
  });
});

test('the library that frames the file draws the same entities by its own calls', () => {
  const own = new DxfDrawing();
  own.setUnits('Millimeters');
  for (const layer of LAYERS) own.addLayer(layer, 7, 'CONTINUOUS');
  const b = Math.tan(Math.PI / 8);
  own.setActiveLayer('ENGRAVE').drawPolyline(
    [
      [1, 1],
      [2, 3],
      [4, 0.333333],
    ],
    false,
  );
  own.setActiveLayer('REFERENCE').drawLine(0, 70, 100, 70);
  own.setActiveLayer('SCORE').drawArc(50, 30, 7, 80, 200);
  own.setActiveLayer('CUT-INNER').drawCircle(20, 30, 2.9);
  own.setActiveLayer('CUT-OUTER').drawPolyline(
    [
      [10, 0],
      [90, 0, b],
      [100, 10],
      [100, 50, b],
      [90, 60],
      [10, 60, b],
      [0, 50],
      [0, 10, b],
    ] as never,
    true,
  );
  const plain = (text: string) =>
    readDxf(text).entities.map((e) =>
      JSON.parse(
        JSON.stringify({ ...e, handle: 0, ownerHandle: 0 }, (_, v) =>
          typeof v === 'number' ? Math.round(v * 1e9) / 1e9 : v,
        ),
      ),
    );
  const strip = (list: Record<string, unknown>[]) =>
    list.map(({ handle, ownerHandle, lineType, lineweight, colorIndex, color, ...rest }) => rest);
  expect(strip(plain(toDxf(everything)))).toEqual(strip(plain(own.toDxfString())));
});

describe('the plain flavour for old machines', () => {
  const text = toDxf(everything, { flavour: 'plain' });

  test('is AC1009 in millimetres, with lines, arcs and circles alone', () => {
    const parsed = readDxf(text);
    expect(parsed.header['$ACADVER']).toBe('AC1009');
    expect(parsed.header['$INSUNITS']).toBe(4);
    expect([...new Set(parsed.entities.map((e) => e.type))].toSorted()).toEqual(['ARC', 'CIRCLE', 'LINE']);
    expect(new Helper(text).toPolylines().bbox).toMatchObject({ min: { x: 0, y: 0 }, max: { x: 100, y: 70 } });
    const layers = Object.keys(parsed.tables['layer'].layers);
    for (const e of parsed.entities) expect(layers).toContain(e.layer);
  });

  test('a rounded rectangle is closed: every end meets exactly one other', () => {
    const ends = new Map<string, number>();
    const meet = (x: number, y: number): void => {
      const key = `${x.toFixed(5)},${y.toFixed(5)}`;
      ends.set(key, (ends.get(key) ?? 0) + 1);
    };
    for (const e of readDxf(text).entities.filter((x) => x.layer === 'CUT-OUTER')) {
      if (e.type === 'LINE')
        for (const v of (e as unknown as { vertices: { x: number; y: number }[] }).vertices) meet(v.x, v.y);
      if (e.type !== 'ARC') continue;
      const a = e as IArcEntity;
      for (const t of [a.startAngle, a.endAngle])
        meet(a.center.x + a.radius * Math.cos(t), a.center.y + a.radius * Math.sin(t));
    }
    expect([...ends.values()]).toEqual(Array(8).fill(2));
  });

  test('colours follow the wishes of a service, layer by layer', () => {
    const wished = toDxf(everything, { lines: { 'CUT-OUTER': { colour: '#12AB34' } } });
    expect(wished.split('\n')).toContain(String(0x12ab34));
    expect(() => toDxf(everything, { lines: { SCORE: { colour: 'red' } } })).toThrow(/#rrggbb/);
  });
});
