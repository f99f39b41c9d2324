import fc from 'fast-check';
import { expect, test } from 'vitest';
import { spell } from '../../src/say/saying.ts';

/** Seconds from words such as `1 h 5 min` or `4 min 10 s`. */
const heard = (text: string): number =>
  [...text.matchAll(/(\d+) (h|min|s)/g)].reduce(
    (sum, [, n, unit]) => sum + Number(n) * { h: 3600, min: 60, s: 1 }[unit as 'h' | 'min' | 's'],
    0,
  );

test('a time is said to the second below an hour, to the minute above, and never as 60 of anything', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: 1e6, noNaN: true }), (seconds) => {
      const text = spell(seconds);
      expect(Math.abs(heard(text) - seconds)).toBeLessThanOrEqual(seconds < 3599 ? 0.5 : 30.5);
      expect(text).not.toMatch(/\b60 (min|s)/);
    }),
    { numRuns: 300 },
  );
  expect([42.4, 59.6, 119.7, 3599.7, 7180, 7199].map(spell)).toEqual([
    '42 s',
    '1 min 0 s',
    '2 min 0 s',
    '1 h 0 min',
    '2 h 0 min',
    '2 h 0 min',
  ]);
});
