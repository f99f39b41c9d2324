import { describe, expect, test } from 'vitest';
import { ACCENTS, STROKES } from '../../src/data/strokes.ts';
import { letters, lettersWidth, unknownCharacters } from '../../src/drawing/lettering.ts';
import { bounds, pathLength } from '../../src/drawing/paths.ts';
import { spansOf } from '../../src/drawing/spans.ts';

const every = [...Object.keys(STROKES), ...[...Object.keys(ACCENTS)].flatMap((a) => [`e${a}`, `E${a}`, `i${a}`])];

describe('the stroke alphabet', () => {
  test.each(every)('%s is drawn within its height, no stroke empty or doubled', (char) => {
    const paths = letters(char, { x: 0, y: 0 }, 12);
    expect(unknownCharacters(char)).toEqual([]);
    expect(paths.length).toBeGreaterThan(0);
    const { min, max } = bounds(paths);
    expect(min.y).toBeGreaterThanOrEqual(-4);
    expect(max.y).toBeLessThanOrEqual(17);
    const lines = paths.flatMap(spansOf);
    for (const [i, p] of lines.entries()) {
      const length = Math.hypot(p.b.x - p.a.x, p.b.y - p.a.y);
      expect(length).toBeGreaterThan(0.5);
      const [ux, uy] = [(p.b.x - p.a.x) / length, (p.b.y - p.a.y) / length];
      for (const q of lines.slice(i + 1)) {
        const off = (v: { x: number; y: number }) => Math.abs((v.x - p.a.x) * uy - (v.y - p.a.y) * ux);
        if (off(q.a) > 0.01 || off(q.b) > 0.01) continue;
        const along = (v: { x: number; y: number }) => (v.x - p.a.x) * ux + (v.y - p.a.y) * uy;
        const shared =
          Math.min(length, Math.max(along(q.a), along(q.b))) - Math.max(0, Math.min(along(q.a), along(q.b)));
        expect(shared).toBeLessThan(0.01);
      }
    }
  });

  test('no two characters look alike', () => {
    const drawn = Object.keys(STROKES).map((c) => JSON.stringify(letters(c, { x: 0, y: 0 }, 12)));
    expect(new Set(drawn).size).toBe(drawn.length);
  });

  test('text scales, turns and aligns without changing its length', () => {
    const length = (o: Parameters<typeof letters>[3], h = 5): number =>
      letters('Ø6 lug-top-3', { x: 40, y: 9 }, h, o).reduce((sum, p) => sum + pathLength(p), 0);
    expect(length({ turn: 37 })).toBeCloseTo(length({}), 9);
    expect(length({}, 10)).toBeCloseTo(2 * length({}), 9);
    const box = bounds(letters('HOH', { x: 10, y: 0 }, 6, { align: 'center' }));
    expect((box.min.x + box.max.x) / 2).toBeCloseTo(10, 9);
    expect(box.max.x - box.min.x).toBeCloseTo(lettersWidth('HOH', 6), 9);
    expect(box.max.y - box.min.y).toBeCloseTo(6, 9);
  });

  test('what has no strokes is drawn as a box and named, once', () => {
    expect(unknownCharacters('日本 tom 日')).toEqual(['日', '本']);
    expect(letters('日', { x: 0, y: 0 }, 3)).toHaveLength(2);
    expect(letters('   ', { x: 0, y: 0 }, 3)).toEqual([]);
  });

  test.each([
    'Œuvre, cœur, Łódź, Đorđe, Ðor, Þor, ẞ, ½ ⅛ ⅝, №, ™, „so“ «so» ‹so›',
    'Ștefan țară, Ơ ơ Ư, Ạ ẹ ọ, ả Ể, ¿Qué? ¡Sí! 5 € 5 £',
    'no-break\u00a0thin\u2009ideographic\u3000tab\tend',
    'joined\u200d hidden\u200b soft\u00ad turned\u202e marked\ufeff',
  ])('%j can be written', (text) => expect(unknownCharacters(text)).toEqual([]));

  test('what cannot be written is told apart from what cannot be seen', () => {
    expect(unknownCharacters('x\u0000y\u001bz')).toEqual(['\u0000', '\u001b']);
    expect(unknownCharacters('🥁 Барабан')).toEqual(['🥁', 'Б', 'а', 'р', 'б', 'н']);
    expect(lettersWidth('a\u200db', 12)).toBe(lettersWidth('ab', 12));
  });
});
