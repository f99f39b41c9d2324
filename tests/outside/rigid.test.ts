import { describe, expect, test } from 'vitest';
import { seeded } from '../../src/geometry/random.ts';
import { fitRigid, type Reach } from '../../src/geometry/rigid.ts';
import { emptyCircle, QuickFit, smallestCircle } from '../../src/geometry/rigid-quick.ts';

const grid = (n: number, seed: number, sigma: number, reach = 0): Reach[] => {
  const r = seeded(seed);
  const corners = [
    [0, 0],
    [40, 0],
    [40, 30],
    [0, 30],
    [20, 55],
    [-12, 17],
  ] as const;
  return corners.slice(0, n).map(([x, y]) => ({
    screw: { x, y },
    hole: { x: x + sigma * r.normal(), y: y + sigma * r.normal() },
    reach,
  }));
};

/** Greatest miss at a pose, reckoned afresh. */
function missAt(reaches: readonly Reach[], turn: number, x: number, y: number): number {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  let most = Number.NEGATIVE_INFINITY;
  for (const { screw, hole, reach } of reaches) {
    const px = c * screw.x - s * screw.y + x - hole.x;
    const py = s * screw.x + c * screw.y + y - hole.y;
    most = Math.max(most, Math.sqrt(px * px + py * py) - reach);
  }
  return most;
}

/** Brute force: a grid over the pose, closing in on its best point until the grid is finer than a micrometre. */
function bruteForce(reaches: readonly Reach[], turning: boolean): number {
  const arm = 40;
  let best: readonly [number, number, number] = [0, 0, 0];
  let width = 3;
  let least = missAt(reaches, 0, 0, 0);
  while (width > 1e-4) {
    const [t0, x0, y0] = best;
    for (let i = -6; i <= 6; i++) {
      for (let j = -6; j <= 6; j++) {
        for (let k = turning ? -6 : 0; k <= (turning ? 6 : 0); k++) {
          const at = [t0 + ((k / 6) * width) / arm, x0 + (i / 6) * width, y0 + (j / 6) * width] as const;
          const miss = missAt(reaches, ...at);
          if (miss < least) {
            least = miss;
            best = at;
          }
        }
      }
    }
    // Shrink slowly, so that a valley that runs aslant is not left behind.
    width *= 0.7;
  }
  return least;
}

describe('best rigid fit, least greatest miss', () => {
  test('a hole whose place is no number has no answer, and takes no time over it', () => {
    const lost = grid(4, 1, 0.1, 0.5).map((r, i) => (i === 2 ? { ...r, hole: { x: Number.NaN, y: 0 } } : r));
    expect(fitRigid(lost)!.miss).toBeNaN();
    expect(fitRigid(lost.map((r, i) => ({ ...r, opens: i === 0 })))?.miss ?? Number.NaN).toBeNaN();
    const far = lost.map((r, i) => (i === 2 ? { ...r, hole: { x: Number.POSITIVE_INFINITY, y: 0 } } : r));
    expect(fitRigid(far)!.miss).toBeNaN();
  });

  test('two holes: half of what the spacing is out by, whichever way they lie', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const pair = grid(2, seed, 0.6);
      const spacing = Math.hypot(pair[1]!.hole.x - pair[0]!.hole.x, pair[1]!.hole.y - pair[0]!.hole.y);
      expect(fitRigid(pair)!.miss).toBeCloseTo(Math.abs(spacing - 40) / 2, 5);
    }
  });

  test('an exact pattern, moved and turned, misses by minus its reach', () => {
    const turned = grid(5, 1, 0, 0.7).map((r) => ({
      ...r,
      hole: {
        x: Math.cos(0.4) * r.screw.x - Math.sin(0.4) * r.screw.y + 3,
        y: Math.sin(0.4) * r.screw.x + Math.cos(0.4) * r.screw.y - 2,
      },
    }));
    const fit = fitRigid(turned)!;
    expect(fit.miss).toBeCloseTo(-0.7, 5);
    expect(fit.turn).toBeCloseTo((0.4 * 180) / Math.PI, 3);
  });

  test('put on upside down it is found when asked for, and a pattern that stands right is left alone', () => {
    const upside = grid(4, 1, 0, 0.7).map((r) => ({ ...r, hole: { x: 40 - r.screw.x, y: 30 - r.screw.y } }));
    const fit = fitRigid(upside, { from: 180 })!;
    expect(fit.miss).toBeCloseTo(-0.7, 5);
    expect(Math.abs(fit.turn)).toBeCloseTo(180, 3);
    expect([fit.shift.x, fit.shift.y]).toEqual([expect.closeTo(40, 3), expect.closeTo(30, 3)]);
    const right = fitRigid(grid(4, 1, 0, 0.7))!;
    expect(right).toMatchObject({ miss: -0.7, turn: 0, shift: { x: 0, y: 0 } });
    for (const v of [...right.off, ...right.pull]) expect(Math.hypot(v.x, v.y)).toBe(0);
  });

  test('one screw alone stands in the middle of its hole, however far off, turned or not', () => {
    const alone = [{ screw: { x: 3, y: 4 }, hole: { x: 90, y: -7 }, reach: 0.5 }];
    for (const turning of ['free', 'held'] as const) {
      const fit = fitRigid(alone, { turning })!;
      expect(fit.miss).toBeCloseTo(-0.5, 6);
      expect(fit.turn).toBe(0);
      expect(fit.shift).toEqual({ x: expect.closeTo(87, 5), y: expect.closeTo(-11, 5) });
    }
  });

  test('when every hole opens, the miss is that of holes that do not', () => {
    const holes = grid(5, 8, 0.5, 0.2);
    expect(fitRigid(holes.map((h) => ({ ...h, opens: true })))!.miss).toBeCloseTo(fitRigid(holes)!.miss, 6);
  });

  test('the miss is as near as asked, the pulls share out one pull, and none is left over to turn it', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const holes = grid(6, 300 + seed, 0.5, 0.1);
      const fine = fitRigid(holes)!;
      const coarse = fitRigid(holes, { within: 0.01 })!;
      expect(coarse.miss - fine.miss).toBeLessThanOrEqual(0.01);
      expect(coarse.miss).toBeGreaterThanOrEqual(fine.miss - 1e-6);
      // To a few hundredths: the multipliers are those of a point near the path, not on it.
      const within = (value: number, wanted: number) => expect(Math.abs(value - wanted)).toBeLessThan(0.03);
      within(
        fine.pull.reduce((s, p) => s + Math.hypot(p.x, p.y), 0),
        1,
      );
      // Balance of a body at rest: pulls at the screws have no sum and no moment (here over the pattern's size, 40).
      within(
        fine.pull.reduce((s, p) => s + p.x, 0),
        0,
      );
      within(
        fine.pull.reduce((s, p) => s + p.y, 0),
        0,
      );
      const moment = holes.reduce((s, h, i) => {
        const [x, y] = [h.hole.x + fine.off[i]!.x - 20, h.hole.y + fine.off[i]!.y - 20];
        return s + x * fine.pull[i]!.y - y * fine.pull[i]!.x;
      }, 0);
      within(moment / 40, 0);
      for (const [i, h] of holes.entries()) {
        const [c, s] = [Math.cos((fine.turn * Math.PI) / 180), Math.sin((fine.turn * Math.PI) / 180)];
        expect(fine.off[i]!.x).toBeCloseTo(c * h.screw.x - s * h.screw.y + fine.shift.x - h.hole.x, 9);
        expect(fine.off[i]!.y).toBeCloseTo(s * h.screw.x + c * h.screw.y + fine.shift.y - h.hole.y, 9);
      }
    }
  });

  test.each([3, 4, 5, 6])('%d holes: no pose on a grid does better, and the grid comes as near', (n) => {
    for (let seed = 1; seed <= 3; seed++) {
      const holes = grid(n, 100 * n + seed, 0.5, 0.3);
      const fit = fitRigid(holes)!;
      const brute = bruteForce(holes, true);
      expect(fit.miss).toBeLessThanOrEqual(brute + 2e-6);
      // The grid stops within a few of its last steps of the least.
      expect(brute - fit.miss).toBeLessThan(2e-3);
      // The miss told is the miss at the pose told.
      expect(missAt(holes, (fit.turn * Math.PI) / 180, fit.shift.x, fit.shift.y)).toBeCloseTo(fit.miss, 9);
    }
  });

  test('held straight it is the smallest circle round the errors', () => {
    // Errors on an equilateral triangle of circumradius 1.
    const errors = [0, 120, 240].map((d) => [Math.cos((d * Math.PI) / 180), Math.sin((d * Math.PI) / 180)] as const);
    const holes = grid(3, 1, 0).map((r, i) => ({
      ...r,
      hole: { x: r.screw.x + 5 + errors[i]![0], y: r.screw.y - 4 + errors[i]![1] },
    }));
    const fit = fitRigid(holes, { turning: 'held' })!;
    expect(fit.miss).toBeCloseTo(1, 5);
    expect(fit.turn).toBe(0);
    expect(fit.shift.x).toBeCloseTo(5, 3);
    expect(fit.shift.y).toBeCloseTo(-4, 3);
    expect(fit.miss).toBeCloseTo(
      bruteForce(
        holes.map((h) => ({ ...h, hole: { x: h.hole.x - 5, y: h.hole.y + 4 } })),
        false,
      ),
      2,
    );
  });

  test('pull says how the miss follows a hole', () => {
    const holes = grid(5, 77, 0.5, 0.2);
    const fit = fitRigid(holes)!;
    const step = 1e-3;
    for (let i = 0; i < holes.length; i++) {
      for (const axis of ['x', 'y'] as const) {
        const moved = (by: number) =>
          fitRigid(holes.map((h, k) => (k === i ? { ...h, hole: { ...h.hole, [axis]: h.hole[axis] + by } } : h)))!.miss;
        const slope = (moved(step) - moved(-step)) / (2 * step);
        // Second differences at a corner of the pattern cost up to the step itself.
        expect(Math.abs(slope - fit.pull[i]![axis])).toBeLessThan(0.02);
      }
    }
  });

  test('opening one hole: the rest keep their reach, and nothing smaller will do', () => {
    const holes = grid(4, 5, 0.1, 0.6).map((h, i) => (i === 2 ? { ...h, hole: { x: h.hole.x + 3, y: h.hole.y } } : h));
    expect(fitRigid(holes)!.miss).toBeGreaterThan(0);
    const opened = fitRigid(holes.map((h, i) => ({ ...h, opens: i === 2 })))!;
    for (const i of [0, 1, 3]) expect(Math.hypot(opened.off[i]!.x, opened.off[i]!.y)).toBeLessThanOrEqual(0.6 + 1e-6);
    const needed = Math.hypot(opened.off[2]!.x, opened.off[2]!.y) - 0.6;
    expect(opened.miss).toBeCloseTo(needed, 6);
    const exactly = (by: number) => fitRigid(holes.map((h, i) => ({ ...h, reach: i === 2 ? 0.6 + by : 0.6 })))!.miss;
    expect(exactly(needed + 1e-4)).toBeLessThan(0);
    expect(exactly(needed - 1e-3)).toBeGreaterThan(0);
  });

  test.each([13, 18])(
    'opening one hole of a pattern that also has to turn: the rest keep their reach, and nothing smaller will do (seed %i)',
    (seed) => {
      const r = seeded(seed);
      for (let k = 0; k < 50; k++) {
        const n = 2 + Math.floor(r.uniform() * 4);
        const turn = 0.3 * r.normal();
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const holes = Array.from({ length: n }, (): Reach => {
          const screw = { x: 30 * r.normal(), y: 30 * r.normal() };
          const hole = {
            x: c * screw.x - s * screw.y + 0.2 * r.normal(),
            y: s * screw.x + c * screw.y + 0.2 * r.normal(),
          };
          return { screw, hole, reach: 0.4 };
        });
        // The rest alone tell whether there is an answer at all.
        if (fitRigid(holes.slice(1))!.miss > -1e-3) continue;
        const opened = fitRigid(holes.map((h, i) => ({ ...h, opens: i === 0 })))!;
        for (let i = 1; i < n; i++)
          expect(Math.hypot(opened.off[i]!.x, opened.off[i]!.y)).toBeLessThanOrEqual(0.4 + 1e-5);
        const exactly = (by: number) =>
          fitRigid(holes.map((h, i) => ({ ...h, reach: i === 0 ? 0.4 + by : 0.4 })))!.miss;
        expect(exactly(opened.miss + 1e-4)).toBeLessThan(0);
        expect(exactly(opened.miss - 1e-4)).toBeGreaterThan(0);
      }
    },
  );

  test('opening one hole of two, by hand: what the spacing is out by, less what the other screw can follow (seed 5)', () => {
    const r = seeded(5);
    for (let k = 0; k < 300; k++) {
      const at = (spread: number) => ({ x: spread * r.normal(), y: spread * r.normal() });
      const screws = [at(25), at(25)];
      const holes = screws.map((screw, i) => {
        const out = at(i === 0 ? 1 : 0.15);
        return { x: screw.x + out.x, y: screw.y + out.y };
      });
      const apart = (p: readonly { x: number; y: number }[]) => Math.hypot(p[1]!.x - p[0]!.x, p[1]!.y - p[0]!.y);
      // Nearer to each other the screws may have to turn by half a turn.
      if (apart(screws) < 15) continue;
      const reach = [0.25, 0.5, 0.75][k % 3]!;
      const fit = fitRigid(screws.map((screw, i) => ({ screw, hole: holes[i]!, reach, opens: i === 0 })));
      const wanted = Math.max(0, Math.abs(apart(holes) - apart(screws)) - reach) - reach;
      expect(Math.abs(fit!.miss - wanted)).toBeLessThan(2e-6);
    }
  });

  test('two screws all but in one place, with room to swing for ever, are no answer rather than a wrong one (seed 17)', () => {
    const r = seeded(17);
    for (let k = 0; k < 400; k++) {
      const holes = Array.from({ length: 3 }, (_, i): Reach => {
        const screw = { x: (i === 0 ? 30 : 1) * r.normal(), y: (i === 0 ? 30 : 1) * r.normal() };
        const hole = { x: screw.x + (i === 0 ? 8 : 1) * r.normal(), y: screw.y + r.normal() };
        return { screw, hole, reach: 3, opens: i === 0 };
      });
      const off = fitRigid(holes)?.off ?? [];
      for (let i = 1; i < off.length; i++) expect(Math.hypot(off[i]!.x, off[i]!.y)).toBeLessThanOrEqual(3 + 1e-5);
    }
  });

  test('an exact pattern turned by some degrees misses by minus its reach, to the hundredth asked for', () => {
    for (const degrees of [2, 4, 6, 8]) {
      const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
      const turned = grid(5, 1, 0, 0.7).map((r) => ({
        ...r,
        hole: { x: c * r.screw.x - s * r.screw.y + 3, y: s * r.screw.x + c * r.screw.y - 2 },
      }));
      expect(fitRigid(turned, { within: 0.01 })!.miss).toBeLessThanOrEqual(-0.7 + 0.01);
    }
  });

  describe('opening one hole beside two on a line, 40 apart and with half a millimetre each, by hand', () => {
    const two = (out: number): Reach[] => [
      { screw: { x: 0, y: 0 }, hole: { x: -out, y: 0 }, reach: 0.5 },
      { screw: { x: 40, y: 0 }, hole: { x: 40 + out, y: 0 }, reach: 0.5 },
    ];

    test('midway between them it gains the half millimetre that both can rise', () => {
      const open = { screw: { x: 20, y: 30 }, hole: { x: 20, y: 33 }, reach: 0.5, opens: true };
      const fit = fitRigid([...two(0), open])!;
      expect(fit.miss).toBeCloseTo(3 - 0.5 - 0.5, 5);
      expect([fit.shift.x, fit.shift.y, fit.turn]).toEqual([0, 0.5, 0].map((v) => expect.closeTo(v, 3)));
      expect(fit.off[2]).toEqual({ x: expect.closeTo(0, 3), y: expect.closeTo(-2.5, 5) });
      // As much of the rest as its own hole moves; the two that hold it share half each.
      expect(fit.pull.map((p) => Number(p.y.toFixed(2)))).toEqual([-0.5, -0.5, 1]);
    });

    test('40 beyond them it gains what the one sinks and three times what the other rises', () => {
      const open = { screw: { x: 80, y: 0 }, hole: { x: 80, y: 5 }, reach: 0.5, opens: true };
      const fit = fitRigid([...two(0), open])!;
      // Up 0.5 in 20, so 1.5 in 60; the square of the turn (1 / 40) takes less than a hundredth of a millimetre.
      expect(Math.abs(fit.miss - (5 - 1.5 - 0.5))).toBeLessThan(2e-3);
      expect(Math.abs(fit.turn - (Math.asin(1 / 40) * 180) / Math.PI)).toBeLessThan(2e-3);
      for (const i of [0, 1]) expect(Math.hypot(fit.off[i]!.x, fit.off[i]!.y)).toBeLessThanOrEqual(0.5 + 1e-6);
      // Held straight only the half millimetre is left.
      expect(fitRigid([...two(0), open], { turning: 'held' })!.miss).toBeCloseTo(5 - 0.5 - 0.5, 5);
    });

    test('with less than a thousandth of room there is none to move in', () => {
      const open = { screw: { x: 20, y: 30 }, hole: { x: 20, y: 33 }, reach: 0.5, opens: true };
      expect(fitRigid([...two(0.4985), open])).toBeDefined();
      expect(fitRigid([...two(0.4995), open])).toBeUndefined();
    });
  });

  test('the miss told is that of the hole that opens, though another has less room', () => {
    const exact = grid(4, 1, 0, 0.5).map((h, i) => (i === 3 ? { ...h, reach: 2, opens: true } : h));
    expect(fitRigid(exact)!.miss).toBeCloseTo(-2, 6);
  });

  test('one of six out by 0.045 leaves half of it, to the hundredth asked for', () => {
    const one = grid(6, 1, 0).map((h, i) => (i === 0 ? { ...h, hole: { x: h.hole.x + 0.045, y: h.hole.y } } : h));
    const miss = fitRigid(one, { turning: 'held', within: 0.01 })!.miss;
    expect(miss).toBeGreaterThanOrEqual(0.0225 - 1e-9);
    expect(miss).toBeLessThanOrEqual(0.0325);
  });

  test('opening one hole cannot save a fitting whose other holes do not agree', () => {
    const holes = grid(4, 5, 0, 0.3).map((h, i) =>
      i < 2 ? { ...h, hole: { x: h.hole.x + (i === 0 ? -1 : 1), y: h.hole.y } } : h,
    );
    expect(fitRigid(holes.map((h, i) => ({ ...h, opens: i === 3 })))).toBeUndefined();
  });

  test('ASME Y14.5 appendix B, fixed fastener: H = F + 2 T goes on at the worst, and no smaller hole does', () => {
    // M5 in a 5.5 hole: T = (H - F) / 2 = 0.25 diametral on each part, so each axis may be out by 0.125.
    const worst = (hole: number): number =>
      fitRigid(
        [-1, 1].map((side) => ({
          // Screws out by T/2 towards each other, holes by T/2 away.
          screw: { x: side * (20 - 0.125), y: 0 },
          hole: { x: side * (20 + 0.125), y: 0 },
          reach: (hole - 5) / 2,
        })),
      )!.miss;
    expect(worst(5.5)).toBeCloseTo(0, 6);
    expect(worst(5.49)).toBeGreaterThan(0);
    expect(worst(5.51)).toBeLessThan(0);
  });

  test('ASME Y14.5 appendix B, floating fastener: H = F + T', () => {
    // M6 in 6.6 holes in both parts: T = 0.6. Seen as one pattern on the other, each screw may stray by H - F in all.
    const worst = (hole: number): number =>
      fitRigid(
        [-1, 1].map((side) => ({
          screw: { x: side * (20 - 0.3), y: 0 },
          hole: { x: side * (20 + 0.3), y: 0 },
          reach: hole - 6,
        })),
      )!.miss;
    expect(worst(6.6)).toBeCloseTo(0, 6);
    expect(worst(6.59)).toBeGreaterThan(0);
  });
});

describe('the quick fit of a simulation', () => {
  test('two ways to the least greatest miss agree: tangents over smallest circles, and the cone problem (seed 4)', () => {
    const r = seeded(4);
    for (let k = 0; k < 300; k++) {
      const n = 2 + Math.floor(r.uniform() * 7);
      const screws = Array.from({ length: n }, (_, i) => ({ x: 40 * r.uniform() + 5 * i, y: 40 * r.normal() }));
      const errors = screws.map(() => ({ x: 0.02 * r.normal(), y: 0.02 * r.normal() }));
      const reaches = screws.map((s, i) => ({
        screw: s,
        hole: { x: s.x + errors[i]!.x, y: s.y + errors[i]!.y },
        reach: 0,
      }));
      const quick = new QuickFit(screws);
      const ex = Float64Array.from(errors, (e) => e.x);
      const ey = Float64Array.from(errors, (e) => e.y);
      // Held straight both are exact; free to turn, the quick one leaves out the square of the turn (0.02 / 10 mm here).
      expect(Math.abs(quick.held(ex, ey) - fitRigid(reaches, { within: 1e-7, turning: 'held' })!.miss)).toBeLessThan(
        2e-7,
      );
      expect(Math.abs(quick.free(ex, ey, 1e-7) - fitRigid(reaches, { within: 1e-7 })!.miss)).toBeLessThan(1e-4);
    }
  });

  test('the smallest circle holds every point, and no circle through two or three of them is smaller and holds all', () => {
    const r = seeded(12);
    for (let k = 0; k < 200; k++) {
      const n = 2 + Math.floor(r.uniform() * 6);
      const x = Array.from({ length: n }, () => r.normal());
      const y = Array.from({ length: n }, () => r.normal());
      const c = emptyCircle();
      smallestCircle(x, y, n, c);
      const holds = (cx: number, cy: number, radius: number) =>
        x.every((_, i) => Math.hypot(x[i]! - cx, y[i]! - cy) <= radius + 1e-9);
      expect(holds(c.x, c.y, c.radius)).toBe(true);
      let least = Number.POSITIVE_INFINITY;
      for (let i = 0; i < n; i++)
        for (let j = 0; j < i; j++) {
          const [mx, my, mr] = [(x[i]! + x[j]!) / 2, (y[i]! + y[j]!) / 2, Math.hypot(x[i]! - x[j]!, y[i]! - y[j]!) / 2];
          if (holds(mx, my, mr)) least = Math.min(least, mr);
          for (let l = 0; l < j; l++) {
            const [a, b, d] = [i, j, l].map((q) => x[q]! * x[q]! + y[q]! * y[q]!) as [number, number, number];
            const det = 2 * (x[i]! * (y[j]! - y[l]!) + x[j]! * (y[l]! - y[i]!) + x[l]! * (y[i]! - y[j]!));
            const cx = (a * (y[j]! - y[l]!) + b * (y[l]! - y[i]!) + d * (y[i]! - y[j]!)) / det;
            const cy = (a * (x[l]! - x[j]!) + b * (x[i]! - x[l]!) + d * (x[j]! - x[i]!)) / det;
            const cr = Math.hypot(x[i]! - cx, y[i]! - cy);
            if (holds(cx, cy, cr)) least = Math.min(least, cr);
          }
        }
      expect(c.radius).toBeCloseTo(least, 9);
    }
  });

  test('points in line, points that coincide, and one point alone', () => {
    const c = emptyCircle();
    smallestCircle([0, 1, 2, 3], [0, 0, 0, 0], 4, c);
    expect([c.x, c.y, c.radius]).toEqual([1.5, 0, 1.5]);
    smallestCircle([2, 2, 2], [1, 1, 1], 3, c);
    expect([c.x, c.y, c.radius]).toEqual([2, 1, 0]);
    // Two of three in one place: half the way from (2, -2) to (3, 0).
    smallestCircle([2, 3, 3], [-2, 0, 0], 3, c);
    expect(c.radius).toBeCloseTo(Math.sqrt(5) / 2, 12);
    smallestCircle([7], [8], 1, c);
    expect([c.x, c.y, c.radius]).toEqual([7, 8, 0]);
    expect(new QuickFit([{ x: 3, y: 4 }]).free(Float64Array.of(1), Float64Array.of(2), 1e-6)).toBe(0);
    // A right angle over a circle's diameter; the corner of a triangle of 60 deg, circumradius 2 over root 3.
    smallestCircle([0, 4, 0], [0, 0, 3], 3, c);
    expect([c.x, c.y, c.radius]).toEqual([2, 1.5, 2.5]);
    smallestCircle([0, 2, 1], [0, 0, Math.sqrt(3)], 3, c);
    expect([c.x, c.y, c.radius]).toEqual([1, 1 / Math.sqrt(3), 2 / Math.sqrt(3)].map((v) => expect.closeTo(v, 12)));
  });

  test('screws in one place feel no turn; an error that is no number gives none, and an answer', () => {
    const twice = new QuickFit([
      { x: 3, y: 4 },
      { x: 3, y: 4 },
    ]);
    expect(twice.free(Float64Array.of(0, 2), Float64Array.of(0, 0), 1e-6)).toBe(1);
    const pair = new QuickFit([
      { x: 0, y: 0 },
      { x: 9, y: 0 },
    ]);
    expect(pair.free(Float64Array.of(Number.NaN, 0), Float64Array.of(0, 1), 1e-6)).toBeNaN();
  });

  test('two screws 10 apart, by hand: a turn undoes what lies across the line, half of what lies along it is left', () => {
    const pair = new QuickFit([
      { x: 0, y: 0 },
      { x: 6, y: 8 },
    ]);
    // Across (-0.8, 0.6) by 0.5 and along (0.6, 0.8) by 0.2.
    const ex = Float64Array.of(1, 1 - 0.8 * 0.5 + 0.6 * 0.2);
    const ey = Float64Array.of(2, 2 + 0.6 * 0.5 + 0.8 * 0.2);
    expect(pair.held(ex, ey)).toBeCloseTo(Math.hypot(0.5, 0.2) / 2, 12);
    expect(pair.free(ex, ey, 1e-9)).toBeCloseTo(0.1, 8);
    const across = Float64Array.of(0, -0.8 * 0.5);
    expect(pair.free(across, Float64Array.of(0, 0.6 * 0.5), 1e-9)).toBeLessThanOrEqual(1e-9);
  });

  test('errors a thousand times as large or as small, or mirrored, need a thousand times the reach, or the same', () => {
    const r = seeded(31);
    for (let k = 0; k < 50; k++) {
      const n = 3 + Math.floor(r.uniform() * 5);
      const screws = Array.from({ length: n }, () => ({ x: 30 * r.normal(), y: 30 * r.normal() }));
      const [ex, ey] = [0, 1].map(() => Float64Array.from(screws, () => r.normal())) as [Float64Array, Float64Array];
      const quick = new QuickFit(screws);
      const one = quick.free(ex, ey, 1e-9);
      const scaled = (by: number): number =>
        quick.free(
          ex.map((v) => v * by),
          ey.map((v) => v * by),
          1e-9 * Math.abs(by),
        ) / Math.abs(by);
      for (const by of [1000, 1 / 1000, -1]) expect(Math.abs(scaled(by) - one)).toBeLessThan(2e-9);
      // No nearer than asked is needed, but so near it is.
      for (const within of [0.01, 0.1]) {
        const rough = quick.free(ex, ey, within);
        expect(rough).toBeGreaterThanOrEqual(one - 1e-9);
        expect(rough).toBeLessThanOrEqual(one + within);
      }
    }
  });
});
