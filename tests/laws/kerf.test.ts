import { fc, test } from '@fast-check/vitest';
import { describe, expect } from 'vitest';
import { cutLines, offsetPath } from '../../src/drawing/kerf.ts';
import {
  bounds,
  circle,
  moveShape,
  pathLength,
  placeShape,
  polar,
  polygon,
  reversed,
  roundedRectangle,
  signedArea,
} from '../../src/drawing/paths.ts';
import type { Path } from '../../src/model/drawing.ts';

/** A convex polygon: corners on a circle, at least 8 deg apart. */
const convex = fc
  .array(fc.integer({ min: 0, max: 44 }), { minLength: 3, maxLength: 12 })
  .map((steps) => [...new Set(steps)].toSorted((a, b) => a - b))
  .filter((s) => s.length >= 3)
  .map((s) =>
    polygon(
      'CUT-OUTER',
      'convex',
      s.map((k) => polar({ x: 200, y: -80 }, 60, 8 * k)),
    ),
  );

const small = fc.double({ min: 0.02, max: 0.5, noNaN: true });
const rounds = { numRuns: 120, seed: 7 };

const only = (paths: readonly Path[]): Path => {
  expect(paths).toHaveLength(1);
  return paths[0]!;
};

describe('kerf', () => {
  test.prop([convex, small], rounds)('grows a convex outline by its length times d and a full disc', (p, d) => {
    const grown = only(offsetPath(p, d));
    expect(signedArea(grown)).toBeCloseTo(signedArea(p) + pathLength(p) * d + Math.PI * d * d, 6);
    expect(pathLength(grown)).toBeCloseTo(pathLength(p) + 2 * Math.PI * d, 7);
  });

  test.prop([convex, small], rounds)('grown and shrunk again, a convex outline is itself', (p, d) => {
    const back = only(offsetPath(only(offsetPath(p, d)), -d));
    expect(signedArea(back)).toBeCloseTo(signedArea(p), 6);
    const [a, b] = [bounds([p]), bounds([back])];
    for (const [v, w] of [
      [a.min.x, b.min.x],
      [a.min.y, b.min.y],
      [a.max.x, b.max.x],
      [a.max.y, b.max.y],
    ] as const)
      expect(v).toBeCloseTo(w, 6);
  });

  test.prop([convex, small, fc.double({ min: -360, max: 360, noNaN: true })], rounds)(
    'turning, moving and walking the other way change nothing',
    (p, d, turn) => {
      const area = signedArea(only(offsetPath(p, d)));
      expect(signedArea(only(offsetPath(placeShape(p, turn, 0, 0), d)))).toBeCloseTo(area, 6);
      expect(signedArea(only(offsetPath(moveShape(p, 1234.5, -678.9), d)))).toBeCloseTo(area, 6);
      expect(signedArea(only(offsetPath(reversed(p), d)))).toBeCloseTo(-area, 6);
    },
  );

  test.prop([fc.double({ min: 0.5, max: 40, noNaN: true }), small], rounds)(
    'a hole drawn and cut has its finished size again',
    (radius, kerf) => {
      const part = {
        id: 'p',
        job: 'coupon' as const,
        name: 'p',
        outer: roundedRectangle('CUT-OUTER', 'e', { x: -50, y: -50 }, { x: 50, y: 50 }, 4),
        inner: [circle('CUT-INNER', 'h', { x: 1, y: 2 }, radius)],
        marks: [],
        quantity: 1,
        turns: true,
      };
      const { value, facts } = cutLines(part, kerf);
      expect(facts).toEqual([]);
      const hole = value.find((s) => s.kind === 'circle')!;
      expect((hole as { radius: number }).radius + kerf / 2).toBeCloseTo(radius, 12);
      const { min, max } = bounds([value.find((s) => s.layer === 'CUT-OUTER')!]);
      expect(max.x - min.x - kerf).toBeCloseTo(100, 9);
    },
  );
});
