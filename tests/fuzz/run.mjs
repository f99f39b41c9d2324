// `npm run fuzz -- [suite] [--runs 1000000] [--seed 1] [--minutes 60] [--slow 10]`: random inputs by the million, in a
// worker that is watched. An input that breaks what must hold is shrunk, one that takes longer than `--slow` seconds of the processor is
// cut off; either is kept in tests/cases/fuzz/SUITE and replayed by every test run.
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';

const BATCH = 200;
/** Greatest input that is kept for the watcher, bytes. */
const KEPT = 1 << 20;

if (isMainThread) await main();
else await work();

async function main() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      runs: { type: 'string', default: '1000000' },
      seed: { type: 'string', default: '1' },
      minutes: { type: 'string', default: '600' },
      slow: { type: 'string', default: '10' },
    },
  });
  // Beside node_modules, so that packages left out of the bundle are found.
  mkdirSync('reports', { recursive: true });
  const folder = mkdtempSync(join('reports', 'fuzz-'));
  const outfile = join(folder, 'suites.mjs');
  const { build } = await import('esbuild');
  await build({
    entryPoints: ['tests/fuzz/suites.ts'],
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    outfile,
    logLevel: 'error',
  });
  let bad = 0;
  try {
    const { SUITES } = await import(pathToFileURL(outfile).href);
    const chosen = SUITES.map((s) => s.name).filter((n) => positionals.length === 0 || positionals.includes(n));
    if (chosen.length === 0) throw new Error(`suites: ${SUITES.map((s) => s.name).join(', ')}`);
    for (const name of chosen) {
      const result = await fuzz(name, outfile, {
        runs: Number(values.runs),
        seed: Number(values.seed),
        slow: Number(values.slow) * 1000,
        until: Date.now() + Number(values.minutes) * 60_000,
      });
      bad += result.finds;
      const rate = Math.round(result.runs / result.seconds);
      console.log(
        `${name}: ${result.runs} inputs from seed ${values.seed} in ${Math.round(result.seconds)} s (${rate}/s), ${result.finds} finds; slowest ${(result.slowest / 1000).toFixed(2)} s`,
      );
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  process.exitCode = bad > 0 ? 1 : 0;
}

/** One suite, batch by batch: each batch has a seed of its own, so that any of them can be run again. */
async function fuzz(name, outfile, { runs, seed, slow, until }) {
  const began = Date.now();
  let done = 0;
  let finds = 0;
  let slowest = 0;
  let batches = 0;
  /** Number of the input now in hand over all batches, the length of its text, and its number in the batch. */
  const shared = { now: new SharedArrayBuffer(24), text: new SharedArrayBuffer(KEPT) };
  const now = new Float64Array(shared.now);
  let worker = start();
  while (done < runs && Date.now() < until && finds < 20) {
    const count = Math.min(BATCH, runs - done);
    const answer = await batch(seed * 1_000_003 + batches, count);
    if (answer.find !== undefined) {
      finds++;
      keep(name, answer.find, answer.why);
    }
    slowest = Math.max(slowest, answer.slowest);
    done += answer.done;
    if (++batches % 250 === 0) console.error(`${name}: ${done} of ${runs}, ${finds} finds`);
  }
  await worker.terminate();
  return { runs: done, seconds: (Date.now() - began) / 1000, finds, slowest };

  function start() {
    return new Worker(new URL(import.meta.url), { workerData: { name, outfile, shared } });
  }

  function batch(batchSeed, count) {
    return new Promise((resolve, reject) => {
      let input = -1;
      let spent = process.cpuUsage();
      const watch = setInterval(async () => {
        // By the processor's time: on a busy machine an input may have to wait.
        if (now[0] !== input) {
          input = now[0];
          spent = process.cpuUsage();
          return;
        }
        const used = process.cpuUsage(spent);
        if (used.user + used.system < slow * 1000) return;
        finish();
        const text = new TextDecoder().decode(new Uint8Array(shared.text).slice(0, now[1]));
        await worker.terminate();
        worker = start();
        resolve({ find: JSON.parse(text), why: `longer than ${slow / 1000} s`, slowest: slow, done: now[2] });
      }, 250);
      const finish = () => {
        clearInterval(watch);
        worker.off('message', told);
        worker.off('error', failed);
      };
      const told = (answer) => {
        finish();
        resolve(answer);
      };
      const failed = (error) => {
        finish();
        reject(error);
      };
      worker.on('message', told);
      worker.on('error', failed);
      worker.postMessage({ seed: batchSeed, count });
    });
  }
}

function keep(name, input, why) {
  // The first line is the message; the stack below it names places of this machine.
  const text = `${JSON.stringify({ why: why.split('\n')[0], input }, null, 2)}\n`;
  const folder = join('tests', 'cases', 'fuzz', name);
  mkdirSync(folder, { recursive: true });
  const file = join(folder, `${createHash('sha256').update(JSON.stringify(input)).digest('hex').slice(0, 10)}.json`);
  writeFileSync(file, text);
  console.error(`${name}: ${why.slice(0, 300)}\n  kept as ${file}`);
}

async function work() {
  const { name, outfile, shared } = workerData;
  const [{ default: fc }, { SUITES }] = await Promise.all([import('fast-check'), import(pathToFileURL(outfile).href)]);
  const { inputs, holds } = SUITES.find((s) => s.name === name);
  const now = new Float64Array(shared.now);
  const text = new Uint8Array(shared.text);
  const encoder = new TextEncoder();
  let slowest = 0;
  const property = fc.property(inputs, (input) => {
    const began = Date.now();
    now[1] = encoder.encodeInto(JSON.stringify(input), text).written;
    now[0]++;
    now[2]++;
    holds(input);
    slowest = Math.max(slowest, Date.now() - began);
  });
  parentPort.on('message', ({ seed, count }) => {
    slowest = 0;
    now[2] = 0;
    const run = fc.check(property, { seed: seed | 0, numRuns: count });
    parentPort.postMessage({
      slowest,
      done: run.numRuns,
      ...(run.failed ? { find: run.counterexample[0], why: String(run.errorInstance?.stack ?? run.error) } : {}),
    });
  });
}
