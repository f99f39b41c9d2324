import { createCanvas } from '@napi-rs/canvas';
import { getDocument, type PDFPageProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, test } from 'vitest';
import { findPaper } from '../../src/data/papers.ts';
import { circle, rectangle, segment } from '../../src/drawing/paths.ts';
import { STRIP, tiling } from '../../src/drawing/room.ts';
import type { Drawing } from '../../src/model/drawing.ts';
import { planWrap } from '../../src/wrap/wrap.ts';
import { toPdf } from '../../src/write/pdf.ts';
import { DEMOS, demo, planned } from '../helpers/jigs.ts';

const A4 = findPaper('paper-a4')!;

async function pagesOf(bytes: Uint8Array): Promise<PDFPageProxy[]> {
  const doc = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  return Promise.all(Array.from({ length: doc.numPages }, (_, i) => doc.getPage(i + 1)));
}

/** A page drawn by a general renderer; darkness 0..1 of a pixel. */
async function drawn(
  page: PDFPageProxy,
  dpi: number,
): Promise<{ width: number; height: number; dark: (x: number, y: number) => number }> {
  const viewport = page.getViewport({ scale: dpi / 72 });
  const [width, height] = [Math.ceil(viewport.width), Math.ceil(viewport.height)];
  const canvas = createCanvas(width, height);
  await page.render({ canvas: canvas as never, viewport }).promise;
  const { data } = canvas.getContext('2d').getImageData(0, 0, width, height);
  return { width, height, dark: (x, y) => 1 - data[4 * (y * width + x)]! / 255 };
}

/** Middle of the dark run along a row or column near a place, weighted by darkness. */
function middle(dark: (i: number) => number, near: number, reach: number): number {
  let [sum, moment] = [0, 0];
  for (let i = Math.floor(near - reach); i <= near + reach; i++) {
    sum += dark(i);
    moment += dark(i) * (i + 0.5);
  }
  expect(sum, `ink near ${near}`).toBeGreaterThan(0.2);
  return moment / sum;
}

const sheet = (width: number, height: number, shapes: Drawing['shapes'] = []): Drawing => ({
  title: 'test',
  min: { x: 0, y: 0 },
  max: { x: width, y: height },
  shapes: [rectangle('CUT-OUTER', 'edge', { x: 0, y: 0 }, { x: width, y: height }), ...shapes],
});

describe('a wrap on A4', () => {
  const { jig, layout } = planned(demo(DEMOS[0]!));
  const { paper } = planWrap(jig, layout, { digest: 'abc' }).value;
  let bytes: Uint8Array;
  let pages: PDFPageProxy[];
  beforeAll(async () => {
    bytes = await toPdf(paper, A4, { title: 'wrap' });
    pages = await pagesOf(bytes);
  });

  test('asks for no scaling and single sides, and is laid out on true A4 pages', async () => {
    const doc = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
    const wishes = await doc.getViewerPreferences();
    expect(wishes).toMatchObject({ PrintScaling: 'None', Duplex: 'Simplex' });
    for (const page of pages) {
      const [w, h] = [page.view[2]! - page.view[0]!, page.view[3]! - page.view[1]!].map((v) => (v * 25.4) / 72) as [
        number,
        number,
      ];
      expect([w, h].toSorted((a, b) => a - b)).toEqual([expect.closeTo(210, 3), expect.closeTo(297, 3)]);
      expect(page.rotate).toBe(0);
      expect(page.userUnit).toBe(1);
    }
  });

  test('the tiles cover the whole turn', () => {
    const t = tiling(A4, paper.max.x - paper.min.x, paper.max.y - paper.min.y)!;
    expect(pages).toHaveLength(t.columns * t.rows);
    expect(t.columns * t.tile.width - (t.columns - 1) * A4.overlap).toBeGreaterThanOrEqual(paper.max.x - paper.min.x);
    expect(t.rows * t.tile.height - (t.rows - 1) * A4.overlap).toBeGreaterThanOrEqual(paper.max.y - paper.min.y);
  });

  test('on every page both rulers are 100 mm long, measured on the picture', async () => {
    for (const page of pages) {
      const lengths = await rulers(page);
      expect(lengths.across).toBeCloseTo(100, 1);
      expect(lengths.up).toBeCloseTo(100, 1);
    }
  });

  test('at 600 dots an inch three holes lie where they belong, to half a pixel', async () => {
    const dpi = 600;
    const t = tiling(A4, paper.max.x - paper.min.x, paper.max.y - paper.min.y)!;
    const picture = await drawn(pages[1]!, dpi);
    const startX = paper.min.x + t.tile.width - A4.overlap;
    const px = (mm: number): number => (mm * dpi) / 25.4;
    const holes = paper.shapes.flatMap((s) =>
      s.kind === 'circle' && s.id && s.center.x - 12 > startX && s.center.x + 12 < startX + t.tile.width ? [s] : [],
    );
    expect(holes.length).toBeGreaterThanOrEqual(3);
    for (const h of holes.slice(0, 3)) {
      const x = px(A4.margin + STRIP.left + h.center.x - startX);
      const y = picture.height - px(A4.margin + STRIP.below + h.center.y - paper.min.y);
      const r = px(h.radius);
      // Along a slanting direction there is nothing but the ring: measure it left, right, above and below the crosshair.
      const d = r * Math.SQRT1_2;
      const row = Math.round(y - d);
      const at = Math.sqrt(r * r - (row + 0.5 - y) ** 2);
      const left = middle((i) => picture.dark(i, row), x - at, 6);
      const right = middle((i) => picture.dark(i, row), x + at, 6);
      expect(Math.abs((left + right) / 2 - x)).toBeLessThan(0.5);
      expect(Math.abs((right - left) / 2 - at)).toBeLessThan(0.5);
      const column = Math.round(x - d);
      const up = Math.sqrt(r * r - (column + 0.5 - x) ** 2);
      const above = middle((i) => picture.dark(column, i), y - up, 6);
      const below = middle((i) => picture.dark(column, i), y + up, 6);
      expect(Math.abs((above + below) / 2 - y)).toBeLessThan(0.5);
    }
  });

  test('the same drawing gives the same bytes', async () => {
    expect(Buffer.from(await toPdf(paper, A4, { title: 'wrap' })).equals(Buffer.from(bytes))).toBe(true);
  });
});

/** Lengths of the two rulers in mm, measured on the picture by their end ticks. */
async function rulers(page: PDFPageProxy, x = 1, y = 1): Promise<{ across: number; up: number }> {
  const dpi = 300;
  const picture = await drawn(page, dpi);
  const px = (mm: number): number => (mm * dpi) / 25.4;
  const row = Math.round(picture.height - px(A4.margin + 3 + 1));
  const from = px(A4.margin + STRIP.left);
  const across =
    middle((i) => picture.dark(i, row), from + px(100 * x), 5) - middle((i) => picture.dark(i, row), from, 5);
  const column = Math.round(px(A4.margin + 3 + 1));
  const low = picture.height - px(A4.margin + STRIP.below);
  const up =
    middle((i) => picture.dark(column, i), low, 5) - middle((i) => picture.dark(column, i), low - px(100 * y), 5);
  return { across: (across * 25.4) / dpi, up: (up * 25.4) / dpi };
}

describe('a printer that scales', () => {
  test('its rulers and its drawing are enlarged by what it takes away', async () => {
    // A printer whose 100 mm come out as 99.4 across and 99.8 up.
    const bytes = await toPdf(sheet(150, 100), A4, { title: 't', stretch: { x: 100 / 99.4, y: 100 / 99.8 } });
    const [page] = await pagesOf(bytes);
    const dpi = 300;
    const picture = await drawn(page!, dpi);
    const px = (mm: number): number => (mm * dpi) / 25.4;
    const left = px(A4.margin + STRIP.left);
    const width = (150 * 100) / 99.4;
    const row = Math.round(picture.height - px(A4.margin + STRIP.below + 50));
    const right = middle((i) => picture.dark(i, row), left + px(width), 6);
    expect((right - left) / px(1)).toBeCloseTo(width, 1);
  });

  test('a page that lies the other way goes through it turned, and is corrected so', async () => {
    const stretch = { x: 100 / 98, y: 100 / 101 };
    const [wide, upright] = await pagesOf(
      await toPdf(sheet(250, 100), A4, { title: 't', stretch, more: [sheet(100, 240)] }),
    );
    expect(wide!.view[2]).toBeGreaterThan(wide!.view[3]!);
    expect(upright!.view[2]).toBeLessThan(upright!.view[3]!);
    // What each ruler will measure on paper: the printer takes 2 % of the sheet's long side, gives 1 % of its short one.
    const first = await rulers(wide!, stretch.x, stretch.y);
    expect([first.across * 0.98, first.up * 1.01]).toEqual([expect.closeTo(100, 1), expect.closeTo(100, 1)]);
    const other = await rulers(upright!, stretch.y, stretch.x);
    expect([other.across * 1.01, other.up * 0.98]).toEqual([expect.closeTo(100, 1), expect.closeTo(100, 1)]);
  });
});

describe('tiles', () => {
  test.each([
    [100, 100, 1],
    [179, 250, 1],
    [600, 100, 3],
    [600, 400, 8],
  ])('%i x %i mm takes %i pages of A4', async (width, height, pages) => {
    const bytes = await toPdf(
      sheet(width, height, [
        circle('SCORE', 'c', { x: 5, y: 5 }, 2),
        segment('SCORE', 's', { x: 0, y: 1 }, { x: width, y: 1 }),
      ]),
      A4,
      { title: 't' },
    );
    expect((await pagesOf(bytes)).length).toBe(pages);
  });

  test('a page without room for a tile is refused', async () => {
    await expect(toPdf(sheet(100, 100), { ...A4, width: 40, height: 50 }, { title: 't' })).rejects.toThrow(/no room/);
    expect(tiling({ ...A4, margin: 100 }, 100, 100)).toBeUndefined();
  });
});
