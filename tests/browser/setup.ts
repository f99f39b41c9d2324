import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    browser: { readonly path: string; readonly args: readonly string[] } | { readonly missing: string };
  }
}

/**
 * Unpacks the packaged browser once, before any worker starts: two cold starts at a time would write the same file.
 * `CHROMIUM_PATH` names an installed one instead.
 */
export default async function setup(project: TestProject): Promise<void> {
  try {
    const { default: chromium } = await import('@sparticuz/chromium');
    const path = process.env['CHROMIUM_PATH'] ?? (await chromium.executablePath());
    // One process for all pages dies with the first page; and these pages need no weakened security.
    const args = chromium.args.filter((a) => !/^--(single-process|disable-web-security)$/.test(a));
    project.provide('browser', { path, args });
  } catch (error) {
    project.provide('browser', { missing: `no browser to test with (set CHROMIUM_PATH): ${String(error)}` });
  }
}
