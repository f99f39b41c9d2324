import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { BadInput } from '../../src/cli/failure.ts';
import { makeFolder } from '../../src/cli/folder.ts';
import { writeSet } from '../../src/cli/output.ts';
import { lugwright } from '../helpers/cli.ts';
import { KilledMake } from '../helpers/killed-make.ts';

const home = mkdtempSync(join(tmpdir(), 'lugwright-faults-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const place = (name: string) => join(home, name);

const SMALL = `jig: 1
name: Test
shell: { diameter: 300 mm, depth: 150 mm, wall: 6 mm }
lugs: { count: 4, rows: [{ edge: top, distance: 36 mm }], holes: { layout: single, drill: 6 mm } }
`;
const set = (version: string, names: readonly string[]) =>
  names.map((name) => ({ name, data: `${name} ${version}\n` }));
const OLD = set('old', ['plan.json', 'wrap-sheet-2.dxf']);
const NEW = set('new', ['plan.json', 'rotary.nc']);
const seen = (folder: string) =>
  Object.fromEntries(
    readdirSync(folder)
      .filter((n) => !n.startsWith('.'))
      .map((n) => [n, readFileSync(join(folder, n), 'utf8')]),
  );
const asSeen = (files: readonly { name: string; data: string }[]) =>
  Object.fromEntries(files.map((f) => [f.name, f.data]));

describe('the writing of a set', () => {
  const child = place('child.mjs');
  beforeAll(async () => {
    await build({
      stdin: {
        contents: `import { BadInput } from '../../src/cli/failure.ts';
import { makeFolder } from '../../src/cli/folder.ts';
import { writeSet } from './src/cli/output.ts';
          import { BadInput } from './src/cli/failure.ts';
          const at = Number(process.argv[4] ?? 0);
          while (Date.now() < at);
          try { writeSet(process.argv[2], JSON.parse(process.argv[3])); }
          catch (e) { if (!(e instanceof BadInput)) throw e; process.stderr.write(e.message); process.exitCode = 2; }`,
        resolveDir: process.cwd(),
        loader: 'ts',
      },
      bundle: true,
      platform: 'node',
      format: 'esm',
      outfile: child,
    });
  });

  test.each([
    ['a disk that fills up', 'ENOSPC', 'writeSync,fsyncSync', 'the disk is full'],
    ['a folder that is read-only', 'EROFS', 'openSync,mkdirSync,renameSync,rmSync', 'the file system is read-only'],
  ])(
    '%s, at every one of its calls: the old set stands, or the next run finishes; a clear word',
    (_, code, calls, word) => {
      let points = 0;
      for (let at = 0; ; at++) {
        const folder = place(`${code}-${at}`);
        writeSet(folder, OLD);
        const r = spawnSync(
          process.execPath,
          ['--import', './tests/helpers/fail-fs.mjs', child, folder, JSON.stringify(NEW)],
          {
            env: { ...process.env, FAIL_CODE: code, FAIL_CALLS: calls, FAIL_AT: String(at) },
            encoding: 'utf8',
          },
        );
        if (r.status === 0) break;
        points++;
        expect(r.stderr, `at ${at}`).toContain(word);
        expect(r.status).toBe(2);
        if (!existsSync(join(folder, '.lugwright-unfinished.json')))
          expect([asSeen(OLD), asSeen(NEW)], `at ${at}`).toContainEqual(seen(folder));
        writeSet(folder, NEW);
        expect(seen(folder), `after ${at}`).toEqual(asSeen(NEW));
        expect(readdirSync(folder).filter((n) => n.startsWith('.'))).toEqual(['.lugwright-set.json']);
      }
      expect(points).toBeGreaterThan(4);
    },
  );

  test('several runs at once on one folder: whoever is refused is told why, and one whole set stands', async () => {
    for (let round = 0; round < 3; round++) {
      const folder = place(`at-once-${round}`);
      const start = String(Date.now() + 400);
      const runs = await Promise.all(
        [NEW, NEW, NEW, NEW].map(
          (files) =>
            new Promise<{ status: number | null; err: string }>((done) => {
              const p = spawn(process.execPath, [child, folder, JSON.stringify(files), start]);
              let err = '';
              p.stderr.on('data', (d) => {
                err += d;
              });
              p.on('close', (status) => done({ status, err }));
            }),
        ),
      );
      expect(runs.filter((r) => r.status === 0).length, JSON.stringify(runs)).toBeGreaterThan(0);
      for (const r of runs.filter((x) => x.status !== 0)) {
        expect(r.status, r.err).toBe(2);
        expect(r.err).toMatch(/another run|is locked/);
      }
      expect(seen(folder)).toEqual(asSeen(NEW));
      expect(readdirSync(folder).filter((n) => n.startsWith('.'))).toEqual(['.lugwright-set.json']);
    }
  });
});

describe('the main job killed without warning (`npm run kills` does so at 260 points)', () => {
  let job: KilledMake;
  beforeAll(() => {
    job = new KilledMake(place('killed'));
  });
  test.each([
    ['old', 'just before the decision', { KILL_CALLS: 'renameSync', KILL_AT: '0' }, 'new'],
    ['unfinished', 'in the middle of the swap', { KILL_CALLS: 'renameSync', KILL_AT: '9' }, 'old'],
  ] as const)('leaves the %s set %s, and the next run its own', (left, _, guard, next) => {
    expect(job.try(guard, next)).toBe(left);
  });
});

describe('where and how it is run', () => {
  const jig = place('jig.yaml');
  let plain = '';
  beforeAll(() => {
    writeFileSync(jig, SMALL);
    plain = lugwright(['check', jig]).out;
  });

  test.each([
    ['the C locale', { LC_ALL: 'C', LANG: 'C' }],
    ['no home and no terminal', { HOME: '', TERM: 'dumb' }],
    ['NO_COLOR', { NO_COLOR: '1' }],
  ])('%s changes nothing that is said', (_, env) => {
    const r = lugwright(['check', jig], { env: env as Record<string, string> });
    expect(r.status, r.err).toBe(0);
    expect(r.out).toBe(plain);
  });
  test('piped output has no colour and no progress', () => {
    expect(plain).not.toContain('\u001b');
    expect(plain).not.toContain('\r');
  });
  test('a decimal comma is named, in a group of keys too', () => {
    writeFileSync(
      place('block.yaml'),
      SMALL.replace('{ diameter: 300 mm, depth: 150 mm, wall: 6 mm }', '\n  diameter: 300,5\n  depth: 150\n  wall: 6'),
    );
    expect(lugwright(['check', place('block.yaml')]).err).toMatch(/decimal comma is not read; write 300\.5/);
    writeFileSync(place('flow.yaml'), SMALL.replace('300 mm', '300,5 mm'));
    expect(lugwright(['check', place('flow.yaml')]).err).toMatch(/decimal point/);
  });
  test('the whole job in a deep folder with spaces and letters, by a clock that runs backwards, in another locale', () => {
    const deep = place(`${'deep/'.repeat(30)}größe ☃ 14 in`);
    mkdirSync(deep, { recursive: true });
    const named = join(deep, 'my tom ☃.yaml');
    writeFileSync(named, SMALL);
    const backwards = 'let t=2e12;Date.now=()=>(t-=9e9);performance.now=()=>(t-=9e9)';
    const env = {
      LC_ALL: 'de_DE.UTF-8',
      TZ: 'Asia/Kathmandu',
      NODE_OPTIONS: `--import data:text/javascript,${encodeURIComponent(backwards)}`,
    };
    expect(lugwright(['make', named, '--out', join(deep, 'a set'), '--quiet'], { env })).toEqual({
      status: 0,
      out: '',
      err: '',
    });
    expect(lugwright(['make', jig, '--out', place('plain set'), '--quiet']).status).toBe(0);
    expect(seen(join(deep, 'a set'))).toEqual(seen(place('plain set')));
  });
  test('a name, and a path, longer than a file system takes are refused in words', () => {
    for (const folder of [place('e'.repeat(300)), place('deep/'.repeat(1000))]) {
      const long = lugwright(['make', jig, '--out', folder]);
      expect(long.status).toBe(2);
      expect(long.err).toMatch(/path is too long/);
    }
    const r = lugwright([
      'new',
      place('nowhere/my tom.yaml'),
      '--name',
      'Größe',
      '--diameter',
      '12 in',
      '--depth',
      '8 in',
      '--wall',
      '6',
      '--lugs',
      '6',
    ]);
    expect(r.status).toBe(2);
    expect(r.err).toMatch(/it cannot be written: it does not exist/);
  });
  test('a folder that takes nothing, and no folder within it, is refused and not tried for ever', () => {
    // What the kernel shows as a folder of its own: nobody, not even root, may make anything there.
    if (!existsSync('/proc/self')) return expect(process.platform).not.toBe('linux');
    for (const folder of ['/proc/nobody', '/proc/nobody/nothing']) {
      expect(() => makeFolder(folder)).toThrow(BadInput);
    }
    const deep = join(place('steps'), 'one', 'two');
    expect(makeFolder(deep)).toBe(true);
    expect(makeFolder(deep)).toBe(false);
    expect(existsSync(deep)).toBe(true);
  });
  test('standard output on a full disk: a clear word and exit 2, no stack; a set that stands is named', () => {
    const folder = place('said-to-nobody');
    const r = spawnSync(
      'sh',
      ['-c', `"${process.execPath}" bin/lugwright.mjs make "${jig}" --out "${folder}" --json > /dev/full`],
      { encoding: 'utf8' },
    );
    expect(r.status).toBe(2);
    expect(r.stderr).toMatch(
      /Standard output cannot be written: the disk is full; what was printed is not whole, but the set in .*said-to-nobody is\.\n$/,
    );
    expect(r.stderr).not.toMatch(/\n\s+at /);
    expect(existsSync(join(folder, '.lugwright-set.json'))).toBe(true);
    expect(existsSync(join(folder, '.lugwright-unfinished.json'))).toBe(false);
  });
  test('a slow pipe is waited for', () => {
    const slow = `(head -c 40 "${jig}"; sleep 0.3; tail -c +41 "${jig}") | "${process.execPath}" bin/lugwright.mjs check -`;
    const r = spawnSync('sh', ['-c', slow], { encoding: 'utf8' });
    expect(r.status, r.stderr).toBe(0);
    expect(r.stdout).toBe(plain);
  });
});
