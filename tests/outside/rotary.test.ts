import { Resvg } from '@resvg/resvg-js';
import Interpreter from 'gcode-interpreter';
import { parseLine } from 'gcode-parser';
import { describe, expect, test } from 'vitest';
import { completeTool } from '../../src/data/tools.ts';
import { machineProfile } from '../../src/jig/profile.ts';
import { setupPicture } from '../../src/picture/setup.ts';
import { boreTaper } from '../../src/rotary/bore.ts';
import { commentSafe } from '../../src/rotary/comment.ts';
import { BREAKTHROUGH, fullDepth, leadOf, saddle, throughDepth } from '../../src/rotary/depth.ts';
import { rotarySayings } from '../../src/say/rotary.ts';
import { sayAll } from '../../src/say/say.ts';
import { DEMOS, demo, planned } from '../helpers/jigs.ts';
import { play, strokes } from '../helpers/play.ts';
import { drum, judged, LANTERN, write } from '../helpers/rotary.ts';

describe('depth from geometry (cylinder-cylinder intersection, textbook)', () => {
  test('full diameter through: R 163.7, wall 6.6: r 3 needs 6.6286, r 5.5 needs 6.6963', () => {
    expect(throughDepth(163.7, 157.1, 3)).toBeCloseTo(6.6286, 4);
    expect(throughDepth(163.7, 157.1, 5.5)).toBeCloseTo(6.6963, 4);
  });
  // Outer saddle, full clearance, tip travel of 118 and 135 deg points: computed to six decimals by hand.
  test.each([
    [177.8, 6.35, 6, 0.025311, 6.376249, 8.178831, 7.618889],
    [177.8, 6.35, 6.35, 0.02835, 6.379401, 8.287133, 7.694529],
    [177.8, 6.35, 12.7, 0.113429, 6.467633, 10.283098, 9.097889],
    [177.8, 6.35, 25.4, 0.454151, 6.821017, 14.451947, 12.08153],
    [177.8, 8, 12.7, 0.113429, 8.118777, 11.934242, 10.749033],
    [127, 5, 12.7, 0.158849, 5.165368, 8.980833, 7.795624],
    [127, 5, 25.4, 0.636595, 5.662825, 13.293755, 10.923337],
  ])('R %f wall %f d %f', (R, wall, d, outer, clear, tip118, tip135) => {
    expect(saddle(R, d / 2)).toBeCloseTo(outer, 6);
    expect(throughDepth(R, R - wall, d / 2)).toBeCloseTo(clear, 6);
    for (const [point, tip] of [
      [118, tip118],
      [135, tip135],
    ] as const) {
      const tool = completeTool({ id: 1, kind: 'twist', diameter: d, point });
      const deep = fullDepth({ radius: R, inside: R - wall, hole: d / 2, tool, y: 0, runout: 0.3 });
      expect(deep).toBeCloseTo(tip + 0.3 + BREAKTHROUGH, 5);
    }
  });
  test('the tip leads by the point, the spur, the step, or not at all', () => {
    expect(leadOf(completeTool({ id: 1, kind: 'twist', diameter: 6 }))).toBeCloseTo(1.8026, 4);
    expect(leadOf(completeTool({ id: 1, kind: 'brad-point', diameter: 6, lead: 1.3 }))).toBe(1.3);
    expect(leadOf(completeTool({ id: 1, kind: 'stepped', diameter: 6, step: { diameter: 3, length: 9 } }))).toBe(9);
    expect(leadOf(completeTool({ id: 1, kind: 'end-mill', diameter: 3.175 }))).toBe(0);
  });
  test('a hole walked out by A tapers: 11 mm, 3.175 mm mill, R 163.7, wall 6.6: 0.32 mm', () => {
    expect(boreTaper(5.5, 3.175 / 2, 163.7, 157.1)).toBeCloseTo(0.3155, 3);
  });
  test('a reinforcement ring is drilled through too, where the hole meets it', () => {
    const ringed = {
      ...LANTERN,
      shell: { ...(LANTERN['shell'] as object), rings: { top: { width: 30, thickness: 5 } } },
    };
    const deep = (raw: typeof LANTERN) => {
      const w = write(drum({}, {}, raw));
      expect(judged(w).bad.filter((b) => b.startsWith('stop'))).toEqual([]);
      const bottom = (id: string) =>
        Math.min(...w.plan.operations.filter((o) => o.hole.id === id).map((o) => o.bottom));
      return [bottom('lug-top-1-a'), bottom('lug-top-1-b'), bottom('lug-bottom-1-a')];
    };
    const [a, b, c] = deep(LANTERN);
    const [ra, rb, rc] = deep(ringed);
    // The upper hole lies 23.3 mm below the rim, the lower one 48.7 mm.
    expect(a! - ra!).toBeCloseTo(5, 2);
    expect(rb).toBe(b);
    expect(rc).toBe(c);
  });
});

/** Four decimals in mm and degrees; an inch takes one more. */
const PLAIN = /^([GMTSFPXYZARQH]-?\d+(\.\d{1,4})?)( [GMTSFPXYZARQ]-?\d+(\.\d{1,4})?)*$/;
const PLAIN_INCHES = /^([GMTSFPXYZARQH]-?\d+(\.\d{1,5})?)( [GMTSFPXYZARQ]-?\d+(\.\d{1,5})?)*$/;

/** A comment of its own, or words that an independent tokenizer reads as they stand, each letter but G once. */
function isPlain(line: string, plain: RegExp): boolean {
  if (line.length >= 80 || !/^[\x20-\x7e]+$/.test(line)) return false;
  const { words } = parseLine(line);
  if (line.startsWith('(')) return line.endsWith(')') && !/[()]/.test(line.slice(1, -1)) && words.length === 0;
  const letters = words.map(([letter]) => letter).filter((l) => l !== 'G');
  const seen = words.map(([l, v]) => `${l}${v}`).join(' ');
  const stands = line.split(' ').map((w) => `${w[0]}${Number(w.slice(1))}`);
  return plain.test(line) && new Set(letters).size === letters.length && seen === stands.join(' ');
}

describe('the language (NISTIR 6556), read by an independent tokenizer', () => {
  const programs = [
    write(drum()).plan.text,
    write(drum({ datum: 'top' }), { style: 'long-hand', units: 'in' }).plan.text,
    write(drum({ machine: 'rotary-fast' })).plan.text,
    write(drum(), { markOnly: true }).plan.text,
    write(drum(), { rehearse: true, batch: 2 }).plan.text,
  ];
  test('only words of the shared subset, upper case, at most once a line, at most four decimals, short ASCII lines', () => {
    for (const text of programs) {
      expect(text.endsWith('M2\n')).toBe(true);
      expect(text.length).toBeGreaterThan(1000);
      const wrong = text
        .trimEnd()
        .split('\n')
        .filter((line) => !isPlain(line, /^G20\b/m.test(text) ? PLAIN_INCHES : PLAIN));
      expect(wrong).toEqual([]);
    }
  });
  test('a general interpreter from the registry goes the same ways', () => {
    const texts = [
      write(drum(), { style: 'long-hand' }).plan.text,
      write(drum({ machine: 'rotary-fast' })).plan.text,
      write(drum({ machine: 'rotary-fast' }, { hasY: false })).plan.text,
    ];
    for (const text of texts) {
      const at: Record<string, number> = { X: 0, Y: 0, Z: 1000, A: 0 };
      const theirs: string[] = [];
      const go = (how: string) => (words: Record<string, number>) => {
        for (const axis of 'XYZA') if (words[axis] !== undefined) at[axis] = words[axis];
        theirs.push(`${how} ${at['X']} ${at['Y']} ${at['Z']} ${at['A']}`);
      };
      new Interpreter({ handlers: { G0: go('rapid'), G1: go('feed') } }).loadFromStringSync(text);
      const ours = play(text).map((m) => `${m.rapid ? 'rapid' : 'feed'} ${m.x} ${m.y} ${m.z} ${m.a}`);
      expect(theirs.length).toBeGreaterThan(300);
      expect(ours).toEqual(theirs);
    }
  });
  test('the first words set everything the program relies on', () => {
    const executable = programs[0]!.split('\n').filter((l) => !l.startsWith('('));
    expect(executable[0]).toBe('G21 G17 G90 G94 G40 G49 G80 G54');
    expect(programs[1]!.split('\n').filter((l) => !l.startsWith('('))[0]).toBe('G20 G17 G90 G94 G40 G49 G80 G54');
  });
  test('A turns alone on its line, by G0, with the tip at the clearance height; every cycle is restated and ended', () => {
    for (const text of programs.slice(0, 3)) {
      const lines = text.split('\n').filter((l) => !l.startsWith('('));
      for (const [i, line] of lines.entries()) {
        if (/\bA/.test(line)) expect(line).toMatch(/^G0 A-?[\d.]+$/);
        if (/G8[13]/.test(line)) {
          expect(line).toMatch(/^G98 G8[13] X\S+ Z\S+ R\S+( Q\S+)? F\S+$/);
          expect(lines[i + 1]).toBe('G80');
        }
      }
      const moves = play(text);
      moves.forEach((m, i) => {
        const before = moves[i - 1];
        if (before && before.a !== m.a) expect(Math.min(before.z, m.z)).toBeGreaterThan(9.999);
      });
    }
  });
  test('every tool change is Tn M6 and an M0 for the hand; the spindle is off, and up to speed before it cuts', () => {
    const lines = programs[0]!.split('\n').filter((l) => !l.startsWith('('));
    const changes = lines.flatMap((l, i) => (/M6/.test(l) ? [i] : []));
    expect(changes.length).toBe(5);
    for (const i of changes) {
      expect(lines[i]).toMatch(/^T\d+ M6$/);
      expect(lines[i + 1]).toBe('M0');
      if (i > changes[0]!)
        expect(
          lines
            .slice(0, i)
            .reverse()
            .find((l) => /M[35]/.test(l)),
        ).toBe('M5');
    }
    for (const [i, l] of lines.entries()) if (/M3/.test(l)) expect(lines[i + 1]).toMatch(/^G4 P3\.0$/);
  });
  test('hands change bits, or the machine does and takes their lengths from its table', () => {
    const w = write(drum({}, { toolChange: 'machine' }));
    expect(w.plan.text).toMatch(/T1 M6\nG43 H1\n/);
    expect(w.plan.text).not.toMatch(/TOUCH OFF/);
    expect(judged(w).bad).toEqual([]);
  });
  test('names cannot break out of a comment', () => {
    expect(commentSafe('a (b) c)\nG0 Z-50 %;')).toBe('a -b- c- G0 Z-50 pct,');
    expect(commentSafe('Größe “x” ☃')).toBe('Grosse .x. .'.replace('Grosse', 'Gro.e'));
    expect(commentSafe('MSG, stop')).not.toMatch(/^msg,/i);
    const w = write(drum({}, {}, { ...LANTERN, name: 'x) G0 Z-99 (' }));
    expect(judged(w).bad).toEqual([]);
  });
});

describe('played back by the dry run, which shares no code with the planner', () => {
  test.each(DEMOS.slice(0, 4).flatMap((d) => ['bottom', 'top'].map((datum) => [d, datum])))(
    '%s from the %s edge',
    (file, datum) => {
      const raw = demo(file);
      const { jig, layout } = planned({
        ...raw,
        rotary: { backing: '15 mm', runout: '0.4 mm', ...(raw['rotary'] as object), datum },
      });
      for (const options of [{}, { style: 'long-hand' as const }, { units: 'in' as const }]) {
        const w = write({ jig, layout }, options);
        const { report, bad } = judged(w);
        expect(bad).toEqual([]);
        expect(report.inPlace).toBe(layout.holes.length);
        expect(Math.abs(report.seconds - w.plan.seconds)).toBeLessThan(0.03 * report.seconds + 5);
      }
    },
  );
  test('bored by a router spindle, with Y and by A', () => {
    const byY = write(drum({ machine: 'rotary-fast' }));
    expect(byY.ids).toEqual(['note bored-instead', 'note pilot-skipped', 'note bored-instead', 'note bored-instead']);
    const y = judged(byY);
    expect(y.bad).toEqual([]);
    const byA = write(drum({ machine: 'rotary-fast' }, { hasY: false }));
    expect(byA.plan.text).toMatch(/G93 G1 X\S+ Z\S+ A\S+ F/);
    expect(byA.plan.text).not.toMatch(/\bY-?\d/);
    const a = judged(byA);
    expect(a.bad).toEqual([]);
    expect(a.report.inPlace).toBe(byA.layout.holes.length);
  });
  test('a rehearsal touches nothing and shows every hole; a marking pass marks every hole', () => {
    const air = judged(write(drum(), { rehearse: true }), { rehearse: true });
    expect(air.report).toMatchObject({ kind: 'rehearsal', inPlace: 37 });
    expect(air.bad).toEqual([]);
    const marks = judged(write(drum(), { markOnly: true }));
    expect(marks.report).toMatchObject({ kind: 'marking', inPlace: 37 });
    expect(marks.bad.filter((b) => b.startsWith('stop'))).toEqual([]);
  });
  test.each([
    ['bottom', {}],
    ['top', {}],
    ['bottom', { a: 'reversed' as const }],
    ['top', { a: 'reversed' as const }],
  ])('screws that stand parallel, drilled by Y from the %s edge %j: same places on the skin', (datum, machine) => {
    const across = { layout: 'across', spacing: 40, drill: 6, axes: 'parallel' };
    const raw = { ...LANTERN, lugs: { ...(LANTERN['lugs'] as object), holes: across } };
    const radial = write(drum({ datum }, machine, raw));
    // x = 20, R = 163.7, wall 6.6: 7.02 deg, 0.81 mm.
    const tilt = radial.facts.find((f) => f.id === 'drilled-radially')!;
    expect(tilt).toMatchObject({ level: 'note', unit: 'deg' });
    expect(tilt.measured).toBeCloseTo(7.01763, 5);
    expect(tilt.facts!['walk']).toBeCloseTo(0.81, 2);
    const parallel = write(drum({ datum }, machine, raw), { parallel: 'by-y' });
    expect(parallel.ids).toEqual(['note drilled-parallel']);
    expect(new Set(parallel.plan.operations.map((o) => Math.abs(o.y)))).toEqual(new Set([0, 20]));
    const lines = new Set(
      parallel.plan.operations.filter((o) => o.y !== 0).map((o) => Math.abs(Math.round(o.a * 1e6))),
    );
    expect(lines.size).toBe(8);
    const { report, bad } = judged(parallel);
    expect(bad).toEqual([]);
    expect(report.inPlace).toBe(parallel.layout.holes.length);
  });
  test('edges broken along the saddle on a true running shell', () => {
    const w = write(drum({ runout: 0.05 }));
    const edges = w.plan.operations.filter((o) => o.kind === 'edge-break');
    // 11 mm: saddle 0.0924 mm; 6 mm: 0.0275 mm.
    expect(edges.map((o) => o.hole.id)).toEqual(['vent']);
    expect(write(drum({ runout: 0.1 })).plan.operations.filter((o) => o.kind === 'edge-break')).toEqual([]);
    // Too low to see is left alone even on a shell that runs dead true.
    const still = write(drum({ runout: 0 })).plan.operations.filter((o) => o.kind === 'edge-break');
    expect(still.map((o) => o.hole.id)).toEqual(['vent']);
    expect(judged(w).bad).toEqual([]);
    const z = play(w.plan.text)
      .filter((m) => m.tool === 1 && m.z < -1.5 && !m.rapid)
      .map((m) => m.z);
    expect(Math.min(...z)).toBeCloseTo(-1.5 - (163.7 - Math.sqrt(163.7 ** 2 - 5.5 ** 2)), 3);
  });
});

describe('the drawing of the fixture', () => {
  const path = (datum: string): string => setupPicture(write(drum({ datum })).plan.setup);
  test('the arrow points the way angles grow seen from the + X end: left with the bottom edge at X0, right with the top', () => {
    const tip = (svg: string): number => Number(/class="edge" d="M0 \S+A\S+ \S+ 0 0 [01] (-?[\d.]+) /.exec(svg)![1]);
    expect(tip(path('bottom'))).toBeLessThan(-30);
    expect(tip(path('top'))).toBeGreaterThan(30);
    expect(path('bottom')).toContain('A grows along the arrow');
    expect(path('top')).toContain('A falls along the arrow');
    expect(path('top')).toContain('X0: top edge');
  });
  test('a renderer of its own reads it', () => {
    const image = new Resvg(path('bottom'), { fitTo: { mode: 'width', value: 300 } }).render();
    expect(image.width).toBe(300);
    expect(path('bottom')).not.toMatch(/NaN|undefined|style=/);
  });
});

describe('what is done at a hole, and why', () => {
  const kinds = (w: ReturnType<typeof write>, id: string) =>
    w.plan.operations.filter((o) => o.hole.id === id).map((o) => `${o.kind} ${o.tool.kind} ${o.tool.diameter}`);
  test('mark, pilot, twist; or mark, brad point and never a pilot before it', () => {
    const w = write(drum());
    expect(kinds(w, 'lug-top-1-a')).toEqual(['centre-mark v-bit 6', 'pilot twist 2.5', 'drill twist 6']);
    expect(kinds(w, 'strainer-a')).toEqual(['centre-mark v-bit 6', 'drill brad-point 5']);
    const tools = [
      { id: 1, kind: 'v-bit', diameter: 6 },
      { id: 2, kind: 'twist', diameter: 2.5 },
      { id: 3, kind: 'brad-point', diameter: 6 },
      { id: 4, kind: 'brad-point', diameter: 5 },
      { id: 5, kind: 'stepped', diameter: 11 },
    ];
    const b = write(drum({ tools }));
    expect(kinds(b, 'lug-top-1-a')).toEqual(['centre-mark v-bit 6', 'drill brad-point 6']);
    expect(b.ids).toContain('note pilot-skipped');
    for (const o of [...w.plan.operations, ...b.plan.operations]) expect(o.because.length).toBeGreaterThan(10);
  });
  test('each bit is taken once, the vent is the last hole drilled', () => {
    const w = write(drum());
    const changes = w.plan.text.match(/M6/g)!.length;
    expect(changes).toBe(w.plan.tools.length);
    expect(w.plan.order.at(-1)).toBe('vent');
    expect(w.plan.order.length).toBe(37);
  });
  test('a bit that drills one hole and pilots another is taken once, after its own pilot: 2.5, then 5, then 8', () => {
    const tools = [2.5, 5, 8].map((diameter, i) => ({ id: i + 1, kind: 'twist', diameter }));
    const fitting = (name: string, at: number, drill: number, pilot: number) => ({
      name,
      role: 'other',
      at,
      edge: 'middle',
      distance: 0,
      holes: { layout: 'single', drill, pilot },
    });
    const { lugs: _, ...bare } = LANTERN;
    const raw = { ...bare, fittings: [fitting('big', 40, 8, 5), fitting('small', 100, 5, 2.5)] };
    const w = write(drum({ tools: [...tools].reverse() }, {}, raw));
    expect(w.plan.operations.map((o) => `${o.hole.fitting} ${o.tool.diameter}`)).toEqual([
      'small 2.5',
      'small 5',
      'big 5',
      'big 8',
    ]);
    expect(w.plan.text.match(/M6/g)!.length).toBe(3);
    // The V bit marks first and breaks edges last: no order takes it once.
    const edges = write(drum({ runout: 0 }));
    expect(edges.plan.text.match(/M6/g)!.length).toBe(edges.plan.tools.length + 1);
  });
  test('pecks only beyond three diameters, levels from R down, no sliver', () => {
    const w = write(drum(), { style: 'long-hand' });
    const pilots = w.plan.operations.filter((o) => o.kind === 'pilot');
    const drills = w.plan.operations.filter((o) => o.kind === 'drill');
    expect(new Set(pilots.map((o) => o.pecks))).toEqual(new Set([4]));
    expect(new Set(drills.map((o) => o.pecks))).toEqual(new Set([1]));
    const first = strokes(play(w.plan.text)).find((s) => s.tool === 2)!;
    expect(first.z).toBeCloseTo(pilots[0]!.bottom, 4);
  });
});

describe('bad input is named, both sides of each limit', () => {
  const stops = (w: ReturnType<typeof write>) => w.facts.filter((f) => f.level === 'stop').map((f) => f.id);
  const tools = (more: object = {}) => [
    { id: 1, kind: 'twist', diameter: 2.5 },
    { id: 2, kind: 'twist', diameter: 6, ...more },
    { id: 3, kind: 'brad-point', diameter: 5 },
    { id: 4, kind: 'brad-point', diameter: 11 },
  ];
  test('a missing bit: nothing is written; the nearest is named', () => {
    const w = write(drum({ tools: tools().slice(0, 3) }));
    expect(stops(w)).toEqual(['tool-missing']);
    expect(w.plan).toMatchObject({ made: false, text: '' });
    const [said] = sayAll(w.facts, rotarySayings);
    expect(said!.text).toMatch(/No bit makes the 11 mm hole: the nearest is the 6 mm twist, tool 2/);
    expect(stops(write(drum({ tools: tools() })))).toEqual([]);
  });
  test('a bit 0.05 mm off drills the hole, 0.1 mm off does not', () => {
    expect(stops(write(drum({ tools: tools({ diameter: 6.05 }) })))).toEqual([]);
    expect(stops(write(drum({ tools: tools({ diameter: 6.1 }) })))).toEqual(['tool-missing']);
  });
  test('flute and length: 6 mm through 6.6 mm goes 9.4312 mm deep', () => {
    const deep = 6.6286 + 1.8026 + 0.5 + 0.5;
    expect(stops(write(drum({ tools: tools({ flute: deep + 0.01 }) })))).toEqual([]);
    expect(stops(write(drum({ tools: tools({ flute: deep - 0.01 }) })))).toEqual(['flute-too-short']);
    expect(stops(write(drum({ tools: tools({ flute: 10, stickout: deep + 2.01 }) })))).toEqual([]);
    const short = write(drum({ tools: tools({ flute: 10, stickout: deep + 1.99 }) }));
    expect(stops(short)).toEqual(['tool-too-short']);
    // One sentence for all 32, and none of them in the program.
    expect(short.facts.find((f) => f.id === 'tool-too-short')!.facts).toMatchObject({ count: 32 });
    expect(short.plan.text).not.toMatch(/lug-/);
    expect(short.plan.text).toMatch(/strainer-a/);
  });
  test('collet', () => {
    const small = (collet: number) => {
      const { spindle } = drum().jig.rotary.machine;
      return write(drum({ tools: tools() }, { spindle: { ...spindle, collet } }));
    };
    expect(stops(small(8))).toEqual([]);
    expect(stops(small(7.9))).toEqual(['shank-too-thick']);
  });
  test.each([
    ['speed', 6000, 'speed-outside-machine'],
    ['feed', 2000, 'feed-outside-machine'],
  ] as const)('proven %s: %i is what the machine does, one more is too much', (key, most, id) => {
    const proven = (value: number) =>
      write(drum({ tools: tools() }, { proven: [{ kind: 'twist', diameter: 6, [key]: value }] }));
    expect(stops(proven(most))).toEqual([]);
    const over = proven(most + 1);
    expect(stops(over)).toEqual([id]);
    expect(over.facts.find((f) => f.id === id)).toMatchObject({ at: 'tool 2', measured: most + 1, limit: most });
  });
  test('pecks of nothing never reach the bottom; of a hundredth they do', () => {
    const peck = (depth: number) =>
      write(drum({ tools: tools() }, { proven: [{ kind: 'twist', diameter: 2.5, peck: depth }] }));
    expect(stops(peck(0))).toEqual(['zero-pecks']);
    expect(stops(peck(0.01))).toEqual([]);
    // The profile may say so: it is the making that stops, not the reading.
    const raw = { profile: 'machine', proven: [{ kind: 'twist', diameter: 2.5, peck: 0 }] };
    expect(machineProfile('m.yaml', raw).ok).toBe(true);
  });
  test('swing: the largest diameter that turns; a bit that would have to rise above the gantry is told', () => {
    const just = write(drum({}, { swing: 327.4 }));
    expect(stops(just)).toEqual([]);
    expect(just.plan.made).toBe(true);
    expect(just.ids).toContain('care little-room-above');
    const w = write(drum({}, { swing: 327.3 }));
    expect(stops(w)).toEqual(['shell-over-swing']);
    expect(w.plan.made).toBe(false);
  });
  test('travel and fixture: holes out of reach are left out and said once', () => {
    const { travel, fixture } = drum().jig.rotary.machine;
    const x = write(drum({}, { travel: { ...travel, x: [0, 128] } }));
    expect(stops(x)).toEqual(['hole-outside-travel']);
    expect(x.facts.find((f) => f.id === 'hole-outside-travel')).toMatchObject({
      measured: 128.7,
      limit: 128,
      unit: 'mm',
    });
    expect(Math.max(...play(x.plan.text).map((m) => m.x))).toBeLessThan(128);
    expect(stops(write(drum({}, { travel: { ...travel, x: [0, 128.7] } })))).toEqual([]);
    expect(stops(write(drum({}, { fixture: { ...fixture, chuck: 20.3 } })))).toEqual([]);
    expect(stops(write(drum({}, { fixture: { ...fixture, chuck: 20.4 } })))).toEqual(['hole-in-fixture']);
    expect(stops(write(drum({}, { travel: { ...travel, z: [-9, 100] } })))).toContain('depth-outside-travel');
    expect(stops(write(drum({}, { travel: { ...travel, z: [-60, 9] } })))).toEqual(['no-room-above']);
  });
  test('backing and shaft', () => {
    // The brad point of the vent comes out furthest: 0.0963 + 2.2 + 0.5 + 0.5.
    expect(stops(write(drum({ backing: 3.3 })))).toEqual([]);
    const thin = write(drum({ backing: 3.29 }));
    expect(stops(thin)).toEqual(['backing-too-thin']);
    expect(thin.facts.find((f) => f.id === 'backing-too-thin')).toMatchObject({ at: 'vent', measured: 3.29 });
    expect(write(drum({ backing: 0 })).ids).toContain('care unbacked');
    const { fixture } = drum().jig.rotary.machine;
    expect(stops(write(drum({}, { fixture: { ...fixture, mandrel: 310 } })))).toContain('depth-hits-mandrel');
  });
  test('a machine without Y that knows no inverse time cannot walk a hole out', () => {
    const { understands } = drum({ machine: 'rotary-fast' }).jig.rotary.machine;
    const w = write(
      drum({ machine: 'rotary-fast' }, { hasY: false, understands: { ...understands, inverseTime: false } }),
    );
    expect(stops(w)).toEqual(['needs-inverse-time']);
    expect(w.plan.made).toBe(false);
  });
  test('nobody asked: the same faults are notes', () => {
    const { rotary: _, ...bare } = LANTERN;
    const { jig, layout } = planned(bare);
    const w = write({
      jig: { ...jig, rotary: { ...jig.rotary, machine: { ...jig.rotary.machine, swing: 300 } } },
      layout,
    });
    expect(w.facts.every((f) => f.level === 'note')).toBe(true);
    expect(w.facts.map((f) => f.id)).toContain('shell-over-swing');
    expect(w.plan.made).toBe(false);
  });
  test('a fitting or hole that is not there', () => {
    expect(stops(write(drum(), { only: 'cowbell' }))).toEqual(['no-such-fitting']);
    expect(stops(write(drum(), { fromHole: 'lug-top-99-a' }))).toEqual(['no-such-hole']);
    const wrongBit = write(drum(), { fromHole: 'lug-top-1-a', fromTool: 77 }).facts.find(
      (f) => f.id === 'no-such-hole',
    )!;
    expect(rotarySayings['no-such-hole']!.text(wrongBit)).toBe('The program has no work for T77 at lug-top-1-a.');
    expect(rotarySayings['no-such-hole']!.try(wrongBit)).toMatch(/uses there: T\d/);
    // As findings call the row.
    expect(stops(write(drum(), { only: 'top-lugs' }))).toEqual([]);
  });
  test('every finding has its sentence', () => {
    const { fixture, travel, understands } = drum().jig.rotary.machine;
    const runs = [
      write(drum({ backing: 0, tools: tools() }, { swing: 10, stepsPerTurn: 400 })),
      write(drum({ tools: tools().slice(1, 3) }, { fixture: { ...fixture, chuck: 40, mandrel: 320 } })),
      write(
        drum(
          { machine: 'rotary-fast', tools: tools() },
          { travel: { ...travel, x: [0, 50] }, hasY: false, understands },
        ),
      ),
      write(drum({ backing: 1 }), { only: 'nothing', fromHole: 'x' }),
    ];
    for (const w of runs) {
      const said = sayAll(w.facts, rotarySayings);
      expect(said.length).toBeGreaterThan(0);
      for (const s of said) {
        expect(s.text).not.toMatch(/\?|undefined|NaN/);
        expect(s.try).not.toMatch(/\?|undefined|NaN/);
      }
    }
  });
});
