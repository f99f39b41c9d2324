// Preloaded into a child: from its N-th change to the file system on, every one fails with FAIL_CODE, as on a full or a
// read-only disk (root, whom permissions do not stop, meets it too).
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';

const code = process.env.FAIL_CODE;
const among = process.env.FAIL_CALLS.split(',');
let left = Number(process.env.FAIL_AT);
for (const name of among) {
  const real = fs[name];
  fs[name] = (...args) => {
    const reads = name === 'openSync' && (args[1] ?? 'r') === 'r';
    const speaks = name === 'writeSync' && args[0] <= 2;
    if (!reads && !speaks && left-- <= 0) throw Object.assign(new Error(`${code}: preloaded`), { code });
    return real(...args);
  };
}
syncBuiltinESMExports();
