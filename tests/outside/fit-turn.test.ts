import { describe, expect, test } from 'vitest';
import { bestTurn } from '../../src/fit/turn.ts';
import type { Raw } from '../helpers/changed.ts';
import { laidOut } from '../helpers/laid-out.ts';
import { perDeg, R } from '../helpers/plates.ts';

describe('the best turn of the whole layout, worked by hand', () => {
  const drum = (shell: Raw, ...holes: Raw[]): Raw => ({
    jig: 1,
    name: 'Turn',
    shell: { diameter: 2 * R, depth: 150, wall: 6.6, ...shell },
    fittings: holes.map((h, i) => ({
      name: `h${i}`,
      role: 'vent',
      at: 90,
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill: 6 },
      ...h,
    })),
  });
  const turn = (shell: Raw, ...holes: Raw[]) => {
    const { jig, layout } = laidOut(drum(shell, ...(holes.length === 0 ? [{}] : holes)));
    return bestTurn(jig, layout);
  };
  /** Half a hole of so many mm, in degrees of the shell. */
  const half = (r: number) => (Math.asin(r / R) * 180) / Math.PI;

  const wide = (at: number): Raw => ({ at, holes: { layout: 'single', drill: 60 } });
  const old = (distance: number, diameter: number): Raw => ({ at: 100, edge: 'middle', distance, diameter });
  const ring = (width: number): Raw => ({ width, thickness: 4, joint: 100 });

  test.each<[string, Raw, Raw[], number, number]>([
    // The hole is 10 deg left of the joint: opposite it is best.
    ['one joint', { joints: [100] }, [], -170, 180 - half(3)],
    ['one joint on the other side', { joints: [80] }, [], 170, 180 - half(3)],
    ['one joint in the hole: right rather than left', { joints: [90] }, [], 180, 180 - half(3)],
    ['two joints: the middle of the wider gap', { joints: [80, 180] }, [], -140, 130 - half(3)],
    ['three equal gaps: the smallest turn', { joints: [0, 120, 240] }, [], -30, 60 - half(3)],
    ['two holes on two joints', { joints: [90, 270] }, [{}, { at: 100 }], 85, 85 - half(3)],
    // 0.0001 deg are 0.0003 mm, which nobody sees; 0.001 deg are 0.003 mm, half of it for a gap's middle.
    ['gaps as good as equal: the smallest turn', { joints: [0, 120, 240.0001] }, [], -30, 60 - half(3)],
    ['a gap just wider', { joints: [0, 120, 240.001] }, [], 90.0005, 60.0005 - half(3)],
    [
      'a later gap as good as equal, and a smaller turn',
      { joints: [0.0001, 120, 240] },
      [],
      -29.99995,
      59.99995 - half(3),
    ],
    ['a later gap just wider', { joints: [0.001, 120, 240] }, [], -149.9995, 60.0005 - half(3)],
    // Forbidden 355 +- 10.6 and 3 +- 1: the wide one reaches over 360 and past the narrow one.
    ['a wide hole over 0 deg', { joints: [90] }, [wide(95), { at: 87 }], 175, 180 - half(30)],
    ['a narrow hole behind a wide one', { joints: [90] }, [wide(70), { at: 75 }], -160, 180 - half(30)],
    ['a narrow hole before a wide one ends', { joints: [90] }, [wide(75), { at: 70 }], -165, 180 - half(30)],
    // Reach 3 + 2, 3 mm above each other: sqrt(25 - 9) = 4.
    ['an old hole', { holes: [old(3, 4)] }, [], -170, 180 - half(4)],
    ['an old hole below', { holes: [old(-3, 4)] }, [], -170, 180 - half(4)],
    ['holes together wider than the shell', { holes: [old(0, 300)] }, [wide(90)], -170, 90],
    ['two equal gaps: to the right', { joints: [90, 270] }, [], 90, 90 - half(3)],
    [
      'a joint, and a ring without one',
      { joints: [100], rings: { bottom: { width: 140, thickness: 4 } } },
      [],
      -170,
      180 - half(3),
    ],
    ['a top ring over a hole in the upper half', { rings: { top: ring(60) } }, [{ distance: 20 }], -170, 180 - half(3)],
    // The hole reaches from 72 to 78 mm.
    ['the joint of a bottom ring', { rings: { bottom: ring(72.1) } }, [], -170, 180 - half(3)],
    ['the joint of a top ring', { rings: { top: ring(72.1) } }, [], -170, 180 - half(3)],
  ])('%s', (_, shell, holes, by, clear) => {
    const t = turn(shell, ...holes);
    expect(t?.by).toBeCloseTo(by, 9);
    expect(t?.clearance).toBeCloseTo(clear * perDeg, 9);
  });
  test.each<[string, Raw]>([
    ['nothing to miss', {}],
    ['an old hole just above', { holes: [old(5, 4)] }],
    ['a bottom ring just below', { rings: { bottom: ring(72) } }],
    ['a top ring just above', { rings: { top: ring(72) } }],
    ['a ring without a joint', { rings: { bottom: { width: 140, thickness: 4 } } }],
    ['joints closer than a hole is wide', { joints: Array.from({ length: 180 }, (_, i) => 2 * i) }],
  ])('none: %s', (_, shell) => expect(turn(shell)).toBeUndefined());
  test('none: a bottom ring below a hole in the upper half, a top ring above one in the lower', () => {
    expect(turn({ rings: { bottom: ring(80) } }, { distance: 20 })).toBeUndefined();
    expect(turn({ rings: { top: ring(80) } }, { distance: -20 })).toBeUndefined();
  });
  test('less than a thousandth of a millimetre is no room', () => {
    const joints = Array.from({ length: 180 }, (_, i) => 2 * i);
    // Every gap leaves so many millimetres to both sides of its middle.
    const room = (mm: number) =>
      turn({ joints }, { holes: { layout: 'single', drill: 2 * R * Math.sin((1 - mm / perDeg) * (Math.PI / 180)) } });
    expect(room(0.0009)).toBeUndefined();
    expect(room(0.0011)?.clearance).toBeCloseTo(0.0011, 6);
  });
});
