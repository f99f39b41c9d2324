import { describe, expect, test } from 'vitest';
import { planCollar } from '../../src/collar/collar.ts';
import { isInside } from '../../src/drawing/inside.ts';
import { cutLines } from '../../src/drawing/kerf.ts';
import { tiling } from '../../src/drawing/room.ts';
import { nest } from '../../src/nest/nest.ts';
import { planWrap } from '../../src/wrap/wrap.ts';
import { cutNotes, pageFrame } from '../../src/write/pdf-frame.ts';
import { demo, planned } from '../helpers/jigs.ts';
import { overprinted, reads } from '../helpers/words.ts';

const OPTIONS = { digest: 'feedbeef0000' };

const raw = (shell: object, more: object = {}, count = 8) => ({
  jig: 1,
  name: 'Any drum',
  shell: { wall: '6 mm', ...shell },
  lugs: {
    count,
    rows: [
      { edge: 'top', distance: '36 mm' },
      { edge: 'bottom', distance: '36 mm' },
    ],
    holes: { layout: 'upright', spacing: '25.4 mm', drill: '6 mm' },
    foot: { width: '18 mm', height: '46 mm' },
  },
  ...more,
});

const wrapOf = (file: unknown) => {
  const { jig, layout } = planned(file);
  const { value, facts } = planWrap(jig, layout, OPTIONS);
  return { jig, layout, wrap: value, facts };
};

const vent = (at: object | number) => ({
  name: 'vent',
  role: 'vent',
  at,
  edge: 'middle',
  distance: 0,
  holes: { layout: 'single', drill: '11 mm' },
});

describe('words on the template', () => {
  const bass = planned(demo('jigs/kettle-row-bass.yaml'));
  const { value: wide } = planWrap(bass.jig, bass.layout, OPTIONS);

  test('cross no line, not even the slanting side of a foot', () => {
    expect(overprinted(wide.whole.shapes)).toEqual([]);
    expect(overprinted(wide.paper.shapes)).toEqual([]);
  });

  test('number the pieces and the tiles, never the template in one piece', () => {
    const n = wide.panels.length;
    expect(n).toBeGreaterThan(1);
    for (const [i, p] of wide.panels.entries()) expect(reads(p.marks, `piece ${i + 1} of ${n}`, 3), p.id).toBe(true);
    expect(reads(wide.whole.shapes, `piece 1 of ${n}`, 3)).toBe(false);
    expect(reads(wide.whole.shapes, 'wrap  plan feedbeef0000', 3)).toBe(true);
    expect(reads(wide.paper.shapes, 'tile 1 of 21', 3)).toBe(true);
  });

  test('name a row and its edge on the pieces it stands on, and on no other', () => {
    const { wrap } = wrapOf(raw({ diameter: '400 mm', depth: '600 mm' }, { wrap: { sheet: 'laser-600x400' } }));
    for (const p of wrap.pieces) {
      const own = wrap.panels.find((q) => q.id === p.part);
      expect(reads(own?.marks ?? [], 'row top: hold to top edge, 36 mm', 3)).toBe(p.high > 564);
      expect(reads(own?.marks ?? [], 'row bottom: hold to bottom edge, 36 mm', 3)).toBe(p.low < 36);
      // Where the seam is looked for the strainer line is on one piece of every band, and named on each.
      const isOnIt = own?.marks.some((m) => m.from === 'strainer line');
      expect(reads(own?.marks ?? [], 'STRAINER LINE 0°', 3), p.part).toBe(isOnIt);
    }
  });

  test('say what a snare bed and an old hole are', () => {
    const holes = [{ at: 100, edge: 'middle', distance: 0, diameter: '8 mm' }];
    const file = raw({ diameter: '355 mm', depth: '165 mm', holes }, { beds: { width: '90 mm', depth: '2 mm' } }, 10);
    const { shapes } = wrapOf(file).wrap.whole;
    expect(reads(shapes, 'snare bed', 3)).toBe(true);
    expect(reads(shapes, 'old hole', 3)).toBe(true);
  });

  test('stay of a size to read, whatever a cutter takes', () => {
    const { jig, layout } = planned(raw({ diameter: '355 mm', depth: '165 mm' }, {}, 10));
    const sheet = { ...jig.wrap.sheet, width: 1200, height: 800, kerf: 3.175 };
    const { value, facts } = planWrap({ ...jig, wrap: { ...jig.wrap, sheet } }, layout, OPTIONS);
    expect(reads(value.whole.shapes, 'lug-top-7', 6)).toBe(true);
    expect(facts.find((f) => f.id === 'letters-need-a-point')).toMatchObject({ measured: 3.175, limit: 0.5 });
    expect(facts.find((f) => f.id === 'wrap-words-left-out')?.measured ?? 0).toBeLessThan(8);
  });
});

describe('the closing mark', () => {
  test.each([
    [203, 140, 5],
    [203, 140, 12],
    [254, 406, 8],
    [559, 140, 5],
    [610, 406, 12],
  ])('%s x %s mm with %s lugs has one, on card and on paper', (diameter, depth, count) => {
    const shell = { diameter: `${diameter} mm`, depth: `${depth} mm` };
    const { wrap, facts } = wrapOf(raw(shell, { fittings: [vent({ between: [2, 3] })] }, count));
    const lines = (shapes: readonly { readonly from: string }[]) =>
      shapes.filter((s) => s.from === 'closing mark').length;
    expect(lines(wrap.whole.shapes)).toBe(8);
    expect(lines(wrap.paper.shapes)).toBe(8);
    expect(facts.map((f) => f.id)).not.toContain('closing-mark-left-out');
  });

  test('is missed aloud where the seam asked for leaves it no room', () => {
    const { facts } = wrapOf(raw({ diameter: '355 mm', depth: '165 mm' }, { wrap: { 'seam-at': '357.5 deg' } }));
    expect(facts.find((f) => f.id === 'closing-mark-left-out')).toMatchObject({ level: 'note' });
  });
});

describe('cards', () => {
  test('letter the holes they speak of, and tell a lug by its rim', () => {
    const { wrap } = wrapOf(raw({ diameter: '355 mm', depth: '165 mm' }, { fittings: [vent(90)] }));
    const lug = wrap.cards.find((c) => c.name.includes('lug'));
    expect(reads(lug?.marks ?? [], 'a', 2.5) && reads(lug?.marks ?? [], 'b', 2.5)).toBe(true);
    expect(reads(lug?.marks ?? [], '↑ rim', 3)).toBe(true);
    expect(reads(wrap.cards.find((c) => c.name.includes('vent'))?.marks ?? [], '↑ top', 3)).toBe(true);
  });

  test('fold a long name', () => {
    const file = {
      ...raw({ diameter: '355 mm', depth: '165 mm' }),
      name: `Very ${'long '.repeat(40)}${'x'.repeat(90)}`,
    };
    for (const c of wrapOf(file).wrap.cards) {
      const xs = c.outer.kind === 'path' ? c.outer.segs.map((s) => s.to.x) : [];
      expect(Math.max(...xs) - Math.min(...xs)).toBeLessThan(150);
    }
  });
});

describe('printed pages', () => {
  const page = (width: number, height: number) => {
    const paper = { name: 'page', width, height, margin: 10, overlap: 8 };
    const tiles = tiling(paper, 1000, 150);
    if (tiles === undefined) throw new Error('no tile');
    return pageFrame({
      title: 'Any drum',
      tiling: tiles,
      paper,
      column: 1,
      row: 0,
      page: 2,
      pages: 9,
      scaleX: 1,
      scaleY: 1,
    });
  };

  test('say their number and how to print them, however small', () => {
    expect(reads(page(148, 210), 'page 2 of 9, tile 2: print at 100 %, check both rulers; damp paper grows', 2.2)).toBe(
      true,
    );
    expect(
      reads(page(420, 297), 'Damp paper grows: mark in a dry hour and check the closing mark on the shell.', 2.2),
    ).toBe(true);
  });

  test('say at every joint what to cut and what to glue it on', () => {
    const shown = { min: { x: 100, y: 50 }, max: { x: 300, y: 200 } };
    const notes = cutNotes(shown, 5, 5);
    expect(reads(notes, 'cut off along the line, glue on the tile to the left', 2.2)).toBe(true);
    expect(reads(notes, 'cut off along the line, glue on the tile below', 2.2)).toBe(true);
    expect(cutNotes(shown, 0, 0)).toEqual([]);
  });
});

describe('words on a collar', () => {
  const parts = (file: unknown) => {
    const { jig, layout } = planned(file);
    return { jig, parts: planCollar(jig, layout, OPTIONS).value.parts };
  };
  const bushing = { inside: '6 mm', outside: '10 mm', length: '20 mm' };

  test('cross neither cord hole nor edge of a small sector', () => {
    const small = parts(
      raw(
        { diameter: '203 mm', depth: '165 mm' },
        { fittings: [vent({ between: [2, 3] })], collar: { thickness: '5.8 mm', build: 'sector', bushing } },
      ),
    );
    for (const p of small.parts) expect(overprinted([p.outer, ...p.inner, ...p.marks]), p.id).toEqual([]);
  });

  test('cross no other words, at the strainer line least of all', () => {
    const holes = { layout: 'upright', spacing: '28 mm', drill: '5 mm' };
    const strainer = { name: 'strainer', role: 'other', at: 0, edge: 'bottom', distance: '70 mm', holes };
    const more = { fittings: [strainer], collar: { thickness: '5.8 mm', sheet: 'laser-900x600', bushing } };
    const rings = parts(raw({ diameter: '327.4 mm', depth: '152 mm' }, more)).parts.filter((p) =>
      p.id.includes('ring'),
    );
    expect(rings.length).toBeGreaterThan(1);
    for (const p of rings) {
      const at = p.marks.findIndex((m) => m.from === 'line');
      expect(at, p.id).toBeGreaterThanOrEqual(0);
      // The line and its 0, against all other words.
      const zero = p.marks.slice(at, at + 2);
      const others = p.marks.filter((m) => !zero.includes(m)).map((m) => ({ ...m, layer: 'SCORE' as const }));
      expect(overprinted([...zero, ...others]), p.id).toEqual([]);
    }
  });

  test('stand on their piece where the strainer line is its end', () => {
    const { jig, layout } = planned(demo('jigs/kettle-row-bass.yaml'));
    const plan = planCollar(jig, layout, OPTIONS).value;
    expect(plan.parts.length).toBeGreaterThan(20);
    for (const p of plan.parts)
      for (const m of p.marks)
        if (m.kind === 'path') expect(isInside(p.outer, m.start), `${p.id}: ${m.from}`).toBe(true);
  });
});

describe('a collar cut by a router that leaves no strip under 3 mm', () => {
  test('makes one stepped slot of two that would stand nearer', () => {
    const holes = { layout: 'upright', spacing: '28 mm', drill: '5 mm' };
    const strap = { name: 'strap', role: 'other', at: 0, edge: 'bottom', distance: '70 mm', holes };
    const bushing = { inside: '6 mm', outside: '10 mm', length: '20 mm' };
    const more = { fittings: [strap], collar: { thickness: '5.8 mm', cut: 'router', bushing } };
    const { jig, layout } = planned(raw({ diameter: '355 mm', depth: '165 mm' }, more, 10));
    const sheet = { ...jig.collar.sheet, width: 1200, height: 800, bridge: 3, kerf: 3.175 };
    const { parts } = planCollar({ ...jig, collar: { ...jig.collar, sheet } }, layout, OPTIONS).value;
    expect(parts.length).toBeGreaterThan(20);
    expect(parts.flatMap((p) => cutLines(p, 3.175, 3).facts)).toEqual([]);
  });
});

describe('a kerf wider than features', () => {
  test('is one stop that names them all, and no part without its holes', () => {
    const { jig, layout } = planned(raw({ diameter: '355 mm', depth: '165 mm' }));
    const { panels } = planWrap(jig, layout, OPTIONS).value;
    const { value, facts } = nest(panels, jig.wrap.sheet, { kerf: 7, title: 'x', digest: 'x' });
    expect(value).toEqual([]);
    expect(facts.map((f) => f.id)).toEqual(['feature-under-kerf']);
    expect(facts[0]).toMatchObject({ level: 'stop', measured: 6, limit: 7, facts: { count: 32 } });
    for (const h of layout.holes) expect(String(facts[0]?.facts?.['features'])).toContain(h.id);
  });
});
