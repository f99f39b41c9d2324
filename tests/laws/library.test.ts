import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { build } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { apiPage, publicThings } from '../../bin/api-page.mjs';
import { demo, planned } from '../helpers/jigs.ts';

const things = publicThings();
const functions = things.filter((t) => t.isFunction);

describe('the public face', () => {
  test('has both functions and types to speak of', () => {
    expect(functions.length).toBeGreaterThan(25);
    expect(things.length - functions.length).toBeGreaterThan(25);
  });
  test.each(things.map((t) => [t.name, t] as const))('%s says what it is', (_, t) => {
    expect(t.lead).toMatch(/^[A-Z`+].{15,}/s);
  });
  test.each(functions.map((t) => [t.name, t] as const))('%s names every input, output, error and source', (_, t) => {
    const said = (tag: string) => t.tags.filter((x) => x.name === tag).map((x) => x.text);
    expect(said('param').map((text) => text.split(' ')[0])).toEqual(t.parameters);
    for (const text of said('param')) expect(text).toMatch(/^\w+ \S.+/);
    for (const tag of ['returns', 'throws', 'source']) {
      expect(said(tag), tag).toHaveLength(1);
      expect(said(tag)[0], tag).toMatch(/\S{3}/);
    }
    expect(said('throws')[0]).toMatch(/^(never|(Range)?Error )/);
  });
  test('src/API.md is what `npm run api` makes', () => {
    expect(readFileSync('src/API.md', 'utf8')).toBe(apiPage(things, readFileSync('tests/package/stranger.ts', 'utf8')));
  });
});

test('the example of src/API.md runs, by the name the package has', async () => {
  // Within the package, so that its own name leads to what it exports.
  mkdirSync('reports', { recursive: true });
  const folder = mkdtempSync('reports/example-');
  try {
    const outfile = `${folder}/stranger.mjs`;
    await build({ entryPoints: ['tests/package/stranger.ts'], outfile, format: 'esm', platform: 'node' });
    const r = spawnSync(process.execPath, [outfile, 'tests/cases/sound/bare-12x8.yaml'], { encoding: 'utf8' });
    expect(r.status, r.stderr).toBe(0);
    const { layout } = planned(demo('tests/cases/sound/bare-12x8.yaml'));
    expect(r.stdout).toMatch(
      new RegExp(`^library: ${layout.holes.length} holes, 0 stops, .* ${layout.holes.length} holes found`),
    );
    // 1.5 in of 25.4 mm each, by definition.
    expect(r.stdout).toMatch(/1-1\/2 in = 38\.1 mm\n$/);
  } finally {
    rmSync(folder, { recursive: true });
  }
});

test('versions: package.json is semantic, and CHANGELOG.md speaks of it first', () => {
  const { version } = JSON.parse(readFileSync('package.json', 'utf8'));
  expect(version).toMatch(/^\d+\.\d+\.\d+$/);
  expect(/^## (\S+)/m.exec(readFileSync('CHANGELOG.md', 'utf8'))?.[1]).toBe(version);
});
