// Type declarations of the library alone: `npm run types`. Fails when one of them needs a package that is not shipped.
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, rmdirSync, rmSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path';

const out = 'dist/types';
rmSync(out, { recursive: true, force: true });
execFileSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'tsconfig.build.json'], { stdio: 'inherit' });

const wanted = new Set();
function follow(file) {
  if (wanted.has(file)) return;
  wanted.add(file);
  for (const [, from] of readFileSync(file, 'utf8').matchAll(/(?:from |import\()'([^']+)'/g)) {
    if (!from.startsWith('.')) throw new Error(`${file} needs the package ${from}, which is not shipped`);
    follow(normalize(join(dirname(file), from)).replace(/\.ts$/, '.d.ts'));
  }
}
follow(`${out}/index.d.ts`);

for (const entry of readdirSync(out, { recursive: true, withFileTypes: true }).reverse()) {
  const path = join(entry.parentPath, entry.name);
  if (entry.isFile() && !wanted.has(path)) rmSync(path);
  else if (entry.isDirectory() && readdirSync(path).length === 0) rmdirSync(path);
}
