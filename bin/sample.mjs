// Makes the sample set, the pictures of README.md and output/README.md, and the kept screenshots of the bench page anew
// from demo jigs: `npm run sample` (after a build).
import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createCanvas, loadImage } from '@napi-rs/canvas';
import chromium from '@sparticuz/chromium';
import { chromium as driver } from 'playwright-core';
import { coverPicture, layOut, parseText, resolveJig } from '../dist/index.mjs';

// A set is some megabytes; these files tell what it is like.
const SHOWN = [
  'plan.json',
  'holes.csv',
  'wrap.dxf',
  'wrap.svg',
  'wrap.pdf',
  'collar-sheet-1.svg',
  'rotary.nc',
  'dry-run.json',
  'readings.csv',
];
const folder = mkdtempSync(join(tmpdir(), 'lugwright-sample-'));
function makeSet(name, wanted = 0) {
  const out = join(folder, name);
  const args = ['bin/lugwright.mjs', 'make', `jigs/kettle-row-${name}.yaml`, '--out', out, '--quiet'];
  const { status } = spawnSync(process.execPath, args, { stdio: 'inherit' });
  if (status !== wanted) throw new Error(`make ${name} gave exit status ${status}, wanted ${wanted}`);
  return out;
}
const whole = makeSet('rack-tom');
rmSync('output/sample', { recursive: true, force: true });
mkdirSync('output/sample', { recursive: true });
for (const name of SHOWN) copyFileSync(join(whole, name), join('output/sample', name));

const parsed = parseText(readFileSync('jigs/kettle-row-snare.yaml', 'utf8'));
const { jig } = resolveJig(parsed.raw);
writeFileSync('output/sample/cover.svg', coverPicture(jig, layOut(jig)));

// The bench page of the snare that is wrong and of the one that is not, at the widths of a phone, a tablet and a desk.
const SHOTS = [
  { page: 'wrong', name: 'phone-360-light-findings', width: 360, scheme: 'light' },
  { page: 'snare', name: 'phone-360-dark-work', width: 360, scheme: 'dark', at: '#work' },
  { page: 'snare', name: 'tablet-768-dark-replay', width: 768, scheme: 'dark', at: '#replay' },
  { page: 'wrong', name: 'desk-1280-light-findings', width: 1280, scheme: 'light' },
  { page: 'snare', name: 'desk-1280-light-shell', width: 1280, scheme: 'light', at: '#shell' },
];
const pages = { wrong: makeSet('wrong', 1), snare: makeSet('snare') };
const kept = 'tests/browser/looked-at';
rmSync(kept, { recursive: true, force: true });
mkdirSync(kept, { recursive: true });
const browser = await driver.launch({
  executablePath: process.env.CHROMIUM_PATH ?? (await chromium.executablePath()),
  args: chromium.args.filter((a) => !/^--(single-process|disable-web-security)$/.test(a)),
});
for (const { page, name, width, scheme, at } of SHOTS) {
  const tab = await browser.newPage({
    viewport: { width, height: Math.round(width > 1000 ? 900 : width * 1.8) },
    colorScheme: scheme,
  });
  await tab.goto(pathToFileURL(join(pages[page], 'bench.html')).href);
  await tab.waitForFunction(() => document.getElementById('replay-now')?.textContent);
  if (at === '#replay') {
    // Halfway through the program, the shell drawn in 3D.
    await tab.evaluate(() => {
      const slider = document.getElementById('replay-time');
      slider.value = '500';
      slider.dispatchEvent(new Event('input'));
    });
  }
  if (at) await tab.locator(at).evaluate((e) => e.scrollIntoView());
  await tab.waitForTimeout(at === '#replay' ? 4000 : 300);
  const file = join(kept, `${name}.png`);
  await tab.screenshot({ path: file });
  if (page === 'wrong' && width === 1280) writeFileSync('output/sample/bench.webp', await small(file));
  await tab.close();
}
await browser.close();
rmSync(folder, { recursive: true });

/** The package carries it too: half the bytes of a PNG. */
async function small(file) {
  const picture = await loadImage(file);
  const canvas = createCanvas(picture.width, picture.height);
  canvas.getContext('2d').drawImage(picture, 0, 0);
  return canvas.encode('webp', 80);
}
