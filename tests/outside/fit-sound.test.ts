import { describe, expect, test } from 'vitest';
import { factsOf, soundNames, stopsOf } from '../helpers/jig-cases.ts';
import { soundBuilds } from '../helpers/sound-builds.ts';

describe('sound builds of all sizes', () => {
  test('there are more than forty of them, each with its own name', () => {
    expect(soundBuilds.length + soundNames().length).toBeGreaterThanOrEqual(40);
    expect(new Set(soundBuilds.map((b) => b.name)).size).toBe(soundBuilds.length);
  });

  test.each(soundBuilds.map((b) => [b.name, b.raw] as const))('%s', (_, raw) => {
    expect(stopsOf(raw).map((f) => `${f.id} ${f.at} ${f.measured} ${f.limit}`)).toEqual([]);
  });

  test('what they leave out is named, never passed over', () => {
    const sparse = soundBuilds.find((b) => b.name === 'only lug holes');
    const needs = factsOf(sparse?.raw)
      .filter((f) => f.id === 'not-checked')
      .map((f) => String(f.facts?.['needs']));
    for (const key of ['lugs.rod', 'hoops.top.ear', 'lugs.foot', 'shell.nominal', 'screw', 'climate'])
      expect(needs.some((n) => n.includes(key))).toBe(true);
  });
});
