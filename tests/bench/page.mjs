// The bench page in a real browser: size, first picture, an edit of a 60-hole jig, and the replay's frames.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import chromium from '@sparticuz/chromium';
import { chromium as driver } from 'playwright-core';
import { alone, atMost, median, table } from './kit.mjs';

/** Rows of the page; medians, the drawing of pixels apart. */
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
    const { rows, add } = table();
    add('page of the demo snare, KB', statSync(files[0]).size / 1000, atMost(900));
    add('page of 101 holes, KB', statSync(files[2]).size / 1000, atMost(900));
    add('opening to first picture, ms', median(first.slice(1)), atMost(300));
    add('opening to fields at work, 61 holes, ms', ready, atMost(1000));
    add('edit to new pictures, 61 holes, ms', median(edit), atMost(16));
    add('replay, script a frame, ms', median(frames), atMost(16));
    return rows;
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

await alone(import.meta.url, pageSuite);
