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
