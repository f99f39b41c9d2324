import { execFileSync } from 'node:child_process';

/** The command line is tested as it is shipped: bundled from this very tree. */
export default function build(): void {
  execFileSync(process.execPath, ['bin/build.mjs'], { stdio: 'inherit' });
}
