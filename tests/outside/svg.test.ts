import { Resvg } from '@resvg/resvg-js';
import { svgPathBbox } from 'svg-path-bbox';
import { parseSVG } from 'svg-path-parser';
import { describe, expect, test } from 'vitest';
import { bounds, circle, roundedRectangle, segment } from '../../src/drawing/paths.ts';
import type { Drawing, Shape } from '../../src/model/drawing.ts';
import { written } from '../../src/write/number.ts';
import { toSvg } from '../../src/write/svg.ts';
import { arcPath, seeded } from '../helpers/flat.ts';

const sheet = (shapes: readonly Shape[], top?: number): Drawing => ({
  title: 'A & <B> "13 x 6"',
  min: { x: -20, y: -5 },
  max: { x: 180, y: 105 },
  shapes,
  ...(top === undefined ? {} : { top }),
});

const attributes = (svg: string, name: string): string[] =>
  [...svg.matchAll(new RegExp(` ${name}="([^"]*)"`, 'g'))].map((m) => m[1]!);

describe('SVG', () => {
  test('opens at its real size: mm, and a viewBox of the same numbers', () => {
    const svg = toSvg(sheet([segment('SCORE', 's', { x: 0, y: 0 }, { x: 1, y: 1 })], 100));
    expect(svg).toContain('width="200mm" height="110mm" viewBox="-20 -5 200 110"');
    // CSS 2.1: 96 px to the inch; at 254 px to the inch 1 mm is 10 px.
    const picture = new Resvg(svg, { dpi: 254 });
    expect([picture.width, picture.height]).toEqual([2000, 1100]);
    expect(svg).not.toMatch(/transform|<text|<style|NaN|e-\d/);
  });

  test('a hole is a circle with its id, counted down from the top edge', () => {
    const svg = toSvg(sheet([circle('CUT-INNER', 'hole', { x: 30, y: 36 }, 3, 'lug-top-1-a')], 100));
    expect(svg).toContain('<circle id="lug-top-1-a" cx="30" cy="64" r="3"/>');
  });

  test('path data parse strictly and enclose what was drawn', () => {
    const shapes = [
      roundedRectangle('CUT-OUTER', 'edge', { x: 0, y: 0 }, { x: 100, y: 60 }, 10),
      arcPath('SCORE', 'long', { x: 60, y: 40 }, 25, 10, 300),
      arcPath('SCORE', 'back', { x: 60, y: 40 }, 20, 300, 10),
      arcPath('SCORE', 'nearly round', { x: 60, y: 40 }, 30, 0, 359.9),
      arcPath('SCORE', 'half', { x: 60.00003, y: 40.00004 }, 30.00001, 17, 197),
    ];
    for (const shape of shapes) {
      const d = attributes(toSvg(sheet([shape], 100)), 'd')[0]!;
      expect(parseSVG(d).length).toBeGreaterThan(1);
      const [x0, y0, x1, y1] = svgPathBbox(d);
      const { min, max } = bounds([shape]);
      // The reader turns arcs into cubics first, which run a few micrometres off.
      expect([x0, y0, x1, y1]).toEqual([min.x, 100 - max.y, max.x, 100 - min.y].map((v) => expect.closeTo(v, 3)));
    }
  });

  test('drawn by a general renderer, a line of 100 mm is 1000 px at 254 px to the inch', () => {
    const svg = toSvg(sheet([segment('REFERENCE', 'check', { x: 10, y: 50 }, { x: 110, y: 50 })], 100));
    const picture = new Resvg(svg, { dpi: 254, background: 'white' }).render();
    // The line is 1 px wide, centred at 50 + 5 mm from the upper edge.
    const pixels = picture.pixels;
    const row = Array.from(
      { length: 2000 },
      (_, x) => 255 - pixels[4 * (549 * 2000 + x)]! + 255 - pixels[4 * (550 * 2000 + x)]!,
    );
    const covered = row.reduce((a, b) => a + b, 0) / Math.max(...row);
    expect(covered).toBeCloseTo(1000, 0);
    expect(row.findIndex((v) => v > 0)).toBe(300);
  });
});

test('numbers are the shortest decimals of the rounded value, as the language writes them', () => {
  const random = seeded(3);
  const values = Array.from({ length: 2000 }, () => (random() - 0.5) * 10 ** (7 * random() - 2));
  for (const digits of [0, 3, 4, 6]) {
    for (const v of [...values, 0, -0, 1e-7, -1e-7, 0.5, 99_999.999999, 12.000001, 7.1, 100, -250.05]) {
      const rounded = Math.round(v * 10 ** digits) / 10 ** digits;
      expect(written(v, digits)).toBe(
        rounded
          .toFixed(digits)
          .replace(/(\.\d*?)0+$/, '$1')
          .replace(/\.$/, '')
          .replace(/^-0$/, '0'),
      );
    }
  }
  for (const v of [Number.NaN, Number.POSITIVE_INFINITY, 1e6]) expect(() => written(v, 4)).toThrow(RangeError);
});
