import Interpreter from 'gcode-interpreter';
import { parseLine } from 'gcode-parser';
import { describe, expect, test } from 'vitest';
import { interpret } from '../../src/dryrun/interpret.ts';
import { haltFirst } from '../../src/jobs/rotary.ts';
import type { Finding } from '../../src/model/finding.ts';
import type { Machine } from '../../src/model/machine.ts';
import { stepsWithin } from '../../src/rotary/resolution.ts';
import { programText } from '../../src/rotary/text.ts';
import { drum, judged, LANTERN, type Written, write } from '../helpers/rotary.ts';

type Understands = Machine['understands'];

/** Strainer, butt and vent bored on a router spindle, as a controller with these habits reads it. */
function dialect(more: Partial<Understands>, machine: Partial<Machine> = {}, options = {}): Written {
  const { lugs: _, ...bare } = LANTERN;
  const fittings = (LANTERN['fittings'] as { name: string }[]).map((f) => (f.name === 'vent' ? { ...f, at: 70 } : f));
  const base = drum({ machine: 'rotary-fast' }, {}, { ...bare, fittings });
  const { understands } = base.jig.rotary.machine;
  const full = { ...base.jig.rotary.machine, ...machine, understands: { ...understands, ...more } };
  return write({ ...base, jig: { ...base.jig, rotary: { ...base.jig.rotary, machine: full } } }, options);
}

/** Where a general interpreter from the registry takes the tool: end points, and the middle of every arc. */
function theirWay(text: string): string[] {
  const at: Record<string, number> = { X: 0, Y: 0, Z: 1000, A: 0 };
  const out: string[] = [];
  const go = (how: string) => (words: Record<string, number>) => {
    const middle = how === 'arc' ? ` about ${tidy(at['X']! + words['I']!)} ${tidy(at['Y']! + words['J']!)}` : '';
    for (const axis of 'XYZA') if (words[axis] !== undefined) at[axis] = words[axis];
    out.push(`${how} ${at['X']} ${at['Y']} ${at['Z']} ${at['A']}${middle}`);
  };
  new Interpreter({ handlers: { G0: go('rapid'), G1: go('feed'), G3: go('arc') } }).loadFromStringSync(text);
  return out;
}

/** What the dry run's own reader makes of the same text. */
function ourWay(w: Written): string[] {
  return [...interpret(w.plan.text, w.jig.rotary.machine)].flatMap((m) => {
    if (m.kind !== 'rapid' && m.kind !== 'feed' && m.kind !== 'arc') return [];
    const at = [m.to.x, m.to.y, m.to.z, m.to.a].map((v) => tidy(v || 0)).join(' ');
    return [`${m.kind} ${at}${m.kind === 'arc' ? ` about ${m.center.map(tidy).join(' ')}` : ''}`];
  });
}
const tidy = (v: number): number => Number(v.toFixed(4)) + 0;

/** A line's words as an independent tokenizer sees them, and as they stand there; comments have none. */
const seen = (l: string): string =>
  parseLine(l)
    .words.map(([k, v]) => `${k}${v}`)
    .join(' ');
const stands = (l: string): string =>
  /^[(;]/.test(l)
    ? ''
    : l
        .replace(/^N\d+ /, '')
        .split(' ')
        .map((t) => `${t[0]}${Number(t.slice(1))}`)
        .join(' ');

const executable = (text: string): string[] => text.split('\n').filter((l) => l !== '' && !/^[(;]/.test(l));

describe('every capability of the profile changes the program, and every dialect is judged clean', () => {
  const plain: Understands = {
    cycles: false,
    inverseTime: false,
    arcs: false,
    lineNumbers: false,
    comments: 'brackets',
    decimals: 4,
  };
  test.each<[Partial<Understands>, Partial<Machine>]>([
    [{}, {}],
    [{ arcs: true }, {}],
    [{ lineNumbers: true }, {}],
    [{ comments: 'semicolon' }, {}],
    [{ comments: 'none', lineNumbers: true, arcs: true }, {}],
    [{ decimals: 3, arcs: true, comments: 'semicolon' }, {}],
    [{ decimals: 6 }, {}],
    [{ cycles: true, lineNumbers: true }, { spindle: { min: 500, max: 6000, watts: 750, seconds: 3, collet: 13 } }],
    [{ inverseTime: true, lineNumbers: true }, { hasY: false }],
    [{ arcs: true }, { toolChange: 'machine' }],
  ])('%j %j', (more, machine) => {
    const w = dialect({ ...plain, ...more }, machine);
    expect(w.ids.filter((id) => id.startsWith('stop'))).toEqual([]);
    const { report, bad } = judged(w);
    expect(bad).toEqual([]);
    expect(report.inPlace).toBe(w.layout.holes.length);
    expect(Math.abs(report.seconds - w.plan.seconds)).toBeLessThan(0.03 * report.seconds + 5);
    const lines = executable(w.plan.text);
    const has = (re: RegExp): boolean => lines.some((l) => re.test(l));
    expect(has(/\bG3\b/)).toBe(more.arcs === true);
    expect(has(/\bG8[13]\b/)).toBe(more.cycles === true);
    expect(has(/\bG93\b/)).toBe(more.inverseTime === true);
    expect(lines.every((l) => /^N\d+ /.test(l))).toBe(more.lineNumbers === true);
    expect(has(/^N/)).toBe(more.lineNumbers === true);
    const style = more.comments ?? 'brackets';
    expect(/^\(/m.test(w.plan.text)).toBe(style === 'brackets');
    expect(/^; /m.test(w.plan.text)).toBe(style === 'semicolon');
    const places = new RegExp(`^-?\\d+\\.\\d{${more.decimals ?? 4}}$`);
    const words = lines.flatMap((l) => l.split(' '));
    expect(words.filter((word) => /^[XYZARQIJ]/.test(word) && !places.test(word.slice(1)))).toEqual([]);
    // A general tokenizer sees the same words, and a general interpreter goes the same way.
    const wrong = w.plan.text
      .trimEnd()
      .split('\n')
      .filter((l) => l.length >= 80 || seen(l) !== stands(l));
    expect(wrong).toEqual([]);
    if (more.cycles !== true && (more.decimals ?? 4) <= 4) {
      const ours = ourWay(w);
      expect(ours.length).toBeGreaterThan(80);
      expect(theirWay(w.plan.text)).toEqual(ours);
    }
  });

  test('arcs and chords bore the same hole, and the arcs in a fortieth of the text', () => {
    const chords = dialect(plain);
    const arcs = dialect({ ...plain, arcs: true });
    const holes = (w: Written) => judged(w).report.holes.map((h) => [h.id, h.through, h.depth_mm] as const);
    expect(holes(arcs).map(([id]) => id)).toEqual(holes(chords).map(([id]) => id));
    const size = (w: Written) => new Map(judged(w).report.holes.map((h) => [h.id, h.diameter_mm]));
    // Chords lie inside the circle; the dry run lets a hole be 0.05 mm off.
    for (const [id, d] of size(arcs)) expect(Math.abs(d - size(chords).get(id)!)).toBeLessThan(0.05);
    const vent = judged(arcs).report.holes.find((h) => h.id === 'vent')!;
    expect(vent.diameter_mm).toBeCloseTo(11, 2);
    expect(chords.plan.text.length).toBeGreaterThan(10 * arcs.plan.text.length);
    // Every circle closes: its ends are one point, so that no rounding can part their radii (0.002 mm is allowed).
    const inch = dialect({ ...plain, arcs: true, decimals: 3 }, {}, { units: 'in' });
    expect(judged(inch).bad).toEqual([]);
  });

  test('line numbers count up, stay within five digits and begin again', () => {
    const { machine } = drum().jig.rotary;
    const numbered = { ...machine, understands: { ...machine.understands, lineNumbers: true } };
    const steps = Array.from({ length: 100_003 }, () => ({ kind: 'pause' }) as const);
    const lines = programText([{ kind: 'comment', text: 'x' }, ...steps], {
      units: 'mm',
      style: 'long-hand',
      machine: numbered,
    }).split('\n');
    expect(lines.slice(0, 3)).toEqual(['(x)', 'N1 M0', 'N2 M0']);
    expect(lines.slice(99_999, 100_002)).toEqual(['N99999 M0', 'N1 M0', 'N2 M0']);
  });

  test('a program written in spite of a stop halts first, in the dialect of its controller', () => {
    const SET_UP = 'G21 G17 G90 G94 G40 G49 G80 G54';
    const stop = { id: 'hole-outside-travel', at: 'lug-1 (a)' } as Finding;
    const halted = (more: Partial<Understands>) => {
      const w = dialect({ ...plain, ...more });
      const text = haltFirst(w.plan.text, stop, w.jig.rotary.machine.understands);
      const [lines, own] = [text.split('\n'), w.plan.text.split('\n')];
      // The dry run's line numbers stay those of the file.
      expect(lines.length).toBe(own.length);
      expect(lines.filter((l, i) => l !== own[i])).toEqual([executable(text)[0]]);
      return executable(text)[0];
    };
    expect(halted({})).toBe(`M0 (STOP hole-outside-travel at lug-1 -a-) ${SET_UP}`);
    expect(halted({ comments: 'semicolon' })).toBe(`M0 ${SET_UP} ; STOP hole-outside-travel at lug-1 -a-`);
    expect(halted({ comments: 'none', lineNumbers: true })).toBe(`N1 M0 ${SET_UP}`);
  });
});

describe('rounding never adds up', () => {
  /** A motor that counts steps from A0, told nothing but the words of the program. */
  function motor(text: string, steps: number): { told: number; stands: number }[] {
    const out: { told: number; stands: number }[] = [];
    let at = 0;
    for (const [, word] of text.matchAll(/^G0 A(\S+)$/gm)) {
      const told = Number(word);
      at += Math.round((told * steps) / 360) - at;
      out.push({ told, stands: (at * 360) / steps });
    }
    return out;
  }
  test.each([200, 3200, 12_801, 14_400])(
    '%i steps a turn, twenty shells: half a step and no more, at home at nought',
    (steps) => {
      const w = write(drum({}, { stepsPerTurn: steps }), { batch: 20 });
      const stood = motor(w.plan.text, steps);
      const visits = stood.length / 20;
      expect(Number.isInteger(visits)).toBe(true);
      const half = 180 / steps;
      stood.forEach((s, i) => {
        expect(Math.abs(s.stands - s.told)).toBeLessThanOrEqual(half + 1e-9);
        // The twentieth shell is drilled on the steps the first was.
        expect(s.stands).toBe(stood[i % visits]!.stands);
      });
      expect(stood.at(-1)).toEqual({ told: 0, stands: 0 });
      const angles = new Map(w.plan.operations.map((o) => [o.a.toFixed(4), o.a]));
      const told = new Set(stood.map((s) => s.told.toFixed(4)));
      for (const [text, a] of angles) {
        expect(told).toContain(text === '-0.0000' ? '0.0000' : text);
        expect(Math.abs(Number(text) - a)).toBeLessThanOrEqual(0.5e-4 + 1e-12);
      }
      const R = 163.7;
      const said = Number(
        /STEPS A \d+ a turn: the motor stands within (\S+) mm/.exec(w.plan.text.replaceAll(')\n(', ' '))![1],
      );
      const worst = Math.max(
        ...w.plan.operations.map(
          (o) => Math.abs(Math.round((o.a * steps) / 360) * (360 / steps) - o.a) * (Math.PI / 180) * R,
        ),
      );
      expect(said).toBeGreaterThanOrEqual(worst - 1e-9);
      expect(said - worst).toBeLessThan(0.001 + 1e-9);
      expect(worst).toBeLessThanOrEqual((Math.PI * R) / steps + 1e-9);
    },
  );
  test('by hand: 22.5 deg on 200 steps of 1.8 deg lies half a step off, 1.2857 mm on R 163.7 at half of 1.8 deg', () => {
    // 22.5 / 1.8 = 12.5 steps: half a step, 0.9 deg, 0.9 pi / 180 * 163.7 = 2.5714 mm.
    expect(stepsWithin([22.5], 200, 163.7)).toBeCloseTo(2.5714, 4);
    // 45 / 1.8 = 25 steps: none.
    expect(stepsWithin([0, 45, 90, -135], 200, 163.7)).toBeCloseTo(0, 9);
    expect(stepsWithin([22.5 + 0.45], 200, 163.7)).toBeCloseTo(1.2857, 4);
  });
  test('decimals: 3 tell every hole its place, 1 does not and the program is withheld', () => {
    expect(dialect({ decimals: 2 }).ids.filter((i) => i.startsWith('stop'))).toEqual([]);
    const coarse = dialect({ decimals: 1 });
    expect(coarse.facts.find((f) => f.id === 'numbers-too-coarse')).toMatchObject({ level: 'stop', limit: 0.05 });
    // Half of 0.1 mm, and half of 0.1 deg on R 163.7: hypot(0.05, 0.14286).
    expect(coarse.facts.find((f) => f.id === 'numbers-too-coarse')!.measured).toBeCloseTo(0.15135, 4);
  });
});

describe('found by drilling drums at random on machines at random', () => {
  const { travel, fixture } = drum().jig.rotary.machine;
  const stops = (w: Written) => w.ids.filter((id) => id.startsWith('stop'));
  test.each<[string, object, Partial<Machine>, object]>([
    ['marks at the end of X', {}, { travel: { ...travel, x: [23.3, 128.7] } }, { markOnly: true }],
    ['marks beside the plates', {}, { fixture: { ...fixture, chuck: 20.3, tailstock: 20.3 } }, { markOnly: true }],
    ['marks on a slow machine in inches', {}, { feed: 50 }, { markOnly: true, units: 'in' }],
    ['marks without Y in inches', {}, { hasY: false }, { markOnly: true, units: 'in' }],
    ['a rehearsal on a slow machine', {}, { feed: 50 }, { rehearse: true }],
    ['a feed that is no round number of inches', {}, { feed: 50 }, { units: 'in' }],
    ['edges to break, and no room on one side of Y', { runout: 0 }, { travel: { ...travel, y: [0, 50] } }, {}],
  ])('%s', (_what, rotary, machine, options) => {
    const w = write(drum(rotary, machine), options);
    expect(stops(w)).toEqual([]);
    const { report, bad } = judged(w, { rehearse: 'rehearse' in options });
    expect(bad.filter((b) => b.startsWith('stop'))).toEqual([]);
    expect(report.inPlace).toBe(w.layout.holes.length);
    const least = w.jig.rotary.machine.feed;
    const feeds = [...w.plan.text.matchAll(/[XYZ]\S+ F(\S+)$/gm)].map(([, f]) => Number(f));
    expect(Math.max(...feeds)).toBeLessThanOrEqual('units' in options ? least / 25.4 : least);
  });
  test('screws that stand parallel are marked where they meet the skin', () => {
    const across = { layout: 'across', spacing: 40, drill: 6, axes: 'parallel' };
    const raw = { ...LANTERN, lugs: { ...(LANTERN['lugs'] as object), holes: across } };
    const w = write(drum({}, {}, raw), { markOnly: true, parallel: 'by-y' });
    expect(judged(w).bad.filter((b) => b.startsWith('stop'))).toEqual([]);
    expect(judged(w).report.inPlace).toBe(w.layout.holes.length);
  });
  test('each program of one bit alone is clean as a part of the job, for one shell and for two', () => {
    for (const batch of [1, 2]) {
      const w = write(drum(), { onePerTool: true, batch });
      expect(w.plan.programs.length).toBe(5);
      for (const { text } of w.plan.programs) {
        const part = judged({ ...w, plan: { ...w.plan, text } }, { partial: true });
        expect(part.bad.filter((b) => b.startsWith('stop'))).toEqual([]);
      }
    }
  });
  test('a shell that runs far out: the V bit marks no deeper than its cone is high', () => {
    // 1 mm and 2.5 mm of runout would be 3.5; a 6 mm V bit of 90 deg is 3 mm high.
    const w = write(drum({ runout: 2.5 }));
    expect(Math.min(...w.plan.operations.filter((o) => o.tool.kind === 'v-bit').map((o) => o.bottom))).toBeCloseTo(
      -3,
      9,
    );
    expect(judged(w).bad.filter((b) => b.startsWith('stop'))).toEqual([]);
  });
  test('a program that finds only edges left to break is a part of the job', () => {
    const w = write(drum({ runout: 0 }), { onePerTool: true });
    expect(w.plan.operations.at(-1)!.kind).toBe('edge-break');
    const { text } = w.plan.programs.at(-1)!;
    const part = judged({ ...w, plan: { ...w.plan, text } }, { partial: true });
    expect(part.bad.filter((b) => b.startsWith('stop'))).toEqual([]);
  });
  test('inches are printed with one decimal more in every word, cycles and long hand too', () => {
    for (const style of ['cycles', 'long-hand'] as const) {
      const { text } = write(drum(), { units: 'in', style }).plan;
      const words = executable(text).flatMap((l) => l.split(' ').filter((t) => /^[XYZRQ]/.test(t)));
      expect(words.filter((t) => !/\.\d{5}$/.test(t))).toEqual([]);
    }
  });
  test('a wide vent in a small shell: the helix leaves the wood at its sides and is one hole all the same', () => {
    const shell = { diameter: 202, depth: 152, wall: 6.6, wood: 'black-cherry' };
    const { lugs: _, ...bare } = LANTERN;
    const vent = { layout: 'single', drill: 25.4 };
    const fittings = [{ name: 'vent', role: 'vent', at: 70, edge: 'middle', distance: 0, holes: vent }];
    const tools = [{ id: 1, kind: 'end-mill', diameter: 4 }];
    const w = write(drum({ tools }, {}, { ...bare, shell, fittings }));
    const { report, bad } = judged(w);
    expect(bad.filter((b) => b.startsWith('stop'))).toEqual([]);
    expect(report.holes.map((h) => [h.id, h.through])).toEqual([['vent', true]]);
  });
  test('nothing goes down where the fixture says so, on either side of the limit', () => {
    // The lower holes of the top row lie at 103.3, 3 mm to either side, and the V bit as wide.
    const keep = (from: number) => write(drum({}, { fixture: { ...fixture, keepOut: [{ from, to: 112 }] } }));
    expect(stops(keep(106.31))).toEqual([]);
    expect(judged(keep(106.31)).bad).toEqual([]);
    const shut = keep(106.29);
    expect(stops(shut)).toEqual(['stop hole-in-keep-out']);
    expect(shut.facts.find((f) => f.id === 'hole-in-keep-out')!.facts).toMatchObject({ count: 8, from: 106.29 });
    // The dry run, told of the zone, finds the same fault in a program that was not.
    const blind = { ...shut, plan: write(drum()).plan };
    expect(judged(blind).bad.some((b) => b.startsWith('stop in-keep-out'))).toBe(true);
    const marks = write(drum({}, { fixture: { ...fixture, keepOut: [{ from: 66, to: 70 }] } }), { markOnly: true });
    expect(judged(marks).bad.filter((b) => b.startsWith('stop'))).toEqual([]);
  });
  test('cones press on the bearing edges, unless those are still to be cut', () => {
    const cones = { fixture: { ...fixture, hold: 'cones' as const } };
    expect(write(drum({}, cones)).ids).toContain('care held-on-bearing-edges');
    const uncut = { ...LANTERN, shell: { ...(LANTERN['shell'] as object), edges: 'uncut' } };
    expect(write(drum({}, cones, uncut)).ids).not.toContain('care held-on-bearing-edges');
    expect(write(drum()).ids).not.toContain('care held-on-bearing-edges');
  });
});
