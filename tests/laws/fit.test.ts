import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { areaPaths, FillRule, intersect } from 'clipper2-ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { check } from '../../src/fit/check.ts';
import { gapBetween, overlaps } from '../../src/fit/contact.ts';
import { type Boxed, eachPair, ground } from '../../src/fit/neighbours.ts';
import { footOutline, fromPoints, moved, type Outline } from '../../src/fit/outline.ts';
import { bestTurn } from '../../src/fit/turn.ts';
import { resolveJig } from '../../src/jig/resolve.ts';
import { valueAt } from '../../src/jobs/changes.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Foot } from '../../src/model/jig.ts';
import { fitSayings } from '../../src/say/fit.ts';
import { sayAll } from '../../src/say/say.ts';
import { changed, factsOf, jigOf, type Raw, readCase, sound, soundNames } from '../helpers/jig-cases.ts';
import { soundBuilds } from '../helpers/sound-builds.ts';

describe('neighbours on the unrolled shell', () => {
  const GIRTH = 1000;
  const box = fc
    .record({
      left: fc.double({ min: 0, max: 999, noNaN: true }),
      width: fc.double({ min: 0, max: 120, noNaN: true }),
      down: fc.double({ min: 0, max: 100, noNaN: true }),
      height: fc.double({ min: 0, max: 50, noNaN: true }),
    })
    .map(({ left, width, down, height }): Boxed => ({ left, right: left + width, down, up: down + height }));

  const near = (a: Boxed, b: Boxed, reach: number): boolean =>
    [-GIRTH, 0, GIRTH].some(
      (t) =>
        b.left + t <= a.right + reach &&
        a.left <= b.right + t + reach &&
        b.down <= a.up + reach &&
        a.down <= b.up + reach,
    );

  test('the ground meets exactly the pairs that all-pairs finds, each once, on the side where they meet', () => {
    fc.assert(
      fc.property(fc.array(box, { maxLength: 40 }), fc.double({ min: 0, max: 5, noNaN: true }), (boxes, reach) => {
        const met: string[] = [];
        eachPair(ground(boxes, GIRTH), reach, (a, b, shift) => {
          met.push(`${boxes.indexOf(a)} ${boxes.indexOf(b)}`);
          expect(b.left + shift).toBeLessThanOrEqual(a.right + reach);
          expect(a.left).toBeLessThanOrEqual(b.right + shift + reach);
        });
        const all = boxes.flatMap((a, i) =>
          boxes.slice(i + 1).flatMap((b, k) => (near(a, b, reach) ? [`${i} ${i + 1 + k}`] : [])),
        );
        expect(met.sort()).toEqual(all.sort());
      }),
      { numRuns: 200 },
    );
  });

  test('work grows with the neighbours, not with all pairs: 10, 100, 1000 holes', () => {
    const meetings = [10, 100, 1000].map((n) => {
      let count = 0;
      const pitch = GIRTH / n;
      const row = Array.from(
        { length: n },
        (_, i): Boxed => ({ left: i * pitch, right: (i + 1.5) * pitch, down: 0, up: 1 }),
      );
      eachPair(ground(row, GIRTH), 0, () => count++);
      return count;
    });
    expect(meetings).toEqual([10, 100, 1000]);
  });
});

describe('outlines against a second opinion', () => {
  const SCALE = 1000;
  const toPath = (o: Outline) => o.points.map((p) => ({ x: Math.round(p.x * SCALE), y: Math.round(p.y * SCALE) }));
  const sharedArea = (a: Outline, b: Outline): number =>
    Math.abs(areaPaths(intersect([toPath(a)], [toPath(b)], FillRule.NonZero))) / SCALE ** 2;

  const side = fc.double({ min: 3, max: 40, noNaN: true });
  const foot = fc
    .record({
      left: side,
      right: side,
      up: side,
      down: side,
      corner: fc.double({ min: 0, max: 3, noNaN: true }),
      shape: fc.constantFrom('rectangle' as const, 'ellipse' as const),
      gasket: fc.constant(0),
    })
    .map((f): Foot => f);

  test('overlap agrees with the area of the intersection', () => {
    fc.assert(
      fc.property(
        foot,
        foot,
        fc.double({ min: -90, max: 90, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        (f, g, dx, dy) => {
          const a = footOutline(f, 160);
          const b = moved(footOutline(g, 160), dx, dy);
          const area = sharedArea(a, b);
          // Grid of a thousandth of a millimetre: slivers thinner than that are neither.
          if (area > 0.1) expect(overlaps(a, b)).toBe(true);
          if (area === 0 && gapBetween(a, b) > 2 / SCALE) expect(overlaps(a, b)).toBe(false);
          expect(overlaps(b, a)).toBe(overlaps(a, b));
        },
      ),
      { numRuns: 300 },
    );
  });

  test('on a coarse grid, where sides lie on sides and outlines coincide', () => {
    const int = (min: number, max: number) => fc.integer({ min, max });
    /** An L, or with nothing cut out of it a box. */
    const angle = fc
      .record({ x: int(0, 3), y: int(0, 3), w: int(2, 4), h: int(2, 4), cut: int(0, 1), up: int(0, 1) })
      .map(({ x, y, w, h, cut, up }) =>
        fromPoints([
          { x, y },
          { x: x + w, y },
          { x: x + w, y: y + h - (cut === 0 ? 0 : 1 + up * (h - 2)) },
          ...(cut === 0
            ? []
            : [
                { x: x + 1, y: y + h - 1 - up * (h - 2) },
                { x: x + 1, y: y + h },
              ]),
          { x, y: y + h },
        ]),
      );
    fc.assert(
      fc.property(angle, angle, fc.boolean(), (a, other, twin) => {
        const b = twin ? a : other;
        expect(overlaps(a, b)).toBe(sharedArea(a, b) > 0);
      }),
      { numRuns: 200 },
    );
  });
});

const stopNames = (raw: unknown): string[] =>
  factsOf(raw)
    .filter((f) => f.level === 'stop')
    .map((f) => f.id)
    .sort();

interface Mistake {
  readonly slip: string;
  readonly base: string;
  readonly set: Record<string, unknown>;
  readonly refused?: string;
}
const mistakes = (readCase('mistakes/table') as readonly Mistake[]).filter((m) => m.refused === undefined);

describe('what must not matter', () => {
  test('the order of the fittings', () => {
    for (const m of mistakes.filter((_, i) => i % 3 === 0)) {
      const raw = changed(sound(m.base), m.set);
      const turned = { ...raw, fittings: [...((raw['fittings'] as Raw[] | undefined) ?? [])].reverse() };
      expect(stopNames(turned), m.slip).toEqual(stopNames(raw));
    }
  });

  test('turning lugs, fittings, joints and old holes together, on drums without a strainer', () => {
    for (const m of mistakes.filter((x) => x.base === 'rack-tom-12x8' || x.base === 'timbale-14x6')) {
      const raw = changed(sound(m.base), m.set);
      expect(stopNames(turnedBy(raw, 47)), m.slip).toEqual(stopNames(raw));
    }
  });

  function turnedBy(raw: Raw, by: number): Raw {
    const jig = jigOf(raw);
    const lugs = raw['lugs'] as Raw;
    const fittings = jig.fittings.map((f, i) => ({ ...(raw['fittings'] as Raw[])[i], at: f.at.map((a) => a + by) }));
    const first = (jig.rows[0]?.first ?? 0) + by;
    return { ...raw, lugs: { ...lugs, first }, ...(fittings.length === 0 ? {} : { fittings }) };
  }

  test('the same input gives the same facts', () => {
    for (const b of soundBuilds)
      expect(JSON.stringify(factsOf(b.raw))).toBe(JSON.stringify(factsOf(structuredClone(b.raw))));
  });
});

describe('whatever a file says', () => {
  const bases = soundNames().map(sound);
  const leavesOf = (node: unknown, path: readonly string[] = []): string[] =>
    typeof node === 'object' && node !== null
      ? Object.entries(node).flatMap(([k, v]) => leavesOf(v, [...path, k]))
      : [path.join('.')];
  const stretched = (value: unknown, by: number): unknown => {
    if (typeof value === 'number') return value * by;
    const m = typeof value === 'string' ? /^(-?[\d.]+) (mm|in|deg)$/.exec(value) : null;
    return m ? `${Number(m[1]) * by} ${m[2]}` : value;
  };
  test('checks do not throw, and give finite figures', () => {
    const slip = fc.record({
      at: fc.nat(),
      by: fc.constantFrom(0.1, 0.5, 0.8, 1.3, 2, 10, 25.4, -1),
      gone: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.nat(bases.length - 1), fc.array(slip, { minLength: 1, maxLength: 3 }), (which, slips) => {
        const raw = slips.reduce((r: Raw, s) => {
          const leaves = leavesOf(r);
          const path = leaves[s.at % leaves.length] as string;
          return changed(r, { [path]: s.gone && !/\.\d+$/.test(path) ? null : stretched(valueAt(r, path), s.by) });
        }, bases[which] as Raw);
        const resolved = resolveJig(raw);
        if (!resolved.ok) return;
        for (const f of check(resolved.jig, layOut(resolved.jig))) {
          expect(f.measured === null || Number.isFinite(f.measured), `${f.id} ${f.measured}`).toBe(true);
          expect(f.limit === null || Number.isFinite(f.limit), `${f.id} ${f.limit}`).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
  });
});

describe('sentences', () => {
  const sources = (dir: string): string => {
    const folder = fileURLToPath(new URL(`../../src/${dir}/`, import.meta.url));
    return readdirSync(folder)
      .map((f) => readFileSync(folder + f, 'utf8'))
      .join('\n');
  };
  test('every finding of every case has a sentence without holes in it', () => {
    const raws = [
      ...mistakes.map((m) => changed(sound(m.base), m.set)),
      ...soundNames().map(sound),
      ...soundBuilds.map((b) => b.raw),
    ];
    for (const raw of raws)
      for (const f of sayAll(factsOf(raw), fitSayings)) {
        expect(f.text.length).toBeGreaterThan(10);
        expect(`${f.text} ${f.try}`).not.toMatch(/\?|NaN|undefined|Infinity/);
        expect(f.source).not.toBe('');
        if (f.level !== 'note') expect(f.try).not.toBe('');
      }
  });
  test('every sentence belongs to a finding that a check can raise', () => {
    const code = sources('fit');
    for (const id of Object.keys(fitSayings)) {
      const made = code.includes(`'${id}'`) || /^(hole|foot)-(in-bed|over-rim)$/.test(id);
      expect(made, id).toBe(true);
    }
  });
});

describe('the best turn of the whole layout', () => {
  const staves = (n: number, off: number): Raw => ({
    jig: 1,
    name: 'Turn',
    shell: { diameter: 327.4, depth: 150, wall: 8, joints: Array.from({ length: n }, (_, i) => off + (360 * i) / n) },
    lugs: { count: 8, first: 0, rows: [{ edge: 'top', distance: 40 }], holes: { layout: 'single', drill: 6 } },
  });
  test('sixteen staves with joints under the lugs: half a stave away, 32.1 mm round less 3 mm of hole, either way', () => {
    // 360 / 16 = 22.5 deg between joints; the lugs all meet the same joints, so half of that is the best turn.
    const jig = jigOf(staves(16, 0));
    const turn = bestTurn(jig, layOut(jig));
    expect(Math.abs(turn?.by ?? 0)).toBeCloseTo(11.25, 6);
    expect(turn?.clearance).toBeCloseTo((163.7 * 11.25 * Math.PI) / 180 - 163.7 * Math.asin(3 / 163.7), 6);
  });
  test('no turn clears a joint every two degrees', () => {
    const jig = jigOf(staves(180, 0));
    expect(bestTurn(jig, layOut(jig))).toBeUndefined();
  });
  test('agrees with trying every hundredth of a degree', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 14 }), fc.double({ min: 0, max: 40, noNaN: true }), (n, off) => {
        const jig = jigOf(staves(n, off));
        const layout = layOut(jig);
        const turn = bestTurn(jig, layout);
        const half = 163.7 * Math.asin(3 / 163.7);
        const clear = (by: number) =>
          Math.min(
            ...layout.holes.flatMap((h) =>
              jig.shell.joints.map((j) => {
                const d = Math.abs(((h.angle + by - j + 540) % 360) - 180);
                return (163.7 * d * Math.PI) / 180 - half;
              }),
            ),
          );
        let best = -Infinity;
        // Whole steps, not added ones: thousands of additions drift by more than `noise`.
        for (let i = 0; i < 7200; i++) best = Math.max(best, clear(i / 20));
        if (best > 0.2) expect(turn?.clearance ?? -1).toBeGreaterThanOrEqual(best - 1e-8);
        if (turn) expect(clear(turn.by)).toBeCloseTo(turn.clearance, 6);
      }),
      { numRuns: 12 },
    );
  });
});
