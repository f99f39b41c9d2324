import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fillPage } from '../../src/page/fill.ts';
import { flatTemplate, type Opened, useBrowser } from './open.ts';
import { SAMPLE, samplePage, samplePageWithProgram } from './sample.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const bench = useBrowser();

const sample = (text?: string) => fillPage(samplePage(flatTemplate, text));

describe('as it opens', () => {
  const data = samplePage(flatTemplate);
  let o: Opened;
  beforeAll(async () => {
    o = await bench.openReady(fillPage(data));
  });
  afterAll(() => o?.close());

  test('opens from disk without a word on the console and without asking for anything', async () => {
    expect(o.said).toEqual([]);
    expect(o.asked).toEqual([]);
    expect(await o.page.locator('h1').textContent()).toBe('Quiet Lane 13 x 6');
  });

  test('says STOP at the top, before anything else', async () => {
    const box = await o.page.getByRole('alert').boundingBox();
    expect(await o.page.getByRole('alert').textContent()).toMatch(/^STOP: do not drill or cut/);
    expect(box!.y).toBeLessThan(200);
    expect(await o.page.title()).toMatch(/^STOP/);
  });

  test('notes stay folded away on a screen and come open on paper', async () => {
    const note = o.page.locator('.note .said').first();
    expect(await note.isVisible()).toBe(false);
    await o.page.locator('.notes summary').first().press('Enter');
    expect(await note.isVisible()).toBe(true);
    await o.page.locator('.notes summary').first().press('Enter');
    await o.page.emulateMedia({ media: 'print' });
    expect((await note.boundingBox())?.height ?? 0).toBeGreaterThan(5);
    await o.page.emulateMedia({ media: 'screen' });
  });

  test('the numbers on the screen are the numbers of the plan', async () => {
    const rows = await o.page.locator('#holes tr[data-hole]').evaluateAll((trs) =>
      trs.map((tr) => ({
        id: (tr as HTMLElement).dataset['hole'],
        mm: [...tr.querySelectorAll('.mm')].map((e) => Number(e.textContent)),
        inches: [...tr.querySelectorAll('.in')].map((e) => Number(e.textContent)),
      })),
    );
    expect(rows.map((r) => r.id)).toEqual(data.plan.holes.map((h) => h.id));
    for (const [i, hole] of data.plan.holes.entries()) {
      const { mm, inches } = rows[i]!;
      // 0.005 mm is half the last digit shown; 0.0005 in likewise.
      expect(Math.abs(mm[0]! - hole.arc_mm)).toBeLessThanOrEqual(0.0051);
      expect(Math.abs(mm[1]! - hole.height_mm)).toBeLessThanOrEqual(0.0051);
      expect(Math.abs(mm[2]! - hole.from_top_mm)).toBeLessThanOrEqual(0.0051);
      expect(mm[3]).toBe(hole.drill_mm);
      expect(Math.abs(inches[0]! * 25.4 - hole.arc_mm)).toBeLessThanOrEqual(0.0005 * 25.4 + 1e-9);
    }
  });

  test('the keyboard reaches links, the wide drawing, picks and ticks, each with a visible mark', async () => {
    const { page } = o;
    const tabTo = async (selector: string): Promise<boolean> => {
      for (let i = 0; i < 25; i++) {
        await page.keyboard.press('Tab');
        const at = await page.evaluate(
          (s) => [
            document.activeElement!.matches(s),
            getComputedStyle(document.activeElement!).outlineStyle !== 'none',
          ],
          selector,
        );
        if (at[0]) return at[1]!;
      }
      return false;
    };
    await page.locator('.skip').focus();
    expect(await tabTo('nav a')).toBe(true);
    expect(await tabTo('#shell .scroll')).toBe(true);
    for (const [part, selector] of [
      ['holes', '.pick'],
      ['work', '[data-tick]'],
    ] as const) {
      // A link of the navigation brings the keyboard to its part.
      await page.locator(`nav a[href="#${part}"]`).press('Enter');
      expect(await tabTo(`#${part} ${selector}`), part).toBe(true);
    }
  });

  test('prints: every section, no navigation, boxes to tick by hand', async () => {
    const { page } = o;
    const pdf = await page.pdf({ format: 'A4', printBackground: true });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('nav').isVisible()).toBe(false);
    expect(await page.locator('.step input').first().isVisible()).toBe(true);
  });
});

describe('ticks', () => {
  test('stay after a reload and go when taken off', async () => {
    const { page, close } = await bench.open(sample());
    const box = page.locator('[data-tick="hole-lug-top-2-a"]');
    await box.check();
    await page.locator('[data-tick="step-measure"]').check();
    await page.reload();
    expect(await box.isChecked()).toBe(true);
    expect(await page.locator('input:checked').count()).toBe(2);
    await box.uncheck();
    await page.reload();
    expect(await page.locator('input:checked').count()).toBe(1);
    await close();
  });

  test('stay where the browser keeps no store, in the address', async () => {
    const { page, said, close } = await bench.open(sample(), {}, async (p) => {
      await p.addInitScript(() =>
        Object.defineProperty(window, 'localStorage', {
          get: () => {
            throw new DOMException('denied', 'SecurityError');
          },
        }),
      );
    });
    await page.locator('[data-tick="step-tape"]').check();
    await page.reload();
    expect(await page.locator('[data-tick="step-tape"]').isChecked()).toBe(true);
    expect(await page.locator('#tick-note').textContent()).toMatch(/address/);
    expect(said).toEqual([]);
    await close();
  });

  test('are not taken over by another plan', async () => {
    const { page, close } = await bench.open(sample());
    await page.locator('[data-tick="step-tape"]').check();
    const other = { ...samplePage(flatTemplate), digest: 'fedcba9876543210' };
    const second = await bench.open(fillPage(other));
    expect(await second.page.locator('input:checked').count()).toBe(0);
    await second.close();
    await close();
  });
});

describe('at every width, light and dark', () => {
  let o: Opened;
  beforeAll(async () => {
    // Everything on one page: a program to replay, and findings of every level.
    const full = { ...samplePageWithProgram(flatTemplate), findings: samplePage(flatTemplate).findings };
    o = await bench.openReady(fillPage(full));
    await o.page.locator('[data-pick="vent"]').click();
    await o.page.locator('#change input').first().fill('wrong');
    await o.page.evaluate(axe);
  });
  afterAll(() => o?.close());

  test.each([
    { name: 'phone, light', width: 360, colorScheme: 'light' },
    { name: 'tablet, dark', width: 768, colorScheme: 'dark' },
    { name: 'desk, light', width: 1280, colorScheme: 'light' },
  ] as const)('$name: breaks no accessibility rule and does not scroll sideways', async ({ width, colorScheme }) => {
    await o.page.setViewportSize({ width, height: 844 });
    await o.page.emulateMedia({ colorScheme });
    expect(await o.page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    const result = await o.page.evaluate(async (wide) => {
      // What a width changes is layout; the rest was looked at on the phone.
      const rules = wide ? { runOnly: ['color-contrast', 'scrollable-region-focusable', 'target-size'] } : {};
      // biome-ignore lint/suspicious/noExplicitAny: the checker puts itself on window
      const found = await (window as any).axe.run(document, { ...rules, rules: { 'target-size': { enabled: true } } });
      const violations = found.violations.map(
        (v: { id: string; nodes: { html: string }[] }) => `${v.id}: ${v.nodes[0]?.html}`,
      );
      return { violations, passes: found.passes.length };
    }, width > 360);
    expect(result.violations).toEqual([]);
    expect(result.passes).toBeGreaterThan(width > 360 ? 0 : 25);
  });
});

describe('bad names', () => {
  const NAMES: Readonly<Record<string, string>> = {
    markup: '</title></script><script>document.title="owned"</script><img src=x onerror=alert(1)>',
    'right to left': 'شارع الفانوس \u202Egnirts desrever\u202C 13',
    emoji: '🥁👩🏽‍🔧 drum '.repeat(40),
    long: 'long '.repeat(2000),
    'one word': 'x'.repeat(10_000),
  };
  test.each(Object.entries(NAMES))('%s shows as text and breaks nothing', async (_kind, name) => {
    const text = SAMPLE.replace('Quiet Lane 13 x 6', JSON.stringify(name));
    const { page, said, asked, close } = await bench.open(sample(text), { viewport: { width: 390, height: 844 } });
    expect(said).toEqual([]);
    expect(asked).toEqual([]);
    const shown = (await page.locator('h1').textContent()) ?? '';
    expect(name.replace(/\s+/g, ' ').startsWith(shown.replace(/…$/, '').replace(/\s+/g, ' ').slice(0, 40))).toBe(true);
    expect((await page.title()).length).toBeLessThan(200);
    expect(await page.title()).toMatch(/bench page$/);
    expect(await page.locator('#holes tr[data-hole]').count()).toBe(37);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    await close();
  });
});

test('the policy lets no other script or style in', async () => {
  const { page, said, close } = await bench.open(sample());
  await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'document.title = "owned"';
    document.body.append(script);
    document.body.insertAdjacentHTML('beforeend', '<p id="probe" style="color:red">probe</p>');
  });
  expect(await page.title()).not.toBe('owned');
  expect(await page.locator('#probe').evaluate((e) => getComputedStyle(e).color)).not.toBe('rgb(255, 0, 0)');
  expect(said.filter((s) => /Content Security Policy/.test(s)).length).toBeGreaterThanOrEqual(2);
  await close();
});

test('all of it can be read without scripts', async () => {
  const { page, close } = await bench.open(sample(), { javaScriptEnabled: false });
  expect(await page.locator('svg.unrolled').isVisible()).toBe(true);
  expect(await page.locator('#holes tr[data-hole]').count()).toBe(37);
  expect(await page.locator('.step').count()).toBeGreaterThan(8);
  await close();
});
