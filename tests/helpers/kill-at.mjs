// Preloaded into a child: ends the process without warning just before its N-th change to the file system.
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

let left = Number(process.env.KILL_AT);
for (const name of [
  'openSync',
  'writeSync',
  'renameSync',
  'mkdirSync',
  'rmSync',
  'rmdirSync',
  'fsyncSync',
  'closeSync',
]) {
  const real = fs[name];
  fs[name] = (...args) => {
    if (left-- === 0) process.kill(process.pid, 'SIGKILL');
    return real(...args);
  };
}
syncBuiltinESMExports();
