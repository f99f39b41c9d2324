import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { build } from 'esbuild';
import { buildPage } from './build-page.mjs';
import { licenceText } from './licences.mjs';

/**
 * The PDF library does not say that its modules only define things. Told so, the bundler keeps the objects and the writer
 * that we use, a third of the whole; the rest, never run, took as long to load as Node itself. Its font tables are
 * wanted by nothing: our pages are lines.
 */
const onlyWhatIsUsed = {
  name: 'only what is used',
  setup({ onResolve, onLoad, resolve }) {
    onResolve({ filter: /./ }, async ({ path, pluginData, ...from }) => {
      if (pluginData === 'asked' || !(path.startsWith('@cantoo/') || from.importer.includes('@cantoo'))) return;
      const found = await resolve(path, { ...from, pluginData: 'asked' });
      return /@cantoo|node-html-better-parser|culori/.test(found.path) ? { ...found, sideEffects: false } : found;
    });
    onLoad({ filter: /@cantoo.*\.compressed\.json$/ }, () => ({ contents: '""', loader: 'json' }));
  },
};

// One lazily loaded chunk per command: help and short commands do not pay for the rest.
const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
const { outputFiles, metafile } = await build({
  write: false,
  metafile: true,
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
  plugins: [onlyWhatIsUsed],
  define: { __VERSION__: JSON.stringify(version) },
  // Packages written for require() inside an ES module bundle.
  banner: { js: "import{createRequire as __cr}from'node:module';const require=__cr(import.meta.url);" },
});
const files = outputFiles.map((f) => ({ name: basename(f.path), data: f.contents }));
// The bench page's shared style and script, with the hashes its security policy names.
const ofPage = [];
files.push({ name: 'page.json', data: JSON.stringify(await buildPage((m) => ofPage.push(m))) });
files.push({ name: 'LICENCES.txt', data: licenceText([metafile, ...ofPage]) });

// New files first, the entry points last, then what is left of an older build: a command running meanwhile finds either.
mkdirSync('dist', { recursive: true });
for (const f of files.sort((a, b) => Number(/^(cli|index)/.test(a.name)) - Number(/^(cli|index)/.test(b.name)))) {
  writeFileSync(`dist/${f.name}.tmp`, f.data);
  renameSync(`dist/${f.name}.tmp`, `dist/${f.name}`);
}
const kept = new Set([...files.map((f) => f.name), 'types']);
for (const name of readdirSync('dist')) if (!kept.has(name)) rmSync(`dist/${name}`, { recursive: true, force: true });
