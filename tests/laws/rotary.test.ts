import { fc, test as prop } from '@fast-check/vitest';
import { describe, expect, test } from 'vitest';
import { findMachine } from '../../src/data/machines.ts';
import { completeTool } from '../../src/data/tools.ts';
import { signOfA } from '../../src/geometry/frames.ts';
import type { Hole } from '../../src/model/layout.ts';
import { chooseFor } from '../../src/rotary/choose.ts';
import { Legs, type Station, travelCost } from '../../src/rotary/legs.ts';
import { fixed } from '../../src/rotary/number.ts';
import { goodOrder, pathLength, shortestOrder } from '../../src/rotary/order.ts';
import { play, type Stroke, strokes } from '../helpers/play.ts';
import { drum, judged, LANTERN, type Written, write } from '../helpers/rotary.ts';

/** Where on the shell a stroke over the axis lands. */
function onShell(s: Stroke, w: Written): { angle: number; height: number } {
  const { datum, machine } = w.jig.rotary;
  const angle = signOfA({ datum, depth: w.layout.depth, a: machine.a }) * s.a;
  return { angle: (((angle + 1e-4) % 360) + 360) % 360, height: datum === 'bottom' ? s.x : w.layout.depth - s.x };
}
const rounded = (list: readonly { angle: number; height: number }[]): string[] =>
  list.map((p) => `${p.angle.toFixed(2)} ${p.height.toFixed(2)}`).sort();
const shellOf = (w: Written): string[] => rounded(strokes(play(w.plan.text)).map((s) => onShell(s, w)));

describe('one drum, whatever the machine stands like', () => {
  const base = shellOf(write(drum()));
  test('every hole of the layout is visited, once an operation', () => {
    const w = write(drum());
    const visits = strokes(play(w.plan.text));
    expect(visits.length).toBe(w.plan.operations.length);
    expect(visits.map((v) => v.a)).toEqual(w.plan.operations.map((o) => Number(o.a.toFixed(4)) + 0));
    expect(new Set(base)).toEqual(new Set(rounded(w.layout.holes.map((h) => ({ ...h, angle: h.angle + 1e-4 })))));
  });
  test.each([
    [{ datum: 'top' }, {}],
    [{ datum: 'bottom' }, { a: 'reversed' as const }],
    [{ datum: 'top' }, { a: 'reversed' as const }],
    [{}, { rotary: [-10, 370] as const }],
    [{}, { rotary: [-180, 180] as const }],
    [{ datum: 'top' }, { rotary: [0, 360] as const }],
    [{ datum: 'top' }, { rotary: [-360, 0] as const }],
    [{}, { hasY: false }],
    [{}, { toolChange: 'machine' as const }],
  ])('%j %j makes the same shell', (rotary, machine) => {
    const w = write(drum(rotary, machine));
    expect(w.facts).toEqual([]);
    expect(shellOf(w)).toEqual(base);
    if (w.jig.rotary.machine.rotary !== 'endless') {
      const [low, high] = w.jig.rotary.machine.rotary;
      for (const m of play(w.plan.text)) {
        expect(m.a).toBeGreaterThanOrEqual(low);
        expect(m.a).toBeLessThanOrEqual(high);
      }
    }
  });
  test.each([{}, { rehearse: true }, { markOnly: true }])(
    'a wound axis is never turned past its ends: %j',
    (options) => {
      for (const rotary of [
        [0, 360],
        [-360, 0],
        [-180, 180],
      ] as const) {
        for (const datum of ['top', 'bottom']) {
          const w = write(drum({ datum }, { rotary, hasY: false }), options);
          expect(w.ids).toEqual([]);
          const turns = play(w.plan.text).map((m) => m.a);
          expect(Math.min(...turns)).toBeGreaterThanOrEqual(rotary[0]);
          expect(Math.max(...turns)).toBeLessThanOrEqual(rotary[1]);
        }
      }
    },
  );
  test('a half-turn axis cannot reach all round, and says so', () => {
    const w = write(drum({}, { rotary: [-90, 90] }));
    expect(w.ids).toContain('stop hole-outside-travel');
    for (const m of play(w.plan.text)) expect(Math.abs(m.a)).toBeLessThanOrEqual(90);
  });
  test('inch and millimetre programs make the same holes', () => {
    const mm = strokes(play(write(drum()).plan.text));
    const inch = strokes(play(write(drum(), { units: 'in' }).plan.text));
    expect(inch.length).toBe(mm.length);
    mm.forEach((s, i) => {
      // Half of the fourth decimal of an inch.
      expect(Math.abs(s.x - inch[i]!.x)).toBeLessThan(0.0014);
      expect(Math.abs(s.z - inch[i]!.z)).toBeLessThan(0.0014);
      expect(s.a).toBe(inch[i]!.a);
      expect(s.tool).toBe(inch[i]!.tool);
    });
  });
  test('cycles and long hand make the same moves', () => {
    for (const units of ['mm', 'in'] as const) {
      const a = play(write(drum(), { style: 'cycles', units }).plan.text).filter((m) => m.spindle > 0);
      const b = play(write(drum(), { style: 'long-hand', units }).plan.text).filter((m) => m.spindle > 0);
      const path = (moves: typeof a): string[] => {
        const out: string[] = [];
        for (const m of moves) {
          const at = `${m.rapid} ${m.x.toFixed(3)} ${m.z.toFixed(3)} ${m.a.toFixed(4)}`;
          // A cycle goes to where it stands already: a move of no length.
          const still = out.at(-1)?.slice(out.at(-1)!.indexOf(' ')) === at.slice(at.indexOf(' '));
          if (!still) out.push(at);
        }
        return out;
      };
      expect(path(a).length).toBeGreaterThan(300);
      expect(path(a)).toEqual(path(b));
    }
  });
});

describe('sign of A by plain vectors (ISO 841: + A is anticlockwise seen from the + X end, of the tool about the work)', () => {
  test.each([
    ['bottom', 'iso'],
    ['top', 'iso'],
    ['bottom', 'reversed'],
    ['top', 'reversed'],
  ] as const)('%s edge at X0, wired %s: every hole comes to the top, at its height', (datum, a) => {
    const w = write(drum({ datum }, { a }));
    expect(w.plan.operations.length).toBeGreaterThan(100);
    for (const o of w.plan.operations) {
      const theta = (o.hole.angle * Math.PI) / 180;
      // Angles grow anticlockwise seen from above the top edge; + X points up through it only with the bottom edge at X0.
      const seen = datum === 'bottom' ? theta : -theta;
      const [y, z] = [-Math.sin(seen), Math.cos(seen)];
      // The tool goes round the work by A, so the work turns by - A about + X under a tool that stands still.
      const turn = -((a === 'iso' ? o.a : -o.a) * Math.PI) / 180;
      expect(y * Math.cos(turn) - z * Math.sin(turn)).toBeCloseTo(0, 9);
      expect(y * Math.sin(turn) + z * Math.cos(turn)).toBeCloseTo(1, 9);
      expect(datum === 'bottom' ? o.x : 152 - o.x).toBeCloseTo(o.hole.height, 9);
    }
  });
});

describe('turning the jig turns the program', () => {
  prop.prop([fc.double({ min: 0.5, max: 40, noNaN: true })], { numRuns: 8, seed: 6 })('shifts A only', (turn) => {
    const turned = {
      ...LANTERN,
      lugs: { ...(LANTERN['lugs'] as object), first: 22.5 + turn },
      fittings: (LANTERN['fittings'] as { at: unknown }[]).map((f) =>
        typeof f.at === 'number' ? { ...f, at: f.at + turn } : f,
      ),
    };
    const before = write(drum()).plan.operations;
    const after = write(drum({}, {}, turned)).plan.operations;
    const key = (o: (typeof before)[number]): string => `${o.hole.id} ${o.kind}`;
    const byKey = new Map(after.map((o) => [key(o), o]));
    for (const o of before) {
      const t = byKey.get(key(o))!;
      expect((((t.a - o.a - turn) % 360) + 540) % 360).toBeCloseTo(180, 9);
      expect({ x: t.x, bottom: t.bottom, feed: t.feed, speed: t.speed }).toEqual({
        x: o.x,
        bottom: o.bottom,
        feed: o.feed,
        speed: o.speed,
      });
    }
  });
});

describe('holes walked out by Y and by A', () => {
  const onlyVent = { tools: [{ id: 1, kind: 'end-mill', diameter: 3.175 }] };
  const bore = (more: object) =>
    play(write(drum(onlyVent, more), { only: 'vent' }).plan.text).filter((m) => m.tool === 1 && m.z < 0);
  const R = 163.7;
  const Ri = 157.1;
  const { height } = { height: 76 };
  const theta = 90;
  test('both are 11 mm where they are sized; by A the outside is wider by what geometry gives', () => {
    const y = bore({});
    const a = bore({ hasY: false });
    const along = (moves: typeof y) => Math.max(...moves.map((m) => Math.abs(m.x - height))) + 3.175 / 2;
    expect(along(y)).toBeCloseTo(5.5, 3);
    expect(along(a)).toBeCloseTo(5.5, 3);
    const acrossY = Math.max(...y.map((m) => Math.abs(m.y))) + 3.175 / 2;
    // Chords touch the circle at their ends: the widest falls short by no more than the chord's own gap.
    expect(acrossY).toBeGreaterThan(5.49);
    expect(acrossY).toBeLessThanOrEqual(5.5001);
    const swing = Math.max(...a.map((m) => Math.abs(m.a - theta))) * (Math.PI / 180);
    expect(swing * Ri + 3.175 / 2).toBeGreaterThan(5.49);
    expect(swing * Ri + 3.175 / 2).toBeLessThanOrEqual(5.5001);
    expect(swing * R - swing * Ri).toBeCloseTo((5.5 - 3.175 / 2) * (R / Ri - 1), 2);
  });
  test('chords stay within a hundredth of a millimetre of the circle', () => {
    const y = bore({});
    const ring = y.filter((m) => Math.hypot(m.x - height, m.y) > 3.9);
    expect(ring.length).toBeGreaterThan(50);
    for (let i = 1; i < ring.length; i++) {
      const [p, q] = [ring[i - 1]!, ring[i]!];
      const middle = Math.hypot((p.x + q.x) / 2 - height, (p.y + q.y) / 2);
      expect(3.9125 - middle).toBeLessThan(0.0102);
    }
  });
  test('inverse time turns the shell so that the wall sees the asked feed', () => {
    const w = write(drum(onlyVent, { hasY: false }), { only: 'vent' });
    const asked = w.plan.operations[0]!.feed;
    const moves = play(w.plan.text).filter((m) => m.tool === 1);
    let checked = 0;
    for (let i = 1; i < moves.length; i++) {
      const [p, q] = [moves[i - 1]!, moves[i]!];
      if (!q.inverse || Math.abs(q.a - theta) < 0.2 || q.z > -1) continue;
      const length = Math.hypot(q.x - p.x, q.z - p.z, ((q.a - p.a) * Math.PI * R) / 180);
      const orbit = Math.hypot(q.x - height, ((q.a - theta) * Math.PI * Ri) / 180);
      if (orbit < 3.9) continue;
      checked++;
      expect((q.feed * length) / ((asked * 3.9125) / 5.5)).toBeCloseTo(1, 1);
    }
    expect(checked).toBeGreaterThan(30);
  });
  test('every position of a bored hole stays inside the hole, and the whole of it is cleared', () => {
    const y = bore({});
    expect(Math.max(...y.map((m) => Math.hypot(m.x - height, m.y)))).toBeLessThan(3.9126);
    const deep = y.filter((m) => m.z < -6.7);
    for (let r = 0; r <= 5.4; r += 0.2) {
      const near = Math.min(...deep.map((m) => Math.abs(Math.hypot(m.x - height, m.y) - r)));
      expect(near).toBeLessThan(3.175 / 2);
    }
  });
});

describe('restarts, parts and batches', () => {
  const whole = write(drum());
  test('from a hole: the rest of its first pass and every later pass, nothing before', () => {
    const at = whole.plan.operations[10]!;
    const from = write(drum(), { fromHole: at.hole.id });
    expect(from.plan.operations).toEqual(whole.plan.operations.slice(10));
    const byTool = write(drum(), { fromHole: 'lug-top-3-a', fromTool: 4 });
    expect(byTool.plan.operations[0]).toMatchObject({ hole: { id: 'lug-top-3-a' }, tool: { id: 4 } });
    expect(byTool.plan.operations.every((o) => o.kind !== 'centre-mark')).toBe(true);
    expect(judged(byTool, { partial: true }).bad.filter((b) => b.startsWith('stop'))).toEqual([]);
  });
  test('only one fitting, only one row, only one role', () => {
    const holes = (only: string) => [...new Set(write(drum(), { only }).plan.order)].sort();
    expect(holes('strainer')).toEqual(['strainer-a', 'strainer-b']);
    expect(holes('lug-top-3')).toEqual(['lug-top-3-a', 'lug-top-3-b']);
    expect(holes('lug-top-3-b')).toEqual(['lug-top-3-b']);
    expect(holes('top').length).toBe(16);
    expect(holes('lug').length).toBe(32);
  });
  test('one program a bit: together they are the whole', () => {
    const { programs, tools } = write(drum(), { onePerTool: true }).plan;
    expect(programs.map((p) => p.tool)).toEqual(tools.map((t) => t.id));
    const parts = programs.flatMap((p) => strokes(play(p.text)));
    expect(parts.map((s) => [s.x, s.a, s.z])).toEqual(strokes(play(whole.plan.text)).map((s) => [s.x, s.a, s.z]));
    for (const p of programs) expect(p.text.match(/M6/g)!.length).toBe(1);
  });
  test('a batch is the program again and again, with a pause between', () => {
    const one = strokes(play(whole.plan.text));
    const { text } = write(drum(), { batch: 3 }).plan;
    expect(strokes(play(text))).toEqual([...one, ...one, ...one]);
    expect(text.match(/^M2$/gm)!.length).toBe(1);
  });
  test('alternate sides: neighbours in the order stand on different halves', () => {
    const { operations } = write(drum(), { alternate: true }).plan;
    const angles = operations.filter((o) => o.kind === 'pilot').map((o) => o.a);
    const columns = angles.filter((a, i) => a !== angles[i - 1]);
    expect(columns.length).toBe(8);
    for (let i = 1; i < 8; i++) expect(Math.abs(columns[i]! - columns[i - 1]!)).toBeGreaterThan(134);
    expect(new Set(operations).size).toBe(whole.plan.operations.length);
  });
  test('the same input gives the same bytes', () => {
    expect(write(drum()).plan.text).toBe(whole.plan.text);
  });
});

describe('numbers of the text', () => {
  prop.prop([fc.double({ min: -1e5, max: 1e5, noNaN: true }), fc.integer({ min: 0, max: 6 })], {
    numRuns: 2000,
    seed: 9,
  })('read back within half a unit, never minus nought, as the built-in formatter but for ties', (value, decimals) => {
    const text = fixed(value, decimals);
    expect(text).toMatch(decimals === 0 ? /^-?\d+$/ : new RegExp(`^-?\\d+\\.\\d{${decimals}}$`));
    expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals * (1 + 1e-9) + 1e-10);
    expect(Object.is(Number(text), -0) || text.startsWith('-0.0000000')).toBe(false);
  });
  test('what no machine can go to is refused', () => {
    for (const wild of [Number.NaN, Number.POSITIVE_INFINITY, 1.1e6]) expect(() => fixed(wild, 4)).toThrow(RangeError);
    expect(fixed(-0.00004, 4)).toBe('0.0000');
    expect(fixed(12.00005, 4)).toBe('12.0001');
    expect(fixed(-0.5, 1)).toBe('-0.5');
  });
});

describe('the order of least travel', () => {
  const cost = travelCost(findMachine('rotary-slow')!);
  const start: Station = { x: Number.NaN, a: 0 };
  const stations = (n: number) =>
    fc.array(fc.record({ x: fc.integer({ min: 0, max: 400 }), a: fc.integer({ min: 0, max: 359 }) }), {
      minLength: n,
      maxLength: n,
    });
  /** Every order tried: the slow, sure way. */
  function brute(list: readonly Station[]): number {
    const go = (left: readonly number[], at: Station, sum: number, best: number): number => {
      if (sum >= best) return best;
      if (left.length === 0) return sum;
      let least = best;
      for (const i of left)
        least = go(
          left.filter((k) => k !== i),
          list[i]!,
          sum + cost(at, list[i]!),
          least,
        );
      return least;
    };
    return go(
      list.map((_, i) => i),
      start,
      0,
      Number.POSITIVE_INFINITY,
    );
  }
  prop.prop([stations(7)], { numRuns: 25, seed: 7 })('is the optimum for small sets', (list) => {
    expect(pathLength(shortestOrder(list, start, cost), list, start, cost)).toBeCloseTo(brute(list), 6);
  });
  prop.prop([stations(9)], { numRuns: 60, seed: 10 })('what serves larger sets is within a twentieth of it', (list) => {
    const legs = new Legs(list, start, cost);
    const least = legs.length(shortestOrder(list, start, cost));
    expect(legs.length(goodOrder(list, legs))).toBeLessThanOrEqual(1.05 * least + 1e-9);
  });
  prop.prop([stations(60)], { numRuns: 10, seed: 8 })('visits each once and beats the order given', (list) => {
    const order = shortestOrder(list, start, cost);
    expect([...order].sort((a, b) => a - b)).toEqual(list.map((_, i) => i));
    expect(pathLength(order, list, start, cost)).toBeLessThan(
      0.5 *
        pathLength(
          list.map((_, i) => i),
          list,
          start,
          cost,
        ),
    );
  });
});

test('a mill thinner than an eightieth of the hole is none for it: it would go round for hours', () => {
  const hole = { id: 'h', fitting: 'h', role: 'vent', angle: 0, height: 50, drill: 16 } as unknown as Hole;
  const choices = (diameter: number) =>
    chooseFor(hole, [completeTool({ id: 1, kind: 'end-mill', diameter })], findMachine('rotary-fast')!, undefined)
      .choices;
  expect([choices(0.2).length, choices(0.199).length]).toEqual([1, 0]);
});
