#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { ENTRY, load } from './pieces.mjs';

if (!existsSync(new URL(`../dist/${ENTRY}`, import.meta.url))) {
  process.stderr.write('lugwright is not built yet: run "npm ci" or "npm run build" in its folder.\n');
  process.exit(3);
}
process.exitCode = await load(ENTRY).main(process.argv.slice(2));
