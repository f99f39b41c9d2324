// Preloaded into a child: ends the process without warning just before its N-th change to the file system (KILL_AT), counting
// only the calls named in KILL_CALLS when that is given; or, with KILL_COUNT, writes to that file how many there were.
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const ALL = 'openSync,writeSync,renameSync,mkdirSync,rmSync,rmdirSync,fsyncSync,closeSync';
const at = Number(process.env.KILL_AT ?? Number.POSITIVE_INFINITY);
let seen = 0;
for (const name of (process.env.KILL_CALLS ?? ALL).split(',')) {
  const real = fs[name];
  fs[name] = (...args) => {
    if (seen++ === at) process.kill(process.pid, 'SIGKILL');
    return real(...args);
  };
}
const count = process.env.KILL_COUNT;
if (count !== undefined) process.on('exit', () => fs.writeFileSync(count, String(seen)));
syncBuiltinESMExports();
