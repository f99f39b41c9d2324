/**
 * The licences of the packages whose code is inside the bundles, as one text that travels with them. What is bundled is
 * read from the bundler's own account, so nothing is listed that is not there and nothing that is there is left out.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';

/** Licences that let their code travel in an MIT package as long as their text comes along. */
export const COMPATIBLE = [
  'MIT',
  'ISC',
  '0BSD',
  'BSD-2-Clause',
  'BSD-3-Clause',
  'Apache-2.0',
  'Zlib',
  'MIT AND Zlib',
  '(MIT AND Zlib)',
];

/** Folders of the packages that give bytes to these bundles: esbuild's `metafile.outputs`. */
export function bundledPackages(metafiles) {
  const folders = new Set();
  for (const { outputs } of metafiles)
    for (const { inputs } of Object.values(outputs))
      for (const [file, { bytesInOutput }] of Object.entries(inputs)) {
        const found = file.match(/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+/);
        if (found && bytesInOutput > 0) folders.add(found[0]);
      }
  return [...folders].sort();
}

/** @returns {{ name: string, version: string, licence: string, text: string }} */
function licenceOf(folder) {
  const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
  if (!COMPATIBLE.includes(license)) throw new Error(`${name} ${version} is under ${license}: it must not be bundled`);
  const file = readdirSync(folder).find((f) => /^(licen[cs]e|copying)(\.|$)/i.test(f));
  const text =
    file && existsSync(`${folder}/${file}`)
      ? readFileSync(`${folder}/${file}`, 'utf8').trim()
      : '(its package holds no licence text)';
  return { name, version, licence: license, text };
}

/** The text of `dist/LICENCES.txt`. Throws when a licence is not compatible. */
export function licenceText(metafiles) {
  const list = bundledPackages(metafiles).map(licenceOf);
  const head = `Lugwright is under the MIT licence. Code of these packages is bundled into it, each under its own licence:\n\n${list
    .map((l) => `${l.name} ${l.version}: ${l.licence}`)
    .join('\n')}\n`;
  return `${head}${list.map((l) => `\n${'-'.repeat(80)}\n${l.name} ${l.version} (${l.licence})\n\n${l.text}\n`).join('')}`;
}
