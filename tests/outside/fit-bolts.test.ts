import { describe, expect, test } from 'vitest';
import { nutHeight } from '../../src/data/screws.ts';
import { parseThread } from '../../src/data/threads.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { fitSayings } from '../../src/say/fit.ts';
import { say } from '../../src/say/say.ts';
import { changed, factsOf, jigOf, type Raw, sound } from '../helpers/jig-cases.ts';

/** The snare's strainer screwed on from outside: foot 4 mm thick, wall 6.6, washer 0.8, nut of M4 3.2 mm: 14.6 mm. */
const strainer = (screw: string, more: Raw = {}): Raw =>
  changed(sound('snare-13x6'), {
    'fittings.0.holes': {
      layout: 'upright',
      spacing: 28,
      drill: 4.5,
      screw,
      from: 'outside',
      through: 4,
      washer: 0.8,
      ...more,
    },
  });
const level = (raw: Raw, id: string): string =>
  factsOf(raw).find((f) => f.id === id && f.at.startsWith('strainer'))?.level ?? 'silent';

describe('screws from outside with a nut inside', () => {
  test.each([
    ['M4 x 14.6', 'silent', 'silent'],
    ['M4 x 14.5', 'stop', 'silent'],
    ['M4 x 10', 'stop', 'silent'],
    ['M4 x 24.6', 'silent', 'silent'],
    ['M4 x 24.7', 'silent', 'care'],
  ])('%s: too short %s, sticks out %s', (screw, short, out) => {
    expect(level(strainer(screw), 'screw-too-short')).toBe(short);
    expect(level(strainer(screw), 'screw-sticks-out')).toBe(out);
    expect(level(strainer(screw), 'screw-bottoms')).toBe('silent');
  });
  test('a ring under one hole only counts for that hole', () => {
    // Holes at 32 and 60 mm: the lower one passes a ring 40 mm wide and 5 mm thick.
    const ring = { 'shell.rings': { bottom: { width: 40, thickness: 5 } } };
    expect(level(changed(strainer('M4 x 19.5'), ring), 'screw-too-short')).toBe('stop');
    expect(level(changed(strainer('M4 x 19.6'), ring), 'screw-too-short')).toBe('silent');
  });
  // Casting 4 + wall 6.6 + washer 0.8 = 11.4 under the head; the nut takes 3.2 more, and 10 may stand out of it.
  test('what is said of a short one and of a long one', () => {
    const told = { grip: 11.4, wall: 6.6, ring: 0, gasket: 0, washer: 0.8, through: 4, nut: 3.2, from: 14.6, to: 24.6 };
    const [short, long] = ['M4 x 12', 'M4 x 30'].map((screw) =>
      factsOf(strainer(screw)).find((f) => f.id === 'screw-too-short' || f.id === 'screw-sticks-out'),
    );
    expect(short).toMatchObject({ id: 'screw-too-short', level: 'stop', at: 'strainer-a', limit: 3.2, unit: 'mm' });
    expect(long).toMatchObject({ id: 'screw-sticks-out', level: 'care', at: 'strainer-a', limit: 10, unit: 'mm' });
    expect(short?.measured).toBeCloseTo(0.6, 9);
    expect(long?.measured).toBeCloseTo(15.4, 9);
    for (const [f, screw, length, over] of [
      [short, 'M4 x 12', 12, 2.6],
      [long, 'M4 x 30', 30, 5.4],
    ] as const) {
      expect(f?.facts).toMatchObject({ screw, length, sold: '16 mm, 18 mm, 20 mm', group: 'fittings.0' });
      expect(f?.facts?.['over']).toBeCloseTo(over, 9);
      for (const [name, value] of Object.entries(told)) expect(f?.facts?.[name], name).toBeCloseTo(value, 9);
    }
  });
  test('a gasket under the foot lies under the head too', () => {
    const gasket = { 'fittings.0.foot.gasket': 1 };
    expect(level(changed(strainer('M4 x 15.6'), gasket), 'screw-too-short')).toBe('silent');
    expect(level(changed(strainer('M4 x 15.5'), gasket), 'screw-too-short')).toBe('stop');
  });
  test('the hole through the ring tells what is short, the one beside it what sticks out', () => {
    const ring = { 'shell.rings': { bottom: { width: 40, thickness: 5 } } };
    const one = (screw: string) =>
      factsOf(changed(strainer(screw), ring)).filter((f) => /^strainer-.*screw-(too|sticks)/.test(`${f.at} ${f.id}`));
    // 16.4 and 11.4 under the head.
    expect(one('M4 x 19')).toMatchObject([{ id: 'screw-too-short', at: 'strainer-b', facts: { ring: 5 } }]);
    expect(one('M4 x 24.6')).toEqual([]);
    expect(one('M4 x 24.7')).toMatchObject([{ id: 'screw-sticks-out', at: 'strainer-a', facts: { ring: 0 } }]);
  });
  test('the sentence names what lies under the head, and the cure a length on sale', () => {
    const [f] = factsOf(strainer('M4 x 12')).filter((x) => x.id === 'screw-too-short');
    const said = f && say(f, fitSayings);
    expect(said?.text).toContain('casting 4 mm + wall 6.6 mm + washer 0.8 mm = 11.4 mm');
    expect(said?.try).toContain('14.6 mm to 24.6 mm under the head (sold as 16 mm, 18 mm, 20 mm)');
  });
  test('without the thickness of the casting it is not checked, and says what it needs', () => {
    const needs = factsOf(strainer('M4 x 16', { through: undefined }))
      .filter((f) => f.id === 'not-checked')
      .map((f) => String(f.facts?.['needs']));
    expect(needs).toContain('through of strainer');
    const lugs = { layout: 'single', drill: 4.5, screw: 'M4 x 16', from: 'outside' };
    const asked = factsOf(changed(strainer('M4 x 16'), { 'lugs.holes': lugs })).filter(
      (f) => f.facts?.['check'] === 'length of the screws from outside',
    );
    expect(asked.map((f) => [f.level, f.facts?.['needs']])).toEqual([['note', 'lugs.holes.through']]);
  });
  test('a nut of its own is taken, a standard one is assumed and listed', () => {
    expect(level(strainer('M4 x 14.6', { nut: 5 }), 'screw-too-short')).toBe('stop');
    expect(jigOf(strainer('M4 x 16')).assumptions.find((a) => a.key.endsWith('holes.nut'))?.value).toBe('3.2 mm');
  });
  test.each([
    [{ tapped: 9 }, 'fittings.0.holes.tapped'],
    [{ from: 'inside' }, 'fittings.0.holes.through'],
    [{ from: undefined, through: undefined, nut: 3 }, 'fittings.0.holes.nut'],
    [{ from: 'above' }, 'fittings.0.holes.from'],
  ])('what cannot be together is refused: %j', (more, path) => {
    const r = resolveJig(strainer('M4 x 16', more));
    expect(r.ok ? [] : r.issues.map((i) => i.path.join('.'))).toContain(path);
  });
  // ISO 4032 and ASME B18.6.3, from memory: 1/8, 5/32 and 3/16 in are 3.175, 3.969 and 4.763 mm.
  test.each([
    ['M4', 3.2],
    ['M5', 4.7],
    ['M6', 5.2],
    ['8-32', 3.175],
    ['12-24', 3.969],
    ['1/4-20', 4.763],
  ])('nut of %s: %s mm', (name, height) => {
    const thread = parseThread(name);
    expect(thread && nutHeight(thread)).toBeCloseTo(height, 1);
  });
});
