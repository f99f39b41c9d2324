/**
 * Builds what every bench page shares: its style and script, with the hashes that the page's security policy names.
 * `buildPage()` gives the template as a value; the build writes it to `dist/page.json`, tests use it as it is.
 */
import { createHash } from 'node:crypto';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { deflateRawSync } from 'node:zlib';
import { build, transform } from 'esbuild';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Packages that must never get into the page: YAML and drawing libraries, Node. */
const FORBIDDEN = /node_modules\/(yaml|makerjs|dxf-writer|@cantoo)\//;

const hash = (text) => `sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}`;

/** The validator brings its sentences in forty languages; the page uses its own sentences and keeps one. */
const oneLanguage = {
  name: 'one language',
  setup({ onLoad }) {
    onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, ({ path }) => ({
      resolveDir: dirname(path),
      contents: "export { default as en } from './en.js';",
      loader: 'js',
    }));
  },
};

/** One browser script as text. Fails when it pulls in something a browser cannot or should not have. */
async function script(entry, onBuilt) {
  const result = await build({
    entryPoints: [`${root}src/live/${entry}`],
    absWorkingDir: root,
    bundle: true,
    write: false,
    format: 'iife',
    platform: 'browser',
    target: 'es2022',
    minify: true,
    charset: 'ascii',
    legalComments: 'none',
    metafile: true,
    plugins: [oneLanguage],
    logLevel: 'silent',
  });
  const wrong = Object.keys(result.metafile.inputs).filter((file) => FORBIDDEN.test(file));
  onBuilt?.(result.metafile);
  if (wrong.length > 0) throw new Error(`the page's script must not contain ${wrong.join(', ')}`);
  // "</script" inside a string would end the element it stands in.
  return result.outputFiles[0].text.replaceAll('</script', '<\\/script').trim();
}

async function css() {
  const bundled = await build({
    stdin: { contents: "export { pageCss } from './src/page/style.ts'", resolveDir: root, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'esm',
    logLevel: 'silent',
  });
  const { pageCss } = await import(`data:text/javascript,${encodeURIComponent(bundled.outputFiles[0].text)}`);
  return (await transform(pageCss, { loader: 'css', minify: true, legalComments: 'none' })).code.trim();
}

const pack = (text) => ({
  packed: deflateRawSync(Buffer.from(text, 'utf8'), { level: 9 }).toString('base64'),
  hash: hash(text),
});

/**
 * @param {(metafile: import('esbuild').Metafile) => void} [onBuilt] is told what each script is made of
 * @returns {Promise<import('../src/page/data.ts').PageTemplate>}
 */
export async function buildPage(onBuilt) {
  const [style, main, again, solid] = await Promise.all([
    css(),
    script('main.ts', onBuilt),
    script('again.ts', onBuilt),
    script('solid.ts', onBuilt),
  ]);
  return {
    style,
    styleHash: hash(style),
    script: main,
    scriptHash: hash(main),
    again: pack(again),
    solid: pack(solid),
  };
}
