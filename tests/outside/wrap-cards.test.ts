import { describe, expect, test } from 'vitest';
import { forbiddenInLaser } from '../../src/data/forbidden.ts';
import { findMaterial, MATERIAL_NAMES } from '../../src/data/materials.ts';
import { findSheet } from '../../src/data/sheets.ts';
import { cutLines } from '../../src/drawing/kerf.ts';
import { isSlotted } from '../../src/drawing/laser.ts';
import { bounds } from '../../src/drawing/paths.ts';
import { makeCoupon } from '../../src/jobs/coupon.ts';
import { nest } from '../../src/nest/nest.ts';
import { cardPages, cardParts } from '../../src/wrap/cards.ts';
import { couponPart, readCoupon } from '../../src/wrap/coupon.ts';
import { DEMOS, demo, planned, type Raw } from '../helpers/jigs.ts';

const SHEET = findSheet('laser-600x400')!;

describe('rod card', () => {
  // The worked case of the rods: washer 1.5, ear 6, lug's origin 38 below the edge, face 12 from it, rod 45, travel 4.
  const raw = demo(DEMOS[0]!);
  raw['hoops'] = { top: { ear: 6, skirt: 5 }, bottom: { ear: 6 } };
  raw['rods'] = { length: { top: 45, bottom: 45 }, washer: 1.5, travel: 4, thread: '12-24 UNC' };
  (raw['lugs'] as Raw)['rod'] = { face: 12, catch: 6, bottom: 22 };
  (raw['lugs'] as Raw)['rows'] = [
    { edge: 'top', distance: 38 },
    { edge: 'bottom', distance: 38 },
  ];
  const { jig } = planned(raw);
  const cards = cardParts(jig).filter((c) => c.id.startsWith('card-rod'));

  test('one for each row, drawn to scale: head to face 33.5, tip 11.5 in the lug', () => {
    expect(cards).toHaveLength(2);
    const rod = cards[0]!.marks.find((m) => m.from === 'rod')!;
    const lug = cards[0]!.marks.find((m) => m.from === 'lug')!;
    const [r, l] = [bounds([rod]), bounds([lug])];
    // The lug's upper end is its face.
    expect(r.max.y - l.max.y).toBeCloseTo(33.5, 9);
    expect(l.max.y - r.min.y).toBeCloseTo(11.5, 9);
    expect(l.max.y - l.min.y).toBeCloseTo(22, 9);
    // Held to the shell, the notch lies on the bearing edge.
    expect(l.max.y).toBeCloseTo(12 - 38, 9);
  });

  test('without the ear there is nothing to draw', () => {
    expect(cardParts({ ...jig, hoops: {} }).filter((c) => c.id.startsWith('card-rod'))).toEqual([]);
  });
});

describe.each(DEMOS)('fitting cards of %s', (file) => {
  const { jig } = planned(demo(file));
  const cards = cardParts(jig);

  test('holes lie as a caliper measures the casting, at their drill size, on the card', () => {
    for (const row of jig.rows) {
      const card = cards.find((c) => c.name.includes(`lug ${row.name}`))!;
      const apart = (p: { x: number; y: number }[]): number[] =>
        p.flatMap((a) => p.map((b) => Math.hypot(a.x - b.x, a.y - b.y))).toSorted((a, b) => a - b);
      const cut = card.inner.flatMap((s) => (s.kind === 'circle' ? [s] : []));
      const planned = row.holes.points.map((p) => ({ x: p.across, y: p.upright }));
      for (const [i, d] of apart(cut.map((c) => c.center)).entries()) expect(d).toBeCloseTo(apart(planned)[i]!, 9);
      for (const c of cut) expect(2 * c.radius).toBe(row.holes.drill);
    }
  });

  test('marks stay on their card, and every card can be cut', () => {
    for (const c of cards) {
      const [card, marks] = [bounds([c.outer]), bounds([...c.inner, ...c.marks])];
      expect(marks.min.x, c.name).toBeGreaterThan(card.min.x);
      expect(marks.max.x, c.name).toBeLessThan(card.max.x);
      expect(marks.min.y, c.name).toBeGreaterThan(card.min.y);
      expect(marks.max.y, c.name).toBeLessThan(card.max.y);
    }
    expect(nest(cards, SHEET, { kerf: 0.12, title: 't', digest: 'd' }).facts).toEqual([]);
  });

  test('on paper they lie side by side on as many pages as they take', () => {
    const pages = cardPages(cards, jig.wrap.paper, 'cards');
    const outlines = pages.flatMap((p) => p.shapes.filter((s) => s.layer === 'CUT-OUTER'));
    expect(outlines).toHaveLength(cards.length);
  });
});

describe('coupon', () => {
  test.each(MATERIAL_NAMES)('%s: its slips come out a kerf smaller, its slots a kerf wider', (name) => {
    const material = findMaterial(name)!;
    const coupon = couponPart(SHEET, material);
    const lines = cutLines(coupon.part, 0);
    expect(lines.facts).toEqual([]);
    for (const kerf of [0.1, 0.17, 0.3]) {
      // What a caliper finds on a coupon cut on its lines by a beam of this width.
      const slips = lines.value.filter((s) => s.from.startsWith('slip'));
      const reading = slips.reduce((sum, s) => sum + bounds([s]).max.x - bounds([s]).min.x - kerf, 0);
      expect(slips).toHaveLength(coupon.slips);
      expect(readCoupon(coupon, { slips: reading }, material).value!.kerf).toBeCloseTo(kerf, 9);
      for (const [i, drawn] of coupon.slots.entries()) {
        const { value } = readCoupon(coupon, { slips: reading, slot: i + 1 }, material);
        expect(value!.fit).toBeCloseTo(drawn + kerf - material.thickness, 9);
      }
    }
  });

  test('a reading of 98.0 mm over ten slips is a kerf of 0.2', () => {
    const coupon = couponPart(SHEET, findMaterial('birch-ply-6')!);
    expect(readCoupon(coupon, { slips: 98 }, findMaterial('birch-ply-6')!).value).toEqual({
      kerf: expect.closeTo(0.2, 9),
    });
  });

  test.each([
    [100, 'coupon-impossible'],
    [100.4, 'coupon-impossible'],
    [10, 'coupon-impossible'],
    [99.6, 'coupon-unlikely'],
    [94.9, 'coupon-unlikely'],
  ])('a reading of %f mm is said to be %s', (slips, id) => {
    const material = findMaterial('birch-ply-6')!;
    expect(readCoupon(couponPart(SHEET, material), { slips }, material).facts.map((f) => f.id)).toEqual([id]);
  });

  test.each([
    ['thick sheet', { thickness: 18 }, {}],
    ['a wide beam', {}, { kerf: 0.5, bridge: 2 }],
    ['a cutter', {}, { kerf: 3.175, bridge: 3, width: 1200 }],
  ])('%s leaves a bridge between all it cuts', (_, material, sheet) => {
    const own = { ...SHEET, ...sheet };
    const { part } = couponPart(own, { ...findMaterial('birch-ply-6')!, ...material });
    // The beam takes its kerf off every strip that is drawn.
    expect(cutLines(part, 0, own.bridge + (own.kerf ?? 0.25) - 1e-6).facts).toEqual([]);
  });

  test("is refused for what must never go into a laser, drawn in the builder's colours, and plain for old machines", () => {
    const material = findMaterial('birch-ply-3')!;
    const refused = makeCoupon(SHEET, { ...material, name: 'pvc-3.yaml' });
    expect(refused.files).toEqual([]);
    expect(refused.findings).toMatchObject([{ level: 'stop', id: 'forbidden-in-laser' }]);
    const sheet = { ...SHEET, lines: { 'CUT-INNER': { colour: '#12ab34' } } };
    const { files } = makeCoupon(sheet, material, 'plain');
    expect(String(files.find((f) => f.name === 'coupon.svg')?.data)).toContain('#12ab34');
    const dxf = String(files.find((f) => f.name === 'coupon.dxf')?.data);
    expect([dxf.includes('LWPOLYLINE'), dxf.includes('AC1009')]).toEqual([false, true]);
  });

  test('both sides of what is likely', () => {
    const material = findMaterial('birch-ply-6')!;
    const coupon = couponPart(SHEET, material);
    expect(readCoupon(coupon, { slips: 99.5 }, material).facts).toEqual([]);
    expect(readCoupon(coupon, { slips: 95 }, material).facts).toEqual([]);
    expect(readCoupon(coupon, { slips: 98, slot: 99 }, material).facts.map((f) => f.id)).toEqual(['coupon-no-slot']);
  });
});

describe('never into a laser', () => {
  test.each([
    'PVC',
    'pvc-1',
    'vinyl drum wrap',
    'ABS 3mm',
    'Polycarbonate',
    'foam board',
    'carbon fibre',
    'epoxy-glass',
  ])('%s is refused with a reason', (name) => {
    expect(forbiddenInLaser(name)?.reason).toMatch(/\w{4}/);
  });
  test.each([...MATERIAL_NAMES, 'absorbent card', 'cast acrylic', 'poplar ply'])('%s is not', (name) => {
    expect(forbiddenInLaser(name)).toBeUndefined();
  });
  test('slotted sheets are known by name', () => {
    expect(isSlotted('slotted-ply-3')).toBe(true);
    expect(isSlotted('birch living hinge')).toBe(true);
    expect(isSlotted('card-1')).toBe(false);
  });
});
