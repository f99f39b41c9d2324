import type { PageTemplate } from '../src/page/data.ts';

export function buildPage(): Promise<PageTemplate>;
