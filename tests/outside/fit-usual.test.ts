import { describe, expect, test } from 'vitest';
import { fitSayings } from '../../src/say/fit.ts';
import { say } from '../../src/say/say.ts';
import { changed, factsOf, type Raw, sound } from '../helpers/jig-cases.ts';

const found = (raw: Raw, id: string) => factsOf(raw).filter((f) => f.id === id);
const level = (base: string, set: Raw, id: string): string =>
  found(changed(sound(base), set), id)[0]?.level ?? 'silent';

describe('figures that no builder meets are told, with both sides of each limit', () => {
  test.each([
    ['snare-13x6', 'shell.depth', 700, 700.1],
    ['snare-13x6', 'shell.depth', 40, 39.9],
    ['snare-13x6', 'shell.diameter', 800, 800.1],
    ['snare-13x6', 'shell.diameter', 140, 139.9],
    ['snare-13x6', 'shell.rings', { top: { width: 130, thickness: 25 } }, { top: { width: 131, thickness: 25 } }],
    ['snare-13x6', 'shell.rings', { top: { width: 20, thickness: 1 } }, { top: { width: 20, thickness: 0.9 } }],
    ['snare-13x6', 'shell.skin', { thickness: 4, when: 'before' }, { thickness: 4.1, when: 'before' }],
    ['snare-13x6', 'hoops.top.ear', 100, 100.1],
    ['snare-13x6', 'hoops.top.ear', -60, -60.1],
    ['snare-13x6', 'hoops.bottom.skirt', 60, 60.1],
    ['snare-13x6', 'rods.length.top', 20, 19.9],
    ['snare-13x6', 'rods.length.bottom', 250, 250.1],
    ['snare-13x6', 'rods.threaded', 6, 5.9],
    ['snare-13x6', 'rods.washer', 6, 6.1],
    ['snare-13x6', 'rods.travel', '15 mm', '15.1 mm'],
    ['snare-13x6', 'rods.travel', '0.5 mm', '0.4 mm'],
    ['snare-13x6', 'lugs.count', 24, 25],
    ['snare-13x6', 'lugs.rod.face', 200, 201],
    ['snare-13x6', 'lugs.rod.standoff', 4, 3.9],
    ['snare-13x6', 'lugs.rod.standoff', 60, 60.1],
    ['snare-13x6', 'lugs.foot.gasket', 5, 5.1],
    ['snare-13x6', 'lugs.holes.drill', 25, 25.1],
    ['snare-13x6', 'fittings.0.holes.drill', 1.5, 1.4],
    ['snare-13x6', 'lugs.holes.tapped', 40, 40.1],
    ['snare-13x6', 'lugs.holes.washer', 6, 6.1],
    ['snare-13x6', 'fittings.0.foot', { width: 4, height: 60 }, { width: 3.9, height: 60 }],
    ['floor-tom-16x16', 'fittings.0.rod', { diameter: 25 }, { diameter: 25.1 }],
    ['floor-tom-16x16', 'fittings.0.rod', { diameter: 4 }, { diameter: 3.9 }],
  ])('%s: %s of %j passes, of %j does not', (base, key, inside, outside) => {
    expect(level(base, { [key]: inside, 'lugs.holes.pilot': null }, 'size-unusual')).toBe('silent');
    expect(level(base, { [key]: outside, 'lugs.holes.pilot': null }, 'size-unusual')).toBe('care');
  });

  test('the unit in which it would be usual is named', () => {
    const [f] = found(changed(sound('snare-13x6'), { 'hoops.top.skirt': '5 in' }), 'size-unusual');
    expect(f && say(f, fitSayings).try).toBe('Check hoops.top.skirt: 12.7 mm was perhaps meant (ten times too large).');
    const [g] = found(changed(sound('snare-13x6'), { 'rods.threaded': 2.5 }), 'size-unusual');
    expect(g?.facts).toMatchObject({ meant: 25, slip: 'centimetres for millimetres' });
    const [h] = found(changed(sound('snare-13x6'), { 'shell.depth': 6 }), 'size-unusual');
    expect(h?.facts).toMatchObject({ key: 'shell.depth', meant: 60 });
  });

  test('a vent too narrow, a ring thicker than wide, a leg measured from the wrong edge', () => {
    expect(level('snare-13x6', { 'fittings.2.holes.drill': 3 }, 'vent-narrow')).toBe('silent');
    expect(level('snare-13x6', { 'fittings.2.holes.drill': 2.9 }, 'vent-narrow')).toBe('care');
    expect(level('snare-13x6', { 'fittings.2.holes.drill': '0.1 mm' }, 'vent-narrow')).toBe('care');
    const ring = (width: number, thickness: number) => ({ 'shell.rings': { top: { width, thickness } } });
    expect(level('snare-13x6', ring(8, 8), 'ring-thicker-than-wide')).toBe('silent');
    expect(level('snare-13x6', ring(8, 8.1), 'ring-thicker-than-wide')).toBe('care');
    // 65 % of 400 mm.
    const leg = (distance: number) => ({ 'shell.depth': 400, 'fittings.0.distance': distance });
    expect(level('floor-tom-16x16', leg(260), 'leg-high')).toBe('silent');
    expect(level('floor-tom-16x16', leg(260.1), 'leg-high')).toBe('care');
  });
});

test('a head size without its unit is told, not a shell to sand down by a foot', () => {
  const told = (nominal: unknown) =>
    found(changed(sound('snare-13x6'), { 'shell.nominal': nominal }), 'shell-too-large').map(
      (f) => say(f, fitSayings).try,
    )[0];
  expect(told(13)).toMatch(/^Write shell\.nominal: 13 in,/);
  expect(told('12 in')).toMatch(/^Measure the girth again/);
});

describe('a misread tape is named plainly, on every size of head', () => {
  const inches = [8, 10, 12, 13, 14, 16, 18, 20, 22, 24, 26];
  const shell = (size: number, slip: number): Raw => ({
    jig: 1,
    name: 'Misread',
    // 2.5 mm under the head, as shells usually are.
    shell: { circumference: Math.PI * (size * 25.4 - 2.5) + slip, depth: 200, wall: 6, nominal: `${size} in` },
    fittings: [{ role: 'badge', at: 0, edge: 'middle', distance: 0, foot: { width: 40, height: 30 } }],
  });
  test.each(
    inches.flatMap(
      (size) =>
        [
          [size, 10, 'one centimetre too long'],
          [size, -10, 'one centimetre too short'],
          [size, 25.4, 'one inch too long'],
          [size, -25.4, 'one inch too short'],
        ] as const,
    ),
  )('%s in, girth out by %s mm', (size, slip, words) => {
    const f = factsOf(shell(size, slip)).find((x) => x.id.startsWith('shell-'));
    expect(f?.facts?.['misread']).toBe(words);
    expect(f?.facts?.['meant']).toBeCloseTo(Math.PI * (size * 25.4 - 2.5), 6);
    expect(f && say(f, fitSayings).text).toContain(`It looks like a girth read ${words}`);
  });
});

describe('the hoop over an open lever', () => {
  const lever = (more: Raw): Raw => ({ 'fittings.0.lever': { left: 10, right: 10, rimward: 30, inward: 10, ...more } });
  // Strainer 46 mm up, so the lever ends 46 - rimward above the edge; the hoop comes down by 5 and 3.175 mm of travel.
  test.each([
    [37.8, 'silent'],
    [37.9, 'stop'],
  ])('a lever %s mm towards the rim: %s', (rimward, what) => {
    expect(level('snare-13x6', lever({ rimward }), 'hoop-on-lever')).toBe(what);
  });
  test('one that is known to run outside the rods is looked at twice, no more', () => {
    // Ear circle 357.4, rods 12-24 (5.486): 178.7 + 2.743 - 163.7 = 17.743 mm over the shell.
    expect(level('snare-13x6', lever({ rimward: 40, clear: 17.7 }), 'hoop-on-lever')).toBe('stop');
    expect(level('snare-13x6', lever({ rimward: 40, clear: 17.8 }), 'hoop-on-lever')).toBe('silent');
    expect(level('snare-13x6', lever({ rimward: 40, clear: 17.8 }), 'hoop-near-fitting')).toBe('care');
  });
});
