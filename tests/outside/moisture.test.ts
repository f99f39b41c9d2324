import { describe, expect, test } from 'vitest';
import { emc, movement, shellMovement } from '../../src/geometry/moisture.ts';

describe('equilibrium moisture content', () => {
  // Wood Handbook FPL-GTR-190/282, table 4-2, as printed to one decimal; temperatures are the table's own deg F rows.
  const table: readonly [fahrenheit: number, humidity: number, printed: number][] = [
    [30, 65, 12.4],
    [50, 30, 6.3],
    [50, 80, 16.4],
    [70, 30, 6.2],
    [70, 50, 9.2],
    [70, 65, 12.0],
    [70, 80, 16.0],
    [90, 50, 8.9],
  ];
  test.each(table)('table 4-2: %d deg F and %d %% give %d %%', (fahrenheit, humidity, printed) => {
    const got = emc(((fahrenheit - 32) * 5) / 9, humidity);
    // Printed to 0.1, so at most 0.05 away.
    expect(Math.abs(got - printed)).toBeLessThanOrEqual(0.05);
  });

  test('agrees with the deg F form of the same equation (FPL-RN-0268) within 0.01 % from 30 to 90 F, 30 to 80 %', () => {
    const fahrenheitForm = (t: number, h: number) => {
      const w = 330 + 0.452 * t + 0.00415 * t * t;
      const k = 0.791 + 0.000463 * t - 0.000000844 * t * t;
      const k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t;
      const k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t;
      const a = (k * h) / (1 - k * h);
      const b = (k1 * k * h + 2 * k1 * k2 * k * k * h * h) / (1 + k1 * k * h + k1 * k2 * k * k * h * h);
      return (1800 / w) * (a + b);
    };
    for (let f = 30; f <= 90; f += 5) {
      for (let rh = 30; rh <= 80; rh += 5) {
        expect(Math.abs(emc(((f - 32) * 5) / 9, rh) - fahrenheitForm(f, rh / 100))).toBeLessThan(0.012);
      }
    }
  });

  test('dry air means dry wood, and what the equation does not cover is refused', () => {
    expect(emc(20, 0)).toBe(0);
    expect(() => emc(20, 101)).toThrow(RangeError);
    expect(() => emc(20, -1)).toThrow(RangeError);
    expect(() => emc(200, 50)).toThrow(RangeError);
    expect(() => emc(Number.NaN, 50)).toThrow(RangeError);
    expect(() => emc(20, Number.NaN)).toThrow(RangeError);
    expect(() => emc(-40.1, 50)).toThrow('temperature -40.1 deg C is outside -40…132');
    expect(() => emc(132.1, 50)).toThrow('temperature 132.1 deg C is outside -40…132');
    expect(() => emc(20, 100.1)).toThrow('relative humidity 100.1 % is outside 0…100');
    // Wherever it answers, damper air means damper wood.
    for (const t of [-40, -20, 0, 20, 60, 100, 132])
      for (let h = 5; h <= 100; h += 5) expect(emc(t, h), `${t} deg C, ${h} %`).toBeGreaterThan(emc(t, h - 5));
  });
});

describe('movement', () => {
  // Coefficients: Wood Handbook FPL-GTR-190, table 13-5; products by hand.
  test.each([
    ['red maple, tangential', 0.00289, 4.110736],
    ['sugar maple, tangential', 0.00353, 5.021072],
    ['yellow birch, radial', 0.00256, 3.641344],
  ])('%s: 355.6 mm from 8 to 12 %%', (_, coefficient, expected) => {
    expect(movement(355.6, coefficient, 8, 12)).toBeCloseTo(expected, 6);
  });

  test('outside 6…14 % it is the shrinkage law: size (Mf - Mi) / (30(100)/S - 30 + Mi)', () => {
    // Sugar maple, tangential: S = 9.9 % (FPL-GTR-282 table 4-3); C = (S/3000)/(1 - S/150) = 0.00353 rounded.
    const s = 9.9;
    const c = s / 3000 / (1 - s / 150);
    expect(c).toBeCloseTo(0.00353, 5);
    for (const [from, to] of [
      [4, 12],
      [10, 18],
      [20, 8],
      [12, 2],
    ] as const) {
      expect(movement(100, c, from, to)).toBeCloseTo((100 * (to - from)) / (3000 / s - 30 + from), 9);
    }
    // Green to ovendry is the published shrinkage itself.
    expect(movement(100, c, 30, 0)).toBeCloseTo(-9.9, 9);
  });

  test('6 and 14 % themselves are within the linear range; wood that does not move stays a plain nothing', () => {
    expect(movement(1000, 0.003, 6, 14)).toBeCloseTo(24, 12);
    expect(movement(1000, 0.003, 14, 6)).toBeCloseTo(-24, 12);
    expect(movement(1000, 0, 12, 8)).toBe(0);
    expect(movement(1000, 0, 20, 4)).toBe(0);
    // A reading below dry is dry, one above saturation is saturation.
    expect(movement(1000, 0.003, -5, 20)).toBe(movement(1000, 0.003, 0, 20));
    expect(movement(1000, 0.003, 20, -5)).toBe(movement(1000, 0.003, 20, 0));
    expect(movement(1000, 0.003, 12, 45)).toBe(movement(1000, 0.003, 12, 30));
  });

  test('above fibre saturation nothing moves', () => {
    expect(movement(100, 0.003, 30, 60)).toBe(0);
    expect(movement(100, 0.003, 45, 12)).toBeCloseTo(movement(100, 0.003, 30, 12), 12);
  });

  test('both laws meet at the border of the range to a hundredth of the change', () => {
    const inside = movement(1000, 0.003, 10, 14);
    const outside = movement(1000, 0.003, 10, 14.0001);
    expect(Math.abs(outside - inside)).toBeLessThan(0.01 * inside);
  });
});

describe('a shell between two climates', () => {
  // Black cherry, C_T 0.00248, C_R 0.00126: FPL-GTR-190 table 13-5.
  const wood = { tangential: 0.00248, radial: 0.00126 };
  const shell = { wood, girth: 1028.6, depth: 152, wall: 6.6, from: 12, to: 8 };

  test('staves move round the girth and hardly in depth', () => {
    const m = shellMovement({ ...shell, build: 'stave' });
    expect(m.girth.most).toBeCloseTo(1028.6 * 0.00248 * -4, 9);
    expect(m.girth.least).toBeCloseTo(1028.6 * 0.00126 * -4, 9);
    expect(m.girth.likely).toBeCloseTo(1028.6 * 0.00187 * -4, 9);
    expect(m.diameter.likely).toBeCloseTo(m.girth.likely / Math.PI, 12);
    // 0.15 % green (30 %) to ovendry along the grain: 4 % is 0.02 % of 152 mm.
    expect(m.depth.likely).toBeCloseTo(-152 * 0.0002, 9);
  });

  test('a bent board moves in depth and hardly round the girth', () => {
    const m = shellMovement({ ...shell, build: 'steam-bent' });
    expect(m.girth.likely).toBeCloseTo(-1028.6 * 0.0002, 9);
    expect(m.depth.most).toBeCloseTo(-152 * 0.00248 * 4, 9);
  });

  test('ply barely moves and stays round', () => {
    const ply = shellMovement({ ...shell, build: 'ply' });
    const stave = shellMovement({ ...shell, build: 'stave' });
    expect(Math.abs(ply.girth.most)).toBeLessThan(0.2 * Math.abs(stave.girth.least));
    expect(ply.outOfRound).toBe(0);
    // 0.27 % for 13 % of moisture content is 0.083 % for 4 %.
    expect(ply.girth.most).toBeCloseTo((-1028.6 * 0.0027 * 4) / 13, 9);
  });

  test('every size of every build, by hand: 4 % less, wood that moves 0.1 to 0.3 % for each', () => {
    const of = (build: 'stave' | 'segment' | 'steam-bent' | 'ply') =>
      shellMovement({
        build,
        wood: { tangential: 0.003, radial: 0.001 },
        girth: 1000,
        depth: 100,
        wall: 10,
        from: 12,
        to: 8,
      });
    // Along the grain 0.15 % for 30: 0.02 % for 4. Sheets 0.18 to 0.27 % for 13.
    const along = (size: number) => ({ likely: -size * 0.0002, least: -size * 0.0002, most: -size * 0.0002 });
    const across = (size: number) => ({ likely: -size * 0.008, least: -size * 0.004, most: -size * 0.012 });
    const sheet = (size: number) => ({
      likely: (-size * 0.00225 * 4) / 13,
      least: (-size * 0.0018 * 4) / 13,
      most: (-size * 0.0027 * 4) / 13,
    });
    const near = (a: object, b: object) => {
      for (const key of ['likely', 'least', 'most'] as const)
        expect((a as Record<string, number>)[key]).toBeCloseTo((b as Record<string, number>)[key]!, 9);
    };
    near(of('stave').girth, across(1000));
    near(of('stave').depth, along(100));
    near(of('stave').wall, across(10));
    near(of('steam-bent').girth, along(1000));
    near(of('steam-bent').depth, across(100));
    near(of('steam-bent').wall, across(10));
    near(of('segment').depth, across(100));
    near(of('segment').wall, across(10));
    near(of('ply').girth, sheet(1000));
    near(of('ply').depth, sheet(100));
    near(of('ply').wall, { likely: -10 * 0.004, least: -10 * 0.004, most: -10 * 0.004 });
    near(of('stave').diameter, across(1000 / Math.PI));
    // Swelling turns the signs, not the order of the sizes.
    const wet = shellMovement({ build: 'stave', wood, girth: 1000, depth: 100, wall: 10, from: 8, to: 12 });
    expect(wet.girth.least).toBeGreaterThan(0);
    expect(wet.girth.most).toBeGreaterThan(wet.girth.least);
    // A wood that moves more radially than tangentially keeps the smaller change in `least`.
    const odd = shellMovement({
      build: 'stave',
      wood: { tangential: 0.001, radial: 0.003 },
      girth: 1000,
      depth: 100,
      wall: 10,
      from: 12,
      to: 8,
    });
    near(odd.girth, across(1000));
    // Half the mixture for segments, a quarter for a bent board.
    expect(of('segment').outOfRound).toBeCloseTo(of('stave').outOfRound / 2, 12);
    expect(of('steam-bent').outOfRound).toBeCloseTo(of('stave').outOfRound / 4, 12);
    // R 1000 / 2 pi, 0.8 % between the ways, square wave 4 / pi of half of it, 4 / 3 R of that.
    expect(of('stave').outOfRound).toBeCloseTo((1000 * 0.008 * 8) / (6 * Math.PI ** 2), 9);
    expect(wet.outOfRound).toBeGreaterThan(0);
  });

  test('straight pieces: the movement at each angle off the girth, averaged by adding up', () => {
    const mean = (pieces: number, across: number): number => {
      const half = Math.PI / pieces;
      let sum = 0;
      for (let i = 0; i < 2000; i++) {
        const t = half * ((2 * (i + 0.5)) / 2000 - 1);
        sum += (0.00005 * Math.cos(t) ** 2 + across * Math.sin(t) ** 2) / 2000;
      }
      return sum * -4 * 1028.6;
    };
    for (const segments of [3, 8, 12, 20]) {
      const m = shellMovement({ ...shell, build: 'segment', segments });
      expect(m.girth.most / mean(segments, 0.00248)).toBeCloseTo(1, 6);
      expect(m.girth.least / mean(segments, 0.00126)).toBeCloseTo(1, 6);
    }
    expect(shellMovement({ ...shell, build: 'segment' }).girth).toEqual(
      shellMovement({ ...shell, build: 'segment', segments: 12 }).girth,
    );
    // Fewer than three pieces make no ring.
    expect(shellMovement({ ...shell, build: 'segment', segments: 1 }).girth.most / mean(3, 0.00248)).toBeCloseTo(1, 6);
  });

  test('segments move round the girth only by the corners of their straight pieces', () => {
    const few = shellMovement({ ...shell, build: 'segment', segments: 6 });
    const many = shellMovement({ ...shell, build: 'segment', segments: 60 });
    const bent = shellMovement({ ...shell, build: 'steam-bent' });
    expect(Math.abs(few.girth.likely)).toBeGreaterThan(Math.abs(many.girth.likely));
    expect(many.girth.likely / bent.girth.likely).toBeCloseTo(1, 1);
    expect(few.depth).toEqual(bent.depth);
  });

  test('the worst out of round is what bending a ring of mixed staves gives when integrated', () => {
    // A ring of unit pieces: heading turns by (1 + et - er) dphi, length grows by (1 + et); quarters alternate.
    const m = shellMovement({ ...shell, build: 'stave' });
    const r = shell.girth / (2 * Math.PI);
    const n = 20000;
    const step = (2 * Math.PI) / n;
    const flat = { et: 0.00248 * -4, er: 0.00126 * -4 };
    const quarter = { et: 0.00126 * -4, er: 0.00248 * -4 };
    let heading = 0;
    const at: [number, number][] = [[0, 0]];
    // The mean mismatch is held by the closed ring: take it off the turning so that the ring closes.
    const mean = (flat.et - flat.er + quarter.et - quarter.er) / 2;
    for (let i = 0; i < n; i++) {
      const phi = (i + 0.5) * step;
      const e = Math.cos(2 * phi) > 0 ? flat : quarter;
      const turn = step * (1 + e.et - e.er - mean);
      const length = r * (1 + e.et) * step;
      const [x, y] = at[i]!;
      at.push([x + length * Math.cos(heading + turn / 2), y + length * Math.sin(heading + turn / 2)]);
      heading += turn;
    }
    const diameters = at.slice(0, n / 2).map(([x, y], i) => Math.hypot(x - at[i + n / 2]![0], y - at[i + n / 2]![1]));
    const spread = Math.max(...diameters) - Math.min(...diameters);
    // The second harmonic alone is meant; the sixth and higher add up to a tenth.
    expect(Math.abs(spread - m.outOfRound)).toBeLessThan(0.1 * m.outOfRound);
  });
});
