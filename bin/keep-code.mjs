// Runs the commands that builders use most, and keeps what the engine compiled for them. The sets made go to the folder named.
import { setFlagsFromString } from 'node:v8';
import { ENTRY, keepCode, load } from './pieces.mjs';

// Functions that have not run for a while would be forgotten. The flags at the end must be those of a run.
setFlagsFromString('--no-flush-bytecode');
const { main } = load(ENTRY);
const [folder] = process.argv.slice(2);
const jig = 'jigs/kettle-row-snare.yaml';
for (const args of [
  ['--version'],
  ['check', jig],
  ['make', jig, '--out', `${folder}/set`, '--quiet'],
  ['dry-run', `${folder}/set/rotary.nc`, '--jig', jig],
]) {
  const status = await main(args);
  if (status !== 0) throw new Error(`${args.join(' ')} ended with ${status}`);
}
setFlagsFromString('--flush-bytecode');
keepCode();
