import { describe, expect, test } from 'vitest';
import { cornerSpeed, secondsBetween } from '../../src/dryrun/blend.ts';
import { clock } from '../../src/dryrun/clock.ts';
import { readProgram } from '../../src/dryrun/program.ts';
import type { Machine } from '../../src/model/machine.ts';
import { MACHINE } from '../helpers/drill-program.ts';

/**
 * Move times against the closed forms of constant acceleration (any mechanics textbook): trapezoid s/v + v/a when the
 * speed is reached, triangle 2 sqrt(s/a) when not; a move of several axes is as slow as its slowest. Numbers worked by hand.
 */
type Axis = 'x' | 'y' | 'z' | 'a';
/** A millimetre of skin a degree. */
const SKIN = 180 / Math.PI;
/** Limits in mm/s and mm/s^2 (degrees for A). */
function machine(v: Partial<Record<Axis, number>>, a: Partial<Record<Axis, number>>): Machine {
  const rapid = { x: 1e9, y: 1e9, z: 1e9, a: 1e9 };
  const acceleration = { x: 1e12, y: 1e12, z: 1e12, a: 1e12 };
  for (const axis of ['x', 'y', 'z', 'a'] as const) {
    if (v[axis] !== undefined) rapid[axis] = v[axis] * 60;
    if (a[axis] !== undefined) acceleration[axis] = a[axis];
  }
  return { ...MACHINE, rapid, acceleration, feed: 1e9, spindle: { ...MACHINE.spindle, seconds: 0 } };
}

function seconds(program: string, m: Machine): number {
  const time = clock(m, SKIN);
  const reader = readProgram(
    { step: (s) => void time.step(s), problem: () => {} },
    { start: { x: 0, y: 0, z: 0, a: 0, b: 0, units: 'mm', distance: 'absolute' } },
  );
  reader.push(`${program}\n`);
  reader.finish();
  time.finish();
  return time.total();
}

const M1 = machine({ x: 50 }, { x: 500 });
const M4 = machine({ x: 50, a: 30 }, { x: 500, a: 100 });

describe('exact stop', () => {
  test.each([
    ['M1 trapezoid', 'G0 X100', M1, 2.1],
    ['M2 triangle', 'G0 X2', M1, 0.126491],
    ['M3 two axes', 'G0 X30 Y40', machine({ x: 50, y: 40 }, { x: 500, y: 200 }), 1.2],
    ['M4 the rotary axis is the slow one', 'G0 X30 A90', M4, 3.3],
    ['M5 feed', 'G1 X10 F120', M1, 5.004],
    ['M6 feed along X, A keeps up', 'G1 X30 A90 F60', M4, 30.03],
    ['M7 A cannot keep up', 'G1 X30 A90 F1200', M4, 3.3],
    ['M8 A alone', 'G1 A90 F3600', M4, 3.3],
  ] as const)('%s', (_, program, m, wanted) => {
    expect(seconds(program, m)).toBeCloseTo(wanted, 6);
  });

  test('M9 two rotary axes: 50 degrees in all, 30.006667 s', () => {
    // B has no limits of its own here; A's 60 deg/s and 200 deg/s^2 act on its share of 30 of 50 degrees.
    const slow = seconds('G1 A30 B40 F100', machine({ a: 60 }, { a: 200 * (30 / 40) }));
    expect(slow).toBeCloseTo(30.006667, 5);
  });

  test('M10 a pecked hole: 6.631196 s', () => {
    const m = machine({ z: 40 }, { z: 400 });
    const program = 'G0 Z40\nG21 G17 G90 G94 G98\nG83 X0 Z22 R31 Q4 F120';
    expect(seconds(program, m) - seconds('G0 Z40', m)).toBeCloseTo(6.631196, 6);
  });

  test('arcs: along the helix, no faster round than sqrt(A r)', () => {
    const helix = 15.395179;
    expect(seconds('G0 X7 Y7\nG17 G2 X10 Y16 I3 J4 Z9 F60', machine({}, {}))).toBeCloseTo(helix, 3);
    // r = 5, A = 20: 10 mm/s at most. Half a turn is 15.707963 mm: 15.707963 / 10 + 10 / 20.
    expect(seconds('G17 G2 X10 I5 F60000', machine({}, { x: 20, y: 20 }))).toBeCloseTo(2.070796, 6);
  });

  test('dwell and no way at all', () => {
    expect(seconds('G4 P1.5', M1)).toBe(1.5);
    expect(seconds('G0 X0', M1)).toBe(0);
  });
});

describe('laws', () => {
  test('time is at least way over speed; splitting a move at rest never makes it faster; signs do not matter', () => {
    for (const x of [0.01, 0.5, 4.99, 5, 5.01, 37, 400]) {
      const whole = seconds(`G0 X${x}`, M1);
      expect(whole).toBeGreaterThanOrEqual(x / 50);
      expect(seconds(`G0 X-${x}`, M1)).toBe(whole);
      expect(seconds(`G0 X${x / 2}\nX${x}`, M1)).toBeGreaterThanOrEqual(whole - 1e-12);
    }
    expect(seconds('G0 X100', machine({ x: 50 }, { x: 1e9 }))).toBeCloseTo(2, 6);
    expect(seconds('G0 X0.04', M1) / seconds('G0 X0.01', M1)).toBeCloseTo(2, 9);
  });
});

describe('blended (G64)', () => {
  test('M11 speeds at both ends: 0.15 s', () => {
    expect(secondsBetween(5, 10, 20, 50, 500)).toBeCloseTo(0.15, 12);
    // Below the greatest speed the peak is sqrt((2 A L + v0^2 + v1^2) / 2) = 52.44 mm/s.
    expect(secondsBetween(5, 10, 20, 100, 500)).toBeCloseTo((2 * Math.sqrt(2750) - 30) / 500, 12);
  });

  test('M12 a square corner: 7.768870 mm/s', () => {
    expect(cornerSpeed(500, 0.05, Math.sin(Math.PI / 4))).toBeCloseTo(7.76887, 5);
    expect(cornerSpeed(500, 0.05, 0)).toBe(0);
    expect(cornerSpeed(500, 0.05, 1)).toBe(Infinity);
  });

  test('a straight way in many pieces takes as long as in one; with stops it takes longer', () => {
    const pieces = Array.from({ length: 400 }, (_, i) => `X${(i + 1) * 0.25}`).join('\n');
    expect(seconds(`G64 G0 ${pieces}`, M1)).toBeCloseTo(2.1, 2);
    expect(seconds(`G61.1 G0 ${pieces}`, M1)).toBeGreaterThan(10);
    // Back and forth turns the way round: blending gains nothing.
    expect(seconds('G64 G0 X10\nX0', M1)).toBeCloseTo(seconds('G61.1 G0 X10\nX0', M1), 9);
    // A square corner is passed at 7.76887 mm/s on both legs of 30 mm.
    const both = machine({ x: 50, y: 50 }, { x: 500, y: 500 });
    expect(seconds('G64 G0 X30\nY30', both)).toBeCloseTo(2 * secondsBetween(30, 0, 7.76887, 50, 500), 6);
  });

  // On this shell a degree is a millimetre of skin: A's 100 deg/s^2 are 100 mm/s^2, its 30 deg/s 30 mm/s.
  test('A alone in many pieces takes as long as in one: 90 degrees at 30 deg/s, 3.3 s', () => {
    const pieces = Array.from({ length: 100 }, (_, i) => `A${(i + 1) * 0.9}`).join('\n');
    expect(seconds(`G64 G0 ${pieces}`, M4)).toBeCloseTo(90 / 30 + 30 / 100, 6);
    expect(seconds('G64 G0 A45\nA0', M4)).toBeCloseTo(2 * (45 / 30 + 30 / 100), 9);
  });

  test('a spiral in many pieces is one straight way of the unrolled skin', () => {
    // 30 mm and 90 degrees together: A is the slow one, 3.3 s as in one piece (M6, M7 above).
    const pieces = Array.from({ length: 60 }, (_, i) => `X${(i + 1) * 0.5} A${(i + 1) * 1.5}`).join('\n');
    expect(seconds(`G64 G0 ${pieces}`, M4)).toBeCloseTo(3.3, 6);
    // F is along X alone: 30 mm at 60 mm/min in 30 s, and one rise and fall of the speed.
    expect(seconds(`G64 G1 F60 ${pieces}`, M4)).toBeCloseTo(30.03, 6);
  });

  test('from along the shell to round it: a square corner on the skin, at the slower axis: sqrt(100 0.05 s / (1 - s))', () => {
    const corner = Math.sqrt((100 * 0.05 * Math.SQRT1_2) / (1 - Math.SQRT1_2));
    expect(corner).toBeCloseTo(3.474344, 6);
    const wanted = secondsBetween(30, 0, corner, 50, 500) + secondsBetween(45, corner, 0, 30, 100);
    expect(seconds('G64 G0 X30\nA45', M4)).toBeCloseTo(wanted, 9);
    // By hand: x^2 / 2a to and from 50 and 30 mm/s.
    const x = 50 / 500 + (50 - corner) / 500 + (30 - (2 * 2500 - corner ** 2) / 1000) / 50;
    const a = 30 / 100 + (30 - corner) / 100 + (45 - (2 * 900 - corner ** 2) / 200) / 30;
    expect(wanted).toBeCloseTo(x + a, 9);
    expect(wanted).toBeLessThan(seconds('G61.1 G0 X30\nA45', M4));
  });

  test('the same corner on a shell twice as thick is passed as if A were twice as quick', () => {
    const twice = clock(M4, 2 * SKIN);
    const reader = readProgram(
      { step: (s) => void twice.step(s), problem: () => {} },
      { start: { x: 0, y: 0, z: 0, a: 0, units: 'mm', distance: 'absolute' } },
    );
    reader.push('G64 G0 X30\nA45\n');
    reader.finish();
    twice.finish();
    const corner = Math.sqrt((200 * 0.05 * Math.SQRT1_2) / (1 - Math.SQRT1_2));
    expect(twice.total()).toBeCloseTo(
      secondsBetween(30, 0, corner, 50, 500) + secondsBetween(90, corner, 0, 60, 200),
      9,
    );
  });

  test('an inverse time keeps its time between stops', () => {
    // 2 per minute: 30 s for 45 degrees, and v / a of 1.5 deg/s once for all three.
    expect(seconds('G93 G64 G1 A45 F2\nA90 F2\nA135 F2', M4)).toBeCloseTo(90 + 1.5 / 100, 9);
  });
});
