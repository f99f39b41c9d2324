import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { build, transform } from 'esbuild';
import { buildPage } from './build-page.mjs';
import { licenceText } from './licences.mjs';
import { ENTRY } from './pieces.mjs';

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
  outExtension: { '.js': '.cjs' },
  // A name says what is in it: compiled code kept for a piece is never taken for another's.
  entryNames: '[name]-[hash]',
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
});
const files = [];
for (const { path, text } of outputFiles) files.push({ name: basename(path), data: await loadedByRequire(text) });
const entry = (of) => {
  const [path, { exports }] = Object.entries(metafile.outputs).find(([, o]) => o.entryPoint === of);
  return { piece: JSON.stringify(`./${basename(path)}`), exports };
};
const [cli, library] = [entry('src/cli/main.ts'), entry('src/index.ts')];
files.push(
  { name: ENTRY, data: `module.exports=require(${cli.piece});\n` },
  { name: 'index.mjs', data: `import all from${library.piece};export const{${library.exports}}=all;\n` },
);
// The bench page's shared style and script, with the hashes its security policy names.
const ofPage = [];
files.push({ name: 'page.json', data: JSON.stringify(await buildPage((m) => ofPage.push(m))) });
files.push({ name: 'LICENCES.txt', data: licenceText([metafile, ...ofPage]) });

// New files first, the entry points last, then what is left of an older build: a command running meanwhile finds either.
mkdirSync('dist', { recursive: true });
const last = ({ name }) => Number([ENTRY, 'index.mjs'].includes(name));
for (const f of files.sort((a, b) => last(a) - last(b))) {
  writeFileSync(`dist/${f.name}.tmp`, f.data);
  renameSync(`dist/${f.name}.tmp`, `dist/${f.name}`);
}
const kept = new Set([...files.map((f) => f.name), 'types']);
for (const name of readdirSync('dist')) if (!kept.has(name)) rmSync(`dist/${name}`, { recursive: true, force: true });

const made = mkdtempSync(join(tmpdir(), 'lugwright-build-'));
try {
  execFileSync(process.execPath, ['bin/keep-code.mjs', made], { stdio: ['ignore', 'ignore', 'inherit'] });
} finally {
  rmSync(made, { recursive: true, force: true });
}

/** Bundles can be split as ES modules only; read by `require`, the program starts a quarter sooner (measured on --version). */
async function loadedByRequire(text) {
  const { code } = await transform(text, {
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    minify: true,
    supported: { 'dynamic-import': false },
    define: { 'import.meta.url': '__here' },
  });
  const ascii = inAscii(code);
  return ascii.includes('__here') ? `const __here=require("node:url").pathToFileURL(__filename).href;${ascii}` : ascii;
}

/** The bundler escapes what is not ASCII in strings and names, but leaves patterns as they are written. */
function inAscii(code) {
  const escaped = /\\[^\0-\x7f]/.exec(code);
  if (escaped) throw new Error(`write ${escaped[0]} without the backslash: it does not survive the build`);
  return code.replace(/[^\0-\x7f]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
}
