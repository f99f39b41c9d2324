import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { budget } from '../../src/budget/budget.ts';
import { findMethod, termsOf } from '../../src/data/methods.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { checkFindings } from '../../src/jobs/check.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Jig } from '../../src/model/jig.ts';
import { changed, jigOf, type Raw, sound } from '../helpers/jig-cases.ts';

const snare = (accuracy: Raw, more: Raw = {}): Raw =>
  changed(sound('snare-13x6'), { method: 'tape', accuracy, ...more });
const method = (jig: Jig) => {
  const [m] = budget(jig, layOut(jig)).value.methods;
  if (!m) throw new Error('no method');
  return m;
};
const complaints = (raw: Raw, profiles: Raw = {}): string[] => {
  const r = resolveJig(raw, { profiles });
  return r.ok ? [] : r.issues.map((i) => `${i.path.join('.')}: ${i.found}`);
};

describe("the workshop's own error terms", () => {
  test('a term takes the place of the one in the table, and says what it was', () => {
    const jig = jigOf(snare({ tape: [{ id: 'wander', size: '0.15 mm' }] }));
    const wander = method(jig).terms.find((t) => t.id === 'wander');
    expect(wander).toMatchObject({ size: 0.15, unit: 'mm', spread: 'sigma', own: { builtIn: '0.3 mm' } });
    expect(wander?.source).toContain("the builder's own");
    // The other terms stay as they were, each with its own origin.
    const others = (terms: readonly { id: string }[]) => terms.filter((t) => t.id !== 'wander').map(({ id }) => id);
    expect(others(method(jig).terms)).toEqual(others(termsOf(findMethod('tape'))));
  });

  test('added, taken away and hardware terms come out in the sums, worked by hand', () => {
    // All terms for a single hole: read 0.5/sqrt3, line 0.25/sqrt3, punch 0.2, wander 0.3, casting 0.1.
    const jig = jigOf(
      snare({
        tape: [
          { id: 'read', size: 0 },
          { id: 'line', size: 0 },
          { id: 'punch', size: '0.3 mm' },
          { id: 'wander', size: '0.4 mm' },
          { id: 'glare', axis: 'along', each: 'hole', spread: 'within', size: '1.2 mm' },
        ],
        hardware: [{ id: 'casting', size: 0 }],
      }),
    );
    const m = method(jig);
    expect(m.sigma.hole.around_mm).toBeCloseTo(0.5, 12);
    expect(m.sigma.hole.along_mm).toBeCloseTo(Math.sqrt(0.25 + 1.2 ** 2 / 3), 12);
    expect(m.terms.find((t) => t.id === 'glare')?.own).toEqual({});
  });

  test("the level wanted is the file's", () => {
    const at = (level: number) => {
      const jig = jigOf(snare({ level }));
      return budget(jig, layOut(jig)).value.level;
    };
    expect(at(80)).toBe(0.8);
    const chance = 100 * (method(jigOf(snare({}, { method: 'collar' }))).drum.goesOn ?? 0);
    const low = (level: number) =>
      checkFindings(...pair(snare({ level }, { method: 'collar' }))).filter((f) => f.id === 'drum-chance-low').length;
    expect([low(chance - 0.01), low(chance + 0.01)]).toEqual([0, 1]);
  });

  test('a profile beside the jig comes first, the jig file has the last word', () => {
    const profiles = {
      'shop.yaml': {
        profile: 'accuracy',
        level: 70,
        tape: [
          { id: 'punch', size: 0.05 },
          { id: 'wander', size: 0.1 },
        ],
      },
    };
    const raw = snare({ profile: 'shop.yaml', tape: [{ id: 'wander', size: 0.2 }] });
    const r = resolveJig(raw, { profiles });
    if (!r.ok) throw new Error(JSON.stringify(r.issues));
    const terms = method(r.jig).terms;
    expect(terms.find((t) => t.id === 'punch')).toMatchObject({
      size: 0.05,
      source: "the builder's own, from shop.yaml",
    });
    expect(terms.find((t) => t.id === 'wander')).toMatchObject({ size: 0.2, own: { builtIn: '0.3 mm' } });
    expect(r.jig.accuracy?.level).toBe(0.7);
  });

  test("inches, per cent and degrees are read; a bare number is in the term's own unit", () => {
    const jig = jigOf(
      snare(
        {
          'paper-wrap': [
            { id: 'damp', size: 0.1 },
            { id: 'print', size: '0.3 %' },
            { id: 'edge', size: '0.2 deg' },
            { id: 'punch', size: '0.01 in' },
          ],
        },
        { method: 'paper-wrap' },
      ),
    );
    const size = (id: string) => method(jig).terms.find((t) => t.id === id)?.size;
    expect(size('damp')).toBeCloseTo(0.001, 12);
    expect(size('print')).toBeCloseTo(0.003, 12);
    expect(size('edge')).toBe(0.2);
    expect(size('punch')).toBe(0.254);
  });

  test('findings say which terms are yours; without any, the assumptions say that the table is built in', () => {
    const own = checkFindings(...pair(snare({ tape: [{ id: 'wander', size: '0.15 mm' }] })));
    expect(own.find((f) => f.id === 'own-error-terms')?.text).toContain('wander 0.15 mm (built in: 0.3 mm)');
    const plain = jigOf(changed(sound('snare-13x6'), { method: 'tape' }));
    expect(plain.assumptions.find((a) => a.key === 'accuracy.tape')?.why).toContain('no source');
    expect(checkFindings(plain, layOut(plain)).some((f) => f.id === 'own-error-terms')).toBe(false);
  });

  test('the table of the guide is one that works', () => {
    const guide = readFileSync('jigs/README.md', 'utf8');
    const block = /```yaml\n(accuracy:[\s\S]*?)```/.exec(guide)?.[1] ?? '';
    expect(
      method(jigOf(changed(snare({}), parse(block))))
        .terms.filter((t) => t.own)
        .map((t) => t.id),
    ).toEqual(['wander', 'glare', 'casting']);
  });

  test.each([
    [{ tape: [{ id: 'wandr', size: 0.1 }] }, 'accuracy.tape.0: the term wandr, which no table has'],
    [{ tape: [{ id: 'wander', size: '-0.1 mm' }] }, 'accuracy.tape.0: -0.1 mm'],
    [{ tape: [{ id: 'wander', size: '30 mm' }] }, 'accuracy.tape.0: 30 mm'],
    [{ tape: [{ id: 'wander', size: '0.3 deg' }] }, 'accuracy.tape.0: 0.3 deg: an angle along the shell'],
    [{ tape: [{ id: 'square', size: '0.3 mm' }] }, 'accuracy.tape.0: 0.3 mm: a lean is an angle'],
    [{ tape: [{ id: 'wander', size: 'much' }] }, 'accuracy.tape.0: much'],
    [
      {
        tape: [
          { id: 'wander', size: 0.1 },
          { id: 'wander', size: 0.2 },
        ],
      },
      'accuracy.tape.1: the term wander twice',
    ],
    [{ tape: [{ id: 'wander', sise: 0.1 }] }, 'accuracy.tape.0'],
    [{ level: 120 }, 'accuracy.level'],
    [{ profile: 'other.yaml' }, 'accuracy.profile: the name other.yaml'],
  ])('refused: %j', (accuracy, where) => {
    expect(complaints(snare(accuracy)).join('\n')).toContain(where);
  });

  test('a fault in a profile is told by its file', () => {
    const raw = snare({ profile: 'shop.yaml' });
    expect(complaints(raw, { 'shop.yaml': { profile: 'accuracy', tape: [{ id: 'wander' }] } }).join()).toContain(
      'in shop.yaml, tape.0',
    );
  });
});

function pair(raw: Raw): [Jig, ReturnType<typeof layOut>] {
  const jig = jigOf(raw);
  return [jig, layOut(jig)];
}
