#!/usr/bin/env node
import { existsSync } from 'node:fs';

const built = new URL('../dist/cli.mjs', import.meta.url);
if (!existsSync(built)) {
  process.stderr.write('lugwright is not built yet: run "npm ci" or "npm run build" in its folder.\n');
  process.exit(3);
}
const { main } = await import(built.href);
process.exitCode = await main(process.argv.slice(2));
