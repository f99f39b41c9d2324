import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromMachine, roll, toMachine, unroll } from '../../src/geometry/frames.ts';
import type { Layout } from '../../src/model/layout.ts';
import { wrapDeg } from '../../src/units/scalar.ts';
import { anyJig, inInches, inMm, inWords, type SixteenthJig, type Spelling, spell } from '../helpers/any-jig.ts';
import { planned } from '../helpers/jigs.ts';

const layout = (j: SixteenthJig, s: Spelling): Layout => planned(spell(j, s)).layout;

/** Holes as points in space, sorted: what is on the shell, whatever it is called. */
function onShell(l: Layout, change: (angle: number) => number = (a) => a): string[] {
  return l.holes
    .map((h) => {
      const t = (change(h.angle) * Math.PI) / 180;
      return [l.radius * Math.cos(t), l.radius * Math.sin(t), h.height, h.drill].map((n) =>
        (Math.round(n * 1e4) / 1e4 + 0).toFixed(3),
      );
    })
    .map((p) => p.join(' '))
    .sort();
}

/** Sets of points equal within a micrometre or two: compared pairwise after sorting by rounded place. */
function same(a: readonly string[], b: readonly string[]): void {
  expect(a.length).toBe(b.length);
  const rest = b.map((s) => s.split(' ').map(Number));
  for (const s of a) {
    const p = s.split(' ').map(Number);
    const i = rest.findIndex((q) => q.every((x, k) => Math.abs(x - (p[k] as number)) < 0.003));
    expect(i, `${s} has no partner`).toBeGreaterThanOrEqual(0);
    rest.splice(i, 1);
  }
}

const law = (check: (j: SixteenthJig, turn: number) => void): void =>
  fc.assert(
    fc.property(
      anyJig,
      fc.integer({ min: -7200, max: 7200 }).map((t) => t / 10),
      check,
    ),
    { numRuns: 60, seed: 20 },
  );

describe('the same holes are on the shell', () => {
  test('in millimetres, in inches and fractions, and in mm written into a file of inches', () => {
    law((j) => {
      same(onShell(layout(j, inMm)), onShell(layout(j, inInches)));
      same(onShell(layout(j, inMm)), onShell(layout(j, inWords)));
    });
  });
  test('in any order of fittings', () =>
    law((j) => same(onShell(layout(j, inMm)), onShell(layout(j, { ...inMm, reorder: true })))));
  test('after every angle is turned, and the shell turned back', () => {
    law((j, turn) =>
      same(
        onShell(layout(j, inMm)),
        onShell(layout(j, { ...inMm, turn }), (a) => a - turn),
      ),
    );
  });
  test('after everything is mirrored, and the shell mirrored back', () => {
    law((j) => {
      const points = (l: Layout, mirror: boolean) => onShell(l, (a) => (mirror ? -a : a));
      // A row measured from the bottom edge is turned, and symmetric patterns are their own turn and mirror image.
      same(points(layout(j, inMm), false).sort(), points(layout({ ...j }, { ...inMm, mirror: true }), true).sort());
    });
  });
});

describe('frames', () => {
  const point = fc.record({
    angle: fc.double({ min: -720, max: 720, noNaN: true }),
    height: fc.double({ min: -50, max: 600, noNaN: true }),
  });
  test('unroll and roll are inverse', () => {
    fc.assert(
      fc.property(point, fc.double({ min: 80, max: 400, noNaN: true }), (p, r) => {
        const q = roll(unroll(p, r), r);
        expect(q.angle).toBeCloseTo(p.angle, 9);
        expect(q.height).toBe(p.height);
      }),
    );
  });
  test('shell to machine and back, either datum, either wiring', () => {
    fc.assert(
      fc.property(point, fc.constantFrom('top', 'bottom'), fc.constantFrom('iso', 'reversed'), (p, datum, a) => {
        const frame = { datum, a, depth: 165 } as const;
        const q = fromMachine(toMachine(p, -5, frame), frame);
        expect(q.angle).toBeCloseTo(p.angle, 9);
        expect(q.height).toBeCloseTo(p.height, 9);
      }),
    );
  });
  // ISO 841: + A is anticlockwise seen from the + X end. With the bottom edge at X0, + X points up through the top edge,
  // and angles grow anticlockwise seen from above: A = + angle. With the top edge at X0 the view is from below: A = - angle.
  test('sign of A by ISO 841', () => {
    const at = { angle: 30, height: 40 };
    expect(toMachine(at, 0, { datum: 'bottom', depth: 150, a: 'iso' })).toMatchObject({ x: 40, a: 30 });
    expect(toMachine(at, 0, { datum: 'top', depth: 150, a: 'iso' })).toMatchObject({ x: 110, a: -30 });
    expect(toMachine(at, 0, { datum: 'bottom', depth: 150, a: 'reversed' }).a).toBe(-30);
  });
  test('wrapDeg stays in [0, 360)', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e5, max: 1e5, noNaN: true }), (d) => {
        const w = wrapDeg(d);
        expect(w >= 0 && w < 360).toBe(true);
        expect(Math.cos((w * Math.PI) / 180)).toBeCloseTo(Math.cos((d * Math.PI) / 180), 6);
      }),
    );
  });
});
