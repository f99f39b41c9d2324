#!/usr/bin/env node
import { existsSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';

// A run is over in a second or two. As eager as it is by default, the engine's optimiser takes a third of the processor's
// time in that and gives little of it back; four times more patient, the main job ends about a sixth sooner.
// Measured with V8 11 (Node 20), and set only there: another engine may not know the word.
if (process.versions.v8.startsWith('11.')) setFlagsFromString('--interrupt-budget=500000');

const built = new URL('../dist/cli.mjs', import.meta.url);
if (!existsSync(built)) {
  process.stderr.write('lugwright is not built yet: run "npm ci" or "npm run build" in its folder.\n');
  process.exit(3);
}
const { main } = await import(built.href);
process.exitCode = await main(process.argv.slice(2));
