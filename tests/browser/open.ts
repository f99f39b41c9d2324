import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, inject, vi } from 'vitest';
import type { PageTemplate } from '../../src/page/data.ts';

/** A page opened from disk with everything it said and asked for. */
export interface Opened {
  readonly page: Page;
  /** Console messages and uncaught errors. */
  readonly said: string[];
  /** Requests for anything but the page itself. */
  readonly asked: string[];
  readonly close: () => Promise<void>;
}

/** The page's style and scripts as they are shipped: the tests' own build put them there. */
export const template = JSON.parse(readFileSync('dist/page.json', 'utf8')) as PageTemplate;

/** Without the turning view, which has tests of its own: such a page opens sooner. */
export const flatTemplate: PageTemplate = (({ solid: _, ...flat }) => flat)(template);

/** One browser for the tests of a file. */
export function useBrowser() {
  // Shared machines: a page that opens in half a second alone may need many when all tests run.
  vi.setConfig({ testTimeout: 90_000, hookTimeout: 90_000 });
  const folder = mkdtempSync(join(tmpdir(), 'bench-page-'));
  let browser: Browser;
  let count = 0;
  beforeAll(async () => {
    const found = inject('browser');
    if ('missing' in found) throw new Error(found.missing);
    browser = await chromium.launch({ executablePath: found.path, args: [...found.args], headless: true });
  });
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const open = async (
    html: string,
    options: BrowserContextOptions = {},
    before?: (page: Page) => Promise<void>,
  ): Promise<Opened> => {
    const file = join(folder, `bench-${++count}.html`);
    writeFileSync(file, html);
    const context = await browser.newContext({ viewport: { width: 1280, height: 900 }, ...options });
    const page = await context.newPage();
    const url = pathToFileURL(file).href;
    const said: string[] = [];
    const asked: string[] = [];
    page.on('console', (m) => said.push(`${m.type()}: ${m.text()}`));
    page.on('pageerror', (e) => said.push(`error: ${e.message}`));
    page.on('request', (r) => {
      if (r.url().split('#')[0] !== url) asked.push(r.url());
    });
    await before?.(page);
    await page.goto(url);
    return { page, said, asked, close: () => context.close() };
  };
  /** With fields and replay at work. */
  const openReady: typeof open = async (...args) => {
    const opened = await open(...args);
    await opened.page.waitForFunction(isReady);
    return opened;
  };
  return { open, openReady };
}

/** In the page: what works numbers out again has been unpacked, and the replay, where there is one, has been drawn. */
const isReady = (): boolean =>
  document.documentElement.classList.contains('able') &&
  (document.getElementById('replay-body') === null || Boolean(document.getElementById('replay-now')?.textContent));
