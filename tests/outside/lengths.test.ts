import { describe, expect, test } from 'vitest';
import { parseThread } from '../../src/data/threads.ts';
import { readAngle, readLength } from '../../src/units/length.ts';

const mm = (raw: unknown, units: 'mm' | 'in' = 'mm') => {
  const r = readLength(raw, units);
  return r.ok ? r.value : r.why;
};

describe('lengths: 1 in = 25.4 mm exactly (international inch, 1959)', () => {
  test.each([
    ['34 mm', 34],
    ['34mm', 34],
    ['1.5 in', 38.1],
    ['1-1/2 in', 38.1],
    ['1 1/2"', 38.1],
    ['1 1/2″', 38.1],
    ['1½"', 38.1],
    ['-½"', -12.7],
    ['⅝ in', 15.875],
    ['3.4 cm', 34],
    ['.5"', 12.7],
    ['13 15/16 in', 353.9 + 0.1125],
    ['14 in', 355.6],
    ['-5 mm', -5],
    ['5/8 inch', 15.875],
    ['1/2', 0.5],
    ['  7  mm ', 7],
  ])('%s is %f mm', (text, value) => expect(mm(text)).toBe(Math.round(value * 1e9) / 1e9));

  test("bare numbers and fractions are in the file's units", () => {
    expect(mm(1.5, 'in')).toBe(38.1);
    expect(mm('1/2', 'in')).toBe(12.7);
    expect(mm('3/4')).toBe(0.75);
    expect(mm(14, 'in')).toBe(355.6);
  });

  test.each([
    '',
    'mm',
    '1 in 3 mm',
    '1/0 in',
    '1/2/3 in',
    '1e5 mm',
    '34,5 mm',
    'NaN',
    'Infinity mm',
    '0x10',
    '5 ft',
    '1 2 3 mm',
    '--5 mm',
    '5 mm mm',
  ])('refuses %j with a reason', (text) => expect(typeof mm(text)).toBe('string'));
  test('refuses what is no scalar, and numbers that are none', () => {
    for (const raw of [Number.NaN, Number.POSITIVE_INFINITY, null, true, {}, []]) expect(typeof mm(raw)).toBe('string');
  });
  test('names the decimal comma', () => expect(mm('34,5')).toMatch(/34\.5/));
});

describe('angles', () => {
  test.each([
    ['22.5 deg', 22.5],
    [22.5, 22.5],
    ['22.5°', 22.5],
    ['-10', -10],
    ['45/2 deg', 22.5],
  ])('%s', (raw, value) => expect(readAngle(raw)).toEqual({ ok: true, value }));
  test('refuses words', () => expect(readAngle('north').ok).toBe(false));
});

describe('threads', () => {
  // ISO 261 coarse pitches (from memory); ASME B1.1: numbered size n has a major diameter of 0.060 + 0.013 n inch.
  test.each([
    ['M4', 4, 0.7],
    ['m6 x 0.75', 6, 0.75],
    ['M5', 5, 0.8],
    ['12-24 UNC', 5.4864, 25.4 / 24],
    ['#12-24', 5.4864, 25.4 / 24],
    ['8-32', 4.1656, 0.79375],
    ['1/4-20 UNC', 6.35, 1.27],
    ['5.5 mm x 1.06 mm', 5.5, 1.06],
  ])('%s', (text, diameter, pitch) => {
    const t = parseThread(text);
    expect(t?.diameter).toBeCloseTo(diameter, 6);
    expect(t?.pitch).toBeCloseTo(pitch, 6);
  });
  test.each(['', 'M', 'M4x9', 'banana', '12-', '1/0-20', '99-24'])('%j is no thread', (text) =>
    expect(parseThread(text)).toBeUndefined(),
  );
});
