import { describe, expect, test } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { fitSayings } from '../../src/say/fit.ts';
import { sayAll } from '../../src/say/say.ts';
import { changed, factsOf, idsOf, readCase, sound, soundNames, stopsOf } from '../helpers/jig-cases.ts';

interface Mistake {
  readonly slip: string;
  readonly base: string;
  readonly set: Record<string, unknown>;
  /** The finding meant for it. */
  readonly stop?: string;
  /** Or the one that says look twice, where the slip may be meant. */
  readonly care?: string;
  /** Or the key path at which the reader refuses it. */
  readonly refused?: string;
}

const table = readCase('mistakes/table') as readonly Mistake[];

describe('the sound jigs the mistakes are made to', () => {
  test.each(soundNames())('%s raises no stop', (name) => {
    expect(stopsOf(sound(name)).map((f) => `${f.id} ${f.at}`)).toEqual([]);
  });
});

describe('single mistakes', () => {
  test('the table is as long as it should be, and says each slip once', () => {
    expect(table.length).toBeGreaterThanOrEqual(60);
    expect(new Set(table.map((m) => `${m.slip} ${m.base} ${m.stop}`)).size).toBe(table.length);
  });

  test.each(table.map((m) => [m.slip, m] as const))('%s', (_, m) => {
    if (m.refused !== undefined) {
      const resolved = resolveJig(changed(sound(m.base), m.set));
      expect(resolved.ok ? [] : resolved.issues.map((i) => i.path.join('.'))).toContain(m.refused);
      return;
    }
    const facts = factsOf(changed(sound(m.base), m.set));
    const level = m.stop === undefined ? 'care' : 'stop';
    expect(idsOf(facts.filter((f) => f.level === level))).toContain(m.stop ?? m.care);
    for (const f of sayAll(facts, fitSayings)) expect(`${f.text} ${f.try}`).not.toMatch(/\?|NaN|undefined|Infinity/);
  });
});
