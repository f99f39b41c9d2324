import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BadInput } from '../../src/cli/failure.ts';
import { writeSet } from '../../src/cli/output.ts';

const home = mkdtempSync(join(tmpdir(), 'lugwright-output-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

const set = (version: string, names: readonly string[]) =>
  names.map((name) => ({ name, data: `${name} ${version}\n` }));
const OLD = set('old', ['plan.json', 'wrap.dxf', 'wrap-sheet-1.dxf', 'wrap-sheet-2.dxf', 'readings.csv']);
const NEW = set('new', ['plan.json', 'wrap.dxf', 'wrap-sheet-1.dxf', 'readings.csv', 'rotary.nc']);
const seen = (folder: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(folder)
      .filter((n) => !n.startsWith('.'))
      .sort()
      .map((n) => [n, readFileSync(join(folder, n), 'utf8')]),
  );
const asSeen = (files: readonly { name: string; data: string }[]) =>
  Object.fromEntries([...files].sort((a, b) => (a.name < b.name ? -1 : 1)).map((f) => [f.name, f.data]));

let folder = '';
let n = 0;
beforeEach(() => {
  folder = join(home, `set-${n++}`);
});

describe('a set is replaced whole, and only what is ours is touched', () => {
  test('a second run replaces the first, and files that are no longer made go', () => {
    writeSet(folder, OLD);
    expect(seen(folder)).toEqual(asSeen(OLD));
    writeSet(folder, NEW);
    expect(seen(folder)).toEqual(asSeen(NEW));
    expect(readdirSync(folder).filter((x) => x.startsWith('.'))).toEqual(['.lugwright-set.json']);
  });
  test('a file somebody added stays, byte for byte', () => {
    writeSet(folder, OLD);
    writeFileSync(join(folder, 'notes.txt'), 'mine');
    writeSet(folder, NEW);
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe('mine');
  });
  test("somebody's own file of one of our names stops the run before anything is written", () => {
    mkdirSync(folder);
    writeFileSync(join(folder, 'rotary.nc'), 'mine');
    expect(() => writeSet(folder, NEW)).toThrow(BadInput);
    expect(seen(folder)).toEqual({ 'rotary.nc': 'mine' });
  });
  test('a file of ours that was changed by hand does too', () => {
    writeSet(folder, OLD);
    writeFileSync(join(folder, 'plan.json'), 'changed');
    expect(() => writeSet(folder, NEW)).toThrow(/plan\.json/);
    expect(seen(folder)).toEqual({ ...asSeen(OLD), 'plan.json': 'changed' });
  });
  test("a changed file that the new set does not have is left behind as somebody's", () => {
    writeSet(folder, OLD);
    writeFileSync(join(folder, 'wrap-sheet-2.dxf'), 'changed');
    writeSet(folder, NEW);
    expect(seen(folder)['wrap-sheet-2.dxf']).toBe('changed');
  });
  test('a form that was filled in is kept, and the rest replaced', () => {
    writeSet(folder, OLD);
    writeFileSync(join(folder, 'readings.csv'), 'filled in');
    expect(writeSet(folder, NEW).kept).toEqual(['readings.csv']);
    expect(seen(folder)).toEqual({ ...asSeen(NEW), 'readings.csv': 'filled in' });
    expect(writeSet(folder, NEW).kept).toEqual(['readings.csv']);
    expect(seen(folder)['readings.csv']).toBe('filled in');
  });
  test('a link in place of the folder, or of a file, is not followed', () => {
    const elsewhere = join(home, `elsewhere-${n}`);
    mkdirSync(elsewhere);
    symlinkSync(elsewhere, folder);
    expect(() => writeSet(folder, NEW)).toThrow(/link/);
    expect(readdirSync(elsewhere)).toEqual([]);
    const real = `${folder}-real`;
    mkdirSync(real);
    writeFileSync(join(elsewhere, 'precious'), 'mine');
    symlinkSync(join(elsewhere, 'precious'), join(real, 'plan.json'));
    expect(() => writeSet(real, NEW)).toThrow(BadInput);
    expect(readFileSync(join(elsewhere, 'precious'), 'utf8')).toBe('mine');
  });
  test('a folder that cannot be made is refused in words', () => {
    writeFileSync(folder, 'a file');
    expect(() => writeSet(join(folder, 'below'), NEW)).toThrow(/part of the path is a file/);
    expect(() => writeSet(folder, NEW)).toThrow(/is a file/);
  });
  test('another run at work is waited for, a dead one is not', () => {
    writeSet(folder, OLD);
    writeFileSync(join(folder, '.lugwright-lock'), String(process.pid));
    expect(() => writeSet(folder, NEW)).toThrow(/another run/);
    expect(seen(folder)).toEqual(asSeen(OLD));
    writeFileSync(join(folder, '.lugwright-lock'), '999999999');
    writeSet(folder, NEW);
    expect(seen(folder)).toEqual(asSeen(NEW));
  });
});

describe('killed at every change to the file system', () => {
  // Few files, so that every point can be tried: one stays, one goes, one comes.
  const BEFORE = set('old', ['plan.json', 'wrap-sheet-2.dxf']);
  const AFTER = set('new', ['plan.json', 'rotary.nc']);
  const child = join(home, 'child.mjs');
  beforeAll(async () => {
    await build({
      stdin: {
        contents: `import { writeSet } from './src/cli/output.ts'; writeSet(process.argv[2], JSON.parse(process.argv[3]));`,
        resolveDir: process.cwd(),
        loader: 'ts',
      },
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: child,
    });
  });
  const killedAt = (point: number): number | null =>
    spawnSync(process.execPath, ['--import', './tests/helpers/kill-at.mjs', child, folder, JSON.stringify(AFTER)], {
      env: { ...process.env, KILL_AT: String(point) },
    }).status;

  test('the old set, the new set, or a set marked unfinished that the next run finishes', { timeout: 60_000 }, () => {
    const found = { old: 0, new: 0, unfinished: 0 };
    // Every second change to the file system; `npm run kills` kills the whole main job at all of them.
    for (let point = 0; point < 200; point += 2) {
      folder = join(home, `killed-${point}`);
      writeSet(folder, BEFORE);
      writeFileSync(join(folder, 'notes.txt'), 'mine');
      const status = killedAt(point);
      const now = seen(folder);
      expect(now['notes.txt']).toBe('mine');
      const { 'notes.txt': _, ...ours } = now;
      if (existsSync(join(folder, '.lugwright-unfinished.json'))) found.unfinished++;
      else if (JSON.stringify(ours) === JSON.stringify(asSeen(BEFORE))) found.old++;
      else {
        expect(ours, `killed at ${point}`).toEqual(asSeen(AFTER));
        found.new++;
      }
      writeSet(folder, AFTER);
      expect(seen(folder), `after a kill at ${point}`).toEqual({ ...asSeen(AFTER), 'notes.txt': 'mine' });
      expect(readdirSync(folder).filter((x) => x.startsWith('.'))).toEqual(['.lugwright-set.json']);
      if (status === 0) break;
    }
    expect(found.old).toBeGreaterThan(2);
    expect(found.unfinished).toBeGreaterThan(2);
    expect(found.new).toBeGreaterThan(0);
  });
});
