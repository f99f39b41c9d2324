import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { build } from 'esbuild';
import { buildPage } from './build-page.mjs';

// One lazily loaded chunk per command: help and short commands do not pay for the rest.
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
rmSync('dist', { recursive: true, force: true });
await build({
  entryPoints: { cli: 'src/cli/main.ts', index: 'src/index.ts' },
  outdir: 'dist',
  outExtension: { '.js': '.mjs' },
  bundle: true,
  platform: 'node',
  format: 'esm',
  target: 'node20',
  splitting: true,
  minify: true,
  keepNames: false,
  legalComments: 'none',
  sourcemap: false,
  logLevel: 'warning',
  define: { __VERSION__: JSON.stringify(version) },
  // Packages written for require() inside an ES module bundle.
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
});

// The bench page's shared style and script, with the hashes its security policy names.
writeFileSync('dist/page.json', JSON.stringify(await buildPage()));
