import { areaD } from 'clipper2-ts';
import { fromArrayBuffer } from 'manifold-3d/lib/import-3mf.js';
import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import type { Vec3 } from '../../src/collar/plan.ts';
import { signedArea } from '../../src/drawing/paths.ts';
import { toThreeMf } from '../../src/write/threemf.ts';
import { triangulate } from '../../src/write/triangulate.ts';
import { crc32 } from '../../src/write/zip.ts';
import { seeded } from '../helpers/flat.ts';
import { demo, planned, type Raw } from '../helpers/jigs.ts';
import { bodyOf, solidKernel } from '../helpers/solid.ts';

/** Coarse, for the reader takes its time. */
const OPTIONS = { title: 'Bench <collar> & "lip"', chord: 0.4 };

type Point = { readonly x: number; readonly y: number };

const area = (ring: readonly Point[]): number => Math.abs(areaD(ring.map((p) => ({ x: p.x, y: p.y }))));

describe('filling a flat contour with triangles', () => {
  const check = (outline: Point[], holes: Point[][]): void => {
    const all = [outline, ...holes].flat();
    const triangles = triangulate(outline, holes);
    // Euler: a disc with h holes and n corners takes n + 2h - 2 triangles.
    expect(triangles).toHaveLength(all.length + 2 * holes.length - 2);
    let sum = 0;
    for (const t of triangles) {
      const [a, b, c] = t.map((i) => all[i] as Point) as [Point, Point, Point];
      const twice = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
      expect(twice).toBeGreaterThan(-1e-9);
      sum += twice / 2;
    }
    expect(sum).toBeCloseTo(area(outline) - holes.reduce((s, h) => s + area(h), 0), 6);
    // Every edge of the contours is one triangle's, every other edge two triangles' that run it both ways: no crack.
    const uses = new Map<string, number>();
    for (const [a, b, c] of triangles)
      for (const [p, q] of [
        [a, b],
        [b, c],
        [c, a],
      ] as const)
        uses.set(`${p} ${q}`, (uses.get(`${p} ${q}`) ?? 0) + 1);
    for (const [edge, count] of uses) expect(count, edge).toBe(1);
    const lone = [...uses.keys()].filter((e) => !uses.has(e.split(' ').reverse().join(' ')));
    expect(lone).toHaveLength(all.length);
  };
  const round = (x: number, y: number, r: number, n: number): Point[] =>
    Array.from({ length: n }, (_, i) => ({
      x: x + r * Math.cos((2 * Math.PI * i) / n),
      y: y + r * Math.sin((2 * Math.PI * i) / n),
    }));

  test('a square, a comb, a ring, a grid of holes in line', () => {
    check(
      [
        { x: 0, y: 0 },
        { x: 4, y: 0 },
        { x: 4, y: 4 },
        { x: 0, y: 4 },
      ],
      [],
    );
    const comb: Point[] = [
      { x: 0, y: -2 },
      { x: 40, y: -2 },
    ];
    for (let i = 20; i > 0; i--)
      comb.push({ x: 2 * i, y: 0 }, { x: 2 * i, y: 5 }, { x: 2 * i - 1, y: 5 }, { x: 2 * i - 1, y: 0 });
    check(comb, []);
    check(round(0, 0, 200, 240), [round(0, 0, 170, 240)]);
    const grid = Array.from({ length: 25 }, (_, i) => round(10 * (i % 5), 10 * Math.floor(i / 5), 3, 16));
    check(
      [
        { x: -5, y: -5 },
        { x: 45, y: -5 },
        { x: 45, y: 45 },
        { x: -5, y: 45 },
      ],
      grid,
    );
  });

  test('forty seeded stars with holes round their middles (seeds 1 to 40)', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const random = seeded(seed);
      const n = 8 + Math.floor(random() * 60);
      const star = Array.from({ length: n }, (_, i) => {
        const r = 60 + 100 * random();
        return { x: r * Math.cos((2 * Math.PI * i) / n), y: r * Math.sin((2 * Math.PI * i) / n) };
      });
      const holes = Array.from({ length: Math.floor(random() * 6) }, (_, i) => {
        const at = i * 1.1 + random() * 0.2;
        return round(25 * Math.cos(at), 25 * Math.sin(at), 3 + 8 * random(), 5 + Math.floor(random() * 30));
      });
      check(star, holes);
    }
  });

  test('a hole outside its outline is refused', () => {
    expect(() => triangulate(round(0, 0, 10, 20), [round(50, 0, 3, 8)])).toThrow(RangeError);
  });
});

describe('the package', () => {
  test('checksum: the published check value of CRC-32, "123456789" gives CBF43926', () => {
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
  });

  const cases: [string, () => Raw][] = [
    ['snare, rings', () => demo('jigs/kettle-row-snare.yaml')],
    [
      'rack tom, sectors',
      () => ({ ...demo('jigs/kettle-row-rack-tom.yaml'), collar: { build: 'sector', cut: 'router' } }),
    ],
  ];
  test.each(cases)('%s: read by another program, every body is closed, of its part, in its place', async (_, raw) => {
    const k = await solidKernel();
    const { jig, layout } = planned(raw());
    const { value: plan } = planCollar(jig, layout, { digest: 'abcdef0123' });
    const bytes = toThreeMf(plan.parts, plan.placements, OPTIONS);
    expect(Buffer.compare(bytes, toThreeMf(plan.parts, plan.placements, OPTIONS))).toBe(0);
    const doc = await fromArrayBuffer(bytes.slice().buffer);
    const nodes = doc
      .getRoot()
      .listNodes()
      .filter((n) => n.getMesh() !== null);
    expect(nodes).toHaveLength(plan.placements.length);

    const shifts = new Map<string, number[]>();
    for (const [i, node] of nodes.entries()) {
      const place = plan.placements[i];
      const part = plan.parts.find((p) => p.id === place?.part);
      const primitive = node.getMesh()?.listPrimitives()[0];
      const positions = primitive?.getAttribute('POSITION')?.getArray();
      const indices = primitive?.getIndices()?.getArray();
      if (place === undefined || part === undefined || positions == null || indices == null)
        throw new Error('lost a body');
      const mesh = new k.Mesh({
        numProp: 3,
        vertProperties: new Float32Array(positions),
        triVerts: new Uint32Array(indices),
      });
      // Refuses anything that is not closed and oriented outwards.
      const body = new k.Manifold(mesh);
      expect(body.status(), part.id).toBe('NoError');
      expect(body.genus(), part.id).toBe(part.inner.length);
      const net = signedArea(part.outer) - part.inner.reduce((s, h) => s + Math.abs(signedArea(h)), 0);
      // The reader may answer in metres: the size of the body says which.
      const scale = body.boundingBox().max[0] - body.boundingBox().min[0] < 2 ? 1000 : 1;
      const volume = body.volume() * scale ** 3;
      expect(volume, part.id).toBeGreaterThan(0);
      expect(Math.abs(volume / (net * place.thickness) - 1), part.id).toBeLessThan(0.05);

      const real = bodyOf(k, part, place).boundingBox();
      const world = body.transform(node.getWorldMatrix()).boundingBox();
      const factor = world.max[0] - world.min[0] < 2 && real.max[0] - real.min[0] > 2 ? 1000 : 1;
      // The reader's world has y up: its x, y, z are our x, z, -y.
      const [low, high] = [world.min.map((v) => v * factor), world.max.map((v) => v * factor)] as unknown as [
        Vec3,
        Vec3,
      ];
      const seen = { min: [low[0], -high[2], low[1]], max: [high[0], -low[2], high[1]] };
      const shift = [0, 1, 2].map((a) => (seen.min[a] as number) - (real.min[a] as number));
      const before = shifts.get(place.collar) ?? shift;
      shifts.set(place.collar, before);
      for (const a of [0, 1, 2]) {
        expect(seen.min[a], `${part.id} in the positive octant`).toBeGreaterThan(-0.001);
        // All parts of a collar are moved alike; chords of 0.4 mm are coarser than the comparison's.
        expect(Math.abs((shift[a] as number) - (before[a] as number)), `${part.id} axis ${a}`).toBeLessThan(0.85);
        expect(
          Math.abs((seen.max[a] as number) - (real.max[a] as number) - (shift[a] as number)),
          part.id,
        ).toBeLessThan(0.85);
      }
    }
    expect(shifts.size).toBe(new Set(plan.placements.map((p) => p.collar)).size);
  });
});
