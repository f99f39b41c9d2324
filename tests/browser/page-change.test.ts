import { readFileSync } from 'node:fs';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { resolveJig } from '../../src/jig/resolve.ts';
import { parseText } from '../../src/jig/text.ts';
import { layOut } from '../../src/layout/layout.ts';
import { fillPage } from '../../src/page/fill.ts';
import { flatTemplate, type Opened, useBrowser } from './open.ts';
import { madeSet, pageOf, SAMPLE, samplePage } from './sample.ts';

const bench = useBrowser();

const sample = (text?: string) => fillPage(samplePage(flatTemplate, text));
const field = (o: Opened, path: string) => o.page.locator(`#change input[data-path="${path}"]`);

describe('picking', () => {
  test('a hole in the table lights up in the drawing and shows its numbers; Escape puts it out', async () => {
    const o = await bench.openReady(sample());
    await o.page.locator('[data-pick="lug-top-3-b"]').click();
    expect(await o.page.locator('svg.unrolled .hole.lit').getAttribute('data-hole')).toBe('lug-top-3-b');
    expect(await o.page.locator('svg.above .fitting.lit').getAttribute('data-fitting')).toBe('lug-top-3');
    const bar = o.page.locator('#picked');
    expect(await bar.textContent()).toContain('6 lug-top-3-b');
    expect(await bar.textContent()).toContain('321.42');
    await o.page.keyboard.press('Escape');
    expect(await o.page.locator('main .lit:not(svg.close *)').count()).toBe(0);
    expect(await bar.isVisible()).toBe(false);
    expect(o.said).toEqual([]);
    await o.close();
  });

  test('a hole in the drawing picks its row; the next one follows in the table order', async () => {
    const o = await bench.openReady(sample());
    await o.page.locator('svg.unrolled [data-hole="butt-a"] .hit').click();
    expect(await o.page.locator('#holes tr.lit').getAttribute('data-hole')).toBe('butt-a');
    await o.page.locator('#pick-after').click();
    expect(await o.page.locator('#holes tr.lit').getAttribute('data-hole')).toBe('butt-b');
    await o.close();
  });
});

describe('changing', () => {
  let o: Opened;
  beforeAll(async () => {
    o = await bench.openReady(sample());
  });
  afterEach(async () => {
    if (await o.page.locator('#undo-jig').isEnabled()) await o.page.locator('#undo-jig').click();
  });
  afterAll(async () => {
    expect(o.said).toEqual([]);
    expect(o.asked).toEqual([]);
    await o.close();
  });

  test('a number changes everything the main job would change, findings of program, template and collar too', async () => {
    const rotary = 'method: rotary\nrotary: { machine: rotary-slow, backing: 12 mm, tools: default }\n';
    const small = (SAMPLE + rotary).replace('count: 8', 'count: 4').replace('[2, 3]', '[1, 2]');
    const own = await bench.openReady(pageOf(await madeSet(flatTemplate, small)));
    const said = async () =>
      new Set(
        (await own.page.locator('.finding .said').allTextContents()).map((t) => t.charAt(0).toLowerCase() + t.slice(1)),
      );
    await field(own, 'lugs.count').fill('5');
    // What is not worked out at every key press says so until it is.
    expect(await own.page.locator('.before').count()).toBeGreaterThan(0);
    expect(await own.page.locator('#verdict').textContent()).toMatch(/from before your change/);
    await field(own, 'rods.length.top').fill('57 mm');
    await own.page.waitForFunction(() => /worked out anew/.test(document.getElementById('change-state')!.textContent));
    expect(await own.page.locator('.before:not(#replay *)').count()).toBe(0);
    const changed = small.replace('count: 4', 'count: 5').replace('top: 42 mm', 'top: 57 mm');
    const set = await madeSet(flatTemplate, changed);
    expect(await said()).toEqual(new Set(set.findings.map((f) => f.text.charAt(0).toLowerCase() + f.text.slice(1))));
    const plan = JSON.parse(String(set.files.find((f) => f.name === 'plan.json')!.data));
    const shown = await own.page
      .locator('#holes tr[data-hole]')
      .evaluateAll((trs) =>
        trs.map((tr) => [(tr as HTMLElement).dataset['hole'], Number((tr as HTMLElement).dataset['arcMm'])]),
      );
    expect(shown).toEqual(plan.holes.map((h: { id: string; arc_mm: number }) => [h.id, h.arc_mm]));
    // Every section but the list of files is that of the page made from the changed file.
    const text = (id: string) => own.page.locator(`#${id}`).evaluate((e) => e.outerHTML);
    const made = await bench.open(pageOf(set));
    for (const id of ['verdict', 'matters', 'shell', 'holes', 'gauge', 'work', 'rotary', 'buy', 'chances', 'assumed'])
      expect(await text(id), id).toBe(await made.page.locator(`#${id}`).evaluate((e) => e.outerHTML));
    expect(own.said).toEqual([]);
    await made.close();
    await own.close();
  });

  test('taken back, the page is as it was made', async () => {
    const before = await o.page.locator('main').innerHTML();
    await field(o, 'lugs.count').fill('6');
    expect(await o.page.locator('svg.unrolled .fitting').count()).toBe(15);
    await o.page.locator('#undo-jig').click();
    expect(await o.page.locator('main').innerHTML()).toBe(before);
  });

  test('ticks and the picked hole stay while numbers change', async () => {
    await o.page.locator('[data-tick="step-measure"]').check();
    await o.page.locator('[data-pick="lug-top-2-a"]').click();
    await field(o, 'lugs.rows.0.distance').fill('40 mm');
    await o.page.waitForFunction(() => document.querySelector('[data-hole="lug-top-2-a"][data-height-mm="124.7000"]'));
    expect(await o.page.locator('[data-tick="step-measure"]').isChecked()).toBe(true);
    expect(await o.page.locator('#holes tr.lit').getAttribute('data-hole')).toBe('lug-top-2-a');
  });

  test.each([
    ['lugs.rows.0.distance', 'wide'],
    ['shell.diameter', '3 km'],
    ['lugs.count', '0'],
    ['lugs.count', '2.5'],
    ['lugs.holes.drill', '-6 mm'],
    ['rods.length.top', ''],
    ['shell.diameter', '10 mm'],
  ])('%s: "%s" gets the words of the command line beside the field, and nothing is saved', async (path, typed) => {
    await field(o, path).fill(typed);
    const shown = (await o.page.locator('#change .wrong').allTextContents()).filter((t) => t !== '').join(' ');
    const state = (await o.page.locator('#change-state').textContent()) ?? '';
    const parsed = parseText(
      SAMPLE.replace(
        {
          'lugs.rows.0.distance': 'edge: top, distance: 36 mm',
          'shell.diameter': 'diameter: 327.4 mm',
          'lugs.count': 'count: 8',
          'lugs.holes.drill': 'drill: 6 mm',
          'rods.length.top': 'top: 42 mm',
        }[path]!,
        (m) => m.replace(/[^ ]+( mm)?$/, JSON.stringify(/^[\d.]+$/.test(typed) ? Number(typed) : typed)),
      ),
    );
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
    const resolved = resolveJig(parsed.raw);
    expect(resolved.ok).toBe(false);
    const issue = resolved.ok ? undefined : parsed.place(resolved.issues[0]!);
    expect(`${shown} ${state}`).toContain(issue!.found);
    expect(`${shown} ${state}`).toContain(issue!.allowed);
    expect(await o.page.locator('#save-jig').isDisabled()).toBe(true);
  });

  test('the saved file is a valid jig file: the old text with the new numbers in their places', async () => {
    const text = `# kept\n${SAMPLE}# the end\n`;
    const own = await bench.openReady(sample(text));
    await field(own, 'lugs.rows.1.distance').fill('1-1/2 in');
    await field(own, 'lugs.count').fill('6');
    await field(own, 'lugs.holes.drill').fill('1/4"');
    const [download] = await Promise.all([own.page.waitForEvent('download'), own.page.locator('#save-jig').click()]);
    expect(download.suggestedFilename()).toBe('quiet-lane-13-x-6.yaml');
    const saved = readFileSync((await download.path())!, 'utf8');
    expect(saved).toBe(
      text
        .replace('edge: bottom, distance: 36 mm', 'edge: bottom, distance: 1-1/2 in')
        .replace('count: 8', 'count: 6')
        .replace('drill: 6 mm', 'drill: "1/4\\""'),
    );
    const parsed = parseText(saved);
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
    const resolved = resolveJig(parsed.raw);
    if (!resolved.ok) throw new Error(JSON.stringify(resolved.issues));
    const layout = layOut(resolved.jig);
    expect(layout.holes.filter((h) => h.role === 'lug')).toHaveLength(24);
    expect(layout.holes.find((h) => h.id === 'lug-bottom-1-a')!.drill).toBe(6.35);
    expect(layout.placed.find((p) => p.id === 'lug-bottom-1')!.height).toBeCloseTo(38.1, 9);
    await own.close();
  });
});

test('an edit is drawn within a frame: script and DOM work of 60 holes', async () => {
  const text = SAMPLE.replace('count: 8', 'count: 14');
  const o = await bench.openReady(sample(text));
  const times = await o.page.evaluate(() => {
    const input = document.querySelector<HTMLInputElement>('#change input[data-path="lugs.rows.0.distance"]')!;
    const out: number[] = [];
    for (let i = 0; i < 40; i++) {
      input.value = `${36 + (i % 7)} mm`;
      const from = performance.now();
      input.dispatchEvent(new Event('input'));
      out.push(performance.now() - from);
    }
    return out.slice(10);
  });
  expect(await o.page.locator('svg.unrolled .hole').count()).toBe(61);
  // The median stands in the bench's table. Test machines share their cores: here the best of thirty is held to
  // three frames.
  expect(Math.min(...times)).toBeLessThan(48);
  await o.close();
});
