import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import type { Fact } from '../../src/model/finding.ts';
import type { Jig } from '../../src/model/jig.ts';
import { collarSayings } from '../../src/say/collar.ts';
import { planned, type Raw } from '../helpers/jigs.ts';

/*
 * Every limit a builder can run into is tried as it is said: the first length in the cure's sentence is put into the jig, and
 * the finding must be gone; a twentieth of a millimetre worse than the limit, it must be there.
 */

const R = 177.8;
const SHELL = { diameter: 2 * R, depth: 152, wall: 6.35, round: 0.4, edges: 'cut' };
const BUSHING = { inside: 6, outside: 10, length: 20 };
const base = (more: Raw = {}, collar: Raw = {}): Raw => ({
  jig: 1,
  name: 'limits',
  shell: SHELL,
  lugs: { count: 4, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'upright', spacing: 25.4, drill: 6 } },
  collar: { material: 'birch-ply-6', thickness: 5.8, sheet: 'laser-900x600', ...collar },
  ...more,
});
const one = (name: string, at: number, edge: string, distance: number, more: Raw = {}): Raw => ({
  name,
  role: 'other',
  at,
  edge,
  distance,
  holes: { layout: 'single', drill: 6 },
  ...more,
});

interface Limit {
  readonly id: string;
  /** The jig with the value that is limited; further values that the jig needs stay as they are. */
  readonly at: (value: number) => Raw;
  readonly jig?: (jig: Jig, value: number) => Jig;
  readonly bad: number;
  /** Which way is worse. */
  readonly worse: 1 | -1;
}

const LIMITS: readonly Limit[] = [
  { id: 'collar-binds', at: (v) => base({ shell: { ...SHELL, round: 1.6 } }, { clearance: v }), bad: 0.3, worse: -1 },
  { id: 'collar-loose', at: (v) => base({}, { clearance: v }), bad: 6.7, worse: 1 },
  {
    id: 'collar-loose',
    at: (v) => base({ batch: { girth: [v, 2 * Math.PI * (R + 0.2)], count: 5 } }),
    bad: 2 * Math.PI * (R - 4),
    worse: -1,
  },
  { id: 'bushing-wall-thin', at: (v) => base({}, { bushing: { ...BUSHING, outside: v } }), bad: 7, worse: -1 },
  { id: 'bushing-shorter-than-plate', at: (v) => base({}, { bushing: { ...BUSHING, length: v } }), bad: 4, worse: -1 },
  { id: 'collar-guide-short', at: (v) => base({}, { bushing: { ...BUSHING, length: v } }), bad: 12, worse: -1 },
  { id: 'bushings-overlap', at: (v) => base({}, { bushing: { ...BUSHING, outside: v } }), bad: 24.5, worse: 1 },
  {
    id: 'bushing-larger-than-plate',
    at: (v) => ({
      ...base({}, { bushing: { ...BUSHING, outside: v } }),
      lugs: { count: 20, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } },
    }),
    bad: 48,
    worse: 1,
  },
  {
    id: 'rows-too-near',
    at: (v) => base({ fittings: [one('spur', 45 + ((v / R) * 180) / Math.PI, 'top', 60)] }),
    bad: 20,
    worse: -1,
  },
  { id: 'bore-over-lip', at: (v) => base({ fittings: [one('foot', 0, 'bottom', v)] }), bad: 3, worse: -1 },
  { id: 'sheet-thicker-than-slot', at: (v) => base({}, { thickness: v }), bad: 7.5, worse: 1 },
  {
    id: 'collar-bit-short',
    at: (v) =>
      base({
        rotary: { machine: 'rotary-slow', tools: [{ id: 1, kind: 'twist', diameter: 6, point: 118, flute: v }] },
      }),
    bad: 20,
    worse: -1,
  },
  {
    id: 'cutter-wider-than-slot',
    at: () => base({}, { cut: 'router' }),
    jig: (j, kerf) => ({ ...j, collar: { ...j.collar, sheet: { ...j.collar.sheet, kerf } } }),
    bad: 6,
    worse: 1,
  },
  {
    id: 'cutter-not-said',
    at: () => base({}, { cut: 'router' }),
    jig: (j, kerf) => ({ ...j, collar: { ...j.collar, sheet: { ...j.collar.sheet, kerf } } }),
    bad: 0.3,
    worse: -1,
  },
  {
    id: 'ring-larger-than-sheet',
    at: () => ({
      ...base(),
      lugs: { count: 26, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } },
    }),
    jig: (j, side) => ({ ...j, collar: { ...j.collar, sheet: { ...j.collar.sheet, width: side, height: side } } }),
    bad: 400,
    worse: -1,
  },
  {
    id: 'foot-under-ring',
    at: (v) =>
      base({
        lugs: undefined,
        shell: { ...SHELL, depth: 300 },
        fittings: [
          one('strap', 0, 'bottom', 40),
          one('butt', 180, 'bottom', v, { foot: { width: 30, height: 20 }, holes: { layout: 'single', drill: 5 } }),
        ],
      } as Raw),
    bad: 45,
    worse: -1,
  },
];

function facts(l: Limit, value: number): readonly Fact[] {
  const { jig, layout } = planned(l.at(value));
  return planCollar(l.jig?.(jig, value) ?? jig, layout, { digest: '' }).facts.filter((f) => f.id === l.id);
}

describe.each(LIMITS.filter((l) => l.id !== 'foot-under-ring'))('$id at $bad', (l) => {
  test('the value its cure names works, and one a little worse than the limit does not', () => {
    const f = facts(l, l.bad)[0] as Fact;
    expect(f, 'found').toBeDefined();
    const cure = collarSayings[l.id]?.try(f) ?? '';
    const value = Number(/(\d+(?:\.\d+)?) mm/.exec(cure)?.[1]);
    expect(facts(l, value), cure).toEqual([]);
    // The cure rounds by a tenth at most (a millimetre for flutes and sheets, whose makers do no better).
    const step = /bit-short|ring-larger/.test(l.id) ? 1.05 : 0.15;
    expect(facts(l, value + l.worse * step).length, cure).toBeGreaterThan(0);
  });
});

describe('what has no better number, only something to know', () => {
  const found = (raw: Raw, id: string): Fact[] => {
    const { jig, layout } = planned(raw);
    return planCollar(jig, layout, { digest: '' }).facts.filter((f) => f.id === id);
  };
  test('a foot under the rings: only where it reaches so near to the edge', () => {
    const l = LIMITS.find((q) => q.id === 'foot-under-ring') as Limit;
    const near = facts(l, 45)[0] as Fact;
    expect(near).toMatchObject({ at: 'bottom collar', measured: 35 });
    expect(near.facts?.['groups']).toBe('butt');
    expect(near.limit).toBeGreaterThan(48);
    const cure = collarSayings['foot-under-ring']?.try(near) ?? '';
    expect(cure).toContain('mm or more below the edge');
  });

  const beds = { width: 90, depth: 2 };
  const bottom = (more: Raw = {}, collar: Raw = {}): Raw =>
    base(
      {
        lugs: {
          count: 8,
          rows: [{ edge: 'bottom', distance: 40 }],
          holes: { layout: 'upright', spacing: 25.4, drill: 6 },
        },
        beds,
        ...more,
      },
      collar,
    );
  test('a whole lip bridges the beds: a note; a sector over one: a care; away from both: nothing', () => {
    expect(found(bottom(), 'lip-over-bed')).toMatchObject([{ level: 'note', measured: 2, at: 'bottom collar' }]);
    const sector = found(bottom({}, { build: 'sector' }), 'lip-over-bed');
    expect(sector[0]).toMatchObject({ level: 'care' });
    // Two lugs at 80 and 100 deg are far from the beds at 0 and 180.
    const away = bottom(
      { lugs: undefined, fittings: [one('leg', [80, 100] as unknown as number, 'bottom', 50)] },
      { build: 'sector' },
    );
    expect(found(away, 'lip-over-bed')).toEqual([]);
    expect(found(bottom({ beds: undefined }), 'lip-over-bed')).toEqual([]);
    // No collar at the bottom edge, no lip over a bed.
    expect(found(base({ beds }), 'lip-over-bed')).toEqual([]);
  });

  const both = (bottomDistance: number, fittings: readonly Raw[] = []): Raw =>
    base({
      lugs: {
        count: 8,
        rows: [
          { edge: 'top', distance: 40 },
          { edge: 'bottom', distance: bottomDistance },
        ],
        holes: { layout: 'upright', spacing: 25.4, drill: 6 },
      },
      fittings,
    });
  test('one collar turned over serves both edges only where the rows mirror each other about the strainer line', () => {
    expect(found(both(40), 'collar-mirror')).toMatchObject([{ level: 'note', measured: 8 }]);
    expect(found(both(41), 'collar-mirror')).toEqual([]);
    // A fitting at one edge alone, and at both but on the same side: turned over, it would come to the other side.
    expect(found(both(40, [one('badge', 100, 'top', 60)]), 'collar-mirror')).toEqual([]);
    const same = [one('a', 100, 'top', 60), one('b', 100, 'bottom', 60)];
    expect(found(both(40, same), 'collar-mirror')).toEqual([]);
    const mirrored = [one('a', 100, 'top', 60), one('b', 260, 'bottom', 60)];
    expect(found(both(40, mirrored), 'collar-mirror')).toHaveLength(1);
  });
});
