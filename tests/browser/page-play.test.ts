import { describe, expect, test } from 'vitest';
import { dryRun } from '../../src/dryrun/dry-run.ts';
import { dryRunContext } from '../../src/jobs/dry-run.ts';
import { fillPage } from '../../src/page/fill.ts';
import { replayOf } from '../../src/page/replay.ts';
import { template, useBrowser } from './open.ts';
import { samplePage, samplePageWithProgram } from './sample.ts';

const bench = useBrowser();

describe('the replay', () => {
  test('takes exactly as long as the dry run says, and its moves are in the order of the program', () => {
    const data = samplePageWithProgram(template);
    const moves = replayOf(data.rotary!.program!, data.jig.rotary.machine, data.jig.shell.radius);
    const { value } = dryRun(data.rotary!.program!, dryRunContext(data.jig, data.layout));
    expect(moves[moves.length - 1]![5]).toBeCloseTo(value.seconds, 1);
    for (let i = 1; i < moves.length; i++) {
      expect(moves[i]![5]).toBeGreaterThanOrEqual(moves[i - 1]![5]);
      expect(moves[i]![0]).toBeGreaterThanOrEqual(moves[i - 1]![0]);
    }
  });

  test.each(['bottom', 'top'])(
    'datum %s: at the end every planned hole is filled, at the start none; the line running is shown',
    async (datum) => {
      const data = samplePageWithProgram(template, `machine: rotary-slow, datum: ${datum}`);
      const o = await bench.openReady(fillPage(data));
      const slide = (part: number) =>
        o.page.evaluate((v) => {
          const s = document.querySelector<HTMLInputElement>('#replay-time')!;
          s.value = String(v * 1000);
          s.dispatchEvent(new Event('input'));
        }, part);
      const done = () => o.page.locator('.replay-sheet .hole.done').count();
      expect(await done()).toBe(0);
      await slide(0.5);
      const half = await done();
      expect(half).toBeLessThan(37);
      const now = (await o.page.locator('#replay-now').textContent())!;
      const line = Number(/line (\d+)/.exec(now)![1]);
      const running = (await o.page.locator('#replay-lines b').textContent())!;
      expect(running.trim()).toBe(`${line}  ${data.rotary!.program!.split('\n')[line - 1]}`.trim());
      await slide(1);
      expect(await done()).toBe(37);
      expect(o.said).toEqual([]);
      await o.close();
    },
  );

  test('plays by itself and stops when told', async () => {
    const o = await bench.openReady(fillPage(samplePageWithProgram(template)));
    const at = () => o.page.locator('#replay-time').inputValue().then(Number);
    await o.page.locator('#replay-speed').selectOption('100');
    await o.page.locator('#replay-play').click();
    await o.page.waitForFunction(() => Number(document.querySelector<HTMLInputElement>('#replay-time')!.value) > 5);
    await o.page.locator('#replay-play').click();
    const stopped = await at();
    await o.page.waitForTimeout(200);
    expect(await at()).toBe(stopped);
    await o.close();
  });

  test('a program that is withheld is replayed to show why: it opens at the first stop, and each finding is a step', async () => {
    // The strainer's lower hole lies in the snare bed's lowest part: a stop of the fit check with a place in the program.
    const data = samplePageWithProgram(template, 'machine: rotary-slow, datum: bottom', (text) =>
      text.replace('edge: bottom, distance: 46 mm,\n      holes: { layout: upright, spacing: 28 mm', (m) =>
        m.replace('46 mm', '16 mm'),
      ),
    );
    expect(data.rotary!.withheld).toBe(true);
    const o = await bench.openReady(fillPage(data));
    expect(await o.page.locator('#rotary').textContent()).toContain('withheld');
    expect(await o.page.locator('#replay').textContent()).toMatch(/Withheld program/);
    await o.page.waitForFunction(() => document.getElementById('replay-said')!.textContent !== '');
    const said = () => o.page.locator('#replay-said').textContent();
    const first = await said();
    expect(first).toMatch(/^STOP, strainer/);
    const running = Number(/line (\d+)/.exec((await o.page.locator('#replay-now').textContent())!)![1]);
    expect(data.rotary!.program.split('\n')[running - 1]).toMatch(/[GXZ]/);
    expect(await o.page.locator('#replay-marks .spot.stop').count()).toBeGreaterThan(0);
    await o.page.locator('#replay-next').click();
    expect(await said()).not.toBe('');
    expect(o.said).toEqual([]);
    await o.close();
  });
});

describe('the turning view', () => {
  test('draws the drum by WebGL under the strict policy, turns by keys, and a press picks a hole', async () => {
    const o = await bench.open(fillPage(samplePage(template)));
    const canvas = o.page.locator('#solid-canvas');
    await canvas.scrollIntoViewIfNeeded();
    await o.page.waitForFunction(() => /Drag/.test(document.getElementById('solid-note')!.textContent ?? ''));
    const before = await canvas.screenshot();
    await canvas.focus();
    for (let i = 0; i < 4; i++) await o.page.keyboard.press('ArrowRight');
    await o.page.waitForTimeout(300);
    const after = await canvas.screenshot();
    expect(Buffer.compare(before, after)).not.toBe(0);
    const box = (await canvas.boundingBox())!;
    // The lugs ring the drum: somewhere along the middle a press meets one.
    for (let x = 0.35; x <= 0.65 && !(await o.page.locator('#picked').isVisible()); x += 0.02) {
      await o.page.mouse.click(box.x + box.width * x, box.y + box.height * 0.55);
    }
    expect(await o.page.locator('#picked').isVisible()).toBe(true);
    expect(await o.page.locator('svg.unrolled .hole.lit').count()).toBe(1);
    // The software renderer of test browsers warns when a picture is read back; nothing else may be said.
    expect(o.said.filter((s) => !/GPU stall/.test(s))).toEqual([]);
    expect(o.asked).toEqual([]);
    await o.close();
  });

  test('without WebGL the flat drawings stay and the page says why', async () => {
    const o = await bench.open(fillPage(samplePage(template)), {}, async (page) => {
      await page.addInitScript(() => {
        HTMLCanvasElement.prototype.getContext = () => null;
      });
    });
    await o.page.locator('#turning').scrollIntoViewIfNeeded();
    await o.page.waitForFunction(() => /no WebGL/.test(document.getElementById('solid-note')!.textContent ?? ''));
    expect(await o.page.locator('#solid-canvas').isVisible()).toBe(false);
    expect(await o.page.locator('svg.unrolled').isVisible()).toBe(true);
    expect(o.said).toEqual([]);
    await o.close();
  });
});

describe('on paper', () => {
  test('gauge and ruler are true to size: 100 mm between the ruler ends (CSS: 1 in = 96 px = 25.4 mm)', async () => {
    const o = await bench.openReady(fillPage(samplePageWithProgram(template)));
    await o.page.emulateMedia({ media: 'print' });
    const box = await o.page.locator('svg.true').last().boundingBox();
    const unit = await o.page
      .locator('svg.true')
      .last()
      .evaluate((e) => (e as SVGSVGElement).getScreenCTM()!.a);
    expect(box!.height).toBeCloseTo((104 / 25.4) * 96, 0);
    // Boxes are laid out in 64ths of a pixel: 0.02 mm in 100 mm.
    expect(Math.abs(unit / (96 / 25.4) - 1)).toBeLessThan(3e-4);
    const first = await o.page
      .locator('svg.true')
      .first()
      .evaluate((e) => (e as SVGSVGElement).getScreenCTM()!.d);
    expect(Math.abs(first / (96 / 25.4) - 1)).toBeLessThan(3e-4);
    await o.close();
  });

  test('the setup sheet has a page of its own, and screen-only parts stay away', async () => {
    const o = await bench.openReady(fillPage(samplePageWithProgram(template)));
    await o.page.emulateMedia({ media: 'print' });
    for (const id of ['change', 'turning', 'replay', 'picked'])
      expect(await o.page.locator(`#${id}`).isVisible(), id).toBe(false);
    // A4 less the margins of 12 mm is 186 by 273 mm.
    await o.page.setViewportSize({ width: 703, height: 1032 });
    const sheet = await o.page.locator('#rotary').boundingBox();
    expect(sheet!.height).toBeLessThan((273 / 25.4) * 96);
    const pdf = (await o.page.pdf({ format: 'A4' })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)!.length).toBeGreaterThan(5);
    await o.close();
  });
});
