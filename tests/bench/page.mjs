// The bench page in a real browser: size, first picture, an edit of a 60-hole jig, and the replay's frames.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import chromium from '@sparticuz/chromium';
import { chromium as driver } from 'playwright-core';

const median = (xs) => [...xs].sort((a, b) => a - b)[Math.floor(xs.length / 2)];

/** Rows `{ what, measured, aim }`; medians, the drawing of pixels apart. */
export async function pageSuite() {
  const folder = mkdtempSync(join(tmpdir(), 'lugwright-page-'));
  const jig = join(folder, 'sixty.yaml');
  // Fourteen lugs a side with two holes each, strainer, butt and vent: 61 holes.
  writeFileSync(jig, readFileSync('jigs/kettle-row-snare.yaml', 'utf8').replace(/^( {2}count: )10$/m, '$114'));
  // The same with twenty-four lugs a side: 101 holes, and a program although it says stop.
  const large = join(folder, 'hundred.yaml');
  writeFileSync(large, readFileSync(jig, 'utf8').replace(/^( {2}count: )14$/m, '$124'));
  const files = ['jigs/kettle-row-snare.yaml', jig, large].map((from, i) => {
    const out = join(folder, String(i));
    spawnSync(process.execPath, ['bin/lugwright.mjs', 'make', from, '--out', out, '--anyway', '--quiet']);
    return join(out, 'bench.html');
  });
  const browser = await driver.launch({
    executablePath: process.env.CHROMIUM_PATH ?? (await chromium.executablePath()),
    args: chromium.args.filter((a) => !/^--(single-process|disable-web-security)$/.test(a)),
  });
  try {
    const first = [];
    for (let i = 0; i < 7; i++) first.push(await paint(browser, files[0]));
    const page = await browser.newPage();
    await page.goto(pathToFileURL(files[1]).href);
    await page.waitForFunction(() => document.getElementById('replay-now')?.textContent);
    const ready = await page.evaluate(() => performance.getEntriesByName('bench ready')[0]?.startTime);
    const edit = await page.evaluate(typing);
    const frames = await page.evaluate(playing);
    return [
      { what: 'page of the demo snare, KB', measured: Math.round(statSync(files[0]).size / 1000), aim: 900 },
      { what: 'page of 101 holes, KB', measured: Math.round(statSync(files[2]).size / 1000), aim: 900 },
      { what: 'opening to first picture, ms', measured: Math.round(median(first.slice(1))), aim: 300 },
      { what: 'opening to fields at work, 61 holes, ms', measured: Math.round(ready), aim: 1000 },
      { what: 'edit to new pictures, 61 holes, ms', measured: Number(median(edit).toFixed(1)), aim: 16 },
      { what: 'replay, script a frame, ms', measured: Number(median(frames).toFixed(2)), aim: 16 },
    ];
  } finally {
    await browser.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

async function paint(browser, file) {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await page.goto(pathToFileURL(file).href);
  const ms = await page.evaluate(
    () =>
      new Promise((done) => {
        const look = () => {
          const entry = performance.getEntriesByName('first-contentful-paint')[0];
          if (entry) done(entry.startTime);
          else setTimeout(look, 20);
        };
        look();
      }),
  );
  await page.close();
  return ms;
}

/** In the page: many key presses; script and DOM work of each, the first ones not counted. */
function typing() {
  const input = document.querySelector('#change input[data-path="lugs.rows.0.distance"]');
  const times = [];
  for (let i = 0; i < 140; i++) {
    input.value = `${36 + (i % 7) / 2} mm`;
    const began = performance.now();
    input.dispatchEvent(new Event('input'));
    times.push(performance.now() - began);
  }
  return times.slice(40);
}

function playing() {
  const slider = document.querySelector('#replay-time');
  const times = [];
  for (let i = 0; i < 300; i++) {
    slider.value = String((i * 10) / 3);
    const began = performance.now();
    slider.dispatchEvent(new Event('input'));
    times.push(performance.now() - began);
  }
  return times;
}
