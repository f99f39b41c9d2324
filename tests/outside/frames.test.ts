import { describe, expect, test } from 'vitest';
import {
  acrossAngle,
  arc,
  chord,
  flatRadius,
  fromMachine,
  roll,
  signOfA,
  toMachine,
  unroll,
} from '../../src/geometry/frames.ts';

describe('round the shell, by hand', () => {
  test('a sheet of 1.5 whose neutral line lies 0.4 of it out wraps 180 as if it were 180.6', () => {
    expect(flatRadius(180, 1.5, 0.4)).toBeCloseTo(180.6, 12);
  });

  test('half the radius straight across is 30 deg, to the left is minus', () => {
    expect(acrossAngle(90, 180)).toBeCloseTo(30, 12);
    expect(acrossAngle(-90, 180)).toBeCloseTo(-30, 12);
  });

  test('sides of the hexagon and the square in a circle; the whole diameter; either way round', () => {
    expect(chord(180, 60)).toBeCloseTo(180, 12);
    expect(chord(100, -90)).toBeCloseTo(100 * Math.SQRT2, 12);
    expect(chord(100, 180)).toBeCloseTo(200, 12);
  });

  test('a radian is one radius of arc', () => {
    expect(arc(180, 180 / Math.PI)).toBeCloseTo(180, 12);
    expect(arc(180, 90 / Math.PI)).toBeCloseTo(90, 12);
  });

  test('a quarter turn at 90 deg lies pi / 2 radii to the right, and comes back', () => {
    expect(unroll({ angle: 90, height: 40 }, 200)).toEqual({ x: 100 * Math.PI, y: 40 });
    expect(roll({ x: 100 * Math.PI, y: 40 }, 200)).toEqual({ angle: 90, height: 40 });
  });
});

describe('shell to machine', () => {
  const p = { angle: 25, height: 40 };

  test.each([
    ['bottom', 'iso', 40, 25],
    ['bottom', 'reversed', 40, -25],
    ['top', 'iso', 112, -25],
    ['top', 'reversed', 112, 25],
  ] as const)('datum %s, %s: X %d, A %d (right-hand rule of ISO 841, on paper)', (datum, a, x, turned) => {
    const frame = { datum, a, depth: 152 };
    expect(signOfA(frame)).toBe(Math.sign(turned));
    expect(toMachine(p, 3, frame)).toEqual({ x, y: 0, z: 3, a: turned });
    expect(fromMachine({ x, y: 0, z: 3, a: turned }, frame)).toEqual(p);
  });
});
