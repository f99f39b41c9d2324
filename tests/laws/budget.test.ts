import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { budget } from '../../src/budget/budget.ts';
import { pairGoesOn, pairSpread, pairStraight } from '../../src/budget/chance.ts';
import type { Spread } from '../../src/budget/spread.ts';
import { METHODS } from '../../src/data/methods.ts';
import { budgetSayings } from '../../src/say/budget.ts';
import { sayAll } from '../../src/say/say.ts';
import { DEMOS, demo, planned } from '../helpers/jigs.ts';

const RUNS = { seed: 77, numRuns: 200 };
const positive = (max: number) => fc.double({ min: 0.01, max, noNaN: true });

const spread = fc
  .record({ around: positive(1), along: positive(1), lean: positive(0.02), stretch: positive(0.01) })
  .map(
    (s): Spread => ({
      hole: { around: s.around, along: s.along },
      stretch: { around: s.stretch, along: s.stretch / 2 },
      lean: s.lean,
      place: { around: 0, along: 0 },
    }),
  );
const span = fc.record({
  x: fc.double({ min: -40, max: 40, noNaN: true }),
  y: fc.double({ min: 5, max: 60, noNaN: true }),
});

describe('laws of the closed forms', () => {
  test('a chance is a chance; more room helps; held straight is never likelier than free to turn', () => {
    fc.assert(
      fc.property(spread, span, positive(3), positive(1), (s, v, reach, more) => {
        const p = pairSpread(v, s);
        const free = pairGoesOn(reach, v, p);
        const held = pairStraight(reach, p);
        for (const chance of [free, held]) {
          expect(chance).toBeGreaterThanOrEqual(0);
          expect(chance).toBeLessThanOrEqual(1 + 1e-12);
        }
        expect(pairGoesOn(reach + more, v, p)).toBeGreaterThanOrEqual(free);
        expect(pairStraight(reach + more, p)).toBeGreaterThanOrEqual(held - 1e-12);
        expect(held).toBeLessThanOrEqual(free + 1e-12);
      }),
      RUNS,
    );
  });

  test('everything twice as large is as likely', () => {
    fc.assert(
      fc.property(spread, span, positive(3), (s, v, reach) => {
        const big: Spread = { ...s, hole: { around: 2 * s.hole.around, along: 2 * s.hole.along } };
        const wide = { x: 2 * v.x, y: 2 * v.y };
        expect(pairGoesOn(2 * reach, wide, pairSpread(wide, big))).toBeCloseTo(
          pairGoesOn(reach, v, pairSpread(v, s)),
          9,
        );
        expect(pairStraight(2 * reach, pairSpread(wide, big))).toBeCloseTo(pairStraight(reach, pairSpread(v, s)), 9);
      }),
      RUNS,
    );
  });

  test('a walk only ever takes room away, and none is none', () => {
    fc.assert(
      fc.property(spread, span, positive(3), positive(2), (s, v, reach, walk) => {
        const p = pairSpread(v, s);
        expect(pairGoesOn(reach, v, p, walk)).toBeLessThanOrEqual(pairGoesOn(reach, v, p) + 1e-12);
        expect(pairGoesOn(reach, v, p, 0)).toBe(pairGoesOn(reach, v, p));
      }),
      RUNS,
    );
  });
});

describe('every demo by every method', () => {
  test.each(DEMOS)('%s: care and notes only, each with a whole sentence; straight never likelier than on', (file) => {
    const { jig, layout } = planned(demo(file));
    for (const { id } of METHODS) {
      const { value, facts } = budget(jig, layout, { method: id, samples: 300 });
      const { drum, groups } = value.methods[0]!;
      expect(drum.straight!).toBeLessThanOrEqual(drum.goesOn! + 1e-12);
      for (const g of groups) expect(g.drillFor_mm.goesOn!).toBeLessThanOrEqual(g.drillFor_mm.straight! + 1e-6);
      expect(facts.every((f) => f.level !== 'stop')).toBe(true);
      for (const f of sayAll(
        facts.filter((f) => f.id !== 'not-checked'),
        budgetSayings,
      )) {
        expect(`${f.text} ${f.try}`).not.toMatch(/undefined|NaN|\?|\d\.\d{3,}/);
      }
    }
  });
});
