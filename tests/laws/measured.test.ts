import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitRigid, type Reach } from '../../src/geometry/rigid.ts';
import { measured } from '../../src/measured/measured.ts';
import { blankReadings } from '../../src/measured/pairs.ts';
import { readReadings } from '../../src/measured/readings.ts';
import { planned } from '../helpers/jigs.ts';
import { drilled, filled } from '../helpers/shell-readings.ts';

const SEED = { seed: 20_251, numRuns: 25 };

const ON = planned({
  jig: 1,
  name: 'Law drum',
  shell: { diameter: '300 mm', depth: '160 mm', wall: '6 mm' },
  lugs: {
    count: 6,
    rows: [
      { edge: 'top', distance: '40 mm' },
      { edge: 'bottom', distance: '40 mm' },
    ],
    holes: { layout: 'upright', spacing: '26 mm', drill: '5 mm', screw: 'M4 x 16' },
    foot: { width: '16 mm', height: '50 mm' },
  },
});

const FORM = blankReadings(ON.jig, ON.layout);
const move = fc.tuple(fc.double({ min: -2, max: 2, noNaN: true }), fc.double({ min: -2, max: 2, noNaN: true }));

const near = (a: readonly (number | null)[], b: readonly (number | null)[], within: number) => {
  for (const [i, v] of a.entries()) expect(Math.abs(v! - b[i]!)).toBeLessThan(within);
};

describe('laws of the measured shell', () => {
  test('a lug of two holes goes on just when its spacing is out by no more than twice the room', () => {
    fc.assert(
      fc.property(move, move, (a, b) => {
        const moves = { 'lug-top-2-a': a, 'lug-top-2-b': b };
        const { value } = measured(ON.jig, ON.layout, filled(FORM, drilled(ON.layout, moves)));
        const v = value.fittings.find((f) => f.id === 'lug-top-2')!;
        const [h, k] = ['lug-top-2-a', 'lug-top-2-b'].map((id) => drilled(ON.layout, moves).holes.get(id)!);
        const across = 2 * 150 * Math.sin(((h!.angle - k!.angle) * Math.PI) / 360);
        const out = Math.abs(Math.hypot(across, h!.height - k!.height) - 26);
        // Room 0.5 mm a hole; readings to four decimals and the loose hold on the plan leave a few hundredths.
        fc.pre(Math.abs(out - 1) > 0.04);
        expect(v.goesOn).toBe(out < 1);
      }),
      SEED,
    );
  });

  test('turning the whole drilled shell changes nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), move, (turn, m) => {
        const moves = { 'lug-bottom-3-a': m };
        const still = measured(ON.jig, ON.layout, filled(FORM, drilled(ON.layout, moves)));
        const turned = measured(ON.jig, ON.layout, filled(FORM, drilled(ON.layout, moves, turn)));
        near(
          turned.value.holes.map((h) => h.off_around_mm),
          still.value.holes.map((h) => h.off_around_mm),
          0.01,
        );
        expect(turned.value.fittings.map((f) => f.goesOn)).toEqual(still.value.fittings.map((f) => f.goesOn));
      }),
      SEED,
    );
  });

  test('the order of the lines, and which hole of a chord is named first, change nothing', () => {
    const csv = filled(FORM, drilled(ON.layout, { 'lug-top-1-b': [0.4, 1.3] }), { sigma: 0.1, seed: 5 });
    const [head, ...lines] = csv.trimEnd().split('\n') as [string, ...string[]];
    const first = measured(ON.jig, ON.layout, csv).value;
    fc.assert(
      fc.property(fc.shuffledSubarray(lines, { minLength: lines.length }), fc.boolean(), (mixed, swap) => {
        const text = [
          head,
          ...mixed.map((l) => {
            const [kind, from, to, value] = l.split(',');
            return swap && kind === 'chord' ? `${kind},${to},${from},${value}` : l;
          }),
        ].join('\n');
        const again = measured(ON.jig, ON.layout, text).value;
        near(
          again.holes.map((h) => h.off_mm),
          first.holes.map((h) => h.off_mm),
          1e-5,
        );
        expect(again.fittings.map((f) => f.goesOn)).toEqual(first.fittings.map((f) => f.goesOn));
      }),
      SEED,
    );
  });

  test('one more reading never makes a hole less sure', () => {
    const csv = filled(FORM, drilled(ON.layout));
    const lines = csv.trimEnd().split('\n');
    const all = measured(ON.jig, ON.layout, csv).value;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: lines.length - 1 }), (k) => {
        const fewer = measured(ON.jig, ON.layout, lines.filter((_, i) => i !== k).join('\n')).value;
        for (const [i, h] of all.holes.entries()) {
          expect(h.sigma_mm!).toBeLessThanOrEqual((fewer.holes[i]!.sigma_mm ?? Number.POSITIVE_INFINITY) + 1e-9);
        }
      }),
      SEED,
    );
  });

  test('any text at all is read or refused, never thrown at', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), fc.boolean(), (text, headed) => {
        const { problems } = readReadings(headed ? `kind,from,to,reading_mm\n${text}` : text, ON.layout);
        for (const p of problems) expect(p.line).toBeGreaterThan(0);
      }),
      { ...SEED, numRuns: 80 },
    );
  });

  test('absurd but well-formed readings give finite numbers', () => {
    const lines = FORM.trimEnd().split('\n').slice(1);
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.1, max: 400, noNaN: true }), { minLength: lines.length, maxLength: lines.length }),
        (values) => {
          const csv = ['kind,from,to,reading_mm', ...lines.map((l, i) => `${l}${values[i]!.toFixed(1)}`)].join('\n');
          const text = JSON.stringify(measured(ON.jig, ON.layout, csv).value, (_, v) =>
            typeof v === 'number' && !Number.isFinite(v) ? 'NOT FINITE' : v,
          );
          expect(text).not.toContain('NOT FINITE');
        },
      ),
      { ...SEED, numRuns: 4 },
    );
  });
});

describe('laws of the best rigid fit', () => {
  const point = fc.record({
    x: fc.double({ min: -40, max: 40, noNaN: true }),
    y: fc.double({ min: -40, max: 40, noNaN: true }),
  });
  const error = fc.record({
    x: fc.double({ min: -1, max: 1, noNaN: true }),
    y: fc.double({ min: -1, max: 1, noNaN: true }),
  });
  const pattern = fc
    .array(fc.tuple(point, error), { minLength: 2, maxLength: 7 })
    .filter((list) => list.every(([p], i) => list.every(([q], j) => i === j || Math.hypot(p.x - q.x, p.y - q.y) > 12)))
    .map((list): Reach[] => list.map(([p, e]) => ({ screw: p, hole: { x: p.x + e.x, y: p.y + e.y }, reach: 0.4 })));

  test('moving and turning all holes together changes the miss by nothing', () => {
    fc.assert(
      fc.property(pattern, fc.double({ min: -0.3, max: 0.3, noNaN: true }), error, (reaches, turn, by) => {
        const c = Math.cos(turn);
        const s = Math.sin(turn);
        const moved = reaches.map((r) => ({
          ...r,
          hole: { x: c * r.hole.x - s * r.hole.y + 20 * by.x, y: s * r.hole.x + c * r.hole.y + 20 * by.y },
        }));
        expect(fitRigid(moved)!.miss).toBeCloseTo(fitRigid(reaches)!.miss, 4);
      }),
      { ...SEED, numRuns: 150 },
    );
  });

  test('a hole more can only make it worse, more room only better by just as much, and holding straight never helps', () => {
    fc.assert(
      fc.property(pattern, fc.double({ min: 0, max: 1, noNaN: true }), (reaches, room) => {
        const { miss } = fitRigid(reaches)!;
        expect(fitRigid(reaches.slice(0, -1))!.miss).toBeLessThanOrEqual(miss + 1e-5);
        expect(fitRigid(reaches.map((r) => ({ ...r, reach: r.reach + room })))!.miss).toBeCloseTo(miss - room, 4);
        expect(fitRigid(reaches, { turning: 'held' })!.miss).toBeGreaterThanOrEqual(miss - 1e-5);
      }),
      { ...SEED, numRuns: 150 },
    );
  });

  test('the off-sets told are those of a rigid motion, and the greatest of them is the miss', () => {
    fc.assert(
      fc.property(pattern, (reaches) => {
        const fit = fitRigid(reaches)!;
        const c = Math.cos((fit.turn * Math.PI) / 180);
        const s = Math.sin((fit.turn * Math.PI) / 180);
        for (const [i, r] of reaches.entries()) {
          expect(fit.off[i]!.x).toBeCloseTo(c * r.screw.x - s * r.screw.y + fit.shift.x - r.hole.x, 9);
          expect(fit.off[i]!.y).toBeCloseTo(s * r.screw.x + c * r.screw.y + fit.shift.y - r.hole.y, 9);
        }
        expect(Math.max(...fit.off.map((o) => Math.hypot(o.x, o.y) - 0.4))).toBeCloseTo(fit.miss, 9);
      }),
      { ...SEED, numRuns: 150 },
    );
  });
});
