import { fc, test } from '@fast-check/vitest';
import { areaPathsD, FillRule, intersectD } from 'clipper2-ts';
import { describe, expect } from 'vitest';
import { contour } from '../../src/drawing/contour.ts';
import { cutLines } from '../../src/drawing/kerf.ts';
import { bounds } from '../../src/drawing/paths.ts';
import { roll } from '../../src/geometry/frames.ts';
import type { Shape } from '../../src/model/drawing.ts';
import { nest } from '../../src/nest/nest.ts';
import { planWrap } from '../../src/wrap/wrap.ts';
import { polygonOf } from '../helpers/flat.ts';
import { planned } from '../helpers/jigs.ts';

/** Any drum a builder may bring: from a 6 inch tom to a 24 inch bass drum, on any bed, marked any way. */
const drums = fc
  .record({
    diameter: fc.double({ min: 150, max: 610, noNaN: true }),
    depth: fc.integer({ min: 70, max: 500 }),
    count: fc.integer({ min: 3, max: 12 }),
    drill: fc.constantFrom(3, 5, 6, 6.5, 11),
    spacing: fc.constantFrom(0, 22, 25.4, 38),
    vent: fc.double({ min: 0, max: 359, noNaN: true }),
    marks: fc.constantFrom('guide', 'punch', 'cross'),
    seam: fc.constantFrom('butt', 'overlap'),
    sheet: fc.constantFrom('laser-600x400', 'laser-900x600'),
    thickness: fc.constantFrom(0.5, 1, 1.4),
  })
  .map((d) => ({
    jig: 1,
    name: 'Any drum',
    shell: { diameter: `${d.diameter} mm`, depth: `${d.depth} mm`, wall: '6 mm' },
    lugs: {
      count: d.count,
      rows: [
        { edge: 'top', distance: '28 mm' },
        { edge: 'bottom', distance: '28 mm' },
      ],
      holes:
        d.spacing === 0
          ? { layout: 'single', drill: d.drill }
          : { layout: 'upright', spacing: d.spacing, drill: d.drill },
      foot: { width: '16 mm', height: '46 mm' },
    },
    fittings: [
      { name: 'vent', role: 'vent', at: d.vent, edge: 'middle', distance: 0, holes: { layout: 'single', drill: 11 } },
    ],
    wrap: { material: 'card-1', thickness: d.thickness, sheet: d.sheet, marks: d.marks, seam: d.seam },
  }));

const planRaw = (raw: unknown) => {
  const { jig, layout } = planned(raw);
  const { value, facts } = planWrap(jig, layout, { digest: 'feedbeef0000' });
  return { jig, layout, value, facts };
};

/** The laws draw the same drums by the same seed: each is planned once. */
const plans = new Map<string, ReturnType<typeof planRaw>>();
const make = (raw: unknown): ReturnType<typeof planRaw> => {
  const key = JSON.stringify(raw);
  const plan = plans.get(key) ?? planRaw(raw);
  plans.set(key, plan);
  return plan;
};

/** Pairs of straight pieces that run along one another for more than 0.01 mm, found by brute force; letters among themselves are left out. */
function doubled(shapes: readonly Shape[]): string[] {
  const lines = shapes
    .flatMap((s) =>
      contour(s).flatMap((p) => (p.kind === 'line' ? [{ a: p.a, b: p.b, from: s.from, layer: s.layer }] : [])),
    )
    .map((l) => ({ ...l, length: Math.hypot(l.b.x - l.a.x, l.b.y - l.a.y) }));
  const out: string[] = [];
  for (let i = 0; i < lines.length; i++) {
    const p = lines[i]!;
    const [ux, uy] = [(p.b.x - p.a.x) / p.length, (p.b.y - p.a.y) / p.length];
    if (p.from === 'lettering') continue;
    for (let k = 0; k < lines.length; k++) {
      const q = lines[k]!;
      if (k <= i && q.from !== 'lettering') continue;
      if (Math.abs((q.a.x - p.a.x) * uy - (q.a.y - p.a.y) * ux) > 0.002) continue;
      if (Math.abs((q.b.x - p.a.x) * uy - (q.b.y - p.a.y) * ux) > 0.002) continue;
      const s = (q.a.x - p.a.x) * ux + (q.a.y - p.a.y) * uy;
      const e = (q.b.x - p.a.x) * ux + (q.b.y - p.a.y) * uy;
      if (Math.min(p.length, Math.max(s, e)) - Math.max(0, Math.min(s, e)) > 0.01)
        out.push(`${p.layer} ${p.from} and ${q.layer} ${q.from}`);
    }
  }
  return out;
}

const rounds = { numRuns: 15, seed: 20 };

describe('any drum', () => {
  test.prop([drums], rounds)(
    'wrapped back onto the shell, every mark of every panel lands on its hole to 0.001 mm',
    (raw) => {
      const { layout, value } = make(raw);
      for (const piece of value.pieces) {
        const panel = value.panels.find((p) => p.id === piece.part);
        if (panel === undefined) continue;
        for (const s of [...panel.inner, ...panel.marks]) {
          if (s.kind !== 'circle' || s.id === undefined) continue;
          const hole = layout.holes.find((h) => h.id === s.id)!;
          const back = roll(s.center, value.flatRadius);
          const missed = ((back.angle + piece.from - hole.angle + 540) % 360) - 180;
          expect(Math.abs((missed / 180) * Math.PI * layout.radius), s.id).toBeLessThan(0.001);
          expect(Math.abs(back.height + piece.low - hole.height), s.id).toBeLessThan(0.001);
        }
      }
    },
  );

  test.prop([drums], rounds)('every hole is marked exactly once, on the whole and over all panels', (raw) => {
    const { layout, value } = make(raw);
    const ids = layout.holes.map((h) => h.id).toSorted();
    const marked = (shapes: readonly Shape[]) =>
      shapes.flatMap((s) => (s.kind === 'circle' && s.id ? [s.id] : [])).toSorted();
    expect(marked(value.whole.shapes)).toEqual(ids);
    expect(marked(value.paper.shapes)).toEqual(ids);
    if (value.panels.length > 0) expect(marked(value.panels.flatMap((p) => [...p.inner, ...p.marks]))).toEqual(ids);
  });

  test.prop([drums], rounds)('no joint comes nearer than 3 mm to a hole, or it is said', (raw) => {
    const { value, facts } = make(raw);
    if (facts.some((f) => f.id === 'wrap-seam-on-hole')) return;
    for (const panel of value.panels) {
      const edge = bounds([panel.outer]);
      for (const s of panel.inner) {
        const box = bounds([s]);
        const gap = Math.min(box.min.x - edge.min.x, edge.max.x - box.max.x);
        expect(gap, `${panel.id} ${s.from}`).toBeGreaterThanOrEqual(3 - 1e-6);
      }
    }
  });

  test.prop([drums], { ...rounds, numRuns: 4 })('no line is drawn twice, whole or on any sheet', (raw) => {
    const { jig, value } = make(raw);
    expect(doubled(value.whole.shapes)).toEqual([]);
    expect(doubled(value.paper.shapes)).toEqual([]);
    for (const s of nest(value.panels, jig.wrap.sheet, { kerf: 0.12, title: jig.name, digest: 'x' }).value) {
      expect(doubled(s.drawing.shapes)).toEqual([]);
    }
  });

  test.prop([drums], rounds)(
    'panels put side by side again cover the whole, and none is larger than the sheet takes',
    (raw) => {
      const { jig, layout, value, facts } = make(raw);
      const tab = jig.wrap.seam === 'overlap' ? 12 : 0;
      if (value.panels.length === 0) {
        expect(facts.map((f) => f.id)).toContain('wrap-sheet-too-small');
        return;
      }
      let area = 0;
      for (const p of value.panels) {
        const { min, max } = bounds([p.outer]);
        area += (max.x - min.x - tab) * (max.y - min.y);
        expect(cutLines(p, 0.12).facts).toEqual([]);
      }
      expect(area).toBeCloseTo(value.length * layout.depth, 3);
      const { facts: nested } = nest(value.panels, jig.wrap.sheet, { kerf: 0.12, title: '', digest: '' });
      expect(nested.filter((f) => f.id === 'part-larger-than-sheet')).toEqual([]);
    },
  );

  test.prop([drums], { ...rounds, numRuns: 12 })(
    'nothing overlaps on a sheet (a general polygon library agrees), and all lies on it',
    (raw) => {
      const { jig, value } = make(raw);
      const { value: sheets } = nest(value.panels, jig.wrap.sheet, { kerf: 0.12, title: 'x', digest: 'x' });
      expect(sheets.flatMap((s) => s.parts.map((p) => p.id)).toSorted()).toEqual(
        value.panels.map((p) => p.id).toSorted(),
      );
      for (const { drawing } of sheets) {
        const outers = drawing.shapes.filter((s) => s.layer === 'CUT-OUTER').map((s) => polygonOf(s));
        for (const [i, a] of outers.entries()) {
          for (const b of outers.slice(i + 1)) {
            expect(Math.abs(areaPathsD(intersectD([a], [b], FillRule.NonZero, 6)))).toBe(0);
          }
        }
        const { min, max } = bounds(drawing.shapes);
        expect(min.x >= 0 && min.y >= 0 && max.x <= drawing.max.x && max.y <= drawing.max.y).toBe(true);
      }
    },
  );
});
