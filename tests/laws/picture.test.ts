import { fc, test } from '@fast-check/vitest';
import { describe, expect } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { layOut } from '../../src/layout/layout.ts';
import type { Jig } from '../../src/model/jig.ts';
import type { Layout } from '../../src/model/layout.ts';
import { abovePicture, rings } from '../../src/picture/above.ts';
import { coverPicture } from '../../src/picture/cover.ts';
import { rodCard, tipDepths } from '../../src/picture/rod-card.ts';
import { spread } from '../../src/picture/svg.ts';
import { holeNumbers, unrolledPicture } from '../../src/picture/unrolled.ts';
import { openingAngle } from '../../src/picture/window.ts';

/** Any drum of the kind the page draws: diameter, depth, lugs and where they begin. */
const drum = fc.record({
  diameter: fc.double({ min: 200, max: 620, noNaN: true }),
  depth: fc.double({ min: 90, max: 450, noNaN: true }),
  count: fc.integer({ min: 2, max: 12 }),
  first: fc.double({ min: 0, max: 359, noNaN: true }),
  spacing: fc.double({ min: 12, max: 40, noNaN: true }),
  layout: fc.constantFrom('upright', 'across'),
});
type Drum = typeof drum extends fc.Arbitrary<infer T> ? T : never;

function laid(d: Drum): { jig: Jig; layout: Layout } {
  const result = resolveJig({
    jig: 1,
    name: 'law',
    shell: { diameter: d.diameter, depth: d.depth, wall: 6 },
    lugs: {
      count: d.count,
      first: d.first,
      rows: [{ edge: 'top', distance: 40 }],
      holes: { layout: d.layout, spacing: d.spacing, drill: 6 },
      foot: { width: d.layout === 'across' ? d.spacing + 16 : 18, height: 44 },
    },
  });
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return { jig: result.jig, layout: layOut(result.jig) };
}

const RUNS = { numRuns: 40, seed: 8 };

describe('unrolled', () => {
  test.prop([drum], RUNS)(
    'every hole is drawn at u = R theta (whole turns apart) and at depth - height, inside the frame',
    (d) => {
      const { jig, layout } = laid(d);
      const svg = unrolledPicture({ jig, layout, numbers: holeNumbers(layout) });
      const drawn = [
        ...svg.matchAll(/data-hole="([^"]+)"><circle class="drill" cx="([^"]+)" cy="([^"]+)" r="([^"]+)"/g),
      ];
      expect(drawn.map((m) => m[1])).toEqual(layout.holes.map((h) => h.id));
      const [x0 = 0, , width = 0] = /viewBox="([^"]+)"/.exec(svg)![1]!.split(' ').map(Number);
      const girth = 2 * Math.PI * layout.radius;
      for (const [i, hole] of layout.holes.entries()) {
        const [, , cx, cy, r] = drawn[i]!;
        const turns = (Number(cx) - layout.radius * ((hole.angle * Math.PI) / 180)) / girth;
        // Drawn numbers have two decimals.
        expect(Math.abs(turns - Math.round(turns)) * girth).toBeLessThanOrEqual(0.0101);
        expect(Number(cy)).toBeCloseTo(layout.depth - hole.height, 1);
        expect(Number(r)).toBe(hole.drill / 2);
        expect(Number(cx)).toBeGreaterThan(x0);
        expect(Number(cx)).toBeLessThan(x0 + width);
      }
    },
  );

  test.prop([drum], RUNS)('the cut goes through no foot', (d) => {
    const { layout } = laid(d);
    const cut = openingAngle(layout.placed, layout.radius);
    for (const p of layout.placed) {
      const away = ((((cut - p.angle) % 360) + 540) % 360) - 180;
      const half = (Math.asin(Math.max(p.foot!.left, p.foot!.right) / layout.radius) * 180) / Math.PI;
      expect(Math.abs(away)).toBeGreaterThan(half);
    }
  });
});

describe('from above', () => {
  test.prop([drum], RUNS)('each chord is as long as the number beside it says, and they go round once', (d) => {
    const { jig, layout } = laid(d);
    const svg = abovePicture(jig, layout, rings(jig, layout)[0]!);
    const lines = [
      ...svg.matchAll(/class="chord" d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"\/><text[^>]*>([\d.]+)</g),
    ].map((m) => m.slice(1).map(Number) as [number, number, number, number, number]);
    expect(lines).toHaveLength(d.count);
    let area = 0;
    for (const [x1, y1, x2, y2, said] of lines) {
      // Ends have two decimals, the number one.
      expect(Math.abs(Math.hypot(x2 - x1, y2 - y1) - said)).toBeLessThanOrEqual(0.05 + 0.0142);
      area += (x1 * y2 - x2 * y1) / 2;
    }
    // Seen from above angles grow anticlockwise; with y drawn downwards the enclosed area counts negative.
    if (d.count > 2) expect(area).toBeLessThan(0);
  });
});

test.prop(
  [
    fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { maxLength: 12 }),
    fc.double({ min: 0.1, max: 20, noNaN: true }),
  ],
  { numRuns: 200, seed: 8 },
)('spread labels keep their order and their gap, and stay when they already have it', (at, gap) => {
  const out = spread(at, gap);
  const order = at.map((_, i) => i).sort((a, b) => at[a]! - at[b]! || a - b);
  for (let k = 1; k < order.length; k++) {
    expect(out[order[k]!]! - out[order[k - 1]!]!).toBeGreaterThanOrEqual(gap * (1 - 1e-5));
  }
  expect(spread(out, gap * 0.999)).toEqual(out.map((v) => expect.closeTo(v, 6)));
});

describe('rod card', () => {
  /** The worked case: way 33.5; a 45 rod stands at 11.5 and 15.5, a 57 rod at 23.5 and 27.5, with 4 mm of travel. */
  test('tips stand where head to face and travel put them', () => {
    expect(tipDepths({ length: 45, way: 33.5, travel: 4 })).toEqual([11.5, 15.5]);
    expect(tipDepths({ length: 57, way: 33.5, travel: 4 })).toEqual([23.5, 27.5]);
  });

  test('a rod that goes past the end of its thread is drawn into the metal there, by the true length', () => {
    const base = {
      name: 'x',
      way: 33.5,
      washer: 1.5,
      ear: 6,
      catch: 5,
      bottom: 22,
      travel: 4,
      diameter: 5.5,
      fitting: [],
      units: 'mm' as const,
    };
    expect(rodCard({ ...base, length: 45 })).not.toContain('class="bad"');
    const bad = [...rodCard({ ...base, length: 57 }).matchAll(/class="bad"[^>]*height="([\d.]+)"/g)].map((m) =>
      Number(m[1]),
    );
    expect(bad).toEqual([1.5, 5.5]);
  });
});

test.prop([drum], { numRuns: 5, seed: 8 })('the cover is one document with both drawings and its own style', (d) => {
  const { jig, layout } = laid(d);
  const svg = coverPicture(jig, layout);
  expect(svg.match(/<svg /g)).toHaveLength(3);
  expect(svg).toContain('<style>');
  expect(svg).not.toMatch(/NaN|undefined/);
});
