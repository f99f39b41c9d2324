import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { inject } from 'vitest';

/** A page opened from disk with everything it said and asked for. */
export interface Opened {
  readonly page: Page;
  /** Console messages and uncaught errors. */
  readonly said: string[];
  /** Requests for anything but the page itself. */
  readonly asked: string[];
  readonly close: () => Promise<void>;
}

export interface Bench {
  readonly browser: Browser;
  readonly open: (
    html: string,
    options?: BrowserContextOptions,
    before?: (page: Page) => Promise<void>,
  ) => Promise<Opened>;
  readonly stop: () => Promise<void>;
}

export async function startBrowser(): Promise<Bench> {
  const found = inject('browser');
  if ('missing' in found) throw new Error(found.missing);
  const browser = await chromium.launch({ executablePath: found.path, args: [...found.args], headless: true });
  const folder = mkdtempSync(join(tmpdir(), 'bench-page-'));
  let count = 0;
  return {
    browser,
    open: async (html, options = {}, before) => {
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
    },
    stop: async () => {
      await browser.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
