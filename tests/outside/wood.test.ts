import { describe, expect, test } from 'vitest';
import { completeTool, defaultTools } from '../../src/data/tools.ts';
import { findWood, WOOD_IDS } from '../../src/data/wood.ts';

const movement = (shrinkage: number): number => shrinkage / 3000 / (1 - shrinkage / 150);

describe('woods', () => {
  test('every id once, every wood findable, every figure with a source', () => {
    expect(new Set(WOOD_IDS).size).toBe(WOOD_IDS.length);
    expect(WOOD_IDS.length).toBeGreaterThan(20);
    for (const id of WOOD_IDS) {
      const w = findWood(id)!;
      const sources = [w.sg12.source, w.janka?.source, w.shrinkage?.source, w.movement?.source, w.inPlane?.source];
      for (const s of sources) if (s !== undefined) expect(s.length).toBeGreaterThan(8);
      expect(w.sg12.value).toBeGreaterThan(0.3);
      expect(w.sg12.value).toBeLessThan(0.9);
    }
    expect(findWood('no-such-wood')).toBeUndefined();
  });
  // Wood Handbook FPL-GTR-190 tables 5-3a and 13-5 (printed figures).
  test.each([
    ['sugar-maple', 0.63, 6400, 0.00165, 0.00353],
    ['yellow-birch', 0.62, 5600, 0.00256, 0.00338],
    ['black-cherry', 0.5, 4200, 0.00126, 0.00248],
    ['black-walnut', 0.55, 4500, 0.0019, 0.00274],
    ['white-ash', 0.6, 5900, 0.00169, 0.00274],
  ])('%s as printed', (id, sg, janka, CR, CT) => {
    const w = findWood(id)!;
    expect([w.sg12.value, w.janka?.value, w.movement?.CR, w.movement?.CT]).toEqual([sg, janka, CR, CT]);
  });
  test('the coefficient follows from the shrinkage, C = (S / 3000) / (1 - S / 150), or is the larger of two', () => {
    const groups = ['white-oak', 'northern-red-oak', 'sweet-birch'];
    for (const id of WOOD_IDS) {
      const w = findWood(id)!;
      if (!w.movement || !w.shrinkage || groups.includes(id)) continue;
      expect(w.movement.CT, id).toBeGreaterThan(movement(w.shrinkage.tangential) - 0.00001);
      expect(w.movement.CR, id).toBeGreaterThan(movement(w.shrinkage.radial) - 0.00001);
    }
    const sapele = findWood('sapele')!;
    expect(movement(sapele.shrinkage!.tangential)).toBeCloseTo(sapele.movement!.CT, 5);
  });
  test('imported woods are brought from green volume to 12 %: basic 0.55, 14 % in volume gives 0.600', () => {
    expect(0.55 / (1 - (0.6 * 14) / 100)).toBeCloseTo(findWood('sapele')!.sg12.value, 3);
    expect(0.45 / (1 - (0.6 * 7.8) / 100)).toBeCloseTo(findWood('mahogany')!.sg12.value, 3);
  });
});

describe('bits', () => {
  test('a default set: marks, pilots, drills by size, a mill; every hole has its bit', () => {
    const tools = defaultTools([
      { drill: 11 },
      { drill: 6, pilot: 2.5 },
      { drill: 5 },
      { drill: 5 },
      { drill: 20 },
      { drill: 2 },
    ]);
    expect(tools.map((t) => `${t.id} ${t.kind} ${t.diameter}`)).toEqual([
      '1 v-bit 6',
      '2 twist 2.5',
      '3 twist 2',
      '4 brad-point 5',
      '5 twist 6',
      '6 brad-point 11',
      '7 spur 20',
      '8 end-mill 3.175',
    ]);
  });
  test('what the builder writes is kept', () => {
    const t = completeTool({ id: 9, kind: 'twist', diameter: 6, point: 135, lips: 3, flute: 57, stickout: 70 });
    expect(t).toMatchObject({ id: 9, point: 135, lips: 3, flute: 57, stickout: 70, shank: 6 });
    expect(completeTool({ id: 1, kind: 'brad-point', diameter: 5 }).lead).toBeCloseTo(1, 12);
    expect(completeTool({ id: 1, kind: 'twist', diameter: 5 })).toMatchObject({ point: 118, lips: 2 });
  });
});
