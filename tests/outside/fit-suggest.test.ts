import { describe, expect, test } from 'vitest';
import { valueAt, withChanges } from '../../src/jobs/changes.ts';
import { type Suggestion, suggest } from '../../src/jobs/suggest.ts';
import { changed, readCase, sound, stopsOf } from '../helpers/jig-cases.ts';

interface Mistake {
  readonly slip: string;
  readonly base: string;
  readonly set: Record<string, unknown>;
  readonly refused?: string;
  readonly care?: string;
}
const table = (readCase('mistakes/table') as readonly Mistake[]).filter(
  (m) => m.refused === undefined && m.care === undefined,
);

/** The changes of a suggestion made to the object it was asked about. */
const taken = (raw: Record<string, unknown>, s: Suggestion) =>
  s.steps.reduce(
    (r, step) => withChanges(r, Object.fromEntries(step.changes.map((c) => [c.path, c.to]))),
    raw as Readonly<Record<string, unknown>>,
  );

const suggestFor = (base: string, set: Record<string, unknown>) => suggest(changed(sound(base), set));

describe('a suggestion is proven by checking again', () => {
  // One in twenty of the mistakes: each is a search.
  test.each(table.filter((_, i) => i % 20 === 1).map((m) => [m.slip, m] as const))('%s', (_, m) => {
    const raw = changed(sound(m.base), m.set);
    const s = suggest(raw);
    expect(s.before).toBe(stopsOf(raw).length);
    expect(s.before).toBeGreaterThan(0);
    expect(stopsOf(taken(raw, s)).length).toBe(s.after);
    expect(s.after).toBe(s.left.length);
    expect(s.after).toBe(0);
    for (const step of s.steps) {
      expect(step.clears.length).toBeGreaterThan(0);
      for (const c of step.changes) expect(c.to).not.toEqual(c.from);
    }
  });
});

describe('the smallest set', () => {
  test('one slip that shows in five places is one step', () => {
    const s = suggestFor('snare-13x6', { 'fittings.0.at': '22.5 deg' });
    expect(s.before).toBeGreaterThanOrEqual(4);
    expect(s.steps.map((x) => x.changes)).toEqual([[{ path: 'fittings.0.at', from: '22.5 deg', to: '0 deg' }]]);
    expect(s.smallest).toBe(true);
  });
  test('three slips are three steps', () => {
    const s = suggestFor('snare-13x6', {
      'fittings.1.at': '170 deg',
      'rods.thread': 'M6',
      'lugs.holes.screw': 'M4 x 30',
    });
    expect(s.after).toBe(0);
    expect(s.steps.map((x) => x.changes[0]?.path).sort()).toEqual(['fittings.1.at', 'lugs.holes.screw', 'rods.thread']);
  });
  test('steps that make it worse before it is better are found together', () => {
    const s = suggestFor('snare-13x6', { 'fittings.0.at': '22.5 deg', 'fittings.1.at': '202.5 deg' });
    expect(s.after).toBe(0);
    expect(s.steps).toHaveLength(2);
  });
  test('an odd count goes a quarter of a pitch off the line', () => {
    const s = suggestFor('snare-13x6', { 'lugs.count': 9, 'hoops.top.ears': 9, 'hoops.bottom.ears': 9 });
    expect(s.steps.map((x) => x.changes)).toEqual([[{ path: 'lugs.first', from: 'half', to: 10 }]]);
  });
  test('the other ways are told', () => {
    const s = suggestFor('snare-13x6', { 'rods.length.top': '50 mm' });
    expect(s.steps[0]?.say).toContain('40 mm from the top edge');
    expect(s.steps[0]?.or.join(' ')).toContain('42 mm rods');
  });
  test('a sound jig gets nothing', () => {
    const s = suggest(sound('rack-tom-12x8'));
    expect(s).toMatchObject({ steps: [], before: 0, after: 0, left: [] });
  });
  test('what no change can clear is left, and said', () => {
    const s = suggestFor('snare-13x6', {
      'hoops.top.inside': '300 mm',
    });
    expect(s.after).toBe(1);
    expect(s.left[0]?.id).toBe('shell-too-large-for-hoop');
  });
  test('an object that is no jig file is refused', () => {
    expect(() => suggest({ jig: 1, name: 'nothing' })).toThrow(/resolve/);
  });
});

describe('turning the whole layout', () => {
  test('clears stave joints under the lugs, and old holes', () => {
    const joints = Array.from({ length: 16 }, (_, i) => 22.5 * i);
    const s = suggestFor('snare-13x6', { 'shell.joints': joints });
    expect(s.before).toBe(0);
    expect(Math.abs(s.turn?.by ?? 0)).toBeCloseTo(11.25, 6);
    expect(s.turn?.clears.some((c) => c.startsWith('hole-on-joint'))).toBe(true);
    const old = [{ at: '22.5 deg', edge: 'top', distance: '26 mm', diameter: '8 mm' }];
    const t = suggestFor('snare-13x6', { 'shell.holes': old });
    expect(t.after).toBe(0);
    expect(t.steps[0]?.say).toMatch(/Turn the whole layout/);
  });
});

describe('changes of a jig object', () => {
  test('leave the original alone, make missing groups and write out what stands for two', () => {
    const raw = { rods: { length: '42 mm' }, lugs: { rows: [{ edge: 'top' }] } };
    const next = withChanges(raw, { 'rods.length.top': '50 mm', 'lugs.rows.0.holes.drill': '5 mm' });
    expect(raw).toEqual({ rods: { length: '42 mm' }, lugs: { rows: [{ edge: 'top' }] } });
    expect(next).toEqual({
      rods: { length: { top: '50 mm', bottom: '42 mm' } },
      lugs: { rows: [{ edge: 'top', holes: { drill: '5 mm' } }] },
    });
    expect(valueAt(next, 'rods.length.bottom')).toBe('42 mm');
    expect(valueAt(next, 'rods.none.of.it')).toBeUndefined();
  });
});
