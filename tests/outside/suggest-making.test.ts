import { describe, expect, test } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { type RawJig, withChanges } from '../../src/jobs/changes.ts';
import { makingStops } from '../../src/jobs/making.ts';
import { type Suggestion, suggest } from '../../src/jobs/suggest.ts';
import { layOut } from '../../src/layout/layout.ts';
import { changed, factsOf, type Raw, sound, stopsOf } from '../helpers/jig-cases.ts';

/** Stops that making the set would meet. */
const stopsOfMaking = (raw: unknown): string[] => {
  const r = resolveJig(raw);
  if (!r.ok) throw new Error(JSON.stringify(r.issues));
  return makingStops(r.jig, layOut(r.jig), factsOf(raw)).map((s) => `${s.stage} ${s.fact.id}`);
};
const taken = (raw: Raw, s: Suggestion): RawJig =>
  s.steps.reduce<RawJig>((r, step) => withChanges(r, Object.fromEntries(step.changes.map((c) => [c.path, c.to]))), raw);
const tom = (set: Raw): Raw => changed(sound('practice-10x6'), set);
const tool = (id: number, diameter: number, more: Raw = {}): Raw => ({ id, kind: 'brad-point', diameter, ...more });

describe('what stops the making of the set is cured too, and proven by making it again', () => {
  test.each([
    ['uncut edges under a collar', { 'shell.edges': 'uncut', collar: {} }, 'no-rim', ['shell.edges']],
    ['a collar that binds', { collar: { clearance: 0 } }, 'collar-binds', ['collar.clearance']],
    [
      'a thin bushing',
      { collar: { bushing: { inside: 6, outside: 6.2, length: 20 } } },
      'bushing-wall-thin',
      ['collar.bushing.outside'],
    ],
    ['a sheet that breaks', { wrap: { material: 'acrylic-3' } }, 'wrap-too-stiff', ['wrap.material', 'wrap.thickness']],
    ['a seam on a hole', { wrap: { 'seam-at': 30 } }, 'wrap-seam-on-hole', ['wrap.seam-at']],
    ['a bit that is missing', { rotary: { tools: [tool(1, 6)] } }, 'tool-missing', ['rotary.tools']],
  ])('%s', (_, set, id, keys) => {
    const raw = tom(set);
    expect(stopsOf(raw)).toEqual([]);
    expect(stopsOfMaking(raw).join()).toContain(id);
    const s = suggest(raw);
    expect(s.before).toBe(stopsOfMaking(raw).length);
    expect(s.steps.flatMap((x) => x.changes.map((c) => c.path))).toEqual(keys);
    expect(s.after).toBe(0);
    expect(stopsOfMaking(taken(raw, s))).toEqual([]);
  });

  test('together with a stop of the fit check', () => {
    const raw = tom({ 'rods.length': 60, collar: { clearance: 0 } });
    const s = suggest(raw);
    expect(s.before).toBe(2);
    expect(s.after).toBe(0);
    expect([...stopsOf(taken(raw, s)), ...stopsOfMaking(taken(raw, s))]).toEqual([]);
  });

  test('where nothing else helps the part is left out, and said so', () => {
    // 656.5 mm across: no built-in machine swings it.
    const s = suggest(changed(sound('bass-26x14'), { rotary: {} }));
    expect(s.steps.map((x) => x.changes)).toEqual([[{ path: 'rotary', from: {}, to: null }]]);
    expect(s.after).toBe(0);
  });

  test('what was not asked for stops nothing', () => {
    expect(stopsOfMaking(tom({ 'shell.edges': 'uncut' }))).toEqual([]);
  });
});
