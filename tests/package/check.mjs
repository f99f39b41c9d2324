/**
 * The package as a stranger gets it: packed twice to the same bytes, installed with no network and no build step into an
 * empty folder, runs the main job there to the same files as this tree, and its types hold for a strict user of the library.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const work = mkdtempSync(join(tmpdir(), 'lugwright-package-'));
/** Most that the packed file may weigh, bytes: what it weighs now and a fifth more. A new dependency shows here first. */
const CEILING = 1_100_000;

const check = (right, words) => {
  if (!right) throw new Error(words);
};
const run = (command, args, options = {}) => execFileSync(command, args, { encoding: 'utf8', cwd: root, ...options });

try {
  const pack = (folder) => {
    mkdirSync(folder);
    const out = run('npm', ['pack', '--json', '--pack-destination', folder], { stdio: ['ignore', 'pipe', 'ignore'] });
    return JSON.parse(out.slice(out.indexOf('[')))[0];
  };
  const [first, second] = [pack(join(work, 'one')), pack(join(work, 'two'))];
  check(first.integrity === second.integrity, 'packing the same tree twice gave other bytes');
  const share = (test) => first.files.filter((f) => test(f.path)).reduce((sum, f) => sum + f.size, 0);
  const kb = (bytes) => `${Math.round(bytes / 1000)} kB`;
  console.log(
    `package: ${kb(first.size)} packed, ${kb(first.unpackedSize)} unpacked, ${first.files.length} files: ` +
      `code ${kb(share((p) => /\.[cm]js$/.test(p)))}, bench page ${kb(share((p) => p.endsWith('page.json')))}, ` +
      `types ${kb(share((p) => p.endsWith('.d.ts')))}, jigs ${kb(share((p) => p.startsWith('jigs/')))}`,
  );
  check(first.size <= CEILING, `the package weighs ${first.size} bytes, more than ${CEILING}`);
  const strange = first.files
    .map((f) => f.path)
    .filter(
      (p) =>
        !/^(dist|jigs|bin)\/|^(output\/README|src\/API|tests\/outside\/README)\.md$|^output\/sample\/|^[^/]+\.(md|json)$|^LICENSE$/.test(
          p,
        ),
    );
  check(strange.length === 0, `the package holds what nobody asked for: ${strange.join(', ')}`);

  const empty = join(work, 'empty folder');
  mkdirSync(empty);
  writeFileSync(join(empty, 'package.json'), '{ "type": "module", "private": true }');
  // An empty cache and a registry that is not there: an install that needs anything else fails.
  const offline = { ...process.env, npm_config_cache: join(work, 'cache'), npm_config_registry: 'http://127.0.0.1:9' };
  run('npm', ['install', '--offline', '--no-audit', '--no-fund', join(work, 'one', first.filename)], {
    cwd: empty,
    env: offline,
    stdio: 'ignore',
  });
  const installed = join(empty, 'node_modules', 'lugwright');
  const packages = readdirSync(join(empty, 'node_modules')).filter((n) => !n.startsWith('.'));
  check(packages.join() === 'lugwright', `the package brought others with it: ${packages.join(', ')}`);
  for (const page of first.files.map((f) => f.path).filter((p) => p.endsWith('.md')))
    for (const [, to] of readFileSync(join(installed, page), 'utf8').matchAll(/\]\((?!\w+:)([^)#\s]+)/g))
      check(existsSync(join(installed, dirname(page), to)), `${page} leads to ${to}, which is not in the package`);
  const { scripts } = JSON.parse(readFileSync(join(installed, 'package.json'), 'utf8'));
  const onInstall = ['preinstall', 'install', 'postinstall'].filter((s) => s in scripts);
  check(onInstall.length === 0, `the package runs scripts on install: ${onInstall.join(', ')}`);

  // A socket of any kind ends the run.
  writeFileSync(
    join(empty, 'no-network.cjs'),
    "require('node:net').Socket.prototype.connect = () => { throw new Error('reached for the network'); };",
  );
  const alone = { ...offline, NODE_OPTIONS: '--require ./no-network.cjs', NODE_PATH: '' };
  const bin = join(empty, 'node_modules', '.bin', 'lugwright');
  const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  check(run(bin, ['--version'], { cwd: empty, env: alone }).trim() === version, 'it tells another version');
  const jig = join('node_modules', 'lugwright', 'jigs', 'kettle-row-snare.yaml');
  const made = spawnSync(bin, ['make', jig, '--out', 'set', '--quiet'], { cwd: empty, env: alone, encoding: 'utf8' });
  check(made.status === 0, `the main job failed in an empty folder (${made.status}): ${made.stderr}`);
  run(process.execPath, [
    'bin/lugwright.mjs',
    'make',
    'jigs/kettle-row-snare.yaml',
    '--out',
    join(work, 'here'),
    '--quiet',
  ]);
  for (const name of readdirSync(join(work, 'here')))
    check(
      readFileSync(join(work, 'here', name)).equals(readFileSync(join(empty, 'set', name))),
      `${name} is not what this tree makes`,
    );

  writeFileSync(join(empty, 'stranger.ts'), readFileSync(join(root, 'tests/package/stranger.ts'), 'utf8'));
  run(
    process.execPath,
    [
      ...[join(root, 'node_modules/typescript/bin/tsc'), '--ignoreConfig', '--strict', '--exactOptionalPropertyTypes'],
      ...[
        '--module',
        'nodenext',
        '--target',
        'es2023',
        '--lib',
        'es2023',
        '--types',
        'node',
        '--typeRoots',
        join(root, 'node_modules/@types'),
      ],
      ...['--outDir', '.', 'stranger.ts'],
    ],
    { cwd: empty, stdio: 'inherit' },
  );
  console.log(run(process.execPath, ['stranger.js', jig], { cwd: empty, env: alone }).trim());
  console.log('package: 1 passed, 0 failed');
} finally {
  rmSync(work, { recursive: true, force: true });
}
