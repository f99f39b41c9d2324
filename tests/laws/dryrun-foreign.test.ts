import { describe, expect, test } from 'vitest';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import type { Hole } from '../../src/model/layout.ts';
import { context, SHELL, soundProgram } from '../helpers/drill-program.ts';

/** Sound programs as other hands write them: nothing but notes may be said of them. */
const C = context();
const LONG = soundProgram(C);
const DRILLED = context({ layout: { ...C.layout, holes: C.layout.holes.filter((h) => h.drill < 11) } });

function soundIn(lines: readonly string[], c = C): void {
  const { value, facts } = dryRun([`${lines.join('\n')}\n`], c);
  expect(facts.filter((f) => f.level !== 'note')).toEqual([]);
  expect(value.inPlace).toBe(c.layout.holes.length);
}

const change = (re: RegExp, how: (whole: string, ...parts: string[]) => string): string[] =>
  LONG.flatMap((l) => l.replace(re, how).split('\n'));

describe('spellings of one program', () => {
  test.each<[string, string[]]>([
    ['lower case', LONG.map((l) => l.toLowerCase())],
    ['no blanks', LONG.map((l) => l.replaceAll(' ', ''))],
    ['tabs and CR LF', [LONG.map((l) => l.replaceAll(' ', '\t')).join('\r\n')]],
    ['leading noughts', change(/\b([GMT])(\d)\b/g, (_, l, d) => `${l}0${d}`)],
    ['plus signs', change(/([XZA])(\d)/g, (_, l, d) => `${l}+${d}`)],
    ['points at the end', change(/([XZAF])(-?\d+)(?![\d.])/g, (_, l, n) => `${l}${n}.`)],
    ['line numbers', LONG.map((l, i) => `N${5 * i} ${l}`)],
    ['percent lines and a name', ['%', '(KETTLE ROW)', ...LONG.slice(0, -1), 'M30', '%', '']],
    ['a line for each word of the set-up', [...LONG[0]!.split(' '), ...LONG.slice(1)]],
    ['an optional line', [...LONG.slice(0, 2), '/ M1', ...LONG.slice(2)]],
    ['T and M6 apart, M6 first', change(/^(T\d) (M6)$/, (_, t, m) => `${t}\n${m}`)],
    ['S and M3 apart', change(/^(S\d+) (M3)$/, (_, s, m) => `${s}\n${m}`)],
    ['tool lengths', change(/^T(\d) M6$/, (all, t) => `${all}\nG43 H${t}`)],
    ['coolant', change(/^(S\d+ M3)$/, (all) => `${all} M7`)],
    ['blended corners', ['G64', ...LONG]],
    ['exact stop', ['G61.1', ...LONG]],
    ['comments after a semicolon', LONG.map((l) => `${l} ; so`)],
    ['A within half a turn', change(/A([\d.]+)/, (_, a) => `A${Number(a) > 180 ? Number(a) - 360 : a}`)],
    ['A a turn further', change(/A([\d.]+)/, (_, a) => `A${Number(a) + 360}`)],
    [
      'strokes in inverse time',
      change(
        /^G1 Z-([\d.]+) F(\d+)$/,
        (_, z, f) => `G93 G1 Z-${z} F${(Number(f) / (Number(z) / 2 + 1)).toFixed(3)}\nG94 F${f}`,
      ),
    ],
    [
      'arcs by their radius, in halves',
      change(
        /^G3 X(\S+) Y0 I-(\S+) J0(.*)$/,
        (_, x, r, z) => `G3 X${(Number(x) - 2 * Number(r)).toFixed(4)} Y0 R${r}\nG3 X${x} Y0 R${r}${z}`,
      ),
    ],
  ])('%s', (_, lines) => soundIn(lines));

  test('steps for places', () => {
    const at = new Map<string, number>();
    const lines = LONG.flatMap((l) => {
      const words = l.match(/[XYZA]-?[\d.]+/g) ?? [];
      const known = words.every((w) => at.has(w[0]!)) && /^G[01] /.test(l);
      const steps = l.replace(/([XYZA])(-?[\d.]+)/g, (_, axis, n) => {
        const step = Number(n) - (at.get(axis) ?? 0);
        at.set(axis, Number(n));
        return `${axis}${step.toFixed(4)}`;
      });
      return known ? [`G91 ${steps}`, 'G90'] : [l];
    });
    expect(lines.filter((l) => l.startsWith('G91')).length).toBeGreaterThan(100);
    soundIn(lines);
  });
});

interface Hand {
  readonly cycle?: string;
  readonly returns?: string;
  readonly inch?: boolean;
  /** Depth past the need. */
  readonly past?: number;
  readonly r?: number;
  /** The spindle is started over the first hole. */
  readonly late?: boolean;
}

/** A cycle a row, its words kept from hole to hole, F and R before X. */
function sticky(hand: Hand): string[] {
  const unit = hand.inch ? 25.4 : 1;
  const n = (mm: number): string => (mm / unit).toFixed(hand.inch ? 5 : 3);
  const out = [hand.inch ? 'G20' : 'G21', 'G90 G94 G17', hand.returns ?? 'G98', 'G54', `G0 Z${n(50)}`];
  const passes: [number, (h: Hole) => boolean, number, number, number][] = [
    [2, (h) => h.pilot !== undefined, 2.5, 3000, 300],
    [3, (h) => h.drill === 6, 6, 1500, 220],
    [4, (h) => h.drill === 5, 5, 1500, 200],
  ];
  for (const [tool, chosen, d, speed, feed] of passes) {
    const start = [`M3 S${speed}`, 'G4 P3'];
    const point = d / 2 / Math.tan((59 * Math.PI) / 180);
    const z = SHELL.radius - Math.sqrt(SHELL.inside ** 2 - (d * d) / 4) + point + (hand.past ?? 1);
    out.push('M5', `G0 Z${n(50)}`, `M6 T${tool}`, ...(hand.late ? [] : start));
    const holes = DRILLED.layout.holes.filter(chosen);
    for (const angle of new Set(holes.map((h) => h.angle))) {
      const [first, ...rest] = holes.filter((h) => h.angle === angle);
      out.push(`G0 A${angle}`, `G0 X${n(first!.height)} Y0`);
      if (hand.late) out.push(...start);
      out.push(`G0 Z${n(10)}`, `${hand.cycle ?? 'G81'} F${n(feed)} R${n(hand.r ?? 1)} Z-${n(z)} X${n(first!.height)}`);
      out.push(...rest.map((h) => `X${n(h.height)}`), 'G80', `G0 Z${n(10)}`);
    }
  }
  out.push('M5', `G0 Z${n(50)}`, 'M30');
  return out;
}

describe('cycles with words kept from hole to hole', () => {
  test.each<[string, Hand]>([
    ['G81', {}],
    ['back to R only', { returns: 'G99' }],
    ['inches', { inch: true }],
    ['pecks', { cycle: 'G83 Q3' }],
    ['a dwell at the bottom', { cycle: 'G82 P0.2' }],
    ['fed out', { cycle: 'G85' }],
    ['the spindle started over the hole', { late: true }],
    ['R nearer', { r: 0.5 }],
    ['R further', { r: 5 }],
    ['half a millimetre past the need', { past: 0.5 }],
    ['and one and a half', { past: 1.5 }],
  ])('%s', (_, hand) => soundIn(sticky(hand), DRILLED));
});
